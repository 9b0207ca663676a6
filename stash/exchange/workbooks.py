"""The rows of an xlsx workbook: its fullest sheet, merged cells filled, whatever it may hold."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import Any

from stash.errors import FileTrouble
from stash.exchange import header
from stash.exchange.findings import Finding
from stash.exchange.raw_rows import MOST_CELLS, MOST_COLUMNS, RawRow, bounded, heading_text
from stash.parsing.headings import KnownHeadings

#: What a workbook may come to when unpacked; twenty thousand rows come to a third of it.
MOST_UNPACKED = 64_000_000
#: A column and a row of a sheet, as in `B12:C40`.
_MERGED = re.compile(
    rb"<(?:\w+:)?mergeCell\s[^>]*?ref=\"([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})\""
)


def workbook_rows(
    name: str, data: bytes, known: KnownHeadings
) -> tuple[list[RawRow], list[Finding]]:
    """The rows of the sheet that shows the most of our columns; the others are named."""
    try:
        _refuse_a_bomb(name, data)
        sheets = _sheets_of(name, data)
    except FileTrouble:
        raise
    except Exception:  # a broken archive fails in as many ways as it has parts
        raise FileTrouble(name, "broken_spreadsheet") from None
    return _with_most_headings(sheets, known)


def _refuse_a_bomb(name: str, data: bytes) -> None:
    """By the sizes the archive itself gives: no more than that is ever unpacked."""
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        unpacked = sum(part.file_size for part in parts.infolist())
    if unpacked > MOST_UNPACKED:
        raise FileTrouble(name, "spreadsheet_unpacks", most_mb=MOST_UNPACKED // 1_000_000)


def _sheets_of(name: str, data: bytes) -> list[tuple[str, list[RawRow]]]:
    """Every sheet of a workbook, its merged cells filled."""
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of charts and rules that no row needs
        # not read_only makes a cell of every place of a merged range, to the end of the sheet
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        return [(sheet.title, _filled(name, sheet, data)) for sheet in book.worksheets]


def _filled(name: str, sheet: Any, data: bytes) -> list[RawRow]:
    sheet.reset_dimensions()  # some programs write a size that cuts rows off
    # one column more than there may be, so that it is seen where there are more
    cells = sheet.iter_rows(values_only=True, max_col=MOST_COLUMNS + 1)
    rows = bounded(name, enumerate(cells, 1))
    spans = list(_merged(sheet, data))
    return _spread(rows, spans) if spans else rows


_Span = tuple[int, int, int, int]


def _merged(sheet: Any, data: bytes) -> Iterator[_Span]:
    """The merged ranges of a sheet: first column and row, last column and row, from 1."""
    from openpyxl.utils import column_index_from_string

    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        part = parts.read(sheet._worksheet_path)
    for first, top, last, bottom in _MERGED.findall(part):
        yield (
            column_index_from_string(first.decode()),
            int(top),
            column_index_from_string(last.decode()),
            int(bottom),
        )


def _spread(rows: Sequence[RawRow], spans: Sequence[_Span]) -> list[RawRow]:
    """The value of each merged range in all its places, as far down as any row is filled."""
    by_line = {line: [*cells] for line, cells in rows}
    lines = sorted(by_line)
    left = MOST_CELLS
    for first, top, last, bottom in spans:
        corner = by_line.get(top, [])
        value = corner[first - 1] if first <= len(corner) else None
        last = min(last, MOST_COLUMNS)
        inside = lines[bisect_left(lines, top) : bisect_right(lines, bottom)]
        left -= len(inside) * (last - first + 1)
        if value is None or left < 0:
            continue
        for line in inside:
            cells = by_line[line]
            cells += [None] * (last - len(cells))
            cells[first - 1 : last] = [value] * (last - first + 1)
    return [(line, by_line[line]) for line in lines]


def _with_most_headings(
    sheets: Sequence[tuple[str, list[RawRow]]], known: KnownHeadings
) -> tuple[list[RawRow], list[Finding]]:
    """The sheet that shows the most of our columns, the first of equals; the others are named."""
    able = [(_columns_shown(rows, known), title, rows) for title, rows in sheets]
    if not able:
        return [], []
    _, chosen, rows = max(able, key=lambda one: one[0])
    notes = [
        Finding(0, "", f"read from the sheet {chosen!r}; {title!r} was not used")
        for columns, title, _ in able
        if columns >= 2 and title != chosen
    ]
    return rows, notes


def _columns_shown(rows: Sequence[RawRow], known: KnownHeadings) -> int:
    top = [[*map(heading_text, cells)] for _, cells in rows[: header.SEARCHED]]
    return header.heading_place(top, known)[1]
