"""Triggers that hold the deepest rules of the books inside the file itself.

They are lifted for every upgrade and made anew after it: a batch copy of an SQLite table drops its
own silently, and stumbles over those of others that look at it.
"""

from __future__ import annotations

from sqlalchemy import Connection

#: Tables whose rows are answered by later rows, never changed.
APPEND_ONLY = (
    "entry",
    "movement",
    "promise",
    "weighing",
    "item_need",
    "item_step",
    "sale",
    "fact",
    "sheet",
)
#: Tables whose rows may be put right but never vanish: numbers are never used again.
KEPT = ("yarn", "lot", "skein", "design", "item", "item_order")


def _never(table: str, what: str) -> str:
    return (
        f"CREATE TRIGGER guard_{table}_{what.lower()} BEFORE {what} ON {table} BEGIN "
        f"SELECT RAISE(ABORT, 'guard: {table} rows are kept as they are'); END"
    )


GUARDS: dict[str, str] = {
    **{f"guard_{t}_update": _never(t, "UPDATE") for t in APPEND_ONLY},
    **{f"guard_{t}_delete": _never(t, "DELETE") for t in (*APPEND_ONLY, *KEPT)},
    "guard_movement_below_nothing": (
        "CREATE TRIGGER guard_movement_below_nothing AFTER INSERT ON movement "
        "WHEN NEW.change_mg < 0 AND (SELECT SUM(change_mg) FROM movement "
        "WHERE skein_number = NEW.skein_number) < 0 BEGIN "
        "SELECT RAISE(ABORT, 'guard: a skein cannot hold less than nothing'); END"
    ),
    "guard_promise_twice": (
        "CREATE TRIGGER guard_promise_twice AFTER INSERT ON promise "
        "WHEN NEW.kind = 'set aside' AND NEW.change_mg > 0 AND "
        "(SELECT SUM(change_mg) FROM promise WHERE skein_number = NEW.skein_number) > "
        "(SELECT COALESCE(SUM(change_mg), 0) FROM movement "
        "WHERE skein_number = NEW.skein_number) BEGIN "
        "SELECT RAISE(ABORT, 'guard: no gram is promised twice'); END"
    ),
    "guard_promise_below_nothing": (
        "CREATE TRIGGER guard_promise_below_nothing AFTER INSERT ON promise "
        "WHEN NEW.change_mg < 0 AND (SELECT SUM(change_mg) FROM promise "
        "WHERE skein_number = NEW.skein_number AND item_number = NEW.item_number) < 0 BEGIN "
        "SELECT RAISE(ABORT, 'guard: a promise cannot be less than nothing'); END"
    ),
    "guard_sale_twice": (
        "CREATE TRIGGER guard_sale_twice AFTER INSERT ON sale WHEN "
        "(SELECT SUM(CASE kind WHEN 'returned' THEN -1 ELSE 1 END) FROM sale "
        "WHERE item_number = NEW.item_number AND entry_number NOT IN "
        "(SELECT takes_back FROM entry WHERE takes_back IS NOT NULL)) NOT IN (0, 1) BEGIN "
        "SELECT RAISE(ABORT, 'guard: an item is sold once, until it is returned'); END"
    ),
}


def lift(db: Connection) -> None:
    """Take every guard away, those of older versions too; a unit of work that puts them back."""
    asked = "SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'guard%'"
    for row in db.exec_driver_sql(asked).all():
        db.exec_driver_sql(f"DROP TRIGGER {row[0]}")


def remake(db: Connection) -> None:
    """Put every guard in place as this version words it, replacing what was there."""
    lift(db)
    for statement in GUARDS.values():
        db.exec_driver_sql(statement)


def missing(db: Connection) -> list[str]:
    """Guards that are not in the file, or not as this version words them, by name."""
    rows = db.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
    found = {row[0]: row[1] for row in rows}
    return sorted(name for name, statement in GUARDS.items() if found.get(name) != statement)
