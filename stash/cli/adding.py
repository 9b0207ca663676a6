"""Yarn comes onto the shelf: a label line, the same again, or many lines at once."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    Hexes,
    On,
    answer,
    begun,
    begun_book,
    day,
    note,
    open_book,
    page_of,
    refuse,
    say_habits,
    settings_of,
    whole,
)

if TYPE_CHECKING:
    from stash.actions.add import Received
    from stash.actions.arriving import Arrived
    from stash.actions.her_settings import Settings
    from stash.exchange.label_lines import Beside, LineRead, Reader
    from stash.rendering.add import Added


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(add)


def add(
    text: Annotated[
        list[str] | None,
        typer.Argument(help="The label as you would read it out; - reads many lines."),
    ] = None,
    like: Annotated[
        str, typer.Option("--like", help="The same as a skein or lot you have, as L4.")
    ] = "",
    count: Annotated[int | None, typer.Option(help="How many skeins, as 3.")] = None,
    lot: Annotated[str, typer.Option(help="Dye lot; none if the band says there is none.")] = "",
    place: Annotated[str, typer.Option(help="Where you keep it, as 'blue box'.")] = "",
    paid: Annotated[str, typer.Option(help="What you paid in all, as 9.60; or '3.20 each'.")] = "",
    colour: Annotated[str, typer.Option(help="The colour in words, as 'dark teal'.")] = "",
    hexes: Hexes = "",
    tare: Annotated[str, typer.Option(help="What its core or bag weighs, as 12g.")] = "",
    maker: Annotated[str, typer.Option(help="Who made the yarn.")] = "",
    owner: Annotated[str, typer.Option(help="Whose yarn it is.")] = "",
    bought: Annotated[str, typer.Option(help="The day you bought it, as 2026-05-31.")] = "",
    more: Annotated[str, typer.Option("--note", help="Anything else to remember.")] = "",
    new: Annotated[
        bool, typer.Option("--new", help="Not the yarn with nearly the same name.")
    ] = False,
    on: On = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Put yarn on the shelf. Type the label: "Fell Wool DK, 3 x 50g/120m, navy, lot 48213"."""
    from stash.actions import clock
    from stash.exchange.label_lines import Beside, Reader, book_lines

    typed = " ".join(text or [])
    if text is None and not like:
        refuse("nothing_typed")
    said = Beside(
        like=like,
        new=new,
        facts=_facts(
            count=_count(count), lot=lot, place=place, paid=paid, colour=colour, hex=hexes,
            tare=tare, maker=maker, owner=owner, bought=bought,
        ),
        more=more,
    )  # fmt: skip
    book = open_book(file) if begun(file) or like else None
    reader = Reader(book, clock.today(), settings_of(file).currency)
    read = _many(sys.stdin.read(), reader, said) if typed == "-" else [reader.line(typed, said)]
    with begun_book(file) as book:
        received = book_lines(book, read, day(on))
    _say_added(received, read, how, settings_of(file))


def _facts(**typed: str) -> dict[str, str]:
    """The facts that were typed; an option left out says nothing."""
    return {column: text for column, text in typed.items() if text}


def _count(count: int | None) -> str:
    from stash.exchange.cells import MOST_SKEINS

    return "" if count is None else str(whole("--count", count, MOST_SKEINS))


def _many(text: str, reader: Reader, said: Beside) -> list[LineRead]:
    """Lines of yarn, one each; all of them or none. A line that begins with `# ` is a remark."""
    from stash.errors import StashError
    from stash.rendering.sentences.say import sentence

    read, bad = [], 0
    for number, _, one in reader.lines(text, said):
        if isinstance(one, StashError):
            note(f"line {number}: {sentence(one)}")
            bad += 1
        else:
            read.append(one)
    if bad:
        refuse("bad_lines", count=bad)
    if not read:
        refuse("no_lines")
    return read


def _say_added(received: Received, read: Sequence[LineRead], how: As, settings: Settings) -> None:
    """What came, line by line; as json the one line is no list, many are."""
    from stash.rendering import add as rendered

    came = [
        _added(arrived, received.entry, one)
        for arrived, one in zip(received.arrived, read, strict=True)
    ]
    page = page_of(settings)
    keys = [rendered.keys(one, settings.currency) for one in came]
    answer(
        how,
        lambda: keys if len(keys) > 1 else keys[0],
        lambda: rendered.text(came, page),
        lambda: rendered.rows(came),
    )
    say_habits(received.habits)


def _added(arrived: Arrived, entry: int, one: LineRead) -> Added:
    """One line as it came in, with what was understood and what it does not say."""
    from stash.rendering.add import Added

    label = one.label
    return Added(
        entry,
        arrived.line,
        arrived.lot,
        arrived.skeins,
        label.understood if label else (),
        one.unknown,
        (*arrived.notes, *(label.notes if label else ()), *one.notes),
    )
