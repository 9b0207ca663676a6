"""Items sold and returned, what they cost, and everything at cost on a day."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    design_meant,
    item_meant,
    open_book,
    page,
    say,
    say_notes,
    settings_of,
)

if TYPE_CHECKING:
    from stash.costing.pools import Method
    from stash.measures.money import Money

MethodOption = Annotated[
    str,
    typer.Option(
        "--method",
        help="Yarn at its skein's price (specific), oldest price first (fifo), or average.",
    ),
]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (sold, returned, cost, value):
        app.command()(command)


def sold(
    item: Annotated[str, typer.Argument(help="Its number, or the design's name.")],
    price: Annotated[
        str, typer.Option("--for", metavar="MONEY", help="What the buyer paid, as 28.")
    ] = "",
    fee: Annotated[str, typer.Option(help="What the market or shop kept, as 1.80.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Sell a finished item. Not so after all? `stash undo`."""
    from stash.actions.sold import NO_MONEY, sell
    from stash.parsing.coins import typed_together
    from stash.rendering import sale as rendered

    (paid, kept), currency = typed_together([price.strip(), fee], settings_of(file).currency)
    done = sell(open_book(file), item, paid, kept or NO_MONEY, currency=currency, on=day(on))
    say(rendered.sold_text(done, page()))


def returned(
    item: Annotated[str, typer.Argument(help="Its number, or the design's name.")],
    fee_back: Annotated[str, typer.Option(help="What you got back of the fee, as 1.80.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """A sold item came back and you refunded it. It can be sold again."""
    from stash.actions.sold import NO_MONEY, take_back
    from stash.rendering import sale as rendered

    back = _money(fee_back, settings_of(file).currency) if fee_back else NO_MONEY
    done = take_back(open_book(file), item, back, on=day(on))
    say(rendered.returned_text(done, page()))


def _money(text: str, currency: str) -> Money:
    from stash.parsing import coins

    return coins.typed(text, currency)


def cost(
    what: Annotated[
        str, typer.Argument(metavar="ITEM|DESIGN", help="An item's number, or a design's name.")
    ] = "",
    hours: Annotated[str, typer.Option(help="Your hours in it, as '3h 20min'.")] = "",
    wage: Annotated[str, typer.Option(help="What you want to earn an hour, as 12.")] = "",
    sundries: Annotated[str, typer.Option(help="Buttons, labels and so on, as 0.80.")] = "",
    overhead: Annotated[str, typer.Option(help="For rent, tools and power, as 10%.")] = "",
    fees: Annotated[str, typer.Option(help="What the market or shop keeps, as 6.5%.")] = "",
    gifts_at: Annotated[str, typer.Option(help="Count 100 g of gift yarn as, say, 5.")] = "",
    method: MethodOption = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What an item cost you, and what to ask for it. Or what a design would cost."""
    from stash.actions.cost import CostAsked, cost
    from stash.parsing import work
    from stash.rendering import cost as rendered

    currency = settings_of(file).currency if sundries or wage or gifts_at else ""
    said = CostAsked(
        sundries=_money(sundries, currency) if sundries else None,
        hours=work.hours(hours) if hours else None,
        wage=_money(wage, currency) if wage else None,
        overhead=work.share(overhead) if overhead else None,
        fees=work.share(fees) if fees else None,
        gifts_at=_money(gifts_at, currency) if gifts_at else None,
        method=_method(method),
    )
    found = cost(open_book(file), _item_or_design(file, what), said)
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, page()),
        lambda: list(rendered.rows(found)),
    )
    if how is not As.JSON:
        say_notes(rendered.cost_notes(found))


def _item_or_design(file: Path | None, typed: str) -> str:
    """A design may be nearly named; with nothing typed it is the one item there is a cost of."""
    number = typed.strip().removeprefix("#").isdecimal()
    if number:
        return typed
    return design_meant(file, typed) if typed else item_meant(file, typed, "cost")


def _method(text: str) -> Method | None:
    from stash.parsing import settings

    return settings.valuation(text) if text else None


def value(
    on: Annotated[
        str, typer.Option("--on", help="The day, as 2026-12-31; today if left out.")
    ] = "",
    begins: Annotated[
        str,
        typer.Option(
            "--from", metavar="DAY", help="First day, as 2026-04-06; 1 January if left out."
        ),
    ] = "",
    method: MethodOption = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What your stock cost you. Yarn, begun and finished items, on any day."""
    from stash.actions.value import value
    from stash.rendering import value as rendered

    found = value(open_book(file), day(on), day(begins), _method(method))
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, page()),
        lambda: list(rendered.rows(found)),
    )
    if how is not As.JSON:
        say_notes(rendered.value_notes(found))
