"""Opening a stash file: what it is, which revision it has, and connections as the house wants them.

A file is recognised by its SQLite application id. Its revision is read with the standard library
alone, so that an everyday command never imports alembic.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import URL, Engine, create_engine, event, pool
from sqlalchemy import Connection as Connection  # others take it from here
from sqlalchemy.exc import DatabaseError, OperationalError
from sqlalchemy.pool import ConnectionPoolEntry

from stash.errors import Damaged, FileTrouble, NewerFile, NotAStash
from stash.store.copies import BUSY_WAIT_MS

#: "STSH" as four bytes; written into the header of every stash file.
APPLICATION_ID = 0x53545348
#: The newest revision; a test holds it against the migrations.
HEAD = "0006"
#: Every revision this version can upgrade from, oldest first; a test holds it likewise.
KNOWN = ("0001", "0002", "0003", "0004", "0005", "0006")
#: STRICT tables came with SQLite 3.37.
OLDEST_SQLITE = (3, 37, 0)


def revision_of(path: Path) -> str | None:
    """The revision of a stash file; None for a file that is not there or is empty.

    Raises NotAStash for any other file, NewerFile for a revision this version does not know.
    """
    try:
        if path.is_dir():
            raise FileTrouble(path, "is a folder; name a file in it, as in shelf.stash")
        if not path.exists() or path.stat().st_size == 0:
            return None
        # not read-only: whoever opens it next puts back what a killed program left half written
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True)) as db:
            db.execute(f"PRAGMA busy_timeout = {BUSY_WAIT_MS}")
            if db.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
                raise NotAStash(path)
            row = db.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.DatabaseError as trouble:
        raise _told(path, trouble) from trouble
    except UnicodeDecodeError as trouble:  # a damaged schema, quoted in SQLite's complaint
        raise Damaged(path) from trouble
    except OSError as trouble:
        raise FileTrouble(path, str(trouble.strerror)) from trouble
    revision = str(row[0]) if row else ""
    if revision not in KNOWN:
        raise NewerFile(path, revision)
    return revision


def _told(path: Path | str, trouble: Exception) -> FileTrouble:
    """SQLite's own complaint as one line with a way out."""
    words = str(trouble).lower()
    if "locked" in words or "busy" in words:
        return FileTrouble(path, "another program is writing to it; try again in a moment")
    if "not a database" in words or "no such table: alembic_version" in words:
        return NotAStash(path)
    if "malformed" in words:
        return Damaged(path)
    if "readonly" in words or "read-only" in words:
        return FileTrouble(path, "the file may not be written to; check its permissions")
    if "full" in words:
        return FileTrouble(path, "the disk is full; nothing was booked")
    return FileTrouble(path, f"cannot be used ({str(trouble).splitlines()[0]})")


def engine_for(path: Path) -> Engine:
    """An engine on one file: the driver begins nothing by itself, one connection a use."""
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise FileTrouble(path, f"SQLite 3.37 or newer is needed, here is {sqlite3.sqlite_version}")
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
    """One stash file that exists and is of the newest revision."""

    path: Path
    engine: Engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """One frozen view of the file, forgotten at the end."""
        with self._begun("BEGIN") as db:
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
            raise FileTrouble(self.path, "another program took it away just now; try again")

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
            raise _told(self.path, trouble) from trouble
        except UnicodeDecodeError as trouble:  # a text that is none, or one in a complaint
            raise Damaged(self.path) from trouble
        except OperationalError as trouble:
            raise _told(self.path, trouble.orig or trouble) from trouble
        except DatabaseError as trouble:
            if "guard:" in str(trouble.orig) or "constraint" in str(trouble.orig).lower():
                raise
            raise _told(self.path, trouble.orig or trouble) from trouble
