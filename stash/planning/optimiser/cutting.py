"""Where a lot's pieces are cut for all the strands that come from it: no gram twice, whole tails.

A strand may be joined from several pieces; each join costs its tails, and no end shorter than the
useful one is joined in. Pieces are laid end to end: a strand that does not end with its piece goes
on in another. Where that search ends without an answer, there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from stash.planning.model.problem import Ends, StockLot

#: So many steps an exact search may take; beyond, "none was found" is no proof.
MOST_STEPS = 5_000
#: More pieces and strands than this are laid out by rule alone.
MOST_TO_SEARCH = 40


class Strand(NamedTuple):
    """A length that is asked of a lot, and the set of pieces it may come from."""

    um: int
    pool: int


class Cut(NamedTuple):
    """So much of the piece at one place for the strand at another."""

    supply: int
    strand: int
    um: int


@dataclass(frozen=True, slots=True)
class Cutting:
    """Every cut of a lot."""

    cuts: tuple[Cut, ...]

    @property
    def taken_um(self) -> int:
        """All that is cut, the tails of joins with it."""
        return sum(cut.um for cut in self.cuts)


@dataclass(frozen=True, slots=True)
class Cannot:
    """The pieces do not give these strands; `proved` where every way was tried."""

    proved: bool


def loosely(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> Cutting | None:
    """A cutting by rule, soon found; None says only that no rule finds one.

    Part balls and balls that are cut already go first; where that does not do, the tightest piece.
    """
    return next(_by_rule(lot, strands, ends), None)


def possible(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> bool:
    """Whether some rule finds a cutting; the one that is soonest done is tried first."""
    fills = (_end_to_end, _tightest_first, _opened_first)
    return any(True for _ in _by_rule(lot, strands, ends, fills))


def thriftily(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> Cutting | None:
    """Of the cuttings by rule the one that uses most of the part balls."""

    def opened_um(cutting: Cutting) -> int:
        return sum(cut.um for cut in cutting.cuts if not lot.supplies[cut.supply].whole)

    return max(_by_rule(lot, strands, ends), key=opened_um, default=None)


def cheaply(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> Cutting | None:
    """Of the cuttings by rule the one that costs least."""
    fills = (_cheapest_first, _opened_first, _tightest_first, _end_to_end)
    ways = _by_rule(lot, strands, ends, fills)
    return min(ways, key=lambda cutting: paid(lot, cutting), default=None)


def paid(lot: StockLot, cutting: Cutting) -> int:
    """What all that is cut costs, in millionths of a coin for each micrometre of a metre."""
    return sum(cut.um * lot.prices[cut.supply] for cut in cutting.cuts)


Fill = Callable[[StockLot, Sequence[Strand], Ends], list[Cut] | None]


def _by_rule(
    lot: StockLot, strands: Sequence[Strand], ends: Ends, fills: Sequence[Fill] = ()
) -> Iterator[Cutting]:
    if sum(strand.um for strand in strands) > lot.most_um:
        return
    for fill in fills or (_opened_first, _tightest_first, _end_to_end):
        cuts = fill(lot, strands, ends)
        if cuts is not None and sum(cut.um for cut in cuts) <= lot.most_um:
            yield Cutting(tuple(cuts))


def _opened_first(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> list[Cut] | None:
    return _fitted(lot, strands, ends, [int(supply.whole) for supply in lot.supplies])


def _cheapest_first(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> list[Cut] | None:
    dearest = max(lot.prices)
    return _fitted(lot, strands, ends, [price - dearest for price in lot.prices])


def _tightest_first(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> list[Cut] | None:
    return _fitted(lot, strands, ends, [0 for _ in lot.supplies])


def _fitted(
    lot: StockLot, strands: Sequence[Strand], ends: Ends, last: list[int]
) -> list[Cut] | None:
    """Each strand out of the tightest piece of those that are to go first.

    What fits nowhere is joined from the longest ends. A piece that is cut already is as one that
    is opened.
    """
    left = [supply.um for supply in lot.supplies]
    cuts: list[Cut] = []
    for at in sorted(range(len(strands)), key=lambda i: (-strands[i].um, i)):
        um, pool = strands[at]
        enough = [(last[i], have - um, i) for i, have in enumerate(left) if have >= um]
        best = min((one for one in enough if pool >> one[2] & 1), default=None)
        parts = [(best[2], um)] if best else _joined(left, strands[at], ends)
        if parts is None:
            return None
        for i, part in parts:
            cuts.append(Cut(i, at, part))
            left[i] -= part
            last[i] = min(last[i], 0)
    return cuts


def _joined(left: Sequence[int], strand: Strand, ends: Ends) -> list[tuple[int, int]] | None:
    """The strand out of as few ends as can be, the longest first; the last as short as it may."""
    able = [i for i, um in enumerate(left) if um >= ends.shortest_um and strand.pool >> i & 1]
    able.sort(key=lambda i: (-left[i], i))
    parts: list[tuple[int, int]] = []
    to_go = strand.um
    for count, i in enumerate(able):
        if to_go <= left[i]:
            tightest = min((j for j in able[count:] if left[j] >= to_go), key=lambda j: left[j])
            return [*parts, (tightest, to_go)]
        part = min(left[i], to_go + ends.join_um - ends.shortest_um)
        if part < ends.shortest_um:
            return None
        parts.append((i, part))
        to_go += ends.join_um - part
    return None


def _end_to_end(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> list[Cut] | None:
    """Piece after piece is filled with the longest strands that fit, and one runs over its end."""
    if any(strand.pool != strands[0].pool for strand in strands):
        return None
    waiting = sorted(range(len(strands)), key=lambda i: (-strands[i].um, i))
    cuts: list[Cut] = []
    over: tuple[int, int] | None = None
    for i, supply in enumerate(lot.supplies):
        if not (strands and strands[0].pool >> i & 1):
            continue
        left = supply.um
        if over is not None:
            if left < ends.shortest_um:
                continue
            left, over = _go_on(cuts, i, left, over, ends)
        for at in [*waiting] if over is None else []:
            if strands[at].um <= left:
                cuts.append(Cut(i, at, strands[at].um))
                left -= strands[at].um
                waiting.remove(at)
        if over is None and waiting:
            over = _run_over(cuts, i, left, waiting, strands, ends)
    return cuts if over is None and not waiting else None


def _go_on(
    cuts: list[Cut], supply: int, left: int, over: tuple[int, int], ends: Ends
) -> tuple[int, tuple[int, int] | None]:
    """The strand that runs over goes on in this piece, perhaps through all of it."""
    at, to_go = over
    if to_go <= left:
        cuts.append(Cut(supply, at, to_go))
        return left - to_go, None
    part = min(left, to_go + ends.join_um - ends.shortest_um)
    if part < ends.shortest_um:
        return left, over
    cuts.append(Cut(supply, at, part))
    return left - part, (at, to_go + ends.join_um - part)


def _run_over(
    cuts: list[Cut],
    supply: int,
    left: int,
    waiting: list[int],
    strands: Sequence[Strand],
    ends: Ends,
) -> tuple[int, int] | None:
    """Begin the longest strand that waits on what is left of a piece, where that is worth it."""
    for at in waiting:
        part = min(left, strands[at].um + ends.join_um - ends.shortest_um)
        if part >= ends.shortest_um:
            waiting.remove(at)
            cuts.append(Cut(supply, at, part))
            return at, strands[at].um + ends.join_um - part
    return None


def exactly(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> Cutting | Cannot:
    """A cutting, or that there is none, as far as could be searched."""
    loose = loosely(lot, strands, ends)
    if loose is not None:
        return loose
    if len(lot.supplies) + len(strands) > MOST_TO_SEARCH:
        return Cannot(sum(strand.um for strand in strands) > lot.most_um)
    cuts = _Search(lot, strands, ends, (len(lot.supplies), MOST_STEPS)).best()
    return Cutting(tuple(cuts)) if cuts else Cannot(clashes(lot, strands, ends))


def with_fewer_joins(
    lot: StockLot, strands: Sequence[Strand], ends: Ends, cutting: Cutting, steps: int
) -> Cutting:
    """A cutting of the same with as few joins as can be found in so many steps for each number."""
    if len(lot.supplies) + len(strands) <= MOST_TO_SEARCH:
        for joins in range(len(cutting.cuts) - len(strands)):
            if cuts := _Search(lot, strands, ends, (joins, steps)).best():
                return Cutting(tuple(cuts))
    return cutting


def clashes(lot: StockLot, strands: Sequence[Strand], ends: Ends) -> bool:
    """Whether it is proved that no pieces of the lot give these, even if any end were joined in."""
    if sum(strand.um for strand in strands) > lot.most_um:
        return True
    free = [Strand(strand.um, (1 << len(lot.supplies)) - 1) for strand in strands]
    search = _Search(lot, free, replace(ends, shortest_um=1), (len(lot.supplies), MOST_STEPS))
    return search.best() is None and search.ended


class _Search:
    """Depth first over ways to lay the pieces end to end with at most so many joins.

    In each piece stand first the rest of a strand that runs over from another piece, then whole
    strands, the longest first, then perhaps the beginning of one that runs over.
    """

    def __init__(
        self, lot: StockLot, strands: Sequence[Strand], ends: Ends, most: tuple[int, int]
    ) -> None:
        self.supplies, self.strands, self.ends = lot.supplies, strands, ends
        asked = sum(strand.um for strand in strands)
        self.order = sorted(range(len(strands)), key=lambda i: (-strands[i].um, i))
        self.room = sum(supply.um for supply in lot.supplies) - asked
        joins, self.steps = most
        self.joins = min(joins, (lot.most_um - asked) // ends.join_um) if ends.join_um else joins
        self.cuts: list[Cut] = []

    @property
    def ended(self) -> bool:
        """Whether every way was tried."""
        return self.steps > 0

    def best(self) -> list[Cut] | None:
        """The cuts, None where none was found."""
        if self.joins < 0 or self.room < 0:
            return None
        waiting = (1 << len(self.strands)) - 1
        unused = (1 << len(self.supplies)) - 1
        return self.cuts if self._open(waiting, unused, self.room, self.joins, None) else None

    def _open(
        self, waiting: int, unused: int, room: int, joins: int, over: tuple[int, int] | None
    ) -> bool:
        """Take up another piece; `over` is the strand that goes on in it, and how much of it."""
        if not waiting and over is None:
            return True
        seen: set[tuple[int, bool]] = set()
        for i in self._bits(unused):
            like = self.supplies[i].um, any(not s.pool >> i & 1 for s in self.strands)
            if like in seen and not like[1]:
                continue
            seen.add(like)
            rest = unused & ~(1 << i)
            if self._begin(i, waiting, rest, room, joins, over):
                return True
            if over is None and not like[1]:
                # without a strand to go on, this piece is opened now or never
                room -= self.supplies[i].um
                unused = rest
                if room < 0:
                    return False
        return False

    def _begin(
        self,
        i: int,
        waiting: int,
        unused: int,
        room: int,
        joins: int,
        over: tuple[int, int] | None,
    ) -> bool:
        left = self.supplies[i].um
        if over is None:
            return self._fill(i, left, waiting, unused, (room, joins), 0)
        at, to_go = over
        if not self.strands[at].pool >> i & 1:
            return False
        if to_go <= left:
            self.cuts.append(Cut(i, at, to_go))
            if self._fill(i, left - to_go, waiting, unused, (room, joins), 0):
                return True
            self.cuts.pop()
            return False
        return self._over(i, left, at, to_go, (waiting, unused, room, joins))

    def _fill(
        self, i: int, left: int, waiting: int, unused: int, spare: tuple[int, int], start: int
    ) -> bool:
        """Whole strands from a place in their order on, then one that runs over, or an end."""
        self.steps -= 1
        if self.steps <= 0:
            return False
        last: Strand | None = None
        for place in range(start, len(self.order)):
            at = self.order[place]
            strand = self.strands[at]
            um = strand.um
            if not waiting >> at & 1 or um > left or not strand.pool >> i & 1 or strand == last:
                continue
            last = strand
            self.cuts.append(Cut(i, at, um))
            if self._fill(i, left - um, waiting & ~(1 << at), unused, spare, place + 1):
                return True
            self.cuts.pop()
        return self._end(i, left, waiting, unused, spare)

    def _end(self, i: int, left: int, waiting: int, unused: int, spare: tuple[int, int]) -> bool:
        room, joins = spare
        if not waiting:
            return True
        if left <= room and self._open(waiting, unused, room - left, joins, None):
            return True
        seen: set[Strand] = set()
        for at in self.order:
            strand = self.strands[at]
            if not waiting >> at & 1 or strand in seen or not strand.pool >> i & 1:
                continue
            seen.add(strand)
            state = (waiting & ~(1 << at), unused, room, joins)
            if self._over(i, left, at, strand.um, state):
                return True
        return False

    def _over(
        self, i: int, left: int, at: int, to_go: int, state: tuple[int, int, int, int]
    ) -> bool:
        """As much of the strand as may be out of this piece, the rest out of another."""
        waiting, unused, room, joins = state
        part = min(left, to_go + self.ends.join_um - self.ends.shortest_um)
        room -= self.ends.join_um + left - part
        if part < self.ends.shortest_um or joins < 1 or room < 0:
            return False
        self.cuts.append(Cut(i, at, part))
        if self._open(waiting, unused, room, joins - 1, (at, to_go + self.ends.join_um - part)):
            return True
        self.cuts.pop()
        return False

    def _bits(self, bits: int) -> Iterator[int]:
        return (i for i in range(len(self.supplies)) if bits >> i & 1)
