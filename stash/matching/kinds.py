"""Whether roles can still be filled at all, told by kinds of lots rather than lot by lot.

Where no three lots of a shelf stand apart as wished, every two of them would be tried in
vain; there are only some hundred kinds, and what can stand beside them is soon known.
"""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.line import Costed, Line, places
from stash.matching.sight import Seen
from stash.matching.traits import Mark, Trait


class Kinds:
    """The kinds of lots in each role's line; a set of kinds is kept as the bits of one number.

    A kind is the first mark of each trait that has few of them.
    """

    def __init__(self, by_role: Sequence[Line[Costed]], traits: Sequence[Trait]) -> None:
        self._traits = [trait for trait in traits if trait.few]
        self._place: dict[tuple[Mark, ...], int] = {}
        self._in_role = [self._kinds_in(line) for line in by_role]
        self._marks = [*self._place]
        self._fitting: dict[int, int] = {}
        self._ends: dict[tuple[int, int], bool] = {}
        self.every = (1 << len(self._place)) - 1

    def _kinds_in(self, line: Line[Costed]) -> int:
        found = {self._kind(seen) for seen in line.seen}
        return sum(1 << at for at in found)

    def _kind(self, seen: Seen) -> int:
        marks = tuple(trait.marks(seen)[0] for trait in self._traits)
        return self._place.setdefault(marks, len(self._place))

    def beside(self, kinds: int, seen: Seen) -> int:
        """Which of these kinds can also stand beside the lot."""
        return kinds & self._beside(self._kind(seen))

    def _beside(self, kind: int) -> int:
        if kind not in self._fitting:
            marks = self._marks[kind]
            self._fitting[kind] = sum(
                1 << at for other, at in self._place.items() if self._agree(marks, other)
            )
        return self._fitting[kind]

    def _agree(self, one: Sequence[Mark], other: Sequence[Mark]) -> bool:
        sides = zip(self._traits, one, other, strict=True)
        return not any(trait.at_odds(x, y) for trait, x, y in sides)

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
