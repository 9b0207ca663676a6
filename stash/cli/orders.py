"""Orders: who wants what by when, for how much."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.batching import Watch, stopped_by_hand
from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    design_meant,
    note,
    open_book,
    page_of,
    refuse,
    say,
)
from stash.cli.ordered import order_number, ordered_of

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.order import OrderTyped

#: More than this many of one thing is a slip of the finger.
MOST = 10_000
OrderNumber = Annotated[
    str, typer.Argument(metavar="ORDER", help="Its number, as `stash order list` shows.")
]
Size = Annotated[str, typer.Option("--size", help="A size, as for a batch: woman, 58cm.")]
Colours = Annotated[
    list[str] | None,
    typer.Option(
        "--colour", metavar="ROLE=COLOUR", help="A colour it must have: A=blue; repeat it."
    ),
]
By = Annotated[str, typer.Option("--by", metavar="DAY", help="The day it is for, as 2026-12-12.")]
Price = Annotated[
    str, typer.Option("--price", metavar="MONEY", help="What was agreed for one, as 32.00.")
]
Count = Annotated[int | None, typer.Option("--count", help="How many; else one.")]
OrderNote = Annotated[str | None, typer.Option("--note", help="Anything else.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    orders = typer.Typer(help="Orders: who wants what by when.", no_args_is_help=True)
    for name, command in (
        ("add", add_order),
        ("list", list_orders),
        ("change", change_order),
        ("drop", drop_order),
    ):
        orders.command(name=name)(command)
    app.add_typer(orders, name="order")


def add_order(
    who: Annotated[
        str, typer.Argument(metavar="WHO", help="Who it is for: 'blue, collected Friday'.")
    ],
    design: Annotated[str, typer.Argument(help="The kept design.")] = "",
    size: Size = "",
    colour: Colours = None,
    by: By = "",
    price: Price = "",
    count: Count = None,
    text: OrderNote = None,
    on: On = "",
    file: File = None,
) -> None:
    """Add an order. It holds no yarn until it has an item; a batch makes it first."""
    from stash.actions.order import add_order
    from stash.rendering import order as rendered

    if not who.strip():
        refuse("ordered_of_nobody")
    if not by.strip():
        refuse("order_without_day")
    book = open_book(file)
    words = _Words(who, design or design_meant(file, ""), size, tuple(colour or ()), by, price)
    typed = _typed(book, replace(words, count=count, note=text))
    done = add_order(book, typed, on=day(on))
    say(rendered.booked_text(done, page_of(done.settings)))


def list_orders(how: AsOption = As.TEXT, file: File = None) -> None:
    """Every order by day, what is late, and what it lacks."""
    from stash.actions.order import orders_kept
    from stash.actions.ordered import orders_short
    from stash.rendering import order as rendered

    book, watch = open_book(file), Watch()
    orders = orders_kept(book)
    with stopped_by_hand(watch):
        short = orders_short(book, ordered_of(book, orders), watch.stop, watch.now_doing)
    if watch.pressed:
        note(rendered.UNFINISHED)
    shown_on = page_of(orders.settings)
    answer(
        how,
        lambda: rendered.keys(orders, short),
        lambda: rendered.text(orders, short, shown_on),
        lambda: rendered.rows(orders, short),
    )


def change_order(
    number: OrderNumber,
    who: Annotated[str, typer.Option("--who", help="Who it is for.")] = "",
    design: Annotated[str, typer.Option("--design", help="Another design.")] = "",
    size: Size = "",
    colour: Colours = None,
    by: By = "",
    price: Price = "",
    count: Count = None,
    text: OrderNote = None,
    on: On = "",
    file: File = None,
) -> None:
    """Change an order; what you leave out stays. --size none and --colour none clear these."""
    from stash.actions.order import change_order
    from stash.rendering import order as rendered

    words = _Words(who, design, size, tuple(colour or ()), by, price, count, text)
    if words == _Words():
        refuse("no_change_of_order")
    book, wanted = open_book(file), _number(number)
    typed = _typed(book, words, wanted)
    done = change_order(book, wanted, typed, on=day(on))
    say(rendered.order_changed_text(done, page_of(done.settings)))


def drop_order(number: OrderNumber, on: On = "", file: File = None) -> None:
    """An order is off. The items made for it stay as they are."""
    from stash.actions.order import drop_order
    from stash.rendering import order as rendered

    done = drop_order(open_book(file), _number(number), on=day(on))
    say(rendered.order_dropped_text(done, page_of(done.settings)))


@dataclass(frozen=True, slots=True)
class _Words:
    """What was typed of an order."""

    who: str = ""
    design: str = ""
    size: str = ""
    colours: tuple[str, ...] = ()
    by: str = ""
    price: str = ""
    count: int | None = None
    note: str | None = None


def _number(typed: str) -> int:
    number = order_number(typed)
    return refuse("no_order_number", typed=typed) if number is None else number


def _typed(book: Book, words: _Words, changed: int | None = None) -> OrderTyped:
    """What the words mean; `changed` is the order they change."""
    from stash.actions import clock
    from stash.actions.order import OrderTyped
    from stash.actions.settings import read_settings
    from stash.parsing import order as typed
    from stash.parsing.coins import typed_together

    if words.count is not None and not 1 <= words.count <= MOST:
        refuse("order_of_none", count=words.count, most=MOST)
    (price,), currency = typed_together([words.price], read_settings(book).currency)
    size = _size(book, words, changed)
    return OrderTyped(
        words.who.strip() or None,
        words.design.strip() or None,
        typed.day_to_come(words.by, clock.today()) if words.by else None,
        words.count,
        size,
        typed.order_colours(words.colours) if words.colours else None,
        price,
        words.note,
        typed.order_named(words.colours),
        currency if words.price else "",
    )


def _size(book: Book, words: _Words, changed: int | None) -> str | None:
    """The size as it is kept, once it is known that the design can be made at it."""
    from stash.actions import designs
    from stash.actions.batch import row_made
    from stash.actions.order import order_kept
    from stash.errors import NotFound
    from stash.parsing.order import NONE, order_run

    size = " ".join(words.size.split())
    if not size or size.lower() == NONE:
        return "" if size else None
    hers = designs.her_designs(book)
    name = words.design or (order_kept(book, changed).design if changed is not None else "")
    try:
        plan = hers.plan(name)
    except NotFound:  # the order says so itself, with how to keep such a design
        return size
    row_made(hers.known_for(plan), order_run(size, plan, hers.settings.own_size), size)
    return size
