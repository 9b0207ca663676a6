"""Sheets and whole files, in and out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    File,
    On,
    Over,
    begun,
    begun_book,
    day,
    note,
    open_book,
    progress,
    refuse,
    say,
    say_habits,
)
from stash.rendering.paint import strong

if TYPE_CHECKING:
    from stash.exchange.take_in import Sheet

Source = Annotated[Path, typer.Argument(help="A csv or xlsx sheet, or json from `stash export`.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command(name="import")(take_in)
    app.command(name="export")(give_out)


def take_in(
    source: Source,
    preview: Annotated[bool, typer.Option("--preview", help="Show it, import nothing.")] = False,
    good_rows: Annotated[bool, typer.Option("--good-rows", help="Skip unreadable rows.")] = False,
    again: Annotated[bool, typer.Option("--again", help="Import the same file again.")] = False,
    maps: Annotated[
        list[str] | None,
        typer.Option(
            "--map",
            metavar="HEADING=COLUMN",
            help="What a heading of yours means: Shade=colour; Shade= skips it. Remembered.",
        ),
    ] = None,
    opening: Annotated[
        str, typer.Option("--opening", help="You had this yarn by then, as 2026-01-01.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Bring in a sheet of yarn. All of it or nothing, and one `stash undo` cancels it."""
    from stash.exchange import booking, readers
    from stash.parsing import headings
    from stash.rendering.amounts import counted

    if on and opening:
        refuse("on_and_opening")
    whole = source.suffix.lower() == ".json"
    data = readers.bytes_of(source, readers.MOST_JSON if whole else readers.MOST_BYTES)
    if whole:
        _take_in_whole(source.name, data, preview, file)
        return
    if not (again or preview) and begun(file):
        booking.refuse_if_taken_in_before(open_book(file), source.name, data)
    progress(f"reading {source.name}")
    book = open_book(file) if begun(file) else None
    sheet = booking.sheet_for(book, (source.name, data), headings.mapped(maps or []))
    for finding in (*sheet.findings, *sheet.notes):
        note(f"{source.name}: {finding}")
    if preview:
        _say_preview(sheet)
        return
    booking.refuse_unless_good(sheet, good_rows=good_rows)
    progress(f"booking {len(sheet.rows)} rows")
    with begun_book(file) as book:
        received = booking.book_sheet(
            book, sheet, data, on=day(on), opening=day(opening), again=again
        )
    lots = len({arrived.lot.id for arrived in received.arrived})
    came = f"{counted(received.skeins, 'skein')} in {counted(lots, 'lot')}"
    say(f"{strong('Imported')} {came} from {source.name}  (entry {received.entry})")
    say_habits(received.habits)


#: So many rows of a preview are shown as they would come in.
_FIRST = 5


def _say_preview(sheet: Sheet) -> None:
    from stash.rendering import figures

    say(figures.settled(lambda: _preview_text(sheet)))


def _preview_text(sheet: Sheet) -> str:
    from stash.exchange import preview
    from stash.rendering.amounts import counted
    from stash.rendering.columns import columns

    skeins = sum(line.count + len(line.part_balls) for _, line in sheet.rows)
    read = f"{counted(len(sheet.rows), 'row')} to import, {counted(skeins, 'skein')}"
    bad = f"; {counted(len(sheet.findings), 'row')} to fix" if sheet.findings else ""
    mapped = "; ".join(str(head) for head in sheet.headings)
    first = columns(preview.rows(sheet.rows[:_FIRST], sheet.currency), indent="  ")
    more = f"\n  … and {len(sheet.rows) - _FIRST} more" if len(sheet.rows) > _FIRST else ""
    return f"{read}{bad}; nothing imported yet\nColumns: {mapped}\n{first}{more}".rstrip()


def _take_in_whole(name: str, data: bytes, preview: bool, file: Path | None) -> None:
    from stash.actions.export import take_in_whole
    from stash.exchange import booking

    given = booking.whole_file_from(name, data)
    entries = len(given["tables"]["entry"])
    if preview:
        say(f"a whole file of {entries} entries; nothing imported yet")
        return
    with begun_book(file) as book:
        take_in_whole(book, given)
    say(f"{strong('Imported')} a whole file of {entries} entries")


def give_out(
    target: Annotated[Path, typer.Argument(help="A new file, as yarn.csv, yarn.xlsx or all.json.")],
    over: Over = False,
    file: File = None,
) -> None:
    """Write your shelf to a sheet. With .json everything, the whole log too."""
    from stash.exchange import booking

    if target.suffix.lower() not in (".csv", ".xlsx", ".json"):
        refuse("no_kind_of_sheet", file=target.name)
    what = booking.give_out(open_book(file), target, over=over)
    say(f"{strong('Exported')} {what} to {target}")
