"""Yarn and items at cost on a day."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from stash.costing.pools import Method
from stash.costing.valuation import Valuation, Where, Worth
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.balance import balance
from stash.rendering.columns import columns
from stash.rendering.cost import no_price
from stash.rendering.figures import Figure
from stash.rendering.her_words import hers
from stash.stock.turnover import Total

if TYPE_CHECKING:
    from stash.actions.value import Value

#: The methods in words.
METHODS = {
    Method.SPECIFIC: "each skein's own cost",
    Method.FIFO: "first in, first out (the oldest yarn is used first)",
    Method.AVERAGE: "average (each yarn at the average of what it cost so far)",
}
_HERS = (Where.UNDER_WAY, Where.FINISHED)
#: How an item that was hers went.
_GONE = ("sold", "given", "lost", "unravelled")


def keys(found: Value) -> dict[str, Any]:
    """A day's worth with stable keys; of yarn, opening + bought + found = used + gone + closing."""
    worth = found.valuation
    return {
        "method": worth.method.value,
        "from": worth.first.isoformat(),
        "on": worth.last.isoformat(),
        **_worth_keys(worth.closing),
        "yarn": {name: _total_keys(total) for name, total in _yarn(worth)},
        "items": dict(_items(worth)),
        "each": list(_each(found)),
        "kept_by": found.kept_by.value,
        "takings_coins": found.takings.coins,
        "fees_coins": found.fees.coins,
        "currency": found.currency or None,
        "notes": value_notes(found),
    }


def _worth_keys(worth: Worth) -> dict[str, Any]:
    return {
        "stock": _total_keys(worth.stock),
        "under_way": _total_keys(worth.of(Where.UNDER_WAY)),
        "finished": _total_keys(worth.of(Where.FINISHED)),
        "cost_coins": worth.whole.cost.coins,
        "at_least": not worth.whole.all_priced,
    }


def _total_keys(total: Total) -> dict[str, Any]:
    return {"g": total.mass.g, "cost_coins": total.cost.coins, "at_least": not total.all_priced}


def rows(found: Value) -> Iterator[dict[str, Any]]:
    """Every line for a sheet: the yarn, each item that is hers, and the totals."""
    worth, blank = found.valuation, {"item": None, "design": None}
    closing = worth.closing
    for name, total in _yarn(worth):
        yield {"line": f"yarn {name}", **blank, **_total_keys(total)}
    for one in _each(found):
        yield {"line": one.pop("stands"), **one}
    for where in _HERS:
        yield {"line": f"all {where.value}", **blank, **_total_keys(closing.of(where))}
    for name, coins in _items(worth):
        at_least = not closing.whole.all_priced
        amounts = {"g": None, "cost_coins": coins, "at_least": at_least}
        yield {"line": f"items {name.removesuffix('_cost_coins')}", **blank, **amounts}
    yield {"line": "together", **blank, **_total_keys(closing.whole)}


def _each(found: Value) -> Iterator[dict[str, Any]]:
    """Each item that is hers, with what the yarn in it cost."""
    for number, (where, total) in found.valuation.closing.items.items():
        if where in _HERS:
            yield {
                "item": number,
                "design": found.items[number].design or None,
                "stands": where.value,
                **_total_keys(total),
            }


def _yarn(found: Valuation) -> Iterator[tuple[str, Total]]:
    yield "opening", found.opening.stock
    yield "bought", found.bought
    yield "found", found.found
    yield "used", found.used
    yield "gone", found.gone
    yield "closing", found.closing.stock


def _items(found: Valuation) -> Iterator[tuple[str, int]]:
    yield "opening_cost_coins", sum(found.opening.of(w).cost.coins for w in _HERS)
    yield "made_cost_coins", found.made.cost.coins
    yield "sold_cost_coins", found.went_to(Where.SOLD).coins
    yield "given_cost_coins", found.went_to(Where.GIVEN).coins
    yield "lost_cost_coins", found.went_to(Where.LOST).coins
    yield "unravelled_cost_coins", found.went_to(Where.UNRAVELLED).coins
    yield "closing_cost_coins", sum(found.closing.of(w).cost.coins for w in _HERS)


