"""Whether roles can still be filled at all, told by kinds of lots rather than lot by lot.

Where no three lots of a shelf stand apart as wished, every two of them would be tried in
vain; there are only some hundred kinds, and what can stand beside them is soon known.
"""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.lots.lot_view import LotView
from stash.matching.rules.conflicts import ConflictKey, ConflictValue, class_of
from stash.matching.search.candidate_list import CandidateList, Costed, places


class LotClasses:
    """The kinds of lots in each role's line; a set of kinds is kept as the bits of one number.

    A kind is the first mark of each trait that has few of them.
    """

    def __init__(
        self, by_role: Sequence[CandidateList[Costed]], conflict_keys: Sequence[ConflictKey]
    ) -> None:
        self._conflict_keys = [conflict_key for conflict_key in conflict_keys if conflict_key.few]
        self._place: dict[tuple[ConflictValue, ...], int] = {}
        self._in_role = [self._classes_in(candidates) for candidates in by_role]
        self._marks = [*self._place]
        self._bearing = [self._bearers(side) for side in range(len(self._conflict_keys))]
        self._agreed: dict[tuple[int, ConflictValue], int] = {}
        self._fitting: dict[int, int] = {}
        self._ends: dict[tuple[int, int], bool] = {}
        self.every = (1 << len(self._place)) - 1

    def _classes_in(self, candidates: CandidateList[Costed]) -> int:
        return sum(
            1 << self._at(lot_class) for lot_class in candidates.classes(self._conflict_keys)
        )

    def _at(self, lot_class: tuple[ConflictValue, ...]) -> int:
        return self._place.setdefault(lot_class, len(self._place))

    def _bearers(self, side: int) -> dict[ConflictValue, int]:
        """The kinds that carry each mark of this trait."""
        found: dict[ConflictValue, int] = {}
        for at, values in enumerate(self._marks):
            found[values[side]] = found.get(values[side], 0) | 1 << at
        return found

    def beside(self, classes: int, view: LotView) -> int:
        """Which of these kinds can also stand beside the lot."""
        return classes & self._beside(self._at(class_of(view, self._conflict_keys)))

    def _beside(self, lot_class: int) -> int:
        if lot_class not in self._fitting:
            found = self.every
            for side, value in enumerate(self._marks[lot_class]):
                found &= self._agreeing(side, value)
            self._fitting[lot_class] = found
        return self._fitting[lot_class]

    def _agreeing(self, side: int, value: ConflictValue) -> int:
        """The kinds that are not at odds with the mark over this trait."""
        if (side, value) not in self._agreed:
            conflicts, found = self._conflict_keys[side].conflicts, 0
            for other, classes in self._bearing[side].items():
                if not conflicts(value, other):
                    found |= classes
            self._agreed[side, value] = found
        return self._agreed[side, value]

    def can_fill(self, role: int, classes: int) -> bool:
        """Whether lots of these kinds can fill this role and all later ones, fitting each other."""
        if role == len(self._in_role):
            return True
        key = role, classes
        if key not in self._ends:
            self._ends[key] = any(
                self.can_fill(role + 1, classes & self._beside(lot_class))
                for lot_class in places(self._in_role[role] & classes)
            )
        return self._ends[key]
