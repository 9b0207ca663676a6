"""Items sold and returned, what they cost, and everything at cost on a day."""

from __future__ import annotations

from collections.abc import Sequence
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
    items_typed,
    listed_alone,
    open_book,
    page,
    refuse,
    rows_of_a_list,
    say,
    say_notes,
    settings_of,
)

if TYPE_CHECKING:
    from stash.actions.sold import SaleBooked
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
    items: Annotated[
        str,
        typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or the design's name."),
    ] = "",
    price: Annotated[
        str,
        typer.Option(
            "--for",
            metavar="MONEY",
            help="What the buyer paid for each, as 28; agreed: what their orders say.",
        ),
    ] = "",
    fee: Annotated[str, typer.Option(help="What the market or shop kept of each, as 1.80.")] = "",
    sheet: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="A list of item or design, price, fee, note."),
    ] = None,
    on: On = "",
    file: File = None,
) -> None:
    """Sell finished items. Not so after all? `stash undo`."""
    from stash.actions.sold import NO_MONEY, Price, sell
    from stash.parsing.coins import typed_together
    from stash.rendering import several as rendered

    if sheet is not None:
        listed_alone(ITEMS=items, **{"--for": price, "--fee": fee})
        say(rendered.items_sold(_sold_listed(sheet, on, file), page()))
        return
    if not items.strip():
        refuse("no_items_sold")
    agreed = price.strip().lower() == "agreed"
    amounts = ["" if agreed else price.strip(), fee]
    (paid, kept), currency = typed_together(amounts, settings_of(file).currency)
    prices = dict.fromkeys(items_typed(items), Price(paid, kept or NO_MONEY))
    done = sell(open_book(file), prices, agreed=agreed, currency=currency, on=day(on))
    say(rendered.items_sold(done, page()))


def _sold_listed(sheet: Path, on: str, file: Path | None) -> Sequence[SaleBooked]:
    from stash.actions.sold import sell_listed
    from stash.exchange import item_lists

    book = open_book(file)
    with rows_of_a_list():
        listed, currency = item_lists.market(sheet, settings_of(file).currency)
        return sell_listed(book, listed, currency=currency, on=day(on))


def returned(
    items: Annotated[
        str, typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or the design's name.")
    ],
    fee_back: Annotated[str, typer.Option(help="What you got back of each fee, as 1.80.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Sold items came back and you refunded them. They can be sold again."""
    from stash.actions.sold import NO_MONEY, take_back
    from stash.rendering import several as rendered

    back = _money(fee_back, settings_of(file).currency) if fee_back else NO_MONEY
    done = take_back(open_book(file), items_typed(items), back, on=day(on))
    say(rendered.items_returned(done, page()))


def _money(text: str, currency: str) -> Money:
    from stash.parsing import coins

    return coins.typed(text, currency)


def cost(
    what: Annotated[
        str,
        typer.Argument(metavar="ITEMS|DESIGN", help="Numbers, as 3 or 1,4-12; or a design's name."),
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
    from stash.rendering import costs as rendered

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
    found = cost(open_book(file), _items_or_design(file, what), said)
    answer(
        how,
        lambda: rendered.costs_keys(found),
        lambda: rendered.costs_text(found, page()),
        lambda: rendered.costs_rows(found),
    )
    if how is not As.JSON:
        say_notes(rendered.costs_notes(found))


def _items_or_design(file: Path | None, typed: str) -> list[str]:
    """A design may be nearly named; with nothing typed it is the one item there is a cost of."""
    parts = items_typed(typed)
    if all(map(str.isdecimal, parts)):
        return parts
    return [design_meant(file, typed) if typed else item_meant(file, typed, "cost")]


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
