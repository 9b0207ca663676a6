"""Which stash file a command works on."""

from __future__ import annotations

from pathlib import Path


def chosen_file(file: Path | None) -> Path:
    """The file named, else the one in the user's own data folder."""
    if file is not None:
        from stash.errors import FileTrouble

        try:
            return file.expanduser()
        except RuntimeError:
            raise FileTrouble(file, "no_such_user") from None
    from platformdirs import user_data_path

    return user_data_path("stash", appauthor=False) / "shelf.stash"
