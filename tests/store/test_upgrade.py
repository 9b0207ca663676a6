"""Files of every age: made, brought up to date, with nothing lost."""

from __future__ import annotations

import re
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from books import a_book, a_full_book, add, skein

from stash.actions import check, log
from stash.actions.book import open_book
from stash.errors import FileTrouble
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.store import engine, guards, upgrade
from stash.store.copies import KEPT_COPIES
from stash.store.tables import metadata

DUMPS = sorted((Path(__file__).parents[2] / "fixtures" / "schemas").glob("*.sql"))


def test_the_migrations_make_the_tables(tmp_path: Path) -> None:
    with a_book(tmp_path).reading() as db:
        assert compare_metadata(MigrationContext.configure(db), metadata) == []


ADDED_REFERENCE = re.compile(r"(\w+) INTEGER CONSTRAINT (\w+) REFERENCES (\w+) \((\w+)\)")
AS_CONSTRAINT = r"\1 INTEGER, CONSTRAINT \2 FOREIGN KEY(\1) REFERENCES \3 (\4)"


def definitions(path: Path) -> dict[str, str]:
    """What the file says of its own tables and indexes, blanks and quotes apart."""
    with closing(sqlite3.connect(path)) as db:
        found = db.execute(
            "SELECT name, sql FROM sqlite_master WHERE type IN ('table', 'index') AND sql NOT NULL "
            "AND name NOT LIKE 'sqlite_%' AND name <> 'alembic_version'"
        ).fetchall()
    # a column added later carries its constraints with it; they mean the same
    found = [(name, ADDED_REFERENCE.sub(AS_CONSTRAINT, sql)) for name, sql in found]
    found = [
        (name, re.sub(r"(?<=[^,\s])\s+CONSTRAINT", ", CONSTRAINT", sql)) for name, sql in found
    ]
    plain = {name: re.sub(r'[\s"]+', "", sql).upper() for name, sql in found}
    return {name: sql.replace(")STRICT", ",STRICT") for name, sql in plain.items()}


def test_checks_and_strictness_are_the_same_too(tmp_path: Path) -> None:
    """What the comparison above does not look at: CHECK constraints, STRICT, AUTOINCREMENT."""
    made = engine.StashFile(tmp_path / "t.db", engine.engine_for(tmp_path / "t.db"))
    with made.writing() as db:
        metadata.create_all(db)

    by_tables, by_migrations = definitions(made.path), definitions(a_book(tmp_path).path)

    assert by_tables.keys() == by_migrations.keys()
    for name, sql in by_tables.items():
        assert sorted(sql.split(",")) == sorted(by_migrations[name].split(",")), name


def test_head_and_known_are_those_of_the_migrations() -> None:
    config = Config()
    config.set_main_option("script_location", str(upgrade.migrations_folder()))
    script = ScriptDirectory.from_config(config)

    assert script.get_current_head() == engine.HEAD
    oldest_first = [one.revision for one in reversed([*script.walk_revisions()])]
    assert list(engine.KNOWN) == oldest_first


def test_every_past_revision_has_a_dump() -> None:
    assert [dump.stem for dump in DUMPS] == list(engine.KNOWN)


@pytest.mark.parametrize("dump", DUMPS, ids=lambda d: d.stem)
def test_a_file_of_any_revision_is_brought_up_to_date_without_loss(
    tmp_path: Path, dump: Path
) -> None:
    path = tmp_path / "old.stash"
    with closing(sqlite3.connect(path)) as db:
        db.executescript(dump.read_text("utf-8"))
        tables = [
            row[0]
            for row in db.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' AND name <> 'alembic_version'"
            )
        ]
        kept = {table: columns_of(db, table) for table in tables if table != "setting"}
        before = {table: rows_kept(db, table, columns) for table, columns in kept.items()}
    assert all(rows for table, rows in before.items() if table != "fact"), "no row of a table"

    book = open_book(path)

    assert check.check(book) == []
    with closing(sqlite3.connect(path)) as db:
        after = {
            table: rows_kept(db, today(table), [*map(today, columns)])
            for table, columns in kept.items()
        }
    assert after == {table: called_today(rows) for table, rows in before.items()}
    assert add(book) == 5


