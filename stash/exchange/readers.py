"""From the bytes of a csv or xlsx file to its rows, cell by cell."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from stash.errors import FileTrouble, Unreadable
from stash.exchange import header
from stash.exchange.findings import Finding
from stash.exchange.raw_rows import MOST_COLUMNS, RawRow, bounded, heading_text, too_large
from stash.parsing import names
from stash.parsing.headings import KnownHeadings

#: Where the headings are looked for, in letters.
_TOP = 1_000_000
#: In order of trust when a heading row can be split by more than one of them equally well.
SEPARATORS = (";", "\t", ",")

#: More than any shelf needs, and few enough to be read in a minute or so (our choice).
MOST_BYTES = 32_000_000
MOST_JSON = 256_000_000


def bytes_of(path: Path, most: int = MOST_BYTES) -> bytes:
    """What a file holds; `FileTrouble` where it cannot be read, or is larger than any sheet."""
    try:
        with path.open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError as missing:
        raise FileTrouble(path, "file_not_there", nearest=_beside(path)) from missing
    except OSError as trouble:
        raise FileTrouble(path, "not_to_be_opened", why=trouble.strerror) from trouble
    if len(data) > most:
        raise FileTrouble(path, "file_too_large", most_mb=most // 1_000_000)
    return data


def _beside(path: Path) -> tuple[str, ...]:
    """Files of a like name in the same folder."""
    with suppress(OSError):
        return tuple(names.closest(path.name, [one.name for one in path.parent.iterdir()]))
    return ()


def raw_rows(name: str, data: bytes, known: KnownHeadings) -> tuple[list[RawRow], list[Finding]]:
    """The rows of a file as it holds them, and what is to be said of how it was read."""
    if data.startswith(b"PK\x03\x04"):
        from stash.exchange import workbooks

        return workbooks.workbook_rows(name, data, known)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileTrouble(name, "old_spreadsheet")
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
        raise FileTrouble(name, "sheet_not_text") from None
    if "\x00" in text:
        raise FileTrouble(name, "not_a_sheet")
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


def _text_rows(name: str, data: bytes, known: KnownHeadings) -> tuple[list[RawRow], list[Finding]]:
    text, encoding = text_of(name, data)
    top = text[:_TOP].splitlines()[: header.SEARCHED]
    separator = max(SEPARATORS, key=lambda one: _columns_found(top, one, known))
    notes = []
    if encoding == "cp1252":
        notes.append(Finding(0, "", "read as Windows text, since it is not UTF-8"))
    return bounded(name, split(name, text, separator)), notes


def _columns_found(top: Sequence[str], separator: str, known: KnownHeadings) -> int:
    """How many of our columns the heading row shows when split so."""
    with suppress(csv.Error):
        rows = [
            [*map(heading_text, cells[:MOST_COLUMNS])]
            for cells in csv.reader(top, delimiter=separator)
        ]
        return header.heading_place(rows, known)[1]
    return 0


def split(name: str, text: str, separator: str) -> Iterator[RawRow]:
    """The rows of a text, each with the line it begins on."""
    # strict, because a quotation mark left open would otherwise swallow the rows below it unseen
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    line = 1
    try:
        for cells in reader:
            yield line, cells
            line = reader.line_num + 1
    except csv.Error as bad:
        if "field larger" in str(bad):
            raise too_large(name, "cell_too_long", line=line, most=csv.field_size_limit()) from None
        raise Unreadable(name, "quotation_out_of_place", line=line) from None
