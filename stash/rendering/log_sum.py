"""What came in and went out over a span of days, and what its figures lack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from stash.measures.written import show_money
from stash.rendering import amounts
from stash.rendering.amounts import Page, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.sentences.say import sentence
from stash.rendering.value import METHODS
from stash.stock.turnover import Total, Turnover, Way

if TYPE_CHECKING:
    from stash.actions.log_sum import LogSum

#: What the ends of a span are called.
_ENDS = {"opening": "on the shelf before", "closing": "on the shelf after"}


def keys(account: LogSum) -> dict[str, Any]:
    """The whole shelf with stable keys, and each yarn or lot by itself where that was asked for."""
    return {
        "from": account.first.isoformat() if account.first else None,
        "to": account.last.isoformat(),
        "method": account.method.value,
        "currency": account.currency or None,
        **_turnover_keys(account.whole),
        "groups": [
            {"name": sentence(g.name), **_turnover_keys(g.turnover)} for g in account.groups
        ],
        "notes": account_notes(account),
    }


def rows(account: LogSum) -> list[dict[str, Any]]:
    """Every line of each group, else of the whole."""
    groups = [(sentence(g.name), g.turnover) for g in account.groups] or [("", account.whole)]
    return [
        {"name": name or None, "line": line, "kind": kind or None, **_measures(total)}
        for name, turnover in groups
        for line, kind, total in _lines(turnover)
    ]


def text(account: LogSum, page: Page) -> str:
    """The same for reading: all of it by what came and went, then each group in one line."""
    currency = account.currency
    span = page.strong(f"{account.first or 'From the beginning'} to {account.last}")
    blocks = [f"{span}, {METHODS[account.method]}"]
    blocks.append(columns(list(_whole_rows(account.whole, currency)), "  "))
    if account.groups:
        groups = [_group_row(sentence(g.name), g.turnover, currency) for g in account.groups]
        blocks.append(columns([_HEADING, *groups], "  "))
    return "\n".join(blocks)


def account_notes(account: LogSum) -> list[str]:
    """What the figures lack, each with the way to mend it."""
    lacking = (
        (account.unmeasured, "without a put-up, so in the grams and not in the length",
         "give it with `stash change --put-up`"),
        (account.unpriced, "price not known, so in the grams and not in the cost",
         "give it with `stash change --paid`"),
        (account.unweighed, "never weighed, so its grams are only inferred from a length",
         "put it on the scale with `stash weigh`"),
    )  # fmt: skip
    left_out = [
        f"entry {entry.number} of {entry.on} is left out: "
        f"it was taken back since, by entry {entry.taken_back_by}"
        for entry in account.left_out
    ]
    said = [f"{what}: skein {numbers(skeins)}; {way}" for skeins, what, way in lacking if skeins]
    return [*said, *left_out]


def _turnover_keys(turnover: Turnover) -> dict[str, Any]:
    """A span with stable keys: opening + in - out + restated + wound_off = closing."""
    ways: dict[Way, dict[str, Any]] = {Way.IN: {}, Way.OUT: {}}
    for (way, kind), total in turnover.moved.items():
        if way in ways:
            ways[way][kind.value] = _measures(-total if way is Way.OUT else total)
    return {
        "opening": _measures(turnover.opening),
        "in": ways[Way.IN],
        "out": ways[Way.OUT],
        "restated": _measures(turnover.of(Way.RESTATED)),
        "wound_off": _measures(turnover.of(Way.WOUND_OFF)),
        "closing": _measures(turnover.closing),
    }


def _measures(total: Total) -> dict[str, Any]:
    return {
        "g": total.mass.g,
        "m": total.length.m,
        "m_at_least": not total.all_measured,
        "cost_coins": total.cost.coins,
        "cost_at_least": not total.all_priced,
    }


def _lines(turnover: Turnover) -> Iterator[tuple[str, str, Total]]:
    """Every line that is not empty: what it is, why, and how much."""
    yield "opening", "", turnover.opening
    for (way, kind), total in turnover.moved.items():
        if way in (Way.IN, Way.OUT):
            yield way.value, kind.value, -total if way is Way.OUT else total
        elif total:
            yield way.value, "", total
    yield "closing", "", turnover.closing


def _whole_rows(turnover: Turnover, currency: str) -> Iterator[list[str]]:
    """A line each for what was there, what came, what went and what is."""
    for line, kind, total in _lines(turnover):
        weight, *others = _cells(total, currency)
        sign = {"in": "+", "out": "-"}.get(line, "")
        yield [_called(line, kind, total), f"{sign}{weight}", *others]


def _called(line: str, kind: str, total: Total) -> str:
    if line == Way.WOUND_OFF and not (total.mass or total.length):
        return "rounded where wound off"  # a coin that neither of two skeins holds whole
    return _ENDS.get(line) or kind or line


def _group_row(name: str, turnover: Turnover, currency: str) -> list[str]:
    """One group in one line: grams before, in and out, and all that is there after."""
    return [
        name,
        grams(turnover.opening.mass),
        _signed("+", turnover.of(Way.IN)),
        _signed("-", -turnover.of(Way.OUT)),
        *_cells(turnover.closing, currency),
    ]


def _signed(sign: str, total: Total) -> str:
    return f"{sign}{grams(total.mass)}" if total.mass else ""


#: What stands over the columns of `_group_row`.
_HEADING = ["", "before", "in", "out", "after", "", ""]


def _cells(total: Total, currency: str) -> list[str]:
    length, cost = amounts.yarn(total.length), show_money(total.cost, currency)
    return [
        grams(total.mass),
        _at_least(length, total.all_measured, bool(total.length), "length not known"),
        _at_least(cost, total.all_priced, bool(total.cost.coins), "cost not known"),
    ]


def _at_least(text: str, all_known: bool, some_known: bool, unknown: str) -> str:
    if all_known:
        return text
    return f"at least {text}" if some_known else unknown
