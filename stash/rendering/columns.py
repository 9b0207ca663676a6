"""Rows set out in columns for a terminal, and as csv."""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Mapping, Sequence
from typing import Any

from stash.rendering.printable import inert

_PAINT = re.compile(r"\x1b\[[0-9;]*m")


def columns(rows: Sequence[Sequence[str]], indent: str = "") -> str:
    """Rows under each other, each column as wide as its widest cell; paint takes no room."""
    if not rows:
        return ""
    each = [[width(cell) for cell in row] for row in rows]
    widths = [max(column) for column in zip(*each, strict=True)]
    lines = []
    for row, taken in zip(rows, each, strict=True):
        cells = [cell + " " * (widths[i] - taken[i]) for i, cell in enumerate(row)]
        lines.append((indent + "  ".join(cells)).rstrip())
    return "\n".join(lines)


def width(text: str) -> int:
    """How many places a text takes in a terminal."""
    if text.isascii() and "\x1b" not in text:  # most cells of a long list
        return len(text)
    bare = _PAINT.sub("", text)
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in bare
    )


def as_csv(rows: Sequence[Mapping[str, Any]]) -> str:
    """Rows of like keys as csv with a heading; None is blank, a list is joined with slashes."""
    out = io.StringIO()
    if rows:
        writer = csv.DictWriter(out, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(
            {key: sheet_cell(key, value) for key, value in row.items()} for row in rows
        )
    return out.getvalue()


def sheet_cell(column: str, value: Any) -> Any:
    """A value as it stands in a cell: lists joined, yes or no, hours to the hundredth."""
    if isinstance(value, list):
        value = "/".join(str(part) for part in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and "hours" in column.split("_"):
        return round(value, 2)
    return inert(value) if isinstance(value, str) else value
