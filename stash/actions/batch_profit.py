"""What the yarn of a batch costs: a price a milligram to plan with, then as the books will say it.

A planner needs a price for each skein that holds however much is taken. By the method *specific*
that is the skein's own, by *average* that of the yarn of its name, and both are what `cost` will
say. By *fifo* it depends on the order in which items are finished; there it is the average of the
yarn of its name that is held, for the plan and for what is said of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from stash.actions import clock
from stash.actions.her_settings import Settings
from stash.actions.priced import Priced
from stash.costing.pools import Method
from stash.measures.estimate import to_books
from stash.measures.length import NO_LENGTH, Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.planning.model.attained import Attained
from stash.planning.model.batch import Batch, CutSkein, Profit, Wanted
from stash.planning.model.problem import Aim
from stash.stock.movement import Booked, Kind, Movement
from stash.stock.turnover import unit_prices


def skein_costs(priced: Priced) -> dict[int, Fraction]:
    """What a milligram of each skein costs, in coins; what is not known counts as nothing."""
    if priced.method is Method.SPECIFIC:
        own = unit_prices(priced.booked, priced.origins)
        return {number: price or Fraction(0) for number, price in own.items()}
    coins: dict[int, int] = {}
    held: dict[int, int] = {}
    yarns = priced.yarns
    for m in priced.moved:
        yarn = yarns[m.skein]
        coins[yarn] = coins.get(yarn, 0) + m.total.cost.coins
        held[yarn] = held.get(yarn, 0) + m.total.mass.mg
    return {
        number: Fraction(coins[yarn], held[yarn]) if held.get(yarn, 0) > 0 else Fraction(0)
        for number, yarn in yarns.items()
    }


def expenses(coins: int, settings: Settings) -> tuple[int, int]:
    """The sundries of one item, and what is kept of its price, in coins."""
    sundries = 0 if settings.sundries is None else settings.sundries.coins
    kept = coins * (settings.fees or Fraction(0))
    return sundries, (2 * kept.numerator + kept.denominator) // (2 * kept.denominator)


def with_profit(priced: Priced, batch: Batch, settings: Settings) -> Batch:
    """A planned batch with what is left of its takings, and its aim in the same figures.

    Yarn costs what `cost` will say of the items, finished as planned in the order of their numbers:
    each skein's share is rounded to the coin once. What another plan could bring more stays as it
    was found, without that rounding. By *fifo* the planner's own figure is kept.
    """
    items = [batch.wants[made.want] for made in batch.made for _ in made.items]
    each = [expenses(want.coins, settings) for want in items]
    takings = sum(want.coins for want in items)
    sundries, fees = sum(one for one, _ in each), sum(fee for _, fee in each)
    told = next(one for one in batch.attained if one.aim is Aim.PROFIT)
    priced = priced.with_more([*thought_of(batch)])
    yarn, unpriced = _yarn(priced, batch.items)
    by_order = priced.method is Method.FIFO
    if by_order:
        yarn = takings - sundries - fees - told.total
    profit = Profit(takings, yarn, sundries, fees, unpriced, by_order)
    exact = Attained(Aim.PROFIT, profit.left, profit.left + told.bound - told.total)
    attained = tuple(exact if one is told else one for one in batch.attained)
    return replace(batch, attained=attained, profit=profit)


def _yarn(priced: Priced, items: int) -> tuple[int, tuple[int, ...]]:
    """What the yarn of items thought of costs, and the skeins of which that is not known."""
    used = priced.used_by_items()
    lines = [line for n in range(1, items + 1) for line in used.get(-n, {}).items()]
    unpriced = sorted({skein for (_, skein), total in lines if not total.all_priced})
    return sum(total.cost.coins for _, total in lines), tuple(unpriced)


@dataclass(frozen=True, slots=True)
class _Taken:
    """What is cut of a skein for one role of an item, by number."""

    skein: int
    put_up: PutUp
    mass: Mass


def thought_of(batch: Batch) -> Iterator[Booked]:
    """Every item of a batch finished today as it was planned: `done --as-planned`, not booked.

    An item has the number it has in the plan, below 0.
    """
    wants = {number: batch.wants[made.want] for made in batch.made for number in made.items}
    today, last = clock.today(), 2**40
    taken = _taken(batch.skeins)
    for number, want in sorted(wants.items()):
        for role, left in _expected(want, number, taken):
            for one in taken[number, role]:
                mass = min(left, one.mass)
                left -= mass
                last += 1
                move = Movement(one.skein, Kind.USED, -mass, item=-number, role=role, id=last)
                if mass:
                    yield Booked(last, today, move)


def _expected(
    want: Wanted, number: int, taken: Mapping[tuple[int, str], Sequence[_Taken]]
) -> Iterator[tuple[str, Mass]]:
    for role in want.need.roles:
        if of := taken.get((number, role.role)):
            yield role.role, of[0].put_up.mass_of(to_books(role.estimate.expected_m))


def _taken(skeins: Sequence[CutSkein]) -> dict[tuple[int, str], list[_Taken]]:
    """By item and role; skeins stand by number."""
    found: dict[tuple[int, str], list[_Taken]] = {}
    for skein in skeins:
        put_up = next(s.pair.put_up for s in skein.lot.skeins if s.number == skein.number)
        lengths: dict[tuple[int, str], Length] = {}
        for cut in skein.cuts:
            key = cut.item, cut.role
            lengths[key] = lengths.get(key, NO_LENGTH) + cut.length
        for key, length in lengths.items():
            if put_up is not None:
                taken = _Taken(skein.number, put_up, put_up.mass_covering(length))
                found.setdefault(key, []).append(taken)
    return found
