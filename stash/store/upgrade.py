"""Making a stash file and bringing an old one up to date; the only importer of alembic.

While nobody else may write: copy beside the file, migrate in place in one transaction, check the
foreign keys, make the guards anew, commit. Replacing the file instead was tried and makes the next
write of another process fail.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from sqlalchemy import Connection, create_engine

from stash.errors import FileTrouble, StashError
from stash.store import guards
from stash.store.copies import copy_beside
from stash.store.engine import (
    APPLICATION_ID,
    HAS_REVISION,
    HEAD,
    REVISION,
    StashFile,
    engine_for,
    revision_of,
)
from stash.store.exchange_rows import Rows, all_rows, is_empty, put_rows


def open_file(path: Path) -> StashFile:
    """The file, brought up to date first if it is older; it must be there."""
    revision = revision_of(path)
    if revision is None:
        raise FileTrouble(path, "no_stash_yet")
    opened = StashFile(path, engine_for(path))
    if revision != HEAD:
        upgrade(opened)
    return opened


def open_or_begin(path: Path) -> StashFile:
    """The file, made with its folder if there is none."""
    if revision_of(path) is not None:
        return open_file(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as trouble:
        raise FileTrouble(path.parent, "cannot_be_made", why=str(trouble.strerror)) from trouble
    opened = StashFile(path, engine_for(path))
    upgrade(opened)
    return opened


@contextmanager
def begun_for(path: Path) -> Iterator[StashFile]:
    """The file, made with its folder if there is none; what was made in vain goes again.

    In vain: what it was made for failed, and nothing else was booked in it meanwhile.
    """
    is_new = not path.exists()
    folders = [folder for folder in path.parents if not folder.exists()]
    try:
        yield open_or_begin(path)
    except BaseException:
        if is_new and path.exists():
            with suppress(StashError, OSError):
                _take_away(path, folders)
        raise


def _take_away(path: Path, folders: Sequence[Path]) -> None:
    if revision_of(path) is None:
        path.unlink()
    else:
        # under the lock, so that nobody books in it between the check and the end
        with StashFile(path, engine_for(path)).writing() as db:
            if not is_empty(db):
                return
            path.unlink()
    for folder in folders:
        folder.rmdir()


def upgrade(file: StashFile) -> None:
    """Every migration up to the newest, in one transaction, with a copy made first if it is old."""
    with file.remaking() as db:
        revision = _revision_inside(db)
        if revision == HEAD:  # another process was quicker
            return
        if revision is not None:
            copy_beside(file.path, f"before-upgrade-{HEAD}")
        guards.lift(db)
        _migrate(db)
        broken = db.exec_driver_sql("PRAGMA foreign_key_check").all()
        if broken:
            raise FileTrouble(file.path, "upgrade_loses_references")
        guards.remake(db)
        db.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")


def _revision_inside(db: Connection) -> str | None:
    if db.exec_driver_sql(HAS_REVISION).first() is None:
        return None
    return str(db.exec_driver_sql(REVISION).scalar())


def migrations_folder() -> Path:
    """Where the migrations lie: inside the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_migrations"
    return inside if inside.is_dir() else package.parent / "migrations"


def _migrate(db: Connection, to: str = "head") -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations_folder()))
    config.attributes["connection"] = db
    command.upgrade(config, to)


def rows_of_today(revision: str, rows: Rows) -> Rows:
    """Rows of every table of an older revision as this one has them, by its own migrations.

    They pass through a file in memory. Raises BadInput for rows that are no rows of that revision.
    """
    if revision == HEAD:
        return rows
    with create_engine("sqlite://").connect() as db:
        _migrate(db, revision)
        put_rows(db, rows)
        _migrate(db)
        return all_rows(db)
