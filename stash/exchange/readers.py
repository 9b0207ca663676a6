"""From the bytes of a csv or xlsx file to rows of cells under our own columns."""

from __future__ import annotations

import codecs
import csv
import io
import re
import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from stash.errors import FileTrouble, Unreadable
from stash.exchange import shapes
from stash.exchange.findings import Finding

#: In order of trust when a heading row can be split by more than one of them equally well.
SEPARATORS = (";", "\t", ",")

#: A first cell that says the row adds up the ones above it.
TOTALS = re.compile(r"(grand |sub-? ?)?(totals?|sum)\b[\s:=.\d]*", re.IGNORECASE)

#: What stands for the cell above in sheets kept by hand (common practice, no source).
DITTO = frozenset({'"', "''", "”", "〃", "ditto", "see above", "as above", "same as above"})

#: Invisible characters that sheets carry along; the soft spaces are spaces to a reader.
_UNSEEN = str.maketrans({"\ufeff": None, "\u200b": None, "\x00": None, "\u00a0": " "})

#: One row as the file holds it: its line, and its cells as text, number, date or nothing.
RawRow = tuple[int, Sequence[object]]


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its line in the file and its cells by our columns, blank ones left out.

    `not_text` names the cells a spreadsheet kept as a number or a day rather than as typed.
    """

    line: int
    cells: dict[str, str]
    not_text: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a sheet, which heading was taken for which column, and what was passed over."""

    headings: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]


def bytes_of(path: Path) -> bytes:
    """What a file holds; `FileTrouble` where it cannot be read."""
    try:
        return path.read_bytes()
    except OSError as trouble:
        raise FileTrouble(path, f"cannot be read ({trouble.strerror})") from trouble


def read_table(name: str, data: bytes) -> Table:
    """The rows of a sheet under our own columns, whatever it was saved by.

    A title above the headings, empty rows and totals are passed over; a cell that says "see above"
    is filled from the row above. Raises `FileTrouble` where
    the file is no sheet, `Unreadable` where no row names at least two of our columns.
    """
    if data.startswith(b"PK\x03\x04"):
        raw, notes = _workbook_rows(name, data)
    elif data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileTrouble(name, "an old kind of spreadsheet; save it as xlsx or csv and try again")
    else:
        raw, notes = _text_rows(name, data)
    return _table(name, raw, notes)


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


def _text_rows(name: str, data: bytes) -> tuple[list[RawRow], list[Finding]]:
    text, encoding = text_of(name, data)
    separator = max(SEPARATORS, key=lambda one: _columns_found(text, one))
    notes = []
    if encoding == "cp1252":
        notes.append(Finding(0, "", "read as Windows-1252, since it is not UTF-8"))
    return list(_split(name, text, separator)), notes


def _columns_found(text: str, separator: str) -> int:
    """How many of our columns the heading row shows when split so; 0 where there is none."""
    found = (
        len(_ours(cells)) for cells in csv.reader(text.splitlines()[:200], delimiter=separator)
    )
    return next((count for count in found if count >= 2), 0)


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


def _workbook_rows(name: str, data: bytes) -> tuple[list[RawRow], list[Finding]]:
    try:
        sheets = _sheets_of(data)
    except Exception:  # a broken archive fails in as many ways as it has parts
        raise FileTrouble(name, "this spreadsheet cannot be opened; save it anew as xlsx") from None
    return _first_with_headings(sheets)


def _sheets_of(data: bytes) -> list[tuple[str, list[RawRow]]]:
    from openpyxl import load_workbook

    sheets: list[tuple[str, list[RawRow]]] = []
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of charts and rules that no row needs
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        for sheet in book.worksheets:
            sheet.reset_dimensions()  # some programs write a size that cuts rows off
            sheets.append((sheet.title, list(enumerate(sheet.iter_rows(values_only=True), 1))))
    return sheets


def _first_with_headings(
    sheets: Sequence[tuple[str, Sequence[RawRow]]],
) -> tuple[list[RawRow], list[Finding]]:
    able = [(title, rows) for title, rows in sheets if _heading_place(rows) is not None]
    if not able:
        return [], []
    chosen, rows = able[0]
    notes = [
        Finding(0, "", f"read from the sheet {chosen!r}; {title!r} was left alone")
        for title, _ in able[1:]
    ]
    return list(rows), notes


def _ours(cells: Sequence[object]) -> dict[str, int]:
    """Our columns among the cells of a heading row, each with its place; the first one counts."""
    places: dict[str, int] = {}
    for place, cell in enumerate(cells):
        column = shapes.column_of(_text(cell))
        if column is not None:
            places.setdefault(column, place)
    return places


def _heading_place(rows: Sequence[RawRow]) -> int | None:
    return next((i for i, (_, cells) in enumerate(rows) if len(_ours(cells)) >= 2), None)


def _table(name: str, raw: Sequence[RawRow], notes: Sequence[Finding]) -> Table:
    at = _heading_place(raw)
    if at is None:
        raise Unreadable(
            name,
            "a sheet of yarn",
            f"no row names two columns or more; head them {', '.join(shapes.COLUMNS)}",
        )
    line, headings = raw[at][0], [_text(cell) for cell in raw[at][1]]
    places = _ours(headings)
    rows, findings, passed = _body(raw[at + 1 :], headings, places)
    return Table(
        headings=tuple((headings[place], column) for column, place in places.items()),
        rows=tuple(rows),
        findings=tuple(findings),
        notes=(*notes, *_left_out(line, headings, places), *passed),
    )


def _left_out(line: int, headings: Sequence[str], places: dict[str, int]) -> list[Finding]:
    taken = set(places.values())
    return [
        Finding(line, heading, "this column is not one of ours, and was left out")
        for place, heading in enumerate(headings)
        if heading and place not in taken
    ]


def _body(
    raw: Sequence[RawRow], headings: Sequence[str], places: dict[str, int]
) -> tuple[list[Row], list[Finding], list[Finding]]:
    """The rows below the headings, those with a cell too many, and the totals passed over."""
    rows, findings, passed = [], [], []
    above: list[str] = []
    for line, values in raw:
        cells = _filled_down([_text(value) for value in values], above)
        first = next(filter(None, cells), "")
        if not first or cells == headings:
            continue
        if TOTALS.fullmatch(first):
            passed.append(Finding(line, "", f"passed over as a row of totals ({first!r})"))
        elif any(cells[len(headings) :]):
            findings.append(Finding(line, "", _TOO_MANY))
        else:
            rows.append(_row(line, values, cells, places))
            above = cells
    return rows, findings, passed


def _filled_down(cells: list[str], above: Sequence[str]) -> list[str]:
    """The cells with those that only say "as above" filled from the row above."""
    for place, cell in enumerate(cells[: len(above)]):
        if cell.lower() in DITTO:
            cells[place] = above[place]
    return cells


_TOO_MANY = (
    "more cells than there are headings; where a comma parts the cells, put a cell that has a "
    'comma of its own in quotation marks, such as "1,5 oz"'
)


def _row(line: int, values: Sequence[object], cells: list[str], places: dict[str, int]) -> Row:
    filled = {
        column: place for column, place in places.items() if place < len(cells) and cells[place]
    }
    return Row(
        line,
        {column: cells[place] for column, place in filled.items()},
        frozenset(column for column, place in filled.items() if type(values[place]) is not str),
    )


def _text(value: object) -> str:
    """A cell as a person would have typed it."""
    if type(value) is str:
        return value.translate(_UNSEEN).strip()
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()
