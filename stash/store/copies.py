"""Copies of a stash file, made by SQLite's own backup so that they are whole while it is in use."""

from __future__ import annotations

import re
import sqlite3
import time
from contextlib import closing
from pathlib import Path

from stash.errors import FileTrouble
from stash.store.files import write_with

#: How long to wait for another program to finish writing, in milliseconds.
BUSY_WAIT_MS = 5000
_BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
#: How many copies made by the program itself are kept beside the file.
KEPT_COPIES = 5


def copy_to(path: Path, target: Path) -> Path:
    """A whole copy of the file at `target`, which must not exist yet."""
    write_with(target, lambda beside: snapshot(path, beside), over=False)
    return target


def snapshot(path: Path, target: Path) -> None:
    """The file as it is at one moment, page by page, in a new file.

    Waits for another program that is writing as long as every command does, and not for ever.
    """
    waited_until = time.monotonic() + BUSY_WAIT_MS / 1000

    def waiting(status: int, remaining: int, total: int) -> None:
        if time.monotonic() > waited_until and status in _BUSY:
            raise FileTrouble(path, "busy")

    try:
        with (
            closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as source,
            closing(sqlite3.connect(target)) as copy,
        ):
            source.backup(copy, progress=waiting, sleep=0.05)
    except sqlite3.Error as trouble:
        raise FileTrouble(path, "cannot_be_copied", why=str(trouble)) from trouble


def replace_with(path: Path, copy: Path) -> None:
    """A copy in the place of a file that cannot be read; what SQLite kept beside it goes too."""
    beside = path.with_name(f".{path.name}.put-back")
    try:
        snapshot(copy, beside)
        path.with_name(f"{path.name}-journal").unlink(missing_ok=True)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


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


def next_copy_number(path: Path, occasion: str) -> int:
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
