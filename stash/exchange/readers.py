"""From the bytes of a csv or xlsx file to its rows, cell by cell."""

from __future__ import annotations

import codecs
import csv
import io
import warnings
import zipfile
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

from stash.errors import FileTrouble, Unreadable
from stash.exchange import heads
from stash.exchange.findings import Finding
from stash.wording.headings import Known
from stash.wording.printable import as_typed, plain

#: In order of trust when a heading row can be split by more than one of them equally well.
SEPARATORS = (";", "\t", ",")

#: Invisible characters that sheets carry along; the soft spaces are spaces to a reader.
_UNSEEN = str.maketrans({"\u200b": None, "\u00a0": " "})

#: One row as the file holds it: its line, and its cells as text, number, date or nothing.
RawRow = tuple[int, Sequence[object]]


def bytes_of(path: Path) -> bytes:
    """What a file holds; `FileTrouble` where it cannot be read."""
    try:
        return path.read_bytes()
    except OSError as trouble:
        raise FileTrouble(path, f"cannot be read ({trouble.strerror})") from trouble


def raw_rows(name: str, data: bytes, known: Known) -> tuple[list[RawRow], list[Finding]]:
    """The rows of a file as it holds them, and what is to be said of how it was read."""
    if data.startswith(b"PK\x03\x04"):
        return _workbook_rows(name, data, known)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileTrouble(name, "an old kind of spreadsheet; save it as xlsx or csv and try again")
    return _text_rows(name, data, known)


def text_of(name: str, data: bytes) -> tuple[str, str]:
    """The text of a file and the name of its encoding, found out.

    A byte-order mark settles it; without one, zero bytes at every second place mean UTF-16, and
    what is not sound UTF-8 is taken as Windows-1252.
    """
    encoding = _encoding(data)
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        raise FileTrouble(name, "not a sheet: its letters cannot be read; save it as csv") from None
    if "\x00" in text:
        raise FileTrouble(name, "not a sheet but some other kind of file; give a csv or an xlsx")
    return text, encoding


def _encoding(data: bytes) -> str:
    if data.startswith(codecs.BOM_UTF8):
        return "utf-8-sig"
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    head = data[:2000]
    for encoding, high in (("utf-16-le", head[1::2]), ("utf-16-be", head[::2])):
        if high and high.count(0) > len(high) * 0.6:
            return encoding
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def _text_rows(name: str, data: bytes, known: Known) -> tuple[list[RawRow], list[Finding]]:
    text, encoding = text_of(name, data)
    top = text.splitlines()[: heads.SEARCHED]
    separator = max(SEPARATORS, key=lambda one: _columns_found(top, one, known))
    notes = []
    if encoding == "cp1252":
        notes.append(Finding(0, "", "read as Windows-1252, since it is not UTF-8"))
    return list(_split(name, text, separator)), notes


def _columns_found(top: Sequence[str], separator: str, known: Known) -> int:
    """How many of our columns the heading row shows when split so."""
    rows = [[cell_text(cell) for cell in cells] for cells in csv.reader(top, delimiter=separator)]
    return heads.heading_place(rows, known)[1]


def _split(name: str, text: str, separator: str) -> Iterator[RawRow]:
    # strict, because a quotation mark left open would otherwise swallow the rows below it unseen
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    line = 1
    try:
        for cells in reader:
            yield line, cells
            line = reader.line_num + 1
    except csv.Error:
        raise Unreadable(
            name,
            "a sheet",
            f'from line {line} on a quotation mark is out of place; write "" inside a quoted cell',
        ) from None


def _workbook_rows(name: str, data: bytes, known: Known) -> tuple[list[RawRow], list[Finding]]:
    try:
        sheets = _sheets_of(data)
    except Exception:  # a broken archive fails in as many ways as it has parts
        raise FileTrouble(name, "this spreadsheet cannot be opened; save it anew as xlsx") from None
    return _with_most_headings(sheets, known)


def _sheets_of(data: bytes) -> list[tuple[str, list[RawRow]]]:
    """Every sheet of a workbook, its merged cells filled."""
    from openpyxl import load_workbook

    merged = _has_merged_cells(data)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of charts and rules that no row needs
        # read_only is a third faster and knows nothing of merged cells
        book = load_workbook(io.BytesIO(data), read_only=not merged, data_only=True)
        return [(sheet.title, _rows_of(sheet, merged)) for sheet in book.worksheets]


def _has_merged_cells(data: bytes) -> bool:
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        sheets = [part for part in parts.namelist() if part.startswith("xl/worksheets/")]
        return any(b"mergeCell" in parts.read(part) for part in sheets)


def _rows_of(sheet: Any, merged: bool) -> list[RawRow]:
    if not merged:
        sheet.reset_dimensions()  # some programs write a size that cuts rows off
        return list(enumerate(sheet.iter_rows(values_only=True), 1))
    rows = [[*cells] for cells in sheet.iter_rows(values_only=True)]
    for span in sheet.merged_cells.ranges:
        value = rows[span.min_row - 1][span.min_col - 1]
        for row in rows[span.min_row - 1 : span.max_row]:
            row[span.min_col - 1 : span.max_col] = [value] * (span.max_col - span.min_col + 1)
    return list(enumerate(rows, 1))


def _with_most_headings(
    sheets: Sequence[tuple[str, list[RawRow]]], known: Known
) -> tuple[list[RawRow], list[Finding]]:
    """The sheet that shows the most of our columns, the first of equals; the others are named."""
    able = [(_columns_shown(rows, known), title, rows) for title, rows in sheets]
    if not able:
        return [], []
    _, chosen, rows = max(able, key=lambda one: one[0])
    notes = [
        Finding(0, "", f"read from the sheet {chosen!r}; {title!r} was left alone")
        for columns, title, _ in able
        if columns >= 2 and title != chosen
    ]
    return rows, notes


def _columns_shown(rows: Sequence[RawRow], known: Known) -> int:
    top = [[cell_text(value) for value in cells] for _, cells in rows[: heads.SEARCHED]]
    return heads.heading_place(top, known)[1]


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
