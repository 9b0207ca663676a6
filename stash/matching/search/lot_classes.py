"""Whether roles can still be filled at all, told by kinds of lots rather than lot by lot.

Where no three lots of a shelf stand apart as wished, every two of them would be tried in
vain; there are only some hundred kinds, and what can stand beside them is soon known.
"""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.lots.lot_view import Seen
from stash.matching.rules.conflicts import Mark, Trait, kind_of
from stash.matching.search.candidate_list import Costed, Line, places


class Kinds:
    """The kinds of lots in each role's line; a set of kinds is kept as the bits of one number.

    A kind is the first mark of each trait that has few of them.
    """

    def __init__(self, by_role: Sequence[Line[Costed]], traits: Sequence[Trait]) -> None:
        self._traits = [trait for trait in traits if trait.few]
        self._place: dict[tuple[Mark, ...], int] = {}
        self._in_role = [self._kinds_in(line) for line in by_role]
        self._marks = [*self._place]
        self._bearing = [self._bearers(side) for side in range(len(self._traits))]
        self._agreed: dict[tuple[int, Mark], int] = {}
        self._fitting: dict[int, int] = {}
        self._ends: dict[tuple[int, int], bool] = {}
        self.every = (1 << len(self._place)) - 1

    def _kinds_in(self, line: Line[Costed]) -> int:
        return sum(1 << self._at(kind) for kind in line.kinds(self._traits))

    def _at(self, kind: tuple[Mark, ...]) -> int:
        return self._place.setdefault(kind, len(self._place))

    def _bearers(self, side: int) -> dict[Mark, int]:
        """The kinds that carry each mark of this trait."""
        found: dict[Mark, int] = {}
        for at, marks in enumerate(self._marks):
            found[marks[side]] = found.get(marks[side], 0) | 1 << at
        return found

    def beside(self, kinds: int, seen: Seen) -> int:
        """Which of these kinds can also stand beside the lot."""
        return kinds & self._beside(self._at(kind_of(seen, self._traits)))

    def _beside(self, kind: int) -> int:
        if kind not in self._fitting:
            found = self.every
            for side, mark in enumerate(self._marks[kind]):
                found &= self._agreeing(side, mark)
            self._fitting[kind] = found
        return self._fitting[kind]

    def _agreeing(self, side: int, mark: Mark) -> int:
        """The kinds that are not at odds with the mark over this trait."""
        if (side, mark) not in self._agreed:
            at_odds, found = self._traits[side].at_odds, 0
            for other, kinds in self._bearing[side].items():
                if not at_odds(mark, other):
                    found |= kinds
            self._agreed[side, mark] = found
        return self._agreed[side, mark]

    def can_fill(self, role: int, kinds: int) -> bool:
        """Whether lots of these kinds can fill this role and all later ones, fitting each other."""
        if role == len(self._in_role):
            return True
        key = role, kinds
        if key not in self._ends:
            self._ends[key] = any(
                self.can_fill(role + 1, kinds & self._beside(kind))
                for kind in places(self._in_role[role] & kinds)
            )
        return self._ends[key]
