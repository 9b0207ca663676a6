"""The sheets of a workbook before it is written: cells with how they are shown, and formulas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from stash.measures.money import Money
from stash.rendering.decimal_money import as_number


class Style(StrEnum):
    """How a cell is shown."""

    TEXT = "text"
    HEAD = "head"
    DAY = "day"
    COUNT = "count"
    GRAMS = "grams"
    MONEY = "money"
    HOURS = "hours"


@dataclass(frozen=True, slots=True)
class Cell:
    """A value and how it is shown; a `formula` begins with an equals sign."""

    value: str | int | float | date | None
    style: Style = Style.TEXT
    formula: bool = False
    bold: bool = False


@dataclass(slots=True)
class Sheet:
    """A named table; rows count from 1, columns are named by letters as a spreadsheet does."""

    name: str
    widths: Sequence[int]
    rows: list[Sequence[Cell]] = field(default_factory=list)

    def add(self, *cells: Cell) -> int:
        """One more row; its number."""
        self.rows.append(cells)
        return len(self.rows)

    def ref(self, column: str, row: int) -> str:
        """One of its cells, as another sheet names it."""
        return f"{self.name}!{column}{row}"


#: A cell with nothing in it.
BLANK = Cell(None)


@dataclass(slots=True)
class Totals:
    """The cells that other sheets refer to, by name, and the currency of all money."""

    currency: str
    places: dict[str, str] = field(default_factory=dict)

    def money(self, amount: Money) -> Cell:
        """An amount of money."""
        return Cell(as_number(amount, self.currency), Style.MONEY)

    def of(self, name: str) -> str:
        """The cell of that total; of one that there is none of, nothing."""
        return self.places.get(name, "0")


def formula(text: str, style: Style, *, bold: bool = True) -> Cell:
    """A formula of SUM, plus and minus, so that a person can follow it."""
    return Cell(f"={text}", style, formula=True, bold=bold)


def column_sum(column: str, rows: range, style: Style) -> Cell:
    """The sum of a column over some rows; nothing where there are none."""
    if not rows:
        return Cell(0, style, bold=True)
    return formula(f"SUM({column}{rows[0]}:{column}{rows[-1]})", style)


def words(said: str, *, bold: bool = False) -> Cell:
    """A text."""
    return Cell(said, bold=bold)


def heads(*names: str) -> list[Cell]:
    """What stands over the columns."""
    return [Cell(name, Style.HEAD, bold=True) for name in names]
