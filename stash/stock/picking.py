"""Which skeins of one lot to take for one need, and how much of each: exact, in micrometres.

A strand is fed from one end at a time. Every further piece in the same strand costs a join; a
piece shorter than the useful end is not worth joining in; one ball may feed several strands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

#: A lot of dozens of part balls, all of different lengths, could keep the search busy for ever;
#: after so many steps the best found so far is taken. No lot a person would own comes near it.
MOST_STEPS = 20_000


@dataclass(frozen=True, slots=True)
class Supply:
    """What is free of one skein, and whether the skein is still whole, or below a useful size."""

    number: int
    um: int
    whole: bool
    remnant: bool = False


@dataclass(frozen=True, slots=True)
class Wanted:
    """A length over so many strands, what a join costs, and the shortest piece worth joining in."""

    um: int
    strands: int = 1
    join_um: int = 0
    useful_um: int = 0

    @property
    def shortest_um(self) -> int:
        """A piece must at least bring in more than its own join takes."""
        return max(self.useful_um, self.join_um + 1)


@dataclass(frozen=True, slots=True)
class Costs:
    """What speaks against a pick, in whole thousandths, so that equal costs are equal."""

    opening: int = 1000  # for each whole skein broken
    very_little: int = 1000  # for each of them broken for less than a sixth of it
    join: int = 500  # for each join
    useless_end: int = 500  # for each piece left shorter than the useful end
    lone_skein: int = 250  # where one whole skein is left by itself
    mixed: int = 0  # where two skeins share a role, their lot not being known


@dataclass(frozen=True, slots=True)
class Cut:
    """So much of one skein for one strand; strands count from 1."""

    number: int
    strand: int
    um: int


@dataclass(frozen=True, slots=True)
class Pick:
    """What to take, what it leads to, and its cost in thousandths.

    `opened` whole skeins are broken, `slivers` of them for little; `useless_ends` are left.
    """

    cuts: tuple[Cut, ...]
    joins: int
    opened: tuple[int, ...]
    slivers: tuple[int, ...]
    useless_ends: tuple[tuple[int, int], ...]  # skein number and what is left of it, in um
    leaves_lone_skein: bool
    supplies: int
    cost: int

    @property
    def taken_um(self) -> int:
        """The need and the tails of the joins."""
        return sum(cut.um for cut in self.cuts)


def best_pick(supplies: Sequence[Supply], wanted: Wanted, costs: Costs) -> Pick | None:
    """The cheapest way to cover the need from these pieces, or None where they do not cover it.

    Every set of pieces is laid out by one rule (`laid_out`), and of the sets used to the last
    piece the cheapest wins; of equal ones the one with the fewest pieces, then the first in this
    order: opened before whole, longer before shorter, lower number first.
    """
    return _Search(supplies, wanted, costs).best()


def shortage_um(supplies: Sequence[Supply], wanted: Wanted) -> int:
    """How much is missing when every useful piece is joined in; nothing where they cover it."""
    return laid_out(usable(supplies, wanted), wanted)[1]


def usable(supplies: Sequence[Supply], wanted: Wanted) -> list[Supply]:
    """The pieces worth joining in: opened before whole, longest first, lowest number first."""
    return sorted(
        (p for p in supplies if p.um >= wanted.shortest_um),
        key=lambda p: (p.whole, -p.um, p.number),
    )


def laid_out(supplies: Sequence[Supply], wanted: Wanted) -> tuple[list[Cut], int]:
    """The need cut from these pieces, strand by strand, and what is missing at the end.

    Where one piece is enough for the rest of the strand, the tightest such piece ends it;
    otherwise an opened piece, else a whole one, the longest first, is used up and joined on.
    """
    left = [supply.um for supply in supplies]
    cuts: list[Cut] = []
    missing = 0
    for strand in range(1, wanted.strands + 1):
        open_um = (wanted.um + strand - 1) // wanted.strands
        tail = 0
        while open_um > 0:
            i = _next_supply(supplies, left, open_um + tail, wanted.shortest_um)
            if i is None:
                missing += open_um
                break
            taken = min(left[i], open_um + tail)
            cuts.append(Cut(supplies[i].number, strand, taken))
            left[i] -= taken
            open_um -= taken - tail
            tail = wanted.join_um
    return cuts, missing


def _next_supply(
    supplies: Sequence[Supply], left: Sequence[int], asked_um: int, shortest_um: int
) -> int | None:
    able = [i for i, um in enumerate(left) if um >= shortest_um]
    enough = [i for i in able if left[i] >= asked_um]
    if enough:
        return min(enough, key=lambda i: (left[i], i))
    return min(able, key=lambda i: (supplies[i].whole, -left[i], i), default=None)


class _Search:
    """Depth first over sets of pieces, cut short wherever a set cannot become the cheapest."""

    def __init__(self, supplies: Sequence[Supply], wanted: Wanted, costs: Costs) -> None:
        self.supplies = usable(supplies, wanted)
        self.wanted, self.costs = wanted, costs
        self.whole_count = sum(p.whole for p in self.supplies)
        self.found: Pick | None = None
        self.spare: Pick | None = None
        self._look_ahead()

    def _look_ahead(self) -> None:
        """From each place on: all lengths together, the opened ones, the longest, the next kind."""
        count = len(self.supplies)
        self.rest, self.opened_rest, self.longest = ([0] * (count + 1) for _ in range(3))
        self.next_kind = list(range(1, count + 1))
        for i in reversed(range(count)):
            supply = self.supplies[i]
            self.rest[i] = self.rest[i + 1] + supply.um
            self.opened_rest[i] = self.opened_rest[i + 1] + (0 if supply.whole else supply.um)
            self.longest[i] = max(self.longest[i + 1], supply.um)
            if i + 1 < count and _alike(supply, self.supplies[i + 1]):
                self.next_kind[i] = self.next_kind[i + 1]

    def best(self) -> Pick | None:
        if self.wanted.um <= 0:
            return self._weighed([], [])
        chosen: list[int] = []
        total = at = 0
        for _ in range(MOST_STEPS + len(self.supplies)):
            if at < len(self.supplies) and total + self.rest[at] >= self.wanted.um:
                if not self._may_win(chosen, total, at):
                    at = self.next_kind[at]
                    continue
                chosen.append(at)
                total += self.supplies[at].um
                at += 1
                if not self._settled(chosen, total):
                    continue
            if not chosen:
                break
            last = chosen.pop()
            total -= self.supplies[last].um
            at = self.next_kind[last]
        return self.found or self.spare

    def _may_win(self, chosen: list[int], total: int, at: int) -> bool:
        """Whether taking this piece next can still lead to something cheaper than was found."""
        if self.found is None:
            return True
        supply, after = self.supplies[at], at + 1
        count = len(chosen) + 1
        whole = sum(self.supplies[i].whole for i in chosen) + supply.whole
        short = self.wanted.um - total - supply.um
        if short > 0:
            count += -(-short // self.longest[after])
            sealed = short - self.opened_rest[after]
            if sealed > 0:
                whole += -(-sealed // self.longest[after])
        joins = max(0, count - self.wanted.strands)
        return (self._cost(count, whole, joins), count) < (self.found.cost, self.found.supplies)

    def _cost(self, count: int, whole: int, joins: int) -> int:
        costs = self.costs
        return costs.join * joins + costs.opening * whole + costs.mixed * (count > 1)

    def _settled(self, chosen: list[int], total: int) -> bool:
        """Keep the set if it covers and is better; whether adding to it is pointless.

        With one strand the piece that ends the strand stays the last one, whatever is added.
        """
        if total < self.wanted.um:
            return False
        supplies = [self.supplies[i] for i in chosen]
        cuts, missing = laid_out(supplies, self.wanted)
        if missing:
            return False
        pick = self._weighed(supplies, cuts)
        if pick.supplies < len(chosen):
            self.spare = self.spare or pick  # these fewer pieces have, or will have, their own turn
        elif self.found is None or (pick.cost, pick.supplies) < (
            self.found.cost,
            self.found.supplies,
        ):
            self.found = pick
        return self.wanted.strands == 1

    def _weighed(self, supplies: list[Supply], cuts: list[Cut]) -> Pick:
        taken: dict[int, int] = {}
        for cut in cuts:
            taken[cut.number] = taken.get(cut.number, 0) + cut.um
        used = [p for p in supplies if p.number in taken]
        opened = tuple(p.number for p in used if p.whole)
        slivers = tuple(p.number for p in used if p.whole and 6 * taken[p.number] < p.um)
        ends = tuple(
            (p.number, p.um - taken[p.number])
            for p in used
            if 0 < p.um - taken[p.number] < self.wanted.useful_um
        )
        joins = max(0, len(cuts) - self.wanted.strands)
        lone = bool(opened) and self.whole_count - len(opened) == 1
        return Pick(
            cuts=tuple(cuts),
            joins=joins,
            opened=opened,
            slivers=slivers,
            useless_ends=ends,
            leaves_lone_skein=lone,
            supplies=len(used),
            cost=self._cost(len(used), len(opened), joins)
            + self.costs.very_little * len(slivers)
            + self.costs.useless_end * len(ends)
            + self.costs.lone_skein * lone,
        )


def _alike(one: Supply, other: Supply) -> bool:
    return one.whole == other.whole and one.um == other.um
