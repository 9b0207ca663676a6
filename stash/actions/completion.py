"""What the shell may complete of her own names."""

from __future__ import annotations

from pathlib import Path

from stash.store.names_kept import names_kept


def completion(path: Path, kind: str) -> list[str]:
    """The designs, items, lots, places or skeins in the file, as they are typed; none if unread."""
    return names_kept(path, kind)
