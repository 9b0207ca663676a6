"""Yarn and articles at cost on a day, as keys, as rows and as words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stash.costing.pools import Method
from stash.costing.valuation import Valuation, Where, Worth
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import grams
from stash.rendering.columns import columns
from stash.stock.article import Article
from stash.stock.turnover import Total

#: How the methods are told.
TOLD = {
    Method.SPECIFIC: "each skein at what was paid for it",
    Method.FIFO: "the yarn that came first leaves first",
    Method.AVERAGE: "at the moving average of each yarn",
}
_HERS = (Where.UNDER_WAY, Where.FINISHED)


def keys(found: Valuation, articles: Mapping[int, Article]) -> dict[str, Any]:
    """A valuation with stable keys: opening + bought = used + gone + closing, in the yarn."""
    return {
        "method": found.method.value,
        "from": found.first.isoformat(),
        "on": found.last.isoformat(),
        **_worth_keys(found.closing),
        "yarn": {name: _total_keys(total) for name, total in _yarn(found)},
        "articles": dict(_articles(found)),
        "each": list(_each(found, articles)),
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


def rows(found: Valuation, articles: Mapping[int, Article]) -> Iterator[dict[str, Any]]:
    """Every line for a sheet: the yarn, each article that is hers, and the totals."""
    blank = {"article": None, "piece": None}
    for name, total in _yarn(found):
        yield {"line": f"yarn {name}", **blank, **_total_keys(total)}
    for one in _each(found, articles):
        yield {"line": one.pop("stands"), **one}
    closing = found.closing
    for where in _HERS:
        yield {"line": f"all {where.value}", **blank, **_total_keys(closing.of(where))}
    for name, coins in _articles(found):
        at_least = not closing.whole.all_priced
        told = {"g": None, "cost_coins": coins, "at_least": at_least}
        yield {"line": f"articles {name.removesuffix('_cost_coins')}", **blank, **told}
    yield {"line": "together", **blank, **_total_keys(closing.whole)}


def _each(found: Valuation, articles: Mapping[int, Article]) -> Iterator[dict[str, Any]]:
    """Each article that is hers, with what the yarn in it cost."""
    for number, (where, total) in found.closing.articles.items():
        if where in _HERS:
            yield {
                "article": number,
                "piece": articles[number].piece or None,
                "stands": where.value,
                **_total_keys(total),
            }


def _yarn(found: Valuation) -> Iterator[tuple[str, Total]]:
    yield "opening", found.opening.stock
    yield "bought", found.bought
    yield "used", found.used
    yield "gone", found.gone
    yield "closing", found.closing.stock


def _articles(found: Valuation) -> Iterator[tuple[str, int]]:
    yield "opening_cost_coins", sum(found.opening.of(w).cost.coins for w in _HERS)
    yield "made_cost_coins", found.made.cost.coins
    yield "sold_cost_coins", found.went_to(Where.SOLD).coins
    yield "unravelled_cost_coins", found.went_to(Where.UNRAVELLED).coins
    yield "closing_cost_coins", sum(found.closing.of(w).cost.coins for w in _HERS)


def words(found: Valuation, currency: str) -> str:
    """The same for reading."""
    closing = found.closing
    there = [
        ("yarn on the shelf", closing.stock),
        (_counted(closing, Where.UNDER_WAY), closing.of(Where.UNDER_WAY)),
        (_counted(closing, Where.FINISHED), closing.of(Where.FINISHED)),
        ("together", closing.whole),
    ]
    blocks = [
        columns([[name, grams(t.mass), _cost(t, currency)] for name, t in there if t], "  ")
        or "  nothing is there",
        f"Yarn since {found.first}",
        columns(list(_yarn_rows(found, currency)), "  "),
    ]
    made = list(_article_rows(found, currency))
    if made:
        blocks += [f"Articles since {found.first}, at the cost of their yarn", columns(made, "  ")]
    return "\n".join(blocks)


def _counted(worth: Worth, where: Where) -> str:
    count = sum(w is where for w, _ in worth.articles.values())
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


def _article_rows(found: Valuation, currency: str) -> Iterator[list[str]]:
    told = {"opening": "", "made": "+", "sold": "-", "unravelled": "-", "closing": ""}
    amounts = dict(_articles(found))
    if any(amounts.values()):
        for name, sign in told.items():
            coins = amounts[f"{name}_cost_coins"]
            if coins or not sign:
                called = "lost by unravelling" if name == "unravelled" else name
                yield [called, f"{sign}{show_money(Money(coins), currency)}"]
