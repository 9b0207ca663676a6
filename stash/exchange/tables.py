"""From the raw rows of a file to rows of cells under our own columns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from stash.errors import Unreadable
from stash.exchange import cells, header, readers
from stash.exchange.findings import Finding
from stash.exchange.header import Head
from stash.exchange.raw_rows import cell_text, heading_text
from stash.parsing import headings
from stash.parsing.facts import without_each
from stash.parsing.headings import KnownHeadings

#: Longer than any cell that somebody typed, and than any note (our choice); keeps a pasted page
#: away from the patterns.
LONGEST_CELL, LONGEST_NOTE = 1_000, 10_000

#: A first cell that says the row adds up the ones above it.
TOTALS = re.compile(r"(grand |sub-? ?)?(totals?|sum)\b[\s:=.\d]*", re.IGNORECASE)

#: What stands for the cell above in sheets kept by hand (common practice, no source).
DITTO = frozenset({'"', "''", "”", "〃", "ditto", "see above", "as above", "same as above"})


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row: its line in the file and its cells by our columns, blank ones left out.

    A bare figure below a heading with a unit has got that unit. `not_text` names the cells a
    spreadsheet kept as a number or a day rather than as typed.
    """

    line: int
    cells: dict[str, str]
    not_text: frozenset[str] = frozenset()

    @property
    def given_out(self) -> bool:
        """Whether we gave this row out: then each fact stands in its own column, as it is."""
        return "full_from" in self.cells


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a sheet, which heading was taken for which column, and what was skipped."""

    headings: tuple[Head, ...]
    rows: tuple[SheetRow, ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]


def read_table(name: str, data: bytes, known: KnownHeadings | None = None) -> Table:
    """The rows of a sheet under our own columns, whatever it was saved by.

    A title above the headings, empty rows and totals are skipped; a cell that says "see above"
    is filled from the row above. `known` is what she said of headings. Raises `FileTrouble` where
    the file is no sheet, `Unreadable` where no row names at least two of our columns.
    """
    known = known or KnownHeadings()
    raw, notes = readers.raw_rows(name, data, known)
    top = [[*map(heading_text, cells)] for _, cells in raw[: 2 * header.SEARCHED]]
    at, columns = header.heading_place(top, known)
    if columns < 2:
        raise Unreadable(name, "no_sheet_of_columns", columns=headings.COLUMNS)
    found = header.read_headings(raw[at][0], top[at], top[at + 1 :], known)
    body = _Body(top[at], found.taken)
    for line, values in raw[at + 1 :]:
        body.take(line, values)
    all_notes = (*notes, *found.notes, *body.passed)
    return Table(found.taken, tuple(body.rows), tuple(body.findings), all_notes)


class _Body:
    """The rows below the headings as they are gone through, one after another."""

    def __init__(self, headings: Sequence[str], taken: Sequence[Head]) -> None:
        self.rows: list[SheetRow] = []
        self.findings: list[Finding] = []
        self.passed: list[Finding] = []
        self._headings = [*headings]
        self._taken = [(head.place, head.meaning.column, head.meaning.unit) for head in taken]
        self._above: list[str] = []

    def take(self, line: int, values: Sequence[object]) -> None:
        """One row: kept, skipped as a total, or found to have a cell too many."""
        texts = self._filled_down([cell_text(value) for value in values])
        filled = [text for text in texts if text]
        if not filled or texts == self._headings:
            return
        first = filled[0]
        if len(filled) >= 3 and len({*filled}) == 1:
            self.passed.append(Finding(line, "", f"skipped, a title ({first!r})"))
        elif TOTALS.fullmatch(first):
            self.passed.append(Finding(line, "", f"skipped, a row of totals ({first!r})"))
        elif any(texts[len(self._headings) :]):
            self.findings.append(Finding(line, "", _TOO_MANY))
        elif too_long := self._too_long(texts):
            self.findings.append(Finding(line, too_long, _TOO_LONG))
        else:
            self.rows.append(self._row(line, values, texts))
            self._above = texts

    def _too_long(self, texts: Sequence[str]) -> str:
        """The column of a cell that holds more than anybody types."""
        if all(len(text) <= LONGEST_CELL for text in texts):
            return ""
        return next(
            (
                column
                for place, column, _ in self._taken
                if place < len(texts)
                and len(texts[place]) > (LONGEST_NOTE if column == "note" else LONGEST_CELL)
            ),
            "",
        )

    def _filled_down(self, texts: list[str]) -> list[str]:
        """The cells with those that only say "as above" filled from the row above."""
        for place, text in enumerate(texts[: len(self._above)]):
            if text.lower() in DITTO:
                texts[place] = self._above[place]
        return texts

    def _row(self, line: int, values: Sequence[object], texts: list[str]) -> SheetRow:
        filled = {}
        not_text = []
        for place, column, unit in self._taken:
            if place < len(texts) and texts[place]:
                filled[column] = with_unit(column, texts[place], unit)
                if type(values[place]) is not str:
                    not_text.append(column)
        return SheetRow(line, filled, frozenset(not_text))


def with_unit(column: str, text: str, unit: str) -> str:
    """A bare figure with the unit of its heading; a cell that says more stays as it is.

    A price gets its currency if it is a bare figure, and is for each whatever its sign. `1/2` left
    is a half of a skein, not of a gram.
    """
    if not unit:
        return text
    if column == "left" and unit in ("g", "m", "yd") and cells.is_share(text):
        return text
    if column in ("paid", "price", "cost"):
        return _priced(text, unit)
    return f"{text} {unit}" if cells.is_bare(text) else text


def _priced(text: str, unit: str) -> str:
    currency = unit.removesuffix("each").strip()
    if currency and cells.is_bare(text):
        text = f"{text} {currency}"
    price = any(c.isdigit() for c in text) and without_each(text) == text
    return f"{text} each" if price and unit.endswith("each") else text


_TOO_LONG = f"longer than {LONGEST_CELL} letters (a note: {LONGEST_NOTE}); shorten it"
_TOO_MANY = (
    'more cells than headings; put a cell with a comma of its own in quotation marks, like "1,5 oz"'
)
