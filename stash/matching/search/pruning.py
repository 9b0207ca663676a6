"""What a choice for the first roles leaves for the later ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stash.matching.lots.lot_view import Lots
from stash.matching.rules.fits import PairRules
from stash.matching.search.candidate_list import CandidateList, Costed, first_of
from stash.matching.search.conflict_keys import ConflictKey, ConflictValue, conflict_keys
from stash.matching.search.lot_classes import LotClasses


class Domains(NamedTuple):
    """For each later role the places not known to conflict with the choice, and the classes."""

    places: tuple[int, ...]
    classes: int


class Pruner:
    """Narrows the domains choice by choice; what a value rules out is worked out once."""

    def __init__(self, by_role: Sequence[CandidateList[Costed]], rules: PairRules) -> None:
        self._by_role, self._rules, self._keys = by_role, rules, conflict_keys(rules)
        # with two roles the lots that are left say as much; strands may be alike in class
        by_class = len(by_role) > 2 and not rules.colours
        self._classes = LotClasses(by_role, self._keys) if by_class else None
        self._known: dict[tuple[int, str, ConflictValue], int] = {}

    def whole(self) -> Domains:
        """Nothing chosen yet."""
        every = self._classes.every if self._classes else 0
        return Domains(tuple(candidates.everyone for candidates in self._by_role), every)

    def after(self, domains: Domains, lots: Lots) -> Domains | None:
        """What is left once these are taken for the first of these roles; None if no way on."""
        left = list(domains.places[1:])
        if not left:
            return Domains((), 0)
        first = len(self._by_role) - len(left)
        for key in self._keys:
            for lot in lots:
                for value in key.values(lot):
                    for i in range(len(left)):
                        if not (key.of_colour and self._rules.of_one_colour(first - 1, first + i)):
                            left[i] &= ~self._conflicting(first + i, key, value)
        if not all(left):
            return None
        if len(left) == 1 or self._classes is None:
            return Domains(tuple(left), 0)
        classes = self._classes.fitting(domains.classes, lots[0])
        return Domains(tuple(left), classes) if self._classes.can_fill(first, classes) else None

    def _conflicting(self, role: int, key: ConflictKey, value: ConflictValue) -> int:
        known = role, key.name, value
        if known not in self._known:
            self._known[known] = self._by_role[role].conflicting(key, value)
        return self._known[known]

    def least(self, domains: Domains) -> int:
        """The least that the later roles can cost, each with the first of its lots."""
        later = self._by_role[len(self._by_role) - len(domains.places) :]
        pairs = zip(later, domains.places, strict=True)
        return sum(candidates.least[first_of(places)] for candidates, places in pairs)
