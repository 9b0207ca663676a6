"""Whether roles can still be filled at all, by classes of lots rather than lot by lot.

Where no three lots of a shelf stand apart as wished, every two of them would be tried in
vain; there are only some hundred classes, and which of them fit each other is soon known.
"""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.lots.lot_view import LotView
from stash.matching.search.candidate_list import CandidateList, Costed, places
from stash.matching.search.conflict_keys import ConflictKey, ConflictValue, class_of


class LotClasses:
    """The classes of lots in each role's list; a set of them is kept as the bits of one number.

    A class is the first value of each key that has few of them.
    """

    def __init__(
        self, by_role: Sequence[CandidateList[Costed]], keys: Sequence[ConflictKey]
    ) -> None:
        self._keys = [key for key in keys if key.few]
        self._place: dict[tuple[ConflictValue, ...], int] = {}
        self._in_role = [self._classes_in(candidates) for candidates in by_role]
        self._values = [*self._place]
        self._with_value = [self._by_value(side) for side in range(len(self._keys))]
        self._agreed: dict[tuple[int, ConflictValue], int] = {}
        self._fitting: dict[int, int] = {}
        self._ends: dict[tuple[int, int], bool] = {}
        self.every = (1 << len(self._place)) - 1

    def _classes_in(self, candidates: CandidateList[Costed]) -> int:
        return sum(1 << self._at(lot_class) for lot_class in candidates.classes(self._keys))

    def _at(self, lot_class: tuple[ConflictValue, ...]) -> int:
        return self._place.setdefault(lot_class, len(self._place))

    def _by_value(self, side: int) -> dict[ConflictValue, int]:
        """The classes that have each value of this key."""
        found: dict[ConflictValue, int] = {}
        for at, values in enumerate(self._values):
            found[values[side]] = found.get(values[side], 0) | 1 << at
        return found

    def fitting(self, classes: int, lot: LotView) -> int:
        """Which of these classes may also fit the lot."""
        return classes & self._may_fit(self._at(class_of(lot, self._keys)))

    def _may_fit(self, lot_class: int) -> int:
        if lot_class not in self._fitting:
            found = self.every
            for side, value in enumerate(self._values[lot_class]):
                found &= self._agreeing(side, value)
            self._fitting[lot_class] = found
        return self._fitting[lot_class]

    def _agreeing(self, side: int, value: ConflictValue) -> int:
        """The classes that do not conflict with the value over this key."""
        if (side, value) not in self._agreed:
            conflicts, found = self._keys[side].conflicts, 0
            for other, classes in self._with_value[side].items():
                if not conflicts(value, other):
                    found |= classes
            self._agreed[side, value] = found
        return self._agreed[side, value]

    def can_fill(self, role: int, classes: int) -> bool:
        """Whether lots of these classes can fill this role and all later ones, as they may fit."""
        if role == len(self._in_role):
            return True
        known = role, classes
        if known not in self._ends:
            self._ends[known] = any(
                self.can_fill(role + 1, classes & self._may_fit(lot_class))
                for lot_class in places(self._in_role[role] & classes)
            )
        return self._ends[known]
