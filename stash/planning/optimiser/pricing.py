"""Which kinds of items would make a plan better, told by what a metre of each lot is worth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from typing import NamedTuple

from stash.planning.model.problem import Beside, Column, Part, Problem
from stash.planning.optimiser.variety import NO_VARIETY, VarietyPrices

#: A column must promise more than this to be worth a place (the solver's own tolerance).
LEAST_GAIN = 1e-7


@dataclass(frozen=True, slots=True)
class Prices:
    """What things are worth: a micrometre of each lot's sets of pieces, and one item.

    `item` is what one item of each want brings when all but its yarn is paid for; `main` what
    it costs beside that to take the main yarn out of a lot. `used` is what a micrometre of each lot
    costs that is really used.
    """

    yarn: Mapping[tuple[int, int], float]
    item: Sequence[float]
    main: Mapping[tuple[int, int], float]
    pairs: Mapping[tuple[int, ...], float]
    used: Mapping[int, float] = field(default_factory=dict)
    varied: VarietyPrices = NO_VARIETY


class Gain(NamedTuple):
    """A kind of item that gains something; none that comes later gains more than `most`."""

    gain: float
    most: float
    column: Column


def gainful(
    problem: Problem,
    prices: Prices,
    want: int,
    room: Mapping[tuple[int, int], int],
    least: float = LEAST_GAIN,
) -> Iterator[Gain]:
    """The kinds of items of a want that gain more than so much, best first but for pairs.

    Those whose lots have no room for them are left out.
    """
    asked = problem.wants[want]
    lines = [line(part, prices, room) for part in asked.parts]
    if prices.main:
        lines[0] = sorted((cost + prices.main.get((want, lot), 0.0), lot) for cost, lot in lines[0])
    varied = prices.varied.most(want)
    for cost, lots in cheapest(lines, asked.beside):
        most = prices.item[want] - cost + varied
        if most <= least:
            return
        column = Column(want, lots)
        gain = most - prices.pairs.get(column.pair, 0.0)
        if varied:
            gain += prices.varied.of(column) - varied
        if gain > least:
            yield Gain(gain, most, column)


def line(
    part: Part, prices: Prices, room: Mapping[tuple[int, int], int]
) -> list[tuple[float, int]]:
    """The lots with room for a part, each with what it costs there, cheapest first."""
    yarn, used, places = prices.yarn, prices.used, part.places.values()
    return sorted(
        [
            (yarn[key] * um + (used[lot] * part.used_um if used else 0.0), lot)
            for lot, pool, um in places
            if room[key := (lot, pool)] >= um
        ]
    )


def cheapest(
    lines: Sequence[Sequence[tuple[float, int]]], beside: Beside
) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Lots for every part that may stand beside each other, by cost, without holding all sets."""
    if len(lines) == 1:
        for cost, lot in lines[0]:
            yield cost, (lot,)
        return
    *before, last = lines
    if not last:
        return
    waiting: list[tuple[float, tuple[int, ...], int, int]] = []
    for cost, lots in cheapest(before, beside):
        yield from _up_to(cost + last[0][0], waiting, last)
        may_follow = -1
        for lot in lots:
            may_follow &= beside.row(lot)
        _wait(waiting, (cost, lots, 0, may_follow), last)
    yield from _up_to(None, waiting, last)


def _wait(
    waiting: list[tuple[float, tuple[int, ...], int, int]],
    state: tuple[float, tuple[int, ...], int, int],
    last: Sequence[tuple[float, int]],
) -> None:
    """Put the next lot that may follow in the queue."""
    base, lots, at, may_follow = state
    while at < len(last):
        cost, lot = last[at]
        if may_follow >> lot & 1:
            heappush(waiting, (base + cost, (*lots, lot), at + 1, may_follow))
            return
        at += 1


def _up_to(
    limit: float | None,
    waiting: list[tuple[float, tuple[int, ...], int, int]],
    last: Sequence[tuple[float, int]],
) -> Iterator[tuple[float, tuple[int, ...]]]:
    """What is no dearer than anything that is still to come."""
    while waiting and (limit is None or waiting[0][0] <= limit):
        cost, lots, at, may_follow = heappop(waiting)
        yield cost, lots
        _wait(waiting, (cost - last[at - 1][0], lots[:-1], at, may_follow), last)
