"""Yarn comes onto the shelf: a label line, the same again, or many lines at once."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    File,
    On,
    begun,
    day,
    note,
    open_book,
    refuse,
    say,
    settings_of,
    strong,
    swatch,
    whole,
)

if TYPE_CHECKING:
    from stash.actions.receive import Arrived
    from stash.stock.incoming import Incoming
    from stash.wording.label_line import Label


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(add)


def add(
    text: Annotated[
        list[str] | None, typer.Argument(help="A label line as you would read it out; - for many.")
    ] = None,
    like: Annotated[
        str, typer.Option("--like", help="Same again: a skein or lot that says the rest.")
    ] = "",
    count: Annotated[int | None, typer.Option(help="How many skeins like this.")] = None,
    lot: Annotated[str, typer.Option(help="Dye lot; 'none' where the band claims none.")] = "",
    place: Annotated[str, typer.Option(help="Where it lies.")] = "",
    paid: Annotated[str, typer.Option(help="For the whole line; '3.20 each' for one.")] = "",
    colour: Annotated[str, typer.Option(help="The colour in words.")] = "",
    hexes: Annotated[str, typer.Option("--hex", help="#rrggbb, several with slashes.")] = "",
    tare: Annotated[str, typer.Option(help="Weight of its core or bag.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Put yarn on the shelf. As a label reads: "Fell Wool DK, 3 x 50g/120m, navy, lot 48213"."""
    from stash.actions.receive import receive
    from stash.wording import coins, quantities

    currency = settings_of(file).currency
    typed = " ".join(text or [])
    if text is None and not like:
        refuse("say what came, as you would read its label out; --like L4 is the same again")
    read = (
        _many(sys.stdin.read(), currency) if typed == "-" else [_one(typed, like, currency, file)]
    )
    lines = []
    for one in read:
        line = _overruled(one.line, lot, place, colour, hexes, tare)
        lines.append(_counted_and_priced(line, count, paid, currency))
    told = [_with_what_is_known(line, file, like) for line in lines]
    habits = {
        "currency": coins.currency_in(f"{paid} {' '.join(one.typed for one in read)}"),
        "units": "yards" if quantities.mostly_yards(one.typed for one in read) else "",
    }
    book = open_book(file, begin=True)
    received = receive(book, [line for line, _ in told], on=day(on), habits=habits)
    for arrived, one, (line, notes) in zip(received.arrived, read, told, strict=True):
        say(_added(arrived, received.entry))
        _say_understood(one.label, line, notes)


@dataclass(frozen=True, slots=True)
class _Read:
    """One line as typed and as read; no label where it is the very same again."""

    typed: str
    line: Incoming
    label: Label | None


def _one(typed: str, like: str, currency: str, file: Path | None) -> _Read:
    from stash.actions import clock, likeness
    from stash.wording import label_line

    if like and not typed:
        return _Read(typed, likeness.like(open_book(file), like, None), None)
    label = label_line.read(typed, clock.today(), currency)
    line = replace(label.incoming, typed=typed)
    if like:
        line = _as_colour(line, label_line.NO_NAME)
        line = likeness.like(open_book(file), like, line)
    return _Read(typed, line, label)


def _as_colour(line: Incoming, no_name: str) -> Incoming:
    """With the yarn known already, a word that is no fact can only be the colour."""
    if line.colour or line.name == no_name:
        return line
    return replace(line, colour=line.name)


def _many(text: str, currency: str) -> list[_Read]:
    """Lines of yarn, one each; all of them or none."""
    from stash.actions import clock
    from stash.errors import BadInput
    from stash.wording import label_line

    read, bad = [], []
    for number, typed in enumerate(text.splitlines(), start=1):
        if not typed.strip():
            continue
        try:
            label = label_line.read(typed, clock.today(), currency)
            read.append(_Read(typed, replace(label.incoming, typed=typed), label))
        except BadInput as wrong:
            bad.append(f"line {number}: {wrong}")
    if bad:
        for finding in bad:
            note(finding)
        refuse(f"{len(bad)} of the lines cannot be read, none was added: mend them, give all again")
    if not read:
        refuse("no line of yarn was given; type one yarn on a line")
    return read


def _with_what_is_known(
    line: Incoming, file: Path | None, like: str
) -> tuple[Incoming, Sequence[str]]:
    """The line with what records of the same yarn say; where there is no file nothing is known."""
    from stash.actions.likeness import filled_from_known

    if like or not begun(file):
        return line, ()
    filled = filled_from_known(open_book(file), line)
    return filled.line, filled.notes


def _overruled(
    line: Incoming, lot: str, place: str, colour: str, hexes: str, tare: str
) -> Incoming:
    """The line as read, with what the options say in its place."""
    from stash.wording import facts, label_lot, quantities

    if lot:
        said = label_lot.lot(lot)
        line = replace(line, lot=said.text, lot_state=said.state)
    if colour:
        line = replace(line, colour=colour, colours=facts.named_colour(colour))
    if hexes:
        line = replace(line, colours=facts.hexes(hexes))
    if tare:
        line = replace(line, tare=quantities.mass(tare))
    return replace(line, place=place) if place else line


def _counted_and_priced(line: Incoming, count: int | None, paid: str, currency: str) -> Incoming:
    from stash.exchange.cells import MOST_SKEINS
    from stash.wording import facts

    if count is not None:
        line = replace(line, count=whole("--count", count, MOST_SKEINS))
    if not paid:
        return line
    price, each = facts.price(paid, currency)
    return replace(line, paid=price * line.count if each else price)


def _added(arrived: Arrived, entry: int) -> str:
    from stash.wording import show as shown

    lot, line = arrived.lot, arrived.line
    count = shown.counted(len(arrived.skeins), "skein")
    head = f"Added {count}, number {shown.numbers(arrived.skeins)}: "
    what = f"{swatch([c.hex for c in lot.colours])}{lot.yarn}, {lot.colour_words}, {lot.lot_words}"
    notes = "".join(f"\n  note: {text}" for text in arrived.notes)
    left = "" if line.left is None else ", opened"
    return f"{strong(head)}{what}{left}  (entry {entry}, lot {lot.ref}){notes}"


def _say_understood(label: Label | None, line: Incoming, notes: Sequence[str]) -> None:
    if label is None:
        return
    if label.understood:
        say("  read as: " + "; ".join(f"{name} {value}" for name, value in label.understood))
    given = {
        "lot": bool(line.lot),
        "colour": bool(line.colour),
        "weight": line.full_mass is not None,
        "length": line.full_length is not None,
        "class": line.class_from is not None,
        "fibre": bool(line.fibre),
    }
    unknown = [name for name in label.left_unknown if not given.get(name)]
    if unknown:
        say("  not known: " + ", ".join(unknown))
    for text in (*label.notes, *notes):
        say(f"  note: {text}")