def text(found: Value, page: Page) -> str:
    """The same for reading: what is there, how it came about, and what was sold."""
    worth, currency = found.valuation, found.currency
    moved = _moved(worth)
    shown = balance(worth.opening.stock.mass, {name: change for name, change, _ in moved})
    stock = shown.closing
    lines = [
        f"{page.strong(f'Yarn and items at cost on {worth.last}')}",
        columns(list(_there(worth.closing, stock, currency)), "  ") or "  nothing yet",
        f"Yarn since {worth.first}",
        columns(
            [
                ["at the start", str(shown.opening), _cost(worth.opening.stock, currency)],
                *([name, str(shown.moved[name]), _cost(cost, currency)] for name, _, cost in moved),
                ["at the end", str(stock), _cost(worth.closing.stock, currency)],
            ],
            "  ",
        ),
    ]
    made = list(_item_rows(worth, currency))
    if made:
        lines += [f"Items since {worth.first}, at the cost of their yarn", columns(made, "  ")]
    if found.takings.coins or found.fees.coins:
        fees = show_money(found.fees, currency)
        lines.append(f"Sales {show_money(found.takings, currency)}, fees {fees}")
    return "\n".join([*lines, f"Costs: {METHODS[worth.method]}."])


def value_notes(found: Value) -> list[str]:
    """What to know of the figures."""
    worth, said = found.valuation, []
    if worth.method is not found.kept_by:
        said.append(
            f"you keep {worth.last.year} by {found.kept_by}, and this answer is by {worth.method}; "
            "see `stash settings valuation`"
        )
    if found.unpriced:
        said.append(no_price(found.unpriced))
    if any(where in _HERS for where, _ in worth.closing.items.values()):
        said.append("items count the yarn in them, not your hours or sundries")
    return said


def _there(worth: Worth, stock: Figure, currency: str) -> Iterator[list[str]]:
    """Yarn and items, and the sum of the rows that are shown."""
    weights = []
    for name, weight, total in (
        ("yarn on the shelf", stock, worth.stock),
        *(
            (_items_in(worth, where), figures.near(worth.of(where).mass), worth.of(where))
            for where in _HERS
        ),
    ):
        if total:
            weights.append(weight)
            yield [name, str(weight), _cost(total, currency)]
    if weights:
        yield ["in all", str(figures.total(weights, Mass)), _cost(worth.whole, currency)]


def _items_in(worth: Worth, where: Where) -> str:
    count = sum(w is where for w, _ in worth.items.values())
    return f"{count} {'in the making' if where is Where.UNDER_WAY else 'finished, not sold'}"


def _cost(total: Total, currency: str) -> str:
    if not total.all_priced and not total.cost.coins:
        return "cost not known"
    return f"{'' if total.all_priced else 'at least '}{show_money(total.cost, currency)}"


def _moved(found: Valuation) -> list[tuple[str, Mass, Total]]:
    """What came, was used and left otherwise: by how much it changes the stock, and its cost."""
    rows = (
        ("bought", found.bought, found.bought),
        ("found", found.found, found.found),
        ("used", -found.used, found.used),
        ("gone otherwise", -found.gone, found.gone),
    )
    return [(name, change.mass, total) for name, change, total in rows if total]


def _item_rows(found: Valuation, currency: str) -> Iterator[list[str]]:
    signs = {"opening": "", "made": "+", **dict.fromkeys(_GONE, "-"), "closing": ""}
    names = {
        "opening": "at the start",
        "given": "given away",
        "unravelled": hers("lost by unravelling"),
        "closing": "at the end",
    }
    amounts = dict(_items(found))
    if any(amounts.values()):
        for name, sign in signs.items():
            coins = amounts[f"{name}_cost_coins"]
            if coins or not sign:
                yield [names.get(name, name), f"{sign}{show_money(Money(coins), currency)}"]
