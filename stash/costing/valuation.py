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
    GIVEN = "given"
    LOST = "lost"
    UNRAVELLED = "unravelled"


#: Where an item is hers.
HERS = (Where.UNDER_WAY, Where.FINISHED)


class Flow(StrEnum):
    """What a movement of yarn is in the books of money."""

    BOUGHT = "bought"
    FOUND = "found"
    USED = "used"
    GONE = "gone"


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

    Yarn: opening + bought + found = used + gone + closing, to the coin. `bought` is all that came
    new, `found` what was there and not in the record, `used` all that was worked, less what was
    unravelled; `made` is the part of it that went into items. `gone` left otherwise, and takes up
    the coins that winding off rounds.
    Items: opening + made = sold + given + lost + lost by unravelling + closing.
    """

    method: Method
    first: date
    last: date
    opening: Worth
    closing: Worth
    bought: Total
    found: Total
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
    worked = [m for m in within if flow(m) is Flow.USED]
    held = priced_together(method, moved, pools)
    return Valuation(
        method=method,
        first=first,
        last=last,
        opening=_worth(before, [t for t in turns if t.on < first], held),
        closing=_worth([*before, *within], [t for t in turns if t.on <= last], held),
        bought=_sum([m for m in within if flow(m) is Flow.BOUGHT]),
        found=_sum([m for m in within if flow(m) is Flow.FOUND]),
        used=-_sum(worked),
        made=-_sum([m for m in worked if m.movement.item is not None]),
        gone=-_sum([m for m in within if flow(m) is Flow.GONE]),
    )


def flow(m: MeasuredMovement) -> Flow:
    """What a movement is: worked (or come back from it), come in, found, or left otherwise."""
    if _worked(m):
        return Flow.USED
    if m.way is not Way.IN:
        return Flow.GONE
    return Flow.BOUGHT if m.kind is Kind.ARRIVED else Flow.FOUND


def priced_together(
    method: Method, moved: Sequence[MeasuredMovement], pools: Mapping[int, int]
) -> dict[int, int]:
    """What each skein's yarn is priced with: itself, or all the yarn of its name."""
    by_skein = method is Method.SPECIFIC
    return {m.skein: m.skein if by_skein else pools[m.skein] for m in moved}


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
    """What all that adds up to."""
    return sum(stock_parts(moved, held).values(), NOTHING)


def stock_parts(moved: Sequence[MeasuredMovement], held: Mapping[int, int]) -> dict[int, Total]:
    """What is there of each skein or pool; one of which nothing is there leaves nothing open."""
    parts: dict[int, Total] = {}
    for m in moved:
        parts[held[m.skein]] = parts.get(held[m.skein], NOTHING) + m.total
    return {
        key: total if total.mass else Total(total.mass, total.length, total.cost)
        for key, total in parts.items()
    }
