"""A sheet that was read, booked; and the shelf or the whole file written out."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from stash.actions import clock, export, likeness, writing
from stash.actions.add import (
    Received,
    SheetStamp,
    copy_first,
    receive,
    refuse_again,
    taken_in_before,
)
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.settings import read_settings
from stash.errors import BadSheet, Refusal, Unreadable
from stash.exchange import give_out as sheets
from stash.exchange.findings import Answers, Finding
from stash.exchange.shapes import SheetSkein
from stash.exchange.take_in import Sheet, read_sheet
from stash.parsing import headings
from stash.rendering.amounts import counted
from stash.rendering.printable import plain
from stash.rendering.sentences.say import sentence


def sheet_for(
    book: Book | None,
    named: tuple[str, bytes],
    maps: Mapping[str, str],
    answers: Answers | None = None,
) -> Sheet:
    """A sheet (its name and bytes) read for a book, with what she said of headings before.

    Its notes say too which yarns may be the same as others. `maps` is said of headings now.
    """
    settings = read_settings(book) if book else Settings()
    known = headings.KnownHeadings(maps, headings.remembered(settings.kept or {}))
    sheet = read_sheet(*named, clock.today(), settings.currency, known, answers)
    twins = [
        Finding(row, "yarn", sentence(doubt)) for row, doubt in likeness.twins_in(book, sheet.rows)
    ]
    return replace(sheet, notes=(*sheet.notes, *twins))


def refuse_unless_good(sheet: Sheet, *, good_rows: bool) -> None:
    """All or nothing, unless only the good rows were asked for; an empty sheet is refused."""
    if sheet.findings and not good_rows:
        raise BadSheet(sheet.name, sheet.findings)
    if not sheet.rows:
        raise Unreadable(sheet.name, "sheet_without_rows")


def refuse_if_taken_in_before(book: Book, name: str, data: bytes) -> None:
    """The same bytes twice are refused: they would put the same skeins on the shelf again."""
    refuse_again(name, taken_in_before(book, _digest(data)))


def book_sheet(
    book: Book,
    sheet: Sheet,
    data: bytes,
    *,
    on: date | None = None,
    opening: date | None = None,
    again: bool = False,
) -> Received:
    """Every row that was read, in one entry, after a copy of the file was made beside it.

    Each skein arrives on the day it was bought, where that lies before `on`. With `opening` all of
    them were on the shelf on the morning of that day: the entry is of the day before.
    """
    if opening is not None:
        _refuse_bought_since(sheet, opening)
        on = opening - timedelta(days=1)
    copy_first(book)
    return receive(
        book,
        [line for _, line in sheet.rows],
        kind="opening" if opening else "import",
        on=on,
        sheet=SheetStamp(sheet.name, _digest(data), again, opening),
        habits={"currency": sheet.currency, **sheet.units},
        chosen={headings.setting(key): column for key, column in sheet.mapped},
    )


def _refuse_bought_since(sheet: Sheet, opening: date) -> None:
    since = tuple(row for row, line in sheet.rows if line.bought and line.bought >= opening)
    if since:
        raise Refusal("bought_since", opening=opening, rows=since)


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def whole_file_from(name: str, data: bytes) -> dict[str, Any]:
    """A whole file as it was given out in json; refused if it is anything else."""
    try:
        given = json.loads(data, object_hook=_plain_texts)
        given["tables"]["entry"][0:0]
    except (ValueError, KeyError, TypeError, RecursionError):
        raise Unreadable(name, "no_whole_file") from None
    export.refuse_if_not_ours(name, given)
    return dict(given)


def _plain_texts(row: dict[str, Any]) -> dict[str, Any]:
    """A row without the letters that are orders to a terminal, as everything typed is read."""
    return {key: plain(value) if isinstance(value, str) else value for key, value in row.items()}


def give_out(book: Book, target: Path, *, over: bool) -> str:
    """Write the shelf (csv, xlsx) or everything (json); what was written, in words."""
    writing.refuse_to_write(target, over=over)
    if target.suffix.lower() == ".json":
        data = json.dumps(export.whole_file(book), ensure_ascii=False, indent=1).encode()
        what = "everything in your file"
    else:
        facts, currency = export.skeins(book)
        rows = sheets.sheet_rows([SheetSkein(*one) for one in facts], currency)
        data = sheets.to_csv(rows) if target.suffix.lower() == ".csv" else sheets.to_xlsx(rows)
        what = counted(len(rows), "skein")
    writing.write(target, data, over=over)
    return what
