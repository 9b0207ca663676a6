"""Opening a stash file: what it is, which revision it has, and connections as the house wants them.

A file is recognised by its SQLite application id. Its revision is read with the standard library
alone, so that an everyday command never imports alembic.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from sqlalchemy import URL, Engine, create_engine, event, pool
from sqlalchemy import Connection as Connection  # others take it from here
from sqlalchemy.exc import DatabaseError, OperationalError
from sqlalchemy.pool import ConnectionPoolEntry

from stash.errors import Damaged, FileTrouble, NewerFile, NotAStash
from stash.store.copies import BUSY_WAIT_MS
from stash.store.memory import Memory, carry

#: "STSH" as four bytes; written into the header of every stash file.
APPLICATION_ID = 0x53545348
#: The newest revision; a test holds it against the migrations.
HEAD = "0010"
#: Every revision this version can upgrade from, oldest first; a test holds it likewise.
KNOWN = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008", "0009", "0010")
#: What asks a file whether it has a revision, and which.
HAS_REVISION = "SELECT 1 FROM sqlite_master WHERE name = 'alembic_version'"
REVISION = "SELECT version_num FROM alembic_version"
#: STRICT tables came with SQLite 3.37.
OLDEST_SQLITE = (3, 37, 0)


def revision_of(path: Path) -> str | None:
    """The revision of a stash file; None for a file that is not there or is empty.

    Raises NotAStash for any other file, NewerFile for a revision this version does not know.
    """
    try:
        if path.is_dir():
            raise FileTrouble(path, "folder_not_a_stash")
        if not path.exists() or path.stat().st_size == 0:
            return None
        # not read-only: whoever opens it next puts back what a killed program left half written
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True)) as db:
            db.execute(f"PRAGMA busy_timeout = {BUSY_WAIT_MS}")
            if db.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
                raise NotAStash(path)
            if db.execute(HAS_REVISION).fetchone() is None:
                raise NotAStash(path)
            row = db.execute(REVISION).fetchone()
    except sqlite3.DatabaseError as trouble:
        raise _file_trouble(path, trouble) from trouble
    except UnicodeDecodeError as trouble:  # a damaged schema, quoted in SQLite's complaint
        raise Damaged(path) from trouble
    except OSError as trouble:
        raise FileTrouble(path, "system_error", why=str(trouble.strerror)) from trouble
    revision = str(row[0]) if row else ""
    if revision not in KNOWN:
        raise NewerFile(path, revision)
    return revision


def _result_code(trouble: BaseException | None) -> int | None:
    """SQLite's primary result code, the low byte of what it gave; None for an error not its own."""
    code = getattr(trouble, "sqlite_errorcode", None)
    return None if code is None else code & 0xFF


def _file_trouble(path: Path | str, trouble: BaseException) -> FileTrouble:
    """What SQLite's complaint means for the file, recognised by its code."""
    match _result_code(trouble):
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return FileTrouble(path, "busy")
        case sqlite3.SQLITE_NOTADB:
            return NotAStash(path)
        case sqlite3.SQLITE_CORRUPT:
            return Damaged(path)
        case sqlite3.SQLITE_READONLY:
            return FileTrouble(path, "read_only")
        case sqlite3.SQLITE_FULL:
            return FileTrouble(path, "disk_full")
    return FileTrouble(path, "cannot_be_used", why=str(trouble).splitlines()[0])


def engine_for(path: Path) -> Engine:
    """An engine on one file: the driver begins nothing by itself, one connection a use."""
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise FileTrouble(path, "old_sqlite", version=sqlite3.sqlite_version)
    return _engine_at(path.absolute())  # the same name is another file in another folder


@lru_cache(maxsize=4)  # a command opens its file several times, and an engine keeps its statements
def _engine_at(path: Path) -> Engine:
    engine = create_engine(
        URL.create("sqlite", database=str(path)),  # a path may hold ? and other signs of an URL
        poolclass=pool.NullPool,
        connect_args={"isolation_level": None},
    )

    @event.listens_for(engine, "connect")
    def _settle(db: sqlite3.Connection, record: ConnectionPoolEntry) -> None:
        record.info["inode"] = path.stat().st_ino
        db.execute(f"PRAGMA busy_timeout = {BUSY_WAIT_MS}")
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA journal_mode = DELETE")
        db.execute("PRAGMA synchronous = FULL")

    return engine


@dataclass(frozen=True, slots=True)
class StashFile:
    """One stash file that exists and is of the newest revision.

    `memory` is what a program that stays has worked out from it; a command has none.
    """

    path: Path
    engine: Engine
    memory: Memory | None = None

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """One frozen view of the file, forgotten at the end."""
        if self.memory:
            self.memory.renew()
        with self._begun("BEGIN") as db:
            if self.memory:
                carry(db, self.memory)
            yield db

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A unit of work: kept whole when the block ends well, forgotten otherwise."""
        with self._begun("BEGIN IMMEDIATE") as db:
            self._refuse_if_taken_away(db)
            yield db
            db.commit()

    def _refuse_if_taken_away(self, db: Connection) -> None:
        """A file that was begun in vain goes again: what is written to it then would be lost."""
        opened = db.info.get("inode")
        try:
            there = self.path.stat().st_ino
        except FileNotFoundError:
            there = None
        if opened != there:
            raise FileTrouble(self.path, "taken_away")

    @contextmanager
    def remaking(self) -> Iterator[Connection]:
        """A unit of work that takes tables apart; nobody else writes meanwhile.

        Others may still read until it is kept. With BEGIN EXCLUSIVE even the copy that is made
        first could not be read (tried: it waits for ever).
        """
        # foreign keys cannot be switched off inside a transaction
        with self._begun("PRAGMA foreign_keys = OFF", "BEGIN IMMEDIATE") as db:
            self._refuse_if_taken_away(db)
            yield db
            db.commit()

    @contextmanager
    def _begun(self, *how: str) -> Iterator[Connection]:
        try:
            with self.engine.connect() as db:
                for statement in how:
                    db.exec_driver_sql(statement)
                yield db
        except sqlite3.DatabaseError as trouble:  # while connecting, before SQLAlchemy takes over
            raise _file_trouble(self.path, trouble) from trouble
        except UnicodeDecodeError as trouble:  # a text that is none, or one in a complaint
            raise Damaged(self.path) from trouble
        except OperationalError as trouble:
            raise _file_trouble(self.path, trouble.orig or trouble) from trouble
        except DatabaseError as trouble:
            if _result_code(trouble.orig) == sqlite3.SQLITE_CONSTRAINT:  # a guard's refusal too
                raise
            raise _file_trouble(self.path, trouble.orig or trouble) from trouble
