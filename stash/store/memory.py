"""What was worked out from a file, kept as long as nobody has written to it.

For a program that stays: a shelf of 3,000 skeins is read in a fifth of a second, and asked for on
every page. SQLite counts the changes that other connections make (PRAGMA data_version), so one
connection is kept that only asks for that number.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Hashable
from pathlib import Path
from threading import Lock
from typing import Any, TypeVar

from sqlalchemy import Connection

from stash.store.copies import BUSY_WAIT_MS

_T = TypeVar("_T")
#: More than this is not kept; then all of it is forgotten.
_MOST = 64
#: What SQLite gives no file.
_UNKNOWN = -1
#: Under this name a view carries what is kept.
_INFO = "memory"


class Memory:
    """Values by name, forgotten as soon as the file has changed. Safe for several threads."""

    def __init__(self, path: Path) -> None:
        self._db = sqlite3.connect(path, check_same_thread=False, isolation_level=None)
        self._db.execute(f"PRAGMA busy_timeout = {BUSY_WAIT_MS}")
        self._lock, self._version = Lock(), _UNKNOWN
        self._values: dict[Hashable, tuple[Lock, list[Any]]] = {}

    def renew(self) -> None:
        """Forget everything if the file was changed since this was last called.

        To be called before a view begins: the view is then at least as new as what is kept. Where
        the file cannot be asked, it may have been changed; the view then says what is in the way.
        """
        with self._lock:
            try:
                version = self._db.execute("PRAGMA data_version").fetchone()[0]
            except sqlite3.DatabaseError:
                version = _UNKNOWN
            if version != self._version or version == _UNKNOWN:
                self._values, self._version = {}, version

    def of(self, name: Hashable, make: Callable[[], _T]) -> _T:
        """The value of that name, made if there is none; others who want it meanwhile wait."""
        with self._lock:
            if len(self._values) > _MOST:
                self._values = {}
            making, value = self._values.setdefault(name, (Lock(), []))
        with making:
            if not value:
                value.append(make())
        kept: _T = value[0]
        return kept

    def close(self) -> None:
        """Let go of the file."""
        self._db.close()


def carry(db: Connection, memory: Memory) -> None:
    """Let a view of the file use what is kept."""
    db.info[_INFO] = memory


def recall(db: Connection, name: Hashable, make: Callable[[], _T]) -> _T:
    """What is kept under this name, for a view that carries a memory; else it is made."""
    memory = db.info.get(_INFO)
    return make() if memory is None else memory.of(name, make)
