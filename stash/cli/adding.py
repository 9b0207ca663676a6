"""Yarn comes onto the shelf: a label line, the same again, or many lines at once."""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
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
    from stash.measures.note import Note
    from stash.parsing.label import Label
    from stash.rendering.add import Added
    from stash.stock.incoming import Incoming


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
    from stash.actions.add import receive
    from stash.parsing import coins, quantities

    typed = " ".join(text or [])
    if text is None and not like:
        refuse("nothing_typed")
    said = _Options(
        like, count, lot, place, paid, colour, hexes, tare, maker, owner, bought, more, new,
        settings_of(file).currency, file,
    )  # fmt: skip
    read = _many(sys.stdin.read(), said) if typed == "-" else [_one(said, typed)]
    habits = {
        "currency": coins.currency_in(f"{paid} {' '.join(one.typed for one in read)}"),
        **quantities.units_typed(one.typed for one in read),
    }
    with begun_book(file) as book:
        received = receive(book, [one.line for one in read], on=day(on), habits=habits)
    _say_added(received, read, how, settings_of(file))


@dataclass(frozen=True, slots=True)
class _Options:
    """What was said beside the label, of every line alike."""

    like: str
    count: int | None
    lot: str
    place: str
    paid: str
    colour: str
    hexes: str
    tare: str
    maker: str
    owner: str
    bought: str
    more: str
    new: bool
    currency: str
    file: Path | None


@dataclass(frozen=True, slots=True)
class _Read:
    """One line as typed and as read; no label where it is the very same again."""

    typed: str
    line: Incoming
    label: Label | None
    notes: Sequence[str | Note] = ()


def _one(said: _Options, typed: str) -> _Read:
    """A line read, and filled from what is known; `--like L1` and `--new` may lead it."""
    from stash.actions import clock, likeness
    from stash.parsing import label as labels

    typed, said = _led(typed, said)
    if said.like and not typed:
        return _Read(typed, _overruled(likeness.like(open_book(said.file), said.like), said), None)
    known = likeness.like(open_book(said.file), said.like).name if said.like else ""
    label = labels.read(typed, clock.today(), said.currency, known=known)
    line = label.incoming
    if said.like:
        line = likeness.like(open_book(said.file), said.like, line)
        return _Read(typed, _overruled(line, said), label)
    line = _overruled(line, said)
    if line.name == labels.NO_NAME or not begun(said.file):
        return _Read(typed, line, label)
    filled = likeness.filled_from_known(open_book(said.file), line, another=said.new)
    return _Read(typed, filled.line, label, filled.notes)


_LED = re.compile(r'--(?:new|like (?P<like>L\d+)) "(?P<line>.*)"', re.DOTALL)


def _led(typed: str, said: _Options) -> tuple[str, _Options]:
    """The line without an option in front of it, as a question offers one to type."""
    led = _LED.fullmatch(typed)
    if not led:
        return typed, said
    return led["line"], replace(said, like=led["like"] or said.like, new=not led["like"])


def _many(text: str, said: _Options) -> list[_Read]:
    """Lines of yarn, one each; all of them or none. A line that begins with `# ` is a remark."""
    from stash.errors import BadInput, Undecided
    from stash.rendering.sentences.say import sentence

    read, bad = [], []
    for number, typed in enumerate(text.splitlines(), start=1):
        if not typed.strip() or typed.lstrip().startswith("# "):
            continue
        try:
            read.append(_one(said, typed))
        except (BadInput, Undecided) as wrong:
            bad.append(f"line {number}: {sentence(wrong)}")
    if bad:
        for finding in bad:
            note(finding)
        refuse("bad_lines", count=len(bad))
    if not read:
        refuse("no_lines")
    return read


def _overruled(line: Incoming, said: _Options) -> Incoming:
    """The line as read, with what the options say in its place."""
    from stash.exchange.cells import MOST_SKEINS
    from stash.parsing import facts, quantities
    from stash.parsing.label import lots

    if said.lot:
        lot = lots.lot(said.lot)
        line = replace(line, lot=lot.text, lot_state=lot.state)
    if said.colour:
        line = replace(line, colour=said.colour, colours=facts.named_colour(said.colour))
    if said.hexes:
        line = replace(line, colours=facts.hexes(said.hexes))
    if said.count is not None:
        line = replace(line, count=whole("--count", said.count, MOST_SKEINS))
    if said.paid:
        line = replace(line, paid=facts.paid(said.paid, said.currency, line.full_skeins))
    return replace(
        line,
        tare=quantities.mass(said.tare) if said.tare else line.tare,
        place=said.place or line.place,
        maker=said.maker or line.maker,
        owner=said.owner or line.owner,
        bought=day(said.bought) or line.bought,
        note="; ".join(text for text in (line.note, said.more) if text),
    )


def _say_added(received: Received, read: Sequence[_Read], how: As, settings: Settings) -> None:
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


def _added(arrived: Arrived, entry: int, one: _Read) -> Added:
    """One line as it came in, with what was understood and what it does not say."""
    from stash.rendering.add import Added

    label = one.label
    return Added(
        entry,
        arrived.line,
        arrived.lot,
        arrived.skeins,
        label.understood if label else (),
        _unknown(one.line, label) if label else (),
        (*arrived.notes, *(label.notes if label else ()), *one.notes),
    )


def _unknown(line: Incoming, label: Label) -> list[str]:
    """The important facts that neither the label nor an option says."""
    given = {
        "lot": bool(line.lot),
        "colour": bool(line.colour),
        "weight": line.full_mass is not None,
        "length": line.full_length is not None,
        "thickness": line.thickness_from is not None,
        "fibre": bool(line.fibre),
    }
    return [name for name in label.left_unknown if not given.get(name)]