def test_sentences_of_old_entries_stay_and_new_ones_keep_facts(tmp_path: Path) -> None:
    path = tmp_path / "old.stash"
    with closing(sqlite3.connect(path)) as db:
        db.executescript((DUMPS[0].parent / "0005.sql").read_text("utf-8"))
        words = [row[0] for row in db.execute("SELECT words FROM entry ORDER BY number")]
    book = open_book(path)
    log.undo(book, 6)

    newest, *older = log.log(book, None)
    assert [entry.what for entry in reversed(older)] == words
    assert newest.what == Note("entry_taken_back", entry=6, what=words[5])
    with closing(sqlite3.connect(path)) as db:
        rows = db.execute("SELECT words, facts FROM entry ORDER BY number").fetchall()
    assert rows[:-1] == [(text, None) for text in words]
    assert rows[-1][0] == ""


#: What revision 0007 called otherwise; its settings are held by `journeys/test_old_files.py`.
RENAMED = {
    "piece": "design",
    "article": "item",
    "article_need": "item_need",
    "article_step": "item_step",
    "piece_id": "design_id",
    "article_number": "item_number",
    "class_from": "thickness_from",
    "class_to": "thickness_to",
    "pair_from": "full_from",
    "piece add": "design add",
    "piece change": "design change",
    "prefer": "settings",
    "own article": "own items",
}
PLAN_KEYS = (('"class_from"', '"thickness_from"'), ('"class_to"', '"thickness_to"'))


def today(name: str) -> str:
    return RENAMED.get(name, name)


def called_today(rows: list[tuple[object, ...]]) -> list[tuple[object, ...]]:
    """The rows under the names of today: whole words, and the keys of a plan."""
    return sorted((tuple(map(_value_today, row)) for row in rows), key=repr)


def _value_today(value: object) -> object:
    if not isinstance(value, str):
        return value
    for old, new in PLAN_KEYS:
        value = value.replace(old, new)
    return today(value)


def columns_of(db: sqlite3.Connection, table: str) -> list[str]:
    return [str(row[1]) for row in db.execute(f"PRAGMA table_info({table})")]


def rows_kept(db: sqlite3.Connection, table: str, columns: list[str]) -> list[tuple[object, ...]]:
    """The rows by the columns an old revision had; what came later has columns of its own.

    What is kept of settings is held by a test of its own.
    """
    left_out = {"fact": " WHERE thing <> 'setting'", "sqlite_sequence": " WHERE name <> 'fact'"}
    only = left_out.get(table, "")
    return sorted(
        db.execute(f"SELECT {', '.join(columns)} FROM {table}{only}").fetchall(), key=repr
    )


SECOND = '''
"""A column more, by copying the table: what a later version might do."""

import sqlalchemy as sa
from alembic import op

revision = "9999"
down_revision = "{head}"


def upgrade() -> None:
    with op.batch_alter_table("movement", recreate="always") as batch:
        batch.add_column(sa.Column("weather", sa.Text()))
    {and_then}
'''


@pytest.fixture
def next_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program one revision further; the file of its migration comes back."""
    folder = tmp_path / "migrations"
    shutil.copytree(upgrade.migrations_folder(), folder)
    second = folder / "versions" / "9999_weather.py"
    second.write_text(SECOND.format(head=engine.HEAD, and_then=""))
    monkeypatch.setattr(upgrade, "migrations_folder", lambda: folder)
    monkeypatch.setattr(upgrade, "HEAD", "9999")
    monkeypatch.setattr(engine, "KNOWN", (*engine.KNOWN, "9999"))
    return second


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A file of today's version, full of rows."""
    (tmp_path / "books").mkdir()
    return a_full_book(tmp_path / "books" / "shelf.stash").path


