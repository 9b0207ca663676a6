"""What the shell can complete and a help is shown in, read without what the rest here needs.

A key press is answered in less than sqlalchemy takes to load, so this is the one module that asks
the file by the standard library, read-only. It waits for nobody and repairs nothing.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from contextlib import closing
from pathlib import Path
from types import MappingProxyType

_UNDONE = "SELECT takes_back FROM entry WHERE takes_back IS NOT NULL"
_HELD = "SELECT skein_number FROM movement GROUP BY skein_number HAVING SUM(change_mg) > 0"
#: A statement for each kind of thing, as the help calls it.
_STATEMENTS: Mapping[str, str] = MappingProxyType(
    {
        "DESIGN": f"SELECT name FROM design WHERE entry_number NOT IN ({_UNDONE}) AND NOT dropped"
        " ORDER BY name",
        "ITEM": f"SELECT number FROM item WHERE entry_number NOT IN ({_UNDONE}) ORDER BY number",
        "ORDER": "SELECT number FROM item_order WHERE dropped = 0"
        f" AND entry_number NOT IN ({_UNDONE}) ORDER BY number",
        "LOT": f"SELECT DISTINCT 'L' || lot_id FROM skein WHERE number IN ({_HELD})"
        " ORDER BY lot_id",
        "PLACE": f"SELECT DISTINCT place FROM skein WHERE place != '' AND number IN ({_HELD})"
        " ORDER BY place",
        "UNITS": "SELECT name || '=' || value FROM setting"
        " WHERE name IN ('length', 'weight', 'size', 'terms')",
        "SKEIN": f"SELECT number FROM skein WHERE number IN ({_HELD}) ORDER BY number",
    }
)


def names_kept(path: Path, kind: str) -> list[str]:
    """The names of one kind that the file holds, in order; none where it cannot be read now."""
    statement = _STATEMENTS.get(kind)
    if statement is None:
        return []
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", 0, uri=True)) as db:
            return [str(name) for (name,) in db.execute(statement)]
    except (sqlite3.Error, ValueError, OSError):
        return []
