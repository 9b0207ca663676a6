"""Setting yarn aside, beginning an item and finishing it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

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
    items_meant,
    listed_alone,
    only_item,
    open_book,
    page,
    page_of,
    refuse,
    rows_of_a_list,
    say,
    say_notes,
    say_shorts,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.cli.ordered import (
    for_order,
    order_number,
    ordered_as,
    orders_watched,
    size_ordered,
    sized,
)
from stash.parsing.wish.typed import by_role

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.done import Known
    from stash.actions.finished import Finished
    from stash.actions.order import ForOrder
    from stash.actions.use import Amount
    from stash.parsing.wish.typed import WishWords

OrderName = Annotated[
    str, typer.Option("--order", help="The order it is for, as `stash order list` shows.")
]
ItemNames = Annotated[
    str,
    typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or the design's name."),
]


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
    size: Annotated[str, typer.Option("--size", help="Another size of it: man, 58cm.")] = "",
    skein: Annotated[str, typer.Option("--skein", help="With --note: which skein, as 12.")] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    order: OrderName = "",
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
    book = open_book(file)
    mine = order_number(order)
    if mine is not None:
        if text:
            refuse("note_for_order")
        design, words = ordered_as(book, mine, design, words, found=bool(which or skeins))
    if text and size:
        refuse("note_for_size")
    if design and not text:
        design = design_meant(file, design)
    fill = for_order(book, order)
    at = sized(book, design, size or size_ordered(book, fill, design)) if design else None
    with orders_watched(book, mine):
        if text:
            made = act.aside_note(book, text, _skein(skein), _amount(design), on=day(on))
        elif skeins:
            chosen = _own_choice(skeins)
            made = act.aside_own_choice(book, design, chosen, order=fill, sized=at, on=day(on))
        elif design:
            wish = wish_typed(words)
            made = act.aside(book, design, which, wish, order=fill, sized=at, on=day(on))
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


def release(
    items: ItemNames = "",
    role: Annotated[
        str, typer.Option("--colour", metavar="A", help="Only the yarn of one colour, as A.")
    ] = "",
    file: File = None,
) -> None:
    """Free the yarn that is set aside for items, all of it or one colour."""
    from stash.actions.release import release
    from stash.rendering import figures
    from stash.rendering import several as rendered

    book = open_book(file)
    meant = items_meant(file, items, "release")
    released = release(book, meant, role.strip().upper() or None)
    say(figures.settled(lambda: rendered.items_released(*released, page())))


def begin(items: ItemNames = "", on: On = "", file: File = None) -> None:
    """Note that you have begun items."""
    from stash.actions.aside import begin
    from stash.rendering import several as rendered

    meant = items_meant(file, items, "begin")
    say(rendered.items_begun(*begin(open_book(file), meant, on=day(on)), page()))


def done(
    items: ItemNames = "",
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
    sheet: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="A list of item, ball and reading."),
    ] = None,
    hours: Annotated[str, typer.Option(help="What each really took, as 2h10.")] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    order: OrderName = "",
    on: On = "",
    file: File = None,
) -> None:
    """Finish items. What is left goes back on your shelf, and the next estimate gets better."""
    from stash.actions.cautions import cautions_of
    from stash.parsing import work
    from stash.parsing.design import design as design_typed
    from stash.rendering import figures
    from stash.rendering import several as rendered

    wearer = design_typed.meant_for(whom)
    known = _known(left or [], weighed, as_planned)
    also = _Also(work.minutes(hours) if hours else None, for_order(open_book(file), order), day(on))
    if sheet is not None:
        listed_alone(ITEMS=items, **{"--left": left, "--weighed": weighed,
                                     "--as-planned": as_planned})  # fmt: skip
        finished = _done_listed(sheet, also, file)
    else:
        meant = items_meant(file, items, "done")
        only_item(meant, left=left)
        finished = _done(open_book(file), dict.fromkeys(meant, known), also)
    warned = (one for each in finished for one in cautions_of(each.plan, each.lots, wearer))
    cautions, shown_on = [*dict.fromkeys(warned)], page_of(finished[0].settings)
    say(figures.settled(lambda: rendered.items_done(finished, cautions, shown_on)))
    say_notes(note for each in finished for note in each.notes)
    say_shorts(finished[0].shorts)


class _Also(NamedTuple):
    """What is said of each item that is done: the minutes it took, its order, the day."""

    minutes: int | None
    order: ForOrder | None
    on: date | None


def _done(book: Book, known: Mapping[str, Known], also: _Also) -> Sequence[Finished]:
    from stash.actions.done import done

    return done(book, known, **also._asdict())


def _done_listed(sheet: Path, also: _Also, file: Path | None) -> Sequence[Finished]:
    from stash.actions.done_list import done_listed
    from stash.exchange import item_lists

    book = open_book(file)
    with rows_of_a_list():
        listed = item_lists.weighings(sheet)
        return done_listed(book, listed, **also._asdict())


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
