"""Copies of a stash file, made by SQLite's own backup so that they are whole while it is in use."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from pathlib import Path

from stash.errors import FileTrouble

#: How many copies made by the program itself are kept beside the file.
KEPT_COPIES = 5


def copy_to(path: Path, target: Path) -> Path:
    """A whole copy of the file at `target`, which must not exist yet."""
    if target.exists():
        raise FileTrouble(target, "there is a file already; name another")
    try:
        with (
            closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as source,
            closing(sqlite3.connect(target)) as copy,
        ):
            source.backup(copy)
    except sqlite3.Error as trouble:
        target.unlink(missing_ok=True)
        raise FileTrouble(target, f"cannot be written ({trouble})") from trouble
    return target


def copy_beside(path: Path, occasion: str) -> Path:
    """A copy next to the file, named after the occasion; the oldest beyond five go.

    `occasion` ends in a number that rises ("before-entry-14"), so the names tell their own order;
    the same occasion again (after a failed attempt) replaces its copy.
    """
    target = path.with_name(f"{path.stem}.{occasion}{path.suffix}")
    target.unlink(missing_ok=True)
    copy_to(path, target)
    for old in _made_beside(path)[:-KEPT_COPIES]:
        old.unlink(missing_ok=True)
    return target


def _made_beside(path: Path) -> list[Path]:
    """The copies the program made beside this file, oldest first."""
    shape = re.compile(re.escape(path.stem) + r"\.before-[a-z]+-(\d+)" + re.escape(path.suffix))
    found = [
        (p.stat().st_mtime_ns, p.name, p) for p in path.parent.iterdir() if shape.fullmatch(p.name)
    ]
    return [p for _, _, p in sorted(found)]