def test_an_upgrade_keeps_every_row_and_remakes_the_guards(old: Path, next_version: Path) -> None:
    before = definitions(old)
    movements = [row[:10] for row in rows_of(old, "movement")]

    book = open_book(old)

    assert engine.revision_of(old) == "9999"
    assert "WEATHER" in definitions(old)["movement"]
    assert definitions(old).keys() == before.keys()
    assert [row[:10] for row in rows_of(old, "movement")] == movements
    assert check.check(book) == []
    with pytest.raises(sqlite3.IntegrityError, match="guard"), closing(sqlite3.connect(old)) as db:
        db.execute("DELETE FROM movement")


def rows_of(path: Path, table: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as db:
        return db.execute(f"SELECT * FROM {table} ORDER BY rowid").fetchall()


def test_an_upgrade_makes_a_copy_first(old: Path, next_version: Path) -> None:
    before = rows_of(old, "promise")

    open_book(old)

    copy = old.with_name("shelf.before-upgrade-9999.stash")
    assert engine.revision_of(copy) == engine.HEAD
    assert rows_of(copy, "promise") == before


def test_an_upgrade_that_would_lose_references_changes_nothing(
    old: Path, next_version: Path
) -> None:
    next_version.write_text(
        SECOND.format(head=engine.HEAD, and_then="op.execute('DELETE FROM item')")
    )
    with closing(sqlite3.connect(old, isolation_level=None)) as db:
        db.execute("DROP TRIGGER guard_item_delete")
    before = old.read_bytes()

    with pytest.raises(FileTrouble) as refused:
        open_book(old)

    assert refused.value.kind == "upgrade_loses_references"
    assert old.read_bytes() == before


def test_an_upgrade_that_breaks_off_changes_nothing(old: Path, next_version: Path) -> None:
    next_version.write_text(
        SECOND.format(head=engine.HEAD, and_then="raise RuntimeError('power cut')")
    )
    before = old.read_bytes()

    with pytest.raises(RuntimeError, match="power cut"):
        open_book(old)

    assert old.read_bytes() == before


def test_whoever_comes_second_finds_it_upgraded(old: Path, next_version: Path) -> None:
    first = open_book(old)
    upgrade.upgrade(first.file)

    assert check.check(first) == []


def test_an_upgrade_of_a_busy_file_is_told(
    old: Path, next_version: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engine, "BUSY_WAIT_MS", 20)
    with closing(sqlite3.connect(old, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(FileTrouble) as refused:
            open_book(old)

    assert refused.value.kind == "busy"


def test_a_copy_of_an_older_attempt_is_replaced(old: Path, next_version: Path) -> None:
    copy = old.with_name("shelf.before-upgrade-9999.stash")
    copy.write_text("half a copy")

    open_book(old)

    assert skein(open_book(copy), 2).held == grams(70)


def test_five_copies_are_kept(tmp_path: Path) -> None:
    from stash.store.copies import copy_beside

    path = a_book(tmp_path).path
    for number in range(1, 9):
        copy_beside(path, f"before-entry-{number}")

    found = sorted(p.name for p in tmp_path.iterdir())
    assert len(found) == KEPT_COPIES + 1
    assert "shelf.before-entry-8.stash" in found
    assert "shelf.before-entry-3.stash" not in found


def test_a_copy_never_overwrites(tmp_path: Path) -> None:
    from stash.store.copies import copy_to

    path = a_book(tmp_path).path
    (tmp_path / "mine.txt").write_text("words")

    with pytest.raises(FileTrouble) as refused:
        copy_to(path, tmp_path / "mine.txt")

    assert refused.value.kind == "file_exists"

    assert (tmp_path / "mine.txt").read_text() == "words"


def test_an_upgrade_remakes_what_a_batch_copy_drops() -> None:
    """The guards that a copied `movement` would lose are among those made anew."""
    assert {"guard_movement_update", "guard_movement_below_nothing"} <= {*guards.GUARDS}
