"""Setting yarn aside, beginning an item and finishing it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    FOR_WHOM,
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    design_meant,
    item_meant,
    open_book,
    page_of,
    refuse,
    say,
    say_notes,
    say_shorts,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.cli.ordered import order_number, ordered_as, orders_watched
from stash.parsing.wish.typed import by_role

if TYPE_CHECKING:
    from stash.actions.done import Known
    from stash.actions.use import Amount
    from stash.parsing.wish.typed import WishWords

ForOrder = Annotated[
    str, typer.Option("--order", help="The order it is for, as `stash order list` shows.")
]
ItemName = Annotated[str, typer.Argument(help="Its number, or the design's name.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (asks_the_shelf(aside), release, begin, done):
        app.command()(command)


def aside(
    design: Annotated[str, typer.Argument(help="A design you saved.")] = "",
    which: Annotated[
        str, typer.Argument(help="Its number or letters in `stash match`, as 2 or L1+L2; else 1.")
    ] = "",
    skeins: Annotated[
        list[str] | None,
        typer.Option("--skeins", help="Skeins you choose: A=12,13. Repeat for more."),
    ] = None,
    text: Annotated[str, typer.Option("--note", help="No design? Say what the yarn is for.")] = "",
    skein: Annotated[str, typer.Option("--skein", help="With --note: which skein, as 12.")] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    order: ForOrder = "",
    on: On = "",
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """Set yarn aside for an item. Take a set from `stash match`, or choose your own skeins."""
    from stash.actions import aside as act
    from stash.actions.cautions import cautions_of
    from stash.parsing.design import design as design_typed
    from stash.rendering import aside as rendered

    wearer = design_typed.meant_for(whom)
    book, mine = open_book(file), order_number(order)
    if mine is not None:
        if text:
            refuse("note_for_order")
        design, words = ordered_as(book, mine, design, words, found=bool(which or skeins))
    if design and not text:
        design = design_meant(file, design)
    with orders_watched(book, mine):
        if text:
            made = act.aside_note(book, text, _skein(skein), _amount(design), on=day(on))
        elif skeins:
            chosen = _own_choice(skeins)
            made = act.aside_own_choice(book, design, chosen, order=mine, on=day(on))
        elif design:
            wish = wish_typed(words)
            made = act.aside(book, design, which, wish, order=mine, on=day(on))
        else:
            refuse("nothing_to_set_aside")
    lots = [picked.lot for picked in made.picked]
    cautions, page = cautions_of(made.plan, lots, wearer), page_of(made.settings)
    answer(
        how,
        lambda: rendered.keys(made, cautions),
        lambda: rendered.text(made, cautions, page),
        lambda: rendered.rows(made),
    )


def _skein(text: str) -> str:
    return text or refuse("note_without_skein")


def _amount(text: str) -> Amount | None:
    from stash.actions.use import Amount
    from stash.parsing import quantities

    return Amount(text, quantities.amount(text)) if text else None


def _own_choice(texts: Sequence[str]) -> dict[str, list[int]]:
    from stash.parsing.numbers import listed

    chosen = {}
    for role, typed in by_role(texts, "--skeins").items():
        numbers = listed(typed)
        if not numbers or not all(re.fullmatch(r"[0-9]{1,9}", number) for number in numbers):
            refuse("no_skein_numbers", typed=typed, role=role)
        chosen[role] = [int(number) for number in numbers]
    return chosen


def release(item: ItemName = "", file: File = None) -> None:
    """Free the yarn that is set aside for an item."""
    from stash.actions.aside import release
    from stash.rendering import aside as rendered
    from stash.rendering import figures

    released = release(open_book(file), item_meant(file, item, "release"))
    say(figures.settled(lambda: rendered.released_text(*released)))


def begin(item: ItemName = "", on: On = "", file: File = None) -> None:
    """Note that you have begun an item."""
    from stash.actions.aside import begin
    from stash.rendering import aside as rendered

    say(rendered.begun_text(*begin(open_book(file), item_meant(file, item, "begin"), on=day(on))))


def done(
    item: ItemName = "",
    left: Annotated[
        list[str] | None,
        typer.Option("--left", help="What is left of a skein: 17=43g. Repeat for more."),
    ] = None,
    weighed: Annotated[
        str, typer.Option(help="What the item weighs: 80g, or by colour: A=71g,B=9g.")
    ] = "",
    as_planned: Annotated[
        bool, typer.Option("--as-planned", help="Not weighed: it took what was estimated.")
    ] = False,
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    order: ForOrder = "",
    on: On = "",
    file: File = None,
) -> None:
    """Finish an item. What is left goes back on your shelf, and the next estimate gets better."""
    from stash.actions.cautions import cautions_of
    from stash.actions.done import done
    from stash.parsing.design import design as design_typed
    from stash.rendering import done as rendered
    from stash.rendering import figures

    wearer = design_typed.meant_for(whom)
    known = _known(left or [], weighed, as_planned)
    book, meant = open_book(file), item_meant(file, item, "done")
    finished = done(book, meant, known, order=order_number(order), on=day(on))
    cautions = cautions_of(finished.plan, finished.lots, wearer)
    shown_on = page_of(finished.settings)
    say(figures.settled(lambda: rendered.text(finished, cautions, shown_on)))
    say_notes(finished.notes)
    say_shorts(finished.shorts)


def _known(left: Sequence[str], weighed: str, as_planned: bool) -> Known:
    from stash.actions.done import Known
    from stash.parsing import quantities
    from stash.parsing.design import design as design_typed

    balls = {}
    for text in left:
        skein, sign, reading = text.partition("=")
        if not sign or not skein.strip():
            refuse("no_ball_left", typed=text)
        balls[skein.strip()] = quantities.mass(reading)
    by_colour = "=" in weighed
    return Known(
        left=balls,
        total=quantities.mass(weighed) if weighed and not by_colour else None,
        by_role=dict(design_typed.weighed(weighed)) if by_colour else {},
        as_planned=as_planned,
    )
