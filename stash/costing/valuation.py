"""What yarn, items under way and finished ones were worth at cost on a day, and how it came."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.costing.pools import Method
from stash.measures.money import Money
from stash.stock.movement import Kind
from stash.stock.turnover import NOTHING, MeasuredMovement, Total, Way


class Where(StrEnum):
    """Where the books of money count an item."""

    UNDER_WAY = "under way"
    FINISHED = "finished"
    SOLD = "sold"
    UNRAVELLED = "unravelled"


@dataclass(frozen=True, slots=True)
class Turn:
    """An item began to count as something on a day."""

    item: int
    on: date
    where: Where


@dataclass(frozen=True, slots=True)
class Worth:
    """Everything at cost on the evening of one day.

    `stock` is yarn on the shelf, set aside or not; `items` what each item took, less what
    was unravelled of it, with where it stood; what is left of an unravelled one is lost.
    """

    stock: Total
    items: Mapping[int, tuple[Where, Total]]

    def of(self, where: Where) -> Total:
        """All items that stood there."""
        return sum((total for w, total in self.items.values() if w is where), NOTHING)

    @property
    def whole(self) -> Total:
        """What is hers: yarn, items under way, and finished ones that are not sold."""
        return self.stock + self.of(Where.UNDER_WAY) + self.of(Where.FINISHED)


@dataclass(frozen=True, slots=True)
class Valuation:
    """A span of days at cost.

    Yarn: opening + bought = used + gone + closing, to the coin. `bought` is all that came (also
    found on the scale), `used` all that was worked, less what was unravelled; `made` is the part of
    it that went into items. `gone` left otherwise, and takes up the coins that winding off
    rounds. Items: opening + made = sold + lost by unravelling + closing.
    """

    method: Method
    first: date
    last: date
    opening: Worth
    closing: Worth
    bought: Total
    used: Total
    made: Total
    gone: Total

    def went_to(self, where: Where) -> Money:
        """The cost of what began to count there over the span."""
        return self.closing.of(where).cost - self.opening.of(where).cost


def valuation(
    method: Method,
    moved: Sequence[MeasuredMovement],
    turns: Sequence[Turn],
    pools: Mapping[int, int],
    span: tuple[date, date],
) -> Valuation:
    """The span of days, both included, of movements as `pools.priced_by` gave them.

    `turns` stand in the order in which they were booked. What was taken back never happened.
    """
    first, last = span
    before = [m for m in moved if m.on < first]
    within = [m for m in moved if first <= m.on <= last]
    worked = [m for m in within if _worked(m)]
    bought = [m for m in within if m.way is Way.IN and not _worked(m)]
    gone = [m for m in within if m.way is not Way.IN and not _worked(m)]
    by_skein = method is Method.SPECIFIC
    held = {m.skein: m.skein if by_skein else pools[m.skein] for m in moved}
    return Valuation(
        method=method,
        first=first,
        last=last,
        opening=_worth(before, [t for t in turns if t.on < first], held),
        closing=_worth([*before, *within], [t for t in turns if t.on <= last], held),
        bought=_sum(bought),
        used=-_sum(worked),
        made=-_sum([m for m in worked if m.movement.item is not None]),
        gone=-_sum(gone),
    )


def _worked(m: MeasuredMovement) -> bool:
    return m.kind in (Kind.USED, Kind.UNRAVELLED)


def _sum(moved: Sequence[MeasuredMovement]) -> Total:
    return sum((m.total for m in moved), NOTHING)


def _worth(
    moved: Sequence[MeasuredMovement], turns: Sequence[Turn], held: Mapping[int, int]
) -> Worth:
    stands = {turn.item: turn.where for turn in turns}
    items: dict[int, Total] = {}
    for m in moved:
        number = m.movement.item
        if number is not None and _worked(m):
            items[number] = items.get(number, NOTHING) + -m.total
    return Worth(
        _stock(moved, held),
        {
            number: (stands.get(number, Where.UNDER_WAY), total)
            for number, total in sorted(items.items())
        },
    )


def _stock(moved: Sequence[MeasuredMovement], held: Mapping[int, int]) -> Total:
    """What all that adds up to; a skein or pool of which nothing is there leaves nothing open."""
    parts: dict[int, Total] = {}
    for m in moved:
        parts[held[m.skein]] = parts.get(held[m.skein], NOTHING) + m.total
    known = (
        total if total.mass else Total(total.mass, total.length, total.cost)
        for total in parts.values()
    )
    return sum(known, NOTHING)
