"""Articles sold and returned, what they cost, and everything at cost on a day."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    note,
    open_book,
    refuse,
    say,
    settings_of,
)
from stash.rendering.paint import strong

if TYPE_CHECKING:
    from stash.actions.cost import Costed
    from stash.actions.value import Value
    from stash.costing.pools import Method
    from stash.measures.money import Money

MethodOption = Annotated[
    str, typer.Option("--method", help="specific, fifo or average; else that of the year.")
]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (sold, returned, cost, value):
        app.command()(command)


def sold(
    article: Annotated[str, typer.Argument(help="A finished article's number, or its piece.")],
    price: Annotated[str, typer.Option("--for", help="What the buyer paid, as 28.00.")],
    fee: Annotated[str, typer.Option(help="What the place of sale kept of it.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """A finished article is sold. A fact beside its state; `stash undo` takes it back."""
    from stash.actions.sold import NO_MONEY, sell
    from stash.measures.written import show_money
    from stash.parsing.coins import typed_together

    if not price.strip():
        refuse("say what the buyer paid, as --for 28.00")
    typed, currency = typed_together([price, fee], settings_of(file).currency)
    paid, kept = (amount or NO_MONEY for amount in typed)
    done = sell(open_book(file), article, paid, kept, currency=currency, on=day(on))
    less = f", less {show_money(kept, done.currency)}" if kept.coins else ""
    told = f"for {show_money(paid, done.currency)}{less}"
    say(f"{strong(f'Article {done.article}')} is sold {told}  (entry {done.sale.entry})")


def returned(
    article: Annotated[str, typer.Argument(help="A sold article's number, or its piece.")],
    fee_back: Annotated[str, typer.Option(help="What came back of the fee.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """A sold article came back, and its price was given back. It can be sold again."""
    from stash.actions.sold import NO_MONEY, take_back
    from stash.measures.written import show_money

    back = _money(fee_back, settings_of(file).currency) if fee_back else NO_MONEY
    done = take_back(open_book(file), article, back, on=day(on))
    told = f"{show_money(done.sale.price, done.currency)} given back"
    say(f"{strong(f'Article {done.article}')} came back, {told}  (entry {done.sale.entry})")


def _money(text: str, currency: str) -> Money:
    from stash.parsing import coins

    return coins.typed(text, currency)


def cost(
    what: Annotated[str, typer.Argument(help="An article's number, or a piece.")],
    hours: Annotated[str, typer.Option(help="The work in it, as 3h 20min.")] = "",
    wage: Annotated[str, typer.Option(help="What an hour is to earn.")] = "",
    sundries: Annotated[str, typer.Option(help="Buttons, labels and the like.")] = "",
    overhead: Annotated[str, typer.Option(help="A share on top of it all, as 10%.")] = "",
    fees: Annotated[str, typer.Option(help="The share of the price that is kept, as 6.5%.")] = "",
    gifts_at: Annotated[str, typer.Option(help="What 100 g of a gift count for.")] = "",
    method: MethodOption = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What an article cost, and what to ask for it. Of a piece: what the next one would."""
    from stash.actions.cost import Asked, cost
    from stash.parsing import work
    from stash.rendering import cost as cost_words

    currency = settings_of(file).currency if sundries or wage or gifts_at else ""
    said = Asked(
        sundries=_money(sundries, currency) if sundries else None,
        hours=work.hours(hours) if hours else None,
        wage=_money(wage, currency) if wage else None,
        overhead=work.share(overhead) if overhead else None,
        fees=work.share(fees) if fees else None,
        gifts_at=_money(gifts_at, currency) if gifts_at else None,
        method=_method(method),
    )
    found = cost(open_book(file), what, said)
    notes = list(_cost_notes(found))
    costing, lots = found.costing, found.lots
    answer(
        how,
        lambda: {**_head(found), **cost_words.keys(costing, lots, found.sale), "notes": notes},
        lambda: (
            f"{strong(_title(found))}\n"
            + cost_words.words(costing, lots, found.currency, found.sale)
        ),
        lambda: list(cost_words.rows(costing, lots)),
    )
    for text in notes if how is not As.JSON else ():
        note(f"note: {text}")


def _method(text: str) -> Method | None:
    from stash.parsing import settings

    return settings.valuation(text) if text else None


def _head(found: Costed) -> dict[str, Any]:
    return {
        "article": found.article.number if found.article else None,
        "state": found.article.state.value if found.article else None,
        "piece": found.piece or None,
        "key": found.key or None,
        "method": found.method.value,
        "currency": found.currency or None,
        "others": [
            {
                "article": number,
                "yarn_coins": costing.yarn_cost.coins,
                "at_least": not costing.known,
            }
            for number, costing in found.others
        ],
    }


def _title(found: Costed) -> str:
    if found.article is None:
        return f"The next {found.piece}, of {found.key}"
    return f"Article {found.article}, {found.article.state}"


def _cost_notes(found: Costed) -> Iterator[str]:
    from stash.measures.written import show_money
    from stash.rendering.amounts import numbers

    unknown = sorted({line.skein for line in found.costing.yarn if not line.known})
    if unknown:
        yield (
            f"price not known: skein {numbers(unknown)}; "
            "give it with `stash change --paid` (0 for a gift)"
        )
    if found.article is not None and found.article.state == "begun":
        yield "it is still being made: this is the yarn it took so far"
    if found.others:
        told = ", ".join(
            f"article {n} {show_money(c.yarn_cost, found.currency)}" for n, c in found.others
        )
        yield f"yarn in those that are finished: {told}"


def value(
    on: Annotated[str, typer.Option("--on", help="The day, as 2026-12-31; else today.")] = "",
    begins: Annotated[
        str, typer.Option("--from", help="Where its span begins; else with the year.")
    ] = "",
    method: MethodOption = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Yarn, articles under way and finished ones at cost, on any day."""
    from stash.actions.value import value
    from stash.rendering import value as value_words

    found = value(open_book(file), day(on), day(begins), _method(method))
    notes = list(_value_notes(found))
    worth = found.valuation
    answer(
        how,
        lambda: {
            **value_words.keys(worth, found.articles),
            "kept_by": found.kept_by.value,
            "takings_coins": found.takings.coins,
            "fees_coins": found.fees.coins,
            "currency": found.currency or None,
            "notes": notes,
        },
        lambda: _value_text(found),
        lambda: list(value_words.rows(worth, found.articles)),
    )
    for text in notes if how is not As.JSON else ():
        note(f"note: {text}")


def _value_text(found: Value) -> str:
    from stash.measures.written import show_money
    from stash.rendering import value as value_words

    worth = found.valuation
    lines = [strong(f"At cost on {worth.last}") + f", {value_words.TOLD[worth.method]}"]
    lines.append(value_words.words(worth, found.currency))
    if found.takings.coins or found.fees.coins:
        fees = show_money(found.fees, found.currency)
        lines.append(f"Takings {show_money(found.takings, found.currency)}, fees {fees}")
    return "\n".join(lines)


def _value_notes(found: Value) -> Iterator[str]:
    from stash.rendering.amounts import numbers

    worth = found.valuation
    if worth.method is not found.kept_by:
        yield (
            f"{worth.last.year} is kept by {found.kept_by}: one method a file and year "
            "(`stash prefer valuation`)"
        )
    if found.unpriced:
        yield (
            f"price not known, so counted as nothing: skein {numbers(found.unpriced)}; "
            "give it with `stash change --paid` (0 for a gift)"
        )
    yield "articles stand at the cost of their yarn; hours and sundries are not in the books"
