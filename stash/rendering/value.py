"""Yarn and items at cost on a day."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from stash.costing.pools import Method
from stash.costing.valuation import Valuation, Where, Worth
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import Page, grams, numbers
from stash.rendering.columns import columns
from stash.stock.turnover import Total

if TYPE_CHECKING:
    from stash.actions.value import Value

#: The methods in words.
METHODS = {
    Method.SPECIFIC: "each skein at what was paid for it",
    Method.FIFO: "the yarn that came first leaves first",
    Method.AVERAGE: "at the moving average of each yarn",
}
_HERS = (Where.UNDER_WAY, Where.FINISHED)
#: How an item that was hers went.
_GONE = ("sold", "given", "lost", "unravelled")


def keys(found: Value) -> dict[str, Any]:
    """A day's worth with stable keys: opening + bought = used + gone + closing, in the yarn."""
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
    """The same for reading: what is there, how it came about, and what was taken at the market."""
    worth, currency = found.valuation, found.currency
    lines = [
        f"{page.strong(f'At cost on {worth.last}')}, {METHODS[worth.method]}",
        columns(list(_there(worth.closing, currency)), "  ") or "  nothing is there",
        f"Yarn since {worth.first}",
        columns(list(_yarn_rows(worth, currency)), "  "),
    ]
    made = list(_item_rows(worth, currency))
    if made:
        lines += [f"Items since {worth.first}, at the cost of their yarn", columns(made, "  ")]
    if found.takings.coins or found.fees.coins:
        fees = show_money(found.fees, currency)
        lines.append(f"Takings {show_money(found.takings, currency)}, fees {fees}")
    return "\n".join(lines)


def value_notes(found: Value) -> list[str]:
    """What to know of the figures."""
    worth, said = found.valuation, []
    if worth.method is not found.kept_by:
        said.append(
            f"{worth.last.year} is kept by {found.kept_by}: one method a file and year "
            "(`stash settings valuation`)"
        )
    if found.unpriced:
        said.append(
            f"price not known, so counted as nothing: skein {numbers(found.unpriced)}; "
            "give it with `stash change --paid` (0 for a gift)"
        )
    said.append("items stand at the cost of their yarn; hours and sundries are not in the books")
    return said


def _there(closing: Worth, currency: str) -> Iterator[list[str]]:
    parts = (
        ("yarn on the shelf", closing.stock),
        (_items_in(closing, Where.UNDER_WAY), closing.of(Where.UNDER_WAY)),
        (_items_in(closing, Where.FINISHED), closing.of(Where.FINISHED)),
        ("together", closing.whole),
    )
    for name, total in parts:
        if total:
            yield [name, grams(total.mass), _cost(total, currency)]


def _items_in(worth: Worth, where: Where) -> str:
    count = sum(w is where for w, _ in worth.items.values())
    called = "under way" if where is Where.UNDER_WAY else "finished, not sold"
    return f"{count} {called}"


def _cost(total: Total, currency: str) -> str:
    if not total.all_priced and not total.cost.coins:
        return "cost not known"
    return f"{'' if total.all_priced else 'at least '}{show_money(total.cost, currency)}"


def _yarn_rows(found: Valuation, currency: str) -> Iterator[list[str]]:
    signs = {"bought": "+", "used": "-", "gone": "-"}
    for name, total in _yarn(found):
        if total or name not in signs:
            yield [name, f"{signs.get(name, '')}{grams(total.mass)}", _cost(total, currency)]


def _item_rows(found: Valuation, currency: str) -> Iterator[list[str]]:
    signs = {"opening": "", "made": "+", **dict.fromkeys(_GONE, "-"), "closing": ""}
    amounts = dict(_items(found))
    if any(amounts.values()):
        for name, sign in signs.items():
            coins = amounts[f"{name}_cost_coins"]
            if coins or not sign:
                called = "lost by unravelling" if name == "unravelled" else name
                yield [called, f"{sign}{show_money(Money(coins), currency)}"]
