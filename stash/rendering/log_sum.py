"""What came in and went out over a span of days, as keys, as rows and as words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stash.measures.written import show_money
from stash.rendering.amounts import Units, grams
from stash.stock.turnover import Total, Turnover, Way

#: What the ends of a span are called.
_ENDS = {"opening": "on the shelf before", "closing": "on the shelf after"}


def keys(turnover: Turnover) -> dict[str, Any]:
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


def rows(turnover: Turnover) -> Iterator[dict[str, Any]]:
    """The same line by line, for a sheet."""
    for line, kind, total in _lines(turnover):
        yield {"line": line, "kind": kind or None, **_measures(total)}


def _measures(total: Total) -> dict[str, Any]:
    return {
        "g": total.mass.g,
        "m": total.length.m,
        "m_at_least": not total.all_measured,
        "cost_coins": total.cost.coins,
        "cost_at_least": not total.all_priced,
    }


def _lines(turnover: Turnover) -> Iterator[tuple[str, str, Total]]:
    """Every line there is something to tell in: what it is, why, and how much."""
    yield "opening", "", turnover.opening
    for (way, kind), total in turnover.moved.items():
        if way in (Way.IN, Way.OUT):
            yield way.value, kind.value, -total if way is Way.OUT else total
        elif total:
            yield way.value, "", total
    yield "closing", "", turnover.closing


def words(turnover: Turnover, units: Units, currency: str) -> Iterator[list[str]]:
    """The same for reading: a line each for what was there, what came, what went and what is."""
    for line, kind, total in _lines(turnover):
        grams_told, *others = _cells(total, units, currency)
        sign = {"in": "+", "out": "-"}.get(line, "")
        yield [_called(line, kind, total), f"{sign}{grams_told}", *others]


def _called(line: str, kind: str, total: Total) -> str:
    if line == Way.WOUND_OFF and not (total.mass or total.length):
        return "rounded where wound off"  # a coin that neither of two skeins holds whole
    return _ENDS.get(line) or kind or line


def row(name: str, turnover: Turnover, units: Units, currency: str) -> list[str]:
    """One group in one line: grams before, in and out, and all that is there after."""
    return [
        name,
        grams(turnover.opening.mass),
        _signed("+", turnover.of(Way.IN)),
        _signed("-", -turnover.of(Way.OUT)),
        *_cells(turnover.closing, units, currency),
    ]


def _signed(sign: str, total: Total) -> str:
    return f"{sign}{grams(total.mass)}" if total.mass else ""


#: What stands over the columns of `row`.
HEADING = ["", "before", "in", "out", "after", "", ""]


def _cells(total: Total, units: Units, currency: str) -> list[str]:
    length, cost = units.yarn(total.length), show_money(total.cost, currency)
    return [
        grams(total.mass),
        _at_least(length, total.all_measured, bool(total.length), "length not known"),
        _at_least(cost, total.all_priced, bool(total.cost.coins), "cost not known"),
    ]


def _at_least(text: str, all_known: bool, some_known: bool, unknown: str) -> str:
    if all_known:
        return text
    return f"at least {text}" if some_known else unknown
