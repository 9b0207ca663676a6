"""Writing a file: whole or not at all, never over what is there unasked, never over a stash.

The one way for every command: what is written lies beside its place until it is complete.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from stash.errors import FileTrouble

#: How every SQLite file begins (its file format, section 1.3.1).
_DATABASE = b"SQLite format 3\x00"
#: What SQLite keeps beside a database it is writing to.
_BESIDE_A_DATABASE = ("-journal", "-wal", "-shm")


def refuse_to_write(target: Path, *, over: bool) -> Path:
    """Where a file of this name really lies; refused where it must not be written.

    A link leads to what it points at. `over` lets an ordinary file go, a stash file never.
    """
    try:
        path = target.resolve()  # refuses links in a circle up to Python 3.12
        if path.is_symlink():
            raise FileTrouble(target, "link_in_a_circle")
        if path.is_dir():
            raise FileTrouble(target, "is_a_folder")
        if not path.parent.is_dir():
            raise FileTrouble(target, "no_folder_for_it")
        _refuse_a_stash(target, path)
        if path.exists() and not path.is_file():
            raise FileTrouble(target, "no_ordinary_file")
        if path.exists() and not over:
            raise FileTrouble(target, "file_exists")
    except (OSError, RuntimeError, ValueError) as trouble:
        raise _cannot(target, trouble) from trouble
    return path


def write_whole(target: Path, data: bytes, *, over: bool) -> None:
    """A file with these bytes."""
    write_with(target, lambda beside: beside.write_bytes(data), over=over)


def write_with(target: Path, write: Callable[[Path], object], *, over: bool) -> None:
    """A file as `write` writes it to the name it is handed; what it leaves half-done is gone."""
    path = refuse_to_write(target, over=over)
    beside = path.with_name(f".{os.getpid()}.stash-part")
    try:
        beside.unlink(missing_ok=True)
        write(beside)
        with beside.open("rb+") as written:
            os.fsync(written.fileno())
        _put_in_place(beside, path, over)
    except FileExistsError as trouble:
        raise FileTrouble(target, "file_exists") from trouble
    except OSError as trouble:
        raise _cannot(target, trouble) from trouble
    finally:
        beside.unlink(missing_ok=True)


def _put_in_place(beside: Path, path: Path, over: bool) -> None:
    """The finished file under its name; without `over` only where nothing came there meanwhile."""
    if over:
        _refuse_a_stash(path, path)
        if path.exists():
            beside.chmod(path.stat().st_mode & 0o7777)
        beside.replace(path)
        return
    try:
        path.hardlink_to(beside)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no second name for a file
        if path.exists():
            raise FileExistsError from None
        beside.rename(path)


def _refuse_a_stash(target: Path, path: Path) -> None:
    for ending in _BESIDE_A_DATABASE:
        owner = path.with_name(path.name.removesuffix(ending))
        if path.name.endswith(ending) and _is_database(owner):
            raise FileTrouble(target, "belongs_to_a_stash", owner=owner.name)
    if _is_database(path):
        raise FileTrouble(target, "is_a_stash")


def _is_database(path: Path) -> bool:
    if not path.is_file():
        return False
    with path.open("rb") as begun:
        return begun.read(len(_DATABASE)) == _DATABASE


def _cannot(target: Path, trouble: Exception) -> FileTrouble:
    why = getattr(trouble, "strerror", None) or trouble
    return FileTrouble(target, "cannot_be_written", why=str(why))
