"""A plan under way: items with their lots, and what every lot has given, checked by cutting."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from stash.planning.model.problem import Column, Part, Problem
from stash.planning.optimiser.cutting import Strand, possible


@dataclass(slots=True)
class DraftItem:
    """One item of a plan under way."""

    want: int
    lots: list[int]

    @property
    def column(self) -> Column:
        """Its kind."""
        return Column(self.want, tuple(self.lots))


class DraftPlan:
    """Items that the balls can really give, one put beside the other."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.items: list[DraftItem] = []
        self.asked = [0] * len(problem.lots)
        self.room = [mostly_um(problem, lot) for lot in range(len(problem.lots))]
        self.made = [0] * len(problem.wants)
        self.pairs: dict[tuple[int, ...], int] = {}
        self.minutes = 0
        self._ample = [_ample(problem, lot) for lot in range(len(problem.lots))]
        self._at: list[dict[tuple[int, int], list[Strand]]] = [{} for _ in problem.lots]

    @property
    def columns(self) -> list[Column]:
        """The kind of every item, in the order they were made."""
        return [item.column for item in self.items]

    @property
    def counts(self) -> dict[Column, int]:
        """How many of each kind."""
        return Counter(self.columns)

    def put(self, column: Column) -> int | None:
        """Make one more; None where it could be, else the lot that cannot give it (-1: no lot)."""
        want = self.problem.wants[column.want]
        limit, per_pair = self.problem.minutes, self.problem.per_pair
        if (
            self.made[column.want] >= want.at_most
            or (limit is not None and self.minutes + want.minutes > limit)
            or (per_pair is not None and self.pairs.get(column.pair, 0) >= per_pair)
        ):
            return -1
        number = len(self.items)
        for at, lot in enumerate(column.lots):
            if not self.gives(lot, [(number, at, want.parts[at])]):
                return lot
        self.items.append(DraftItem(column.want, [*column.lots]))
        for at, lot in enumerate(column.lots):
            self._take(number, at, lot)
        self.made[column.want] += 1
        self.minutes += want.minutes
        self.pairs[column.pair] = self.pairs.get(column.pair, 0) + 1
        return None

    def out_of_time(self) -> list[int]:
        """The wants that take longer than there is time left."""
        if self.problem.minutes is None:
            return []
        left = self.problem.minutes - self.minutes
        return [i for i, want in enumerate(self.problem.wants) if want.minutes > left]

    def part(self, slot: tuple[int, int]) -> Part:
        """The part of an item that an slot is."""
        number, at = slot
        return self.problem.wants[self.items[number].want].parts[at]

    def at(self, lot: int) -> list[tuple[int, int]]:
        """What comes from a lot: items by their place, each with the place of its part."""
        return [*self._at[lot]]

    def gives(
        self,
        lot: int,
        more: list[tuple[int, int, Part]],
        without: Iterable[tuple[int, int]] = (),
    ) -> bool:
        """Whether the lot's designs give all it gives and some more, without what leaves it."""
        strands = [_strands(part, lot) for _, _, part in more]
        gone = {*without}
        asked = self.asked[lot] - sum(self.part(slot).um for slot in gone)
        asked += sum(part.um for _, _, part in more)
        if asked > self.problem.lots[lot].most_um:
            return False
        strands += [s for slot, s in self._at[lot].items() if slot not in gone]
        flat = [strand for run in strands for strand in run]
        every = (1 << len(self.problem.lots[lot].supplies)) - 1
        if asked <= self._ample[lot] and all(strand.pool == every for strand in flat):
            return True
        return possible(self.problem.lots[lot], flat, self.problem.ends)

    def move(self, slot: tuple[int, int], lot: int) -> None:
        """Let an item have the yarn of one part from another lot."""
        number, at = slot
        item = self.items[number]
        self.pairs[item.column.pair] -= 1
        self._give_back(slot, item.lots[at])
        item.lots[at] = lot
        self._take(number, at, lot)
        self.pairs[item.column.pair] = self.pairs.get(item.column.pair, 0) + 1

    def _take(self, number: int, at: int, lot: int) -> None:
        part = self.part((number, at))
        self._at[lot][number, at] = _strands(part, lot)
        self.asked[lot] += part.um
        self.room[lot] -= part.um

    def _give_back(self, slot: tuple[int, int], lot: int) -> None:
        del self._at[lot][slot]
        self.asked[lot] -= self.part(slot).um
        self.room[lot] += self.part(slot).um


def _strands(part: Part, lot: int) -> list[Strand]:
    return [Strand(um, part.places[lot].pool) for um in part.strand_lengths]


def _useful(problem: Problem, lot: int) -> list[int]:
    return [p.um for p in problem.lots[lot].supplies if p.um >= problem.ends.shortest_um]


def mostly_um(problem: Problem, lot: int) -> int:
    """What can mostly be cut of a lot: each end of a design costs a join."""
    useful = _useful(problem, lot)
    joined = sum(useful) - problem.ends.join_um * max(0, len(useful) - 1)
    return min(problem.lots[lot].most_um, joined)


def _ample(problem: Problem, lot: int) -> int:
    """So much of a lot can be cut in any way: at each end of a design a join or an end is lost."""
    useful = _useful(problem, lot)
    lost = max(0, len(useful) - 1) * 2 * problem.ends.shortest_um
    return min(problem.lots[lot].most_um, sum(useful)) - lost
