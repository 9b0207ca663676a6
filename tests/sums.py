"""A tiny reader of workbooks, independent of the project: cells, and formulas of SUM, + and -."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

_SUM = re.compile(r"SUM\(([A-Z])([0-9]+):([A-Z])([0-9]+)\)")
_TERM = re.compile(r"([+-])(?:([A-Za-z]+)!)?(?:([A-Z])([0-9]+)|([0-9]+))")


class Workbook:
    """The sheets of a file, by name; a formula is worked out from the cells it names."""

    def __init__(self, path: Path) -> None:
        self.sheets = {sheet.title: sheet for sheet in load_workbook(path).worksheets}

    def rows(self, name: str) -> list[list[Any]]:
        """The raw values of a sheet, below its headings."""
        return [[cell.value for cell in row] for row in self.sheets[name].iter_rows(min_row=2)]

    def value(self, name: str, place: str) -> Fraction:
        """A number of a cell, exactly as it is written down; nothing where it is empty."""
        value = self.sheets[name][place].value
        if value is None:
            return Fraction(0)
        if isinstance(value, str):
            assert value.startswith("="), (name, place, value)
            return self._formula(name, value[1:])
        return Fraction(Decimal(repr(value)))

    def _formula(self, name: str, text: str) -> Fraction:
        total = Fraction(0)
        for column, first, last_column, last in _SUM.findall(text):
            assert column == last_column
            span = range(int(first), int(last) + 1)
            total += sum((self.value(name, f"{column}{row}") for row in span), Fraction(0))
        rest = _SUM.sub("", text)
        rest = rest if rest[:1] in ("", "+", "-") else f"+{rest}"
        assert _TERM.sub("", rest) == "", text
        for sign, sheet, column, row, number in _TERM.findall(rest):
            term = self.value(sheet or name, f"{column}{row}") if column else Fraction(number)
            total += term if sign == "+" else -term
        return total

    def labelled(self, name: str, label: str, column: str) -> Fraction:
        """The number in a column of the last row that begins with these words."""
        places = [
            row[0].row for row in self.sheets[name].iter_rows(max_col=1) if row[0].value == label
        ]
        return self.value(name, f"{column}{places[-1]}")
