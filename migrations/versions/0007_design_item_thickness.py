"""The words of the trade: a piece is a design, an article an item, a class a thickness.

Tables, columns, constraints and indexes are renamed by rewriting what the file itself says of them;
then kinds of entries, names of facts, settings and what plans and facts keep as JSON. Sentences of
old entries stay as they were written.
"""

import json
import re
from collections.abc import Callable, Iterable
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"

_TABLES = {
    "lot": "lot",
    "piece": "design",
    "article": "item",
    "article_need": "item_need",
    "article_step": "item_step",
    "movement": "movement",
    "promise": "promise",
    "weighing": "weighing",
    "sale": "sale",
    "fact": "fact",
}
_WORDS = {"piece": "design", "article": "item", "class": "thickness", "pair_from": "full_from"}
_WORD = re.compile(r"pair_from|(?<![a-z])(?:piece|article|class)(?![a-z])")

_COLUMNS = {"class_from": "thickness_from", "class_to": "thickness_to", "pair_from": "full_from"}
_HEADINGS = {"class": "thickness", "put_up": "full", "pair_from": "full_from"}
_KINDS = {"piece add": "design add", "piece change": "design change", "prefer": "settings"}
_SOURCES = {"own article": "own items", "class": "thickness"}
_SETTINGS = {
    "room": "humidity",
    "class tolerance": "thickness tolerance",
    "fineness": "per 100g",
    "weight sliver": "ranking very little",
    "weight class step": "ranking thickness step",
}
#: Units were one setting, for the length of yarn; work was measured alike. Grams were always grams.
_UNITS = {"length": {"metres": "m", "yards": "yd"}, "size": {"metres": "cm", "yards": "in"}}


def upgrade() -> None:
    db = op.get_bind()
    db.exec_driver_sql("PRAGMA legacy_alter_table = ON")  # else references to a table follow it
    for old, new in _TABLES.items():
        _rebuilt(db, old, new)
    db.exec_driver_sql("PRAGMA legacy_alter_table = OFF")
    _replaced(db, "entry", "kind", _KINDS.get)
    _replaced(db, "entry", "facts", _facts)
    _replaced(db, "item_need", "source", _SOURCES.get)
    _replaced(db, "design", "plan", _plan)
    _facts_of_lots_and_designs(db)
    _settings(db)


def _rebuilt(db: sa.Connection, old: str, new: str) -> None:
    """The table with its rows, the last number it gave and its indexes, under the new words."""
    asked = "SELECT type, sql FROM sqlite_master WHERE tbl_name = ? AND sql NOT NULL"
    said = db.exec_driver_sql(asked, (old,)).all()
    last = db.exec_driver_sql("SELECT seq FROM sqlite_sequence WHERE name = ?", (old,)).scalar()
    db.exec_driver_sql(f"ALTER TABLE {old} RENAME TO was_{old}")
    for sql in (sql for kind, sql in said if kind == "table"):
        db.exec_driver_sql(_renamed(sql))
    columns = [row[1] for row in db.exec_driver_sql(f"PRAGMA table_info(was_{old})")]
    into = ", ".join(map(_renamed, columns))
    out = ", ".join(  # the check on what a fact is of bites while it is copied
        "REPLACE(thing, 'piece', 'design')" if c == "thing" else c for c in columns
    )
    db.exec_driver_sql(f"INSERT INTO {new} ({into}) SELECT {out} FROM was_{old}")
    db.exec_driver_sql(f"DROP TABLE was_{old}")
    for sql in (sql for kind, sql in said if kind == "index"):
        db.exec_driver_sql(_renamed(sql))
    db.exec_driver_sql("DELETE FROM sqlite_sequence WHERE name = ?", (new,))
    if last is not None:
        db.exec_driver_sql("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", (new, last))


def _renamed(sql: str) -> str:
    return _WORD.sub(lambda m: _WORDS[m[0]], sql)


def _replaced(db: sa.Connection, table: str, column: str, to: Callable[[str], str | None]) -> None:
    """What a column says, as it is said from now on; None where it stays."""
    rows = db.exec_driver_sql(f"SELECT rowid, {column} FROM {table} WHERE {column} IS NOT NULL")
    new = [(said, rowid) for rowid, was in rows.all() if (said := to(was)) not in (None, was)]
    _many(db, f"UPDATE {table} SET {column} = ? WHERE rowid = ?", new)


def _many(db: sa.Connection, statement: str, rows: Iterable[tuple[Any, ...]]) -> None:
    for row in rows:
        db.exec_driver_sql(statement, row)


def _plan(kept: str) -> str | None:
    """A plan of a design under the new keys; what is no plan stays."""
    try:
        plan = json.loads(kept)
    except ValueError:
        return None
    if not isinstance(plan, dict):
        return None
    plan = {_COLUMNS.get(key, key): value for key, value in plan.items()}
    return json.dumps(plan, ensure_ascii=False)


def _facts(kept: str) -> str | None:
    try:
        return json.dumps(_fact(json.loads(kept)), ensure_ascii=False)
    except ValueError:
        return None


def _fact(kept: Any) -> Any:
    """The facts of an entry with the new names of settings and of what was changed."""
    if isinstance(kept, list):
        return [_fact(part) for part in kept]
    if not isinstance(kept, dict):
        return kept
    kept = {key: _fact(value) for key, value in kept.items()}
    if kept.get("kind") == "fact_now":
        kept["fact"] = _HEADINGS.get(kept["fact"], kept["fact"])
    if kept.get("kind") == "setting_set":
        kept["setting"], value = _setting(kept["setting"], kept.get("value"))
        kept |= {} if value is None else {"value": value}
    return kept


def _setting(name: str, value: str | None) -> tuple[str, str | None]:
    """A setting's name and value from now on."""
    if name == "units":
        return name, {"metres": "metric", "yards": "us"}.get(value or "", value)
    if (name, value) == ("contrast", "soft"):  # meant 12 or more, and means 12 to 25 from now on
        return name, "12"
    if name.startswith("heading "):
        return name, _HEADINGS.get(value or "", value)
    if name in ("regain", "place"):
        return "rules", value
    return _SETTINGS.get(name, name.replace("weight ", "ranking ", 1)), value


def _facts_of_lots_and_designs(db: sa.Connection) -> None:
    _replaced(db, "fact", "name", _COLUMNS.get)
    for column in ("old", "new"):
        rows = db.exec_driver_sql(
            f"SELECT id, {column} FROM fact WHERE thing = 'design' AND name = 'plan' "
            f"AND {column} IS NOT NULL"
        )
        new = [(_plan(kept) or kept, number) for number, kept in rows.all()]
        _many(db, f"UPDATE fact SET {column} = ? WHERE id = ?", new)


def _settings(db: sa.Connection) -> None:
    """Settings and their history. Of two rules, the law of the tags counts for both."""
    kept: dict[str, str] = dict(db.exec_driver_sql("SELECT name, value FROM setting").all())
    if "place" in kept:
        kept.pop("regain", None)
    units = kept.pop("units", None)
    kept = dict(_setting(name, value) for name, value in kept.items())  # type: ignore[misc]
    kept |= {} if units is None else {name: of[units] for name, of in _UNITS.items()}
    db.exec_driver_sql("DELETE FROM setting")
    _many(db, "INSERT INTO setting (name, value) VALUES (?, ?)", kept.items())

    asked = "SELECT id, entry_number, ref, old, new FROM fact WHERE thing = 'setting' ORDER BY id"
    facts = db.exec_driver_sql(asked).all()
    by_place = any(ref == "place" for _, _, ref, _, _ in facts)
    for number, entry, ref, old, new in facts:
        if ref == "units":
            _units_fact(db, number, entry, old, new)
        elif not (ref == "regain" and by_place):
            name, was = _setting(ref, old)
            row = (name, was, _setting(ref, new)[1], number)
            db.exec_driver_sql("UPDATE fact SET ref = ?, old = ?, new = ? WHERE id = ?", row)


def _units_fact(
    db: sa.Connection, number: int, entry: int, old: str | None, new: str | None
) -> None:
    """One change of units as a change of each of the two that it meant."""
    rows = [(name, of.get(old or ""), of.get(new or "")) for name, of in _UNITS.items()]
    db.exec_driver_sql("UPDATE fact SET ref = ?, old = ?, new = ? WHERE id = ?", (*rows[0], number))
    _many(
        db,
        "INSERT INTO fact (entry_number, thing, ref, name, old, new) "
        "VALUES (?, 'setting', ?, 'value', ?, ?)",
        [(entry, *row) for row in rows[1:]],
    )
