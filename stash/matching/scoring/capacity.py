"""How much a lot gives a role at most, and down to which margin lots cover their roles."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from stash.matching.answer.fix import Fix
from stash.matching.lots.lot_view import LotView
from stash.matching.rules.fits import RoleQuery
from stash.measures.estimate import Estimate, to_books
from stash.measures.length import Length
from stash.requirements.yarn.need import Source
from stash.stock.picking import Supply, Wanted, shortage_um


def most_m(view: LotView, query: RoleQuery) -> float:
    """The longest need that the lot covers, over all strands: free yarn less the tails of joins."""
    low, high = 0, sum(supply.um for supply in view.supplies) + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _covers(view, query, middle) else (low, middle)
    return Length(low).m


def _covers(view: LotView, query: RoleQuery, um: int) -> bool:
    """Whether the lot is enough for so much of the role."""
    return not shortage_um(query.of(view.supplies), replace(query.wanted, um=um))


#: A length worked out from a weight is off by less than this.
_ROUNDED_M = 0.001


def holds_expected(view: LotView, query: RoleQuery) -> bool:
    """Whether the lot has what is expected, though not the margin on top of it.

    A pattern's figure has the joins of its own balls in it; what is expected otherwise has not.
    """
    if query.role.source is Source.STATED:
        supplies = [p.um for p in query.of(view.supplies) if p.um >= query.wanted.shortest_um]
        able = Length(sum(supplies)).m
    else:
        able = most_m(view, query)
    return able >= query.role.estimate.expected_m - _ROUNDED_M


def skeins_to_add(supplies: Sequence[Supply], um: int, wanted: Wanted) -> int | None:
    """How many more skeins of a length make the pieces enough; None if it is too short to join."""
    if um < wanted.shortest_um:
        return None
    count = 0
    while short := shortage_um([*supplies, *_new(count, um)], wanted):
        count += -(-short // um)
    return count


def _new(count: int, um: int) -> Iterator[Supply]:
    return (Supply(-number, um, whole=True) for number in range(1, count + 1))


def lower_margin(lots: Sequence[tuple[LotView, RoleQuery]]) -> Fix | None:
    """The highest whole percent at which every lot covers its role; None below nothing.

    A pattern's figure that is there but for the joins has no percent: its skeins are named.
    """
    able = [
        most_m(view, query) / query.role.estimate.expected_m
        for view, query in lots
        if _takes(query)
    ]
    percent = math.floor(100 * (min(able, default=0) - 1))
    if percent < 0 or not all(_covers_at(percent, view, query) for view, query in lots):
        return _by_skeins(lots)
    sure = min(_chance(percent, query.role.estimate) for _, query in lots)
    return Fix("lower_margin", margin=percent / 100, chance=sure)


def _by_skeins(lots: Sequence[tuple[LotView, RoleQuery]]) -> Fix | None:
    """Where a pattern's figure is there and only its joins are not: her own choice takes it."""
    if not lots or not all(holds_expected(view, query) for view, query in lots):
        return None
    skeins = tuple(
        (query.role.role, tuple(supply.number for supply in query.of(view.supplies)))
        for view, query in lots
    )
    return Fix("margin_by_skeins", skeins=skeins)


def _takes(query: RoleQuery) -> bool:
    return query.role.estimate.expected_m > 0


def _covers_at(percent: int, view: LotView, query: RoleQuery) -> bool:
    return _covers(view, query, to_books(query.role.estimate.expected_m * (1 + percent / 100)).um)


def _chance(percent: int, estimate: Estimate) -> float:
    return estimate.chance_within(estimate.expected_m * (1 + percent / 100))
