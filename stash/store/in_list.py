"""Asking for many things at once."""

from __future__ import annotations

import json
from collections.abc import Collection

from sqlalchemy import ColumnElement, func, select


def in_list(column: ColumnElement[int], numbers: Collection[int]) -> ColumnElement[bool]:
    """Whether a column holds one of these numbers, however many they are.

    They go in as one JSON text: SQLite takes no more than 32,766 values in a statement, and a long
    sheet brings more skeins than that.
    """
    listed = func.json_each(json.dumps([*numbers])).table_valued("value")
    return column.in_(select(listed.c.value))
