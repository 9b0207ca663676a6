"""Texts made harmless: what a terminal would obey, and what a spreadsheet would run."""

from __future__ import annotations

import re

#: Letters that say how to show others: terminal controls but tab and new line (C0 and C1, ECMA-48),
#: the signs that turn writing round (Unicode 15, Bidi_Control), separators that break a line.
ORDERS = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]"
)
#: What a cell may not begin with, or a spreadsheet takes it for a formula; some take a fullwidth
#: sign for a plain one (common practice, no source).
_FORMULA = re.compile(r"'*[=+\-@＝＋－＠\t\r\n]")


def plain(text: str) -> str:
    """A text without the letters that are orders to whatever shows it."""
    return ORDERS.sub("", text)


def inert(text: str) -> str:
    """A cell of a csv that no spreadsheet runs: with an apostrophe before a sign of a formula."""
    text = text if text.isascii() and text.isprintable() else plain(text)
    return f"'{text}" if _FORMULA.match(text) else text


def as_typed(cell: str) -> str:
    """The text of a cell that `inert` wrote."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell
