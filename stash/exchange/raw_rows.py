"""Rows of a file before anything is read from their cells, held within bounds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime

from stash.errors import FileTrouble
from stash.measures.note import Note
from stash.rendering.printable import as_typed, plain

#: One row as the file holds it: its line, and its cells as text, number, date or nothing.
RawRow = tuple[int, Sequence[object]]

#: More than any shelf needs, and few enough to be read in a minute or so (our choice).
MOST_ROWS = 100_000
MOST_CELLS = 2_000_000
MOST_COLUMNS = 256
#: Invisible characters that sheets carry along; the soft spaces are spaces to a reader.
_UNSEEN = str.maketrans({"\u200b": None, "\u00a0": " "})
#: A heading is no longer than this; what is stands for no column.
LONGEST_HEADING = 100


def bounded(name: str, rows: Iterable[RawRow]) -> list[RawRow]:
    """The rows that hold anything, as far as a sheet of yarn may go; else FileTrouble."""
    kept: list[RawRow] = []
    cells_left = MOST_CELLS
    for line, cells in rows:
        filled = len(cells)
        while filled and cells[filled - 1] in (None, ""):
            filled -= 1
        if filled > MOST_COLUMNS:
            raise too_large(name, "row_too_long", line=line, most=MOST_COLUMNS)
        cells_left -= filled
        if len(kept) >= MOST_ROWS or cells_left < 0:
            raise too_large(name, "too_many_rows", most_rows=MOST_ROWS, most_cells=MOST_CELLS)
        if filled:
            kept.append((line, cells[:filled]))
    return kept


def too_large(name: str, kind: str, **facts: int) -> FileTrouble:
    """The refusal of a file that goes beyond a bound."""
    return FileTrouble(name, "sheet_too_large", what=Note(kind, **facts))


def heading_text(value: object) -> str:
    """A cell as a heading; nothing where it is too long for one."""
    text = cell_text(value)
    return text if len(text) <= LONGEST_HEADING else ""


def cell_text(value: object) -> str:
    """A cell as a person would have typed it."""
    if type(value) is str:
        if not (value.isascii() and value.isprintable()):
            value = plain(value).translate(_UNSEEN)
        return as_typed(value.strip())
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()
