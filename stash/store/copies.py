"""Copies of a stash file, made by SQLite's own backup so that they are whole while it is in use."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from pathlib import Path

from stash.errors import FileTrouble

#: How long to wait for another program to finish writing, in milliseconds.
BUSY_WAIT_MS = 5000
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


def put_back(source: Path, path: Path) -> None:
    """The pages of a copy written into the file, whole or not at all."""
    try:
        with (
            closing(sqlite3.connect(f"{source.resolve().as_uri()}?mode=ro", uri=True)) as copy,
            closing(sqlite3.connect(path, timeout=BUSY_WAIT_MS / 1000)) as target,
        ):
            copy.backup(target)
    except sqlite3.Error as trouble:
        raise FileTrouble(path, f"cannot be put back ({trouble}); it is as it was") from trouble


def entries_in(path: Path) -> set[tuple[int, str]]:
    """The number and the instant of every entry in a file of any revision."""
    with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as db:
        return {
            (number, at_utc) for number, at_utc in db.execute("SELECT number, at_utc FROM entry")
        }


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


def next_number(path: Path, occasion: str) -> int:
    """A number for an occasion that has none of its own: one more than any copy has."""
    shape = re.compile(rf"\.before-{occasion}-(\d+)\.")
    used = [int(found[1]) for p in _made_beside(path) if (found := shape.search(p.name))]
    return max(used, default=0) + 1


def _made_beside(path: Path) -> list[Path]:
    """The copies the program made beside this file, oldest first."""
    shape = re.compile(re.escape(path.stem) + r"\.before-[a-z]+-(\d+)" + re.escape(path.suffix))
    found = [
        (p.stat().st_mtime_ns, p.name, p) for p in path.parent.iterdir() if shape.fullmatch(p.name)
    ]
    return [p for _, _, p in sorted(found)]
