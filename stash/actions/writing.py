"""Files that commands write for her: whole or not at all, and never over a stash."""

from __future__ import annotations

from pathlib import Path

from stash.store import files


def refuse_to_write(target: Path, *, over: bool) -> None:
    """Refused, before any work is done for it, where a file of this name must not be written."""
    files.refuse_to_write(target, over=over)


def write(target: Path, data: bytes | str, *, over: bool) -> None:
    """A file with these bytes, or this text in UTF-8."""
    files.write_whole(target, data.encode() if isinstance(data, str) else data, over=over)
