"""Asking for many things at once."""

from __future__ import annotations

import json
from collections.abc import Collection
from typing import Any, TypeVar

from sqlalchemy import ColumnElement, Text, bindparam, func, select

_T = TypeVar("_T", int, str)


def in_list(column: ColumnElement[_T], values: Collection[_T]) -> ColumnElement[bool]:
    """Whether a column holds one of these numbers or names, however many they are.

    They go in as one JSON text: SQLite takes no more than 32,766 values in a statement, and a long
    sheet brings more skeins than that.
    """
    return _among(column, json.dumps([*values]))


def in_given(column: ColumnElement[int], name: str) -> ColumnElement[bool]:
    """The same for numbers that the statement is told by this name each time it is run.

    To put a long statement together takes longer than to run it for a skein or two.
    """
    return _among(column, bindparam(name, type_=Text))


def given(**lists: Collection[int] | None) -> dict[str, str]:
    """The numbers for a statement with `in_given`, by their names; those that are asked for."""
    return {name: json.dumps([*numbers]) for name, numbers in lists.items() if numbers is not None}


def _among(column: ColumnElement[_T], text: Any) -> ColumnElement[bool]:
    listed = func.json_each(text).table_valued("value")
    return column.in_(select(listed.c.value))
