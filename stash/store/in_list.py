"""Asking for many things at once."""

from __future__ import annotations

import json
from collections.abc import Collection
from typing import TypeVar

from sqlalchemy import ColumnElement, func, select

_T = TypeVar("_T", int, str)


def in_list(column: ColumnElement[_T], values: Collection[_T]) -> ColumnElement[bool]:
    """Whether a column holds one of these numbers or names, however many they are.

    They go in as one JSON text: SQLite takes no more than 32,766 values in a statement, and a long
    sheet brings more skeins than that.
    """
    listed = func.json_each(json.dumps([*values])).table_valued("value")
    return column.in_(select(listed.c.value))
