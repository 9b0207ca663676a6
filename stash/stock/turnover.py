"""What came in and what went out over a span of days, in grams, length and money that balance."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum
from fractions import Fraction

from stash.measures.length import NO_LENGTH, Length
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.stock.movement import Booked, Kind, Movement, standing

#: A gift, and what nothing costs.
NO_COST = Money(0)


class Way(StrEnum):
    """Onto the shelf, off it, or neither: grams put right, and yarn wound from skein to skein."""

    IN = "in"
    OUT = "out"
    RESTATED = "restated"
    WOUND_OFF = "wound off"


@dataclass(frozen=True, slots=True)
class Total:
    """An amount in every measure at once.

    Yarn without a put-up is in `mass` and not in `length`, yarn without a price not in `cost`;
    `all_measured` and `all_priced` say that there is none.
    """

    mass: Mass = NO_MASS
    length: Length = NO_LENGTH
    cost: Money = NO_COST
    all_measured: bool = True
    all_priced: bool = True

    def __add__(self, other: Total) -> Total:
        if not isinstance(other, Total):
            return NotImplemented
        return Total(
            self.mass + other.mass,
            self.length + other.length,
            self.cost + other.cost,
            self.all_measured and other.all_measured,
            self.all_priced and other.all_priced,
        )

    def __neg__(self) -> Total:
        return replace(self, mass=-self.mass, length=-self.length, cost=self.cost * -1)

    def __bool__(self) -> bool:
        return bool(self.mass or self.length or self.cost.coins)


NOTHING = Total()


@dataclass(frozen=True, slots=True)
class Origin:
    """What a skein is measured and priced by: its pair, what was paid, the skein it came from."""

    put_up: PutUp | None = None
    paid: Money | None = None
    parent: int | None = None


@dataclass(frozen=True, slots=True)
class MeasuredMovement:
    """One movement in every measure, and where it is booked."""

    skein: int
    on: date
    way: Way
    kind: Kind
    total: Total
    entry: int
    movement: Movement


@dataclass(frozen=True, slots=True)
class Turnover:
    """A span of days: opening and all that `moved` (out is below nothing) make the closing."""

    opening: Total = NOTHING
    moved: Mapping[tuple[Way, Kind], Total] = field(default_factory=dict)
    closing: Total = NOTHING

    def of(self, way: Way) -> Total:
        """All that moved one way."""
        return sum((total for (w, _), total in self.moved.items() if w is way), NOTHING)


def turnover(moved: Sequence[MeasuredMovement], first: date | None, last: date) -> Turnover:
    """The balance of a span, both ends included; without `first`, from the beginning.

    What was taken back never happened, on whatever day that was noticed: a movement and its
    opposite are left out together, also where they lie in different spans. So every span balances,
    spans that follow each other add up, and the closing of a day is what the shelf held on it as
    far as is known today; a mistake found in spring is no longer in the figures of the year before.
    """
    before = [m for m in moved if first is not None and m.on < first]
    within = [m for m in moved if (first is None or m.on >= first) and m.on <= last]
    lines: dict[tuple[Way, Kind], Total] = {}
    for m in within:
        lines[m.way, m.kind] = lines.get((m.way, m.kind), NOTHING) + m.total
    in_order = {
        (way, kind): lines[way, kind] for way in Way for kind in Kind if (way, kind) in lines
    }
    return Turnover(_held(before), in_order, _held([*before, *within]))


def _held(moved: Sequence[MeasuredMovement]) -> Total:
    """What all that adds up to; a skein of which nothing is there leaves nothing unmeasured."""
    by_skein: dict[int, Total] = {}
    for m in moved:
        by_skein[m.skein] = by_skein.get(m.skein, NOTHING) + m.total
    there = (
        t if t.mass else replace(t, all_measured=True, all_priced=True) for t in by_skein.values()
    )
    return sum(there, NOTHING)


def measured_movements(
    moves: Sequence[Booked], origins: Mapping[int, Origin]
) -> list[MeasuredMovement]:
    """Every movement that was not taken back, in every measure, by skein, in order of the days.

    A skein's length and cost are shared over its movements by mass, each to the nearest micrometre
    or coin of what has moved so far: a movement is the same in every span, and together they are
    the whole. The cost is the skein's own, by the gram of what it came with less what was wound
    off it; yarn that was unravelled comes back at the price of the skein it was of.
    """
    by_skein = _by_skein(moves)
    prices = _prices(by_skein, origins)
    return [
        one
        for number, own in by_skein.items()
        for one in _shared(own, prices.settled[number], origins[number].put_up, prices.of(number))
    ]


def unit_prices(
    moves: Sequence[Booked], origins: Mapping[int, Origin]
) -> dict[int, Fraction | None]:
    """What a milligram of each skein cost as it is weighed today, in coins; None: not known."""
    by_skein = _by_skein(moves)
    prices = _prices(by_skein, origins)
    return {number: prices.of(number) for number in by_skein}


def _by_skein(moves: Sequence[Booked]) -> dict[int, list[Booked]]:
    """What was not taken back, by skein, in order of the days."""
    kept = {move.id for move in standing(b.movement for b in moves)}
    found: dict[int, list[Booked]] = {}
    for booked in sorted(moves, key=lambda b: (b.movement.skein, b.on, b.entry, b.movement.id)):
        if booked.movement.id in kept:
            found.setdefault(booked.movement.skein, []).append(booked)
    return found


def _prices(by_skein: Mapping[int, Sequence[Booked]], origins: Mapping[int, Origin]) -> _Prices:
    return _Prices(origins, {n: [b.movement for b in own] for n, own in by_skein.items()})


def _shared(
    moves: Sequence[Booked],
    settled: Mapping[int | None, Fraction],
    put_up: PutUp | None,
    price: Fraction | None,
) -> list[MeasuredMovement]:
    metres = Fraction(put_up.length.um, put_up.mass.mg) if put_up else None
    so_far, found = Fraction(0), []
    for booked in moves:
        move, was = booked.movement, so_far
        so_far += settled[move.id]
        total = Total(
            move.change,
            Length(_nearest(so_far, metres) - _nearest(was, metres)),
            Money(_nearest(so_far, price) - _nearest(was, price)),
            metres is not None,
            price is not None,
        )
        way, on = _way(move), booked.on
        found.append(MeasuredMovement(move.skein, on, way, move.kind, total, booked.entry, move))
    return found


def _nearest(mg: Fraction, each: Fraction | None) -> int:
    if each is None:
        return 0
    # floor(mg * each + 1/2) in whole numbers; a third of the time of `items` went into fractions
    above, below = mg.numerator * each.numerator, mg.denominator * each.denominator
    return (2 * above + below) // (2 * below)


def _way(move: Movement) -> Way:
    if move.kind is Kind.RESTATED:
        return Way.RESTATED
    if move.kind is Kind.WOUND_OFF:
        return Way.WOUND_OFF
    return Way.IN if move.change > NO_MASS else Way.OUT


def settled_mg(moves: Sequence[Movement]) -> dict[int | None, Fraction]:
    """What each movement of one skein was in the grams its yarn is weighed in today, by its id.

    A restatement changes the grams and leaves all yarn where it is, so it moves nothing here, and
    whatever was booked before it grows or shrinks as the skein did.
    """
    in_order = sorted(moves, key=lambda move: move.id or 0)
    held = [0]
    for move in in_order:
        held.append(held[-1] + move.change.mg)
    found, since = {}, Fraction(1)
    for i in reversed(range(len(in_order))):
        move, before, after = in_order[i], held[i], held[i + 1]
        if move.kind is Kind.RESTATED and before > 0 and after > 0:
            found[move.id] = Fraction(0)
            since *= Fraction(after, before)
        else:
            found[move.id] = move.change.mg * since
    return found


def basis_mg(moves: Sequence[Movement], settled: Mapping[int | None, Fraction]) -> Fraction:
    """What the price of a skein was paid for: all it came with, less what was wound off it."""
    came = min(moves, key=lambda move: move.id or 0)
    wound = (m for m in moves if m.kind is Kind.WOUND_OFF and m is not came)
    return settled[came.id] + sum(settled[m.id] for m in wound)


class _Prices:
    """What a milligram of each skein cost, in coins."""

    def __init__(
        self, origins: Mapping[int, Origin], moves: Mapping[int, Sequence[Movement]]
    ) -> None:
        self.origins, self.moves = origins, moves
        self.settled = {number: settled_mg(own) for number, own in moves.items()}

    def of(self, number: int | None) -> Fraction | None:
        """None where it is not known."""
        if number is None or number not in self.moves:
            return None
        origin, moves = self.origins[number], self.moves[number]
        if origin.paid is None:
            return self.of(origin.parent) if self._as_its_parent(number) else None
        basis = basis_mg(moves, self.settled[number])
        return Fraction(origin.paid.coins) / basis if basis > 0 else None

    def _as_its_parent(self, number: int) -> bool:
        """Unravelled yarn has no price of its own, nor has what was wound off such a skein."""
        parent = self.origins[number].parent
        came = min(self.moves[number], key=lambda move: move.id or 0)
        unpriced = parent is not None and self.origins[parent].paid is None
        return came.kind is Kind.UNRAVELLED or unpriced
