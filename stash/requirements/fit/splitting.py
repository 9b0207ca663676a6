"""Two lots in one role, with the rows worked out: which rows are worked in which of them.

Three ways, the one that shows least first: the odd lot in the brim or in a band, a change at a row
that hides it, two rows each in turn. Each part is what its rows take of what is set aside, with
the same margin, and what the second lot adds beside them: tails, and yarn carried up the edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import accumulate, groupby, pairwise

from stash.measures.note import Note
from stash.requirements.fit.change_points import (
    ChangePoint,
    Region,
    RoleRows,
    change_points,
    regions,
    role_rows,
)
from stash.requirements.fit.rowwise import takes_by_row
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import RoleNeed
from stash.requirements.yarn.tails import CARRIED_M, CARRIED_TAKES, TAIL_M

#: Rows of one lot before the other one comes: carried up the edge, both come back where they are
#: needed (common practice, no source).
TURN = 2
#: A stretch of alternating rows that blends one lot into the other brings each of them twice, or
#: it would only look like a mistake (our choice).
LEAST_BLEND = 4 * TURN


IN_TURN = Note("in_turn")


class Way(StrEnum):
    """How two lots share a role, the one that shows least first."""

    BRIM = "brim"
    CHANGE = "change"
    ALTERNATE = "alternate"


@dataclass(frozen=True, slots=True)
class Leg:
    """Rows of a role that follow each other in one lot: 0 is the first named, 1 the other one.

    `start` and `stop` are places among the role's rows in one item. `turns`: two rows each in
    turn, the first lot first. `stitches` from the bottom, where only a part of each row is meant.
    """

    start: int
    stop: int
    lot: int
    turns: bool = False
    stitches: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Span:
    """Rows in one lot, first to last, numbered over all as they are worked."""

    first: int
    last: int
    lot: int
    stitches: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Split:
    """One way to work a role from two lots; `place` says where the odd lot or the change lies.

    For each lot `rows_m` is what its rows take, with the margin, all strands together, and `more_m`
    what being two adds. Without `rows` only the lengths are known.
    """

    way: Way
    place: Note
    rows_m: tuple[float, float]
    more_m: tuple[float, float]
    legs: tuple[Leg, ...] = ()
    rows: RoleRows | None = None

    def length_m(self, lot: int) -> float:
        """What is to be set aside of one of the lots."""
        return self.rows_m[lot] + self.more_m[lot]

    def spans(self) -> tuple[Span, ...]:
        """The rows of each lot, item after item; those of other colours belong to none."""
        found: list[Span] = []
        for item in range(self.rows.made if self.rows else 0):
            for leg in self.legs:
                for span in _spans(leg, self.rows, item):
                    if found and _goes_on(found[-1], span):
                        span = replace(found.pop(), last=span.last)
                    found.append(span)
        return tuple(found)


def _goes_on(before: Span, span: Span) -> bool:
    return replace(before, first=span.first, last=span.last) == span and (
        before.last + 1 == span.first
    )


def _spans(leg: Leg, rows: RoleRows | None, item: int) -> Iterator[Span]:
    if rows is None:
        return
    before, at = item * rows.in_one, range(leg.start, leg.stop)
    owners = [((i - leg.start) // TURN % 2 if leg.turns else leg.lot) for i in at]
    numbers = rows.numbers[leg.start : leg.stop]
    together = groupby(
        enumerate(zip(numbers, owners, strict=True)), lambda one: (one[1][1], one[1][0] - one[0])
    )
    for (owner, _), run in together:
        found = [number for _, (number, _) in run]
        yield Span(before + found[0], before + found[-1], owner, leg.stitches)


@dataclass(frozen=True, slots=True)
class Ways:
    """Every split of a role, by way, the nearest first.

    `rows_known`: whether they rest on its rows; without, only equal lengths in turn are told.
    """

    brim: tuple[Split, ...] = ()
    change: tuple[Split, ...] = ()
    alternate: tuple[Split, ...] = ()
    rows_known: bool = True

    def of(self, way: Way) -> tuple[Split, ...]:
        """The splits of one way. Of a change the last row comes first, of turns the whole."""
        return {Way.BRIM: self.brim, Way.CHANGE: self.change, Way.ALTERNATE: self.alternate}[way]


def ways(known: DesignContext | None, role: RoleNeed) -> Ways:
    """How a role can be shared by two lots; by length alone where its rows are not known."""
    laid = _laid(known, role)
    if laid is None:
        return Ways(alternate=(_halves(role),), rows_known=False)
    return Ways(
        brim=tuple(laid.in_regions()),
        change=tuple(laid.changes())[::-1],
        alternate=tuple(laid.in_turn()),
    )


def _halves(role: RoleNeed) -> Split:
    """Equal shares by length; what is carried lies within the margin, its rows not being known."""
    half, tail = role.set_aside_m / 2, TAIL_M * role.strands
    return Split(Way.ALTERNATE, IN_TURN, (half, half), (tail, tail))


@dataclass(frozen=True, slots=True)
class _Laid:
    """One role of a design on its rows; `takes` are those of one item, for all that are made."""

    rows: RoleRows
    takes: Sequence[float]
    extras_m: float
    tail_m: float
    row_m: float
    change_points: tuple[ChangePoint, ...]
    regions: tuple[Region, ...]

    def in_regions(self) -> Iterator[Split]:
        """The odd lot in the brim or in a band: the brim first, then the smallest."""
        whole = math.fsum(self.takes)
        found = [(region, self._odd_m(region)) for region in self.regions]
        found = [one for one in found if 0 < one[1] <= whole / 2 + 1e-9]
        found.sort(key=lambda one: (not one[0].brim, one[1], one[0].first))
        for region, odd_m in found:
            legs = tuple(_legs(region, len(self.takes)))
            yield self._split(Way.BRIM, region.place, odd_m, legs)

    def _odd_m(self, region: Region) -> float:
        return math.fsum(math.fsum(self.takes[a:b]) for a, b in region.rows) * region.share

    def changes(self) -> Iterator[Split]:
        """The first lot up to a row that hides the change, the other one from there."""
        before = [0.0, *accumulate(self.takes)]
        for place in self.change_points:
            legs = (Leg(0, place.at, 0), Leg(place.at, len(self.takes), 1))
            yield self._split(Way.CHANGE, place.place, before[-1] - before[place.at], legs)

    def _split(self, way: Way, place: Note, other_m: float, legs: tuple[Leg, ...]) -> Split:
        first_m = math.fsum(self.takes) - other_m
        last = 1 if way is Way.CHANGE else 0  # extras come after the last row
        extras = (self.extras_m * (1 - last), self.extras_m * last)
        return Split(
            way,
            place,
            (first_m + extras[0], other_m + extras[1]),
            _tails(legs, self.tail_m),
            legs,
            self.rows,
        )

    def in_turn(self) -> Iterator[Split]:
        """Two rows each: all of them first, then ever shorter stretches up to the last row."""
        count = len(self.takes)
        if count < 2 * TURN:
            return
        other, carried = self._from_row_on()
        whole = math.fsum(self.takes)
        last = (count - 1) // TURN % 2
        for start in range(0, count, 2 * TURN):
            if start and count - start < LEAST_BLEND:
                return
            lead = (Leg(0, start, 0),) if start else ()
            # the lot of the last row ends where the role ends; the other one has both ends more
            tails = (self.tail_m, self.tail_m) if last else (0.0, 2 * self.tail_m)
            again = carried[start + 2 * TURN], carried[start + 3 * TURN]
            yield Split(
                Way.ALTERNATE,
                IN_TURN,
                (whole - other[start] + self.extras_m, other[start]),
                (tails[0] + again[0], tails[1] + again[1]),
                (*lead, Leg(start, count, 0, turns=True)),
                self.rows,
            )

    def _from_row_on(self) -> tuple[list[float], list[float]]:
        """From each row to the last: what the other lot takes, and what each lot is carried.

        Carried are the lots that come back in every fourth row from there.
        """
        count = len(self.takes)
        other, carried = [0.0] * (count + 1), [0.0] * (count + 4 * TURN)
        for i in reversed(range(count)):
            other[i] = other[i + 1] + (self.takes[i] if i // TURN % 2 else 0.0)
            if i % TURN == 0:
                carried[i] = carried[i + 2 * TURN] + self._again_m(i)
        return other, carried

    def _again_m(self, at: int) -> float:
        """What a lot takes to come back, past the rows since its last one."""
        if at <= TURN:
            return 0.0
        past = self.rows.numbers[at] - self.rows.numbers[at - TURN - 1] - 1
        near = past == TURN or past * self.row_m <= CARRIED_M
        carried_m = CARRIED_TAKES * past * self.row_m * self.tail_m / TAIL_M
        return carried_m if near else 2 * self.tail_m


def _tails(legs: Sequence[Leg], tail_m: float) -> tuple[float, float]:
    """What each lot leaves in tails where one ends and the other begins.

    Beside each other in a row both go on to the end: the odd one adds its own two ends.
    """
    if any(leg.stitches for leg in legs):
        odd = sum(1 for leg in legs if leg.lot)
        return 0.0, 2 * odd * tail_m
    changes = sum(1 for one, other in pairwise(legs) if one.lot != other.lot)
    return changes * tail_m, changes * tail_m


def _legs(region: Region, count: int) -> Iterator[Leg]:
    """The rows of a region in the odd lot, all others in the main one, in order."""
    if region.stitches:
        yield from _side_by_side(region, count)
        return
    at = 0
    for start, stop in region.rows:
        if at < start:
            yield Leg(at, start, 0)
        yield Leg(start, stop, 1)
        at = stop
    if at < count:
        yield Leg(at, count, 0)


def _side_by_side(region: Region, count: int) -> Iterator[Leg]:
    at = 0
    for start, stop in region.rows:
        if at < start:
            yield Leg(at, start, 0)
        for lot, stitches in region.stitches:
            yield Leg(start, stop, lot, stitches=stitches)
        at = stop
    if at < count:
        yield Leg(at, count, 0)


def _laid(known: DesignContext | None, role: RoleNeed) -> _Laid | None:
    worked = by_rows(known.design) if known is not None else None
    if known is None or worked is None or not role.row_m:
        return None
    layout, need = worked.layout, known.need(known.design)
    rows, takes = role_rows(layout, takes_by_row(known, role.role))
    extras = math.fsum(one.expected_m for one in need.extras if one.role == role.role)
    return _Laid(
        rows=rows,
        takes=takes,
        extras_m=extras * (1 + role.margin),
        tail_m=TAIL_M * role.strands * rows.made,
        row_m=layout.gauge.row_m,
        change_points=tuple(change_points(known.design, layout, rows)),
        regions=tuple(regions(known.design, worked, role.role, rows)),
    )
