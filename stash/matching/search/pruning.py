"""What a choice for the first roles leaves for the later ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stash.matching.lots.lot_view import LotView
from stash.matching.rules.conflicts import ConflictKey, ConflictValue
from stash.matching.rules.fits import PairRules
from stash.matching.search.candidate_list import CandidateList, Costed, first_of
from stash.matching.search.lot_classes import LotClasses


class Domains(NamedTuple):
    """For each later role the lots not known to be at odds with the choice, and the kinds."""

    lots: tuple[int, ...]
    classes: int


class Pruner:
    """Narrows the room lot by lot; what a mark rules out of a line is worked out once."""

    def __init__(self, by_role: Sequence[CandidateList[Costed]], rules: PairRules) -> None:
        self._lists, self._rules, self._conflict_keys = by_role, rules, rules.conflict_keys()
        # with two roles the lots that are left tell as much; strands may be alike in kind
        told = len(by_role) > 2 and not rules.colours
        self._classes = LotClasses(by_role, self._conflict_keys) if told else None
        self._known_conflicts: dict[tuple[int, str, ConflictValue], int] = {}

    def whole(self) -> Domains:
        """Nothing chosen yet."""
        every = self._classes.every if self._classes else 0
        return Domains(tuple(candidates.everyone for candidates in self._lists), every)

    def after(self, domains: Domains, view: LotView) -> Domains | None:
        """What is left once this lot is taken for the first of these roles; None if no way on."""
        left = list(domains.lots[1:])
        if not left:
            return Domains((), 0)
        first = len(self._lists) - len(left)
        for conflict_key in self._conflict_keys:
            for value in conflict_key.values(view):
                for i in range(len(left)):
                    if not (
                        conflict_key.of_colour and self._rules.of_one_colour(first - 1, first + i)
                    ):
                        left[i] &= ~self._conflicting(first + i, conflict_key, value)
        if not all(left):
            return None
        if len(left) == 1 or self._classes is None:
            return Domains(tuple(left), 0)
        classes = self._classes.beside(domains.classes, view)
        return Domains(tuple(left), classes) if self._classes.can_fill(first, classes) else None

    def _conflicting(self, role: int, conflict_key: ConflictKey, value: ConflictValue) -> int:
        key = role, conflict_key.name, value
        if key not in self._known_conflicts:
            self._known_conflicts[key] = self._lists[role].conflicts(conflict_key, value)
        return self._known_conflicts[key]

    def least(self, domains: Domains) -> int:
        """The least that the later roles can cost, each with the first of its lots."""
        lists = self._lists[len(self._lists) - len(domains.lots) :]
        return sum(
            candidates.least[first_of(lots)]
            for candidates, lots in zip(lists, domains.lots, strict=True)
        )
