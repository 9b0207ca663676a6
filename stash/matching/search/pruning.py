"""What a choice for the first roles leaves for the later ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stash.matching.lots.lot_view import Seen
from stash.matching.rules.conflicts import Mark, Trait
from stash.matching.rules.fits import Together
from stash.matching.search.candidate_list import Costed, Line, first_of
from stash.matching.search.lot_classes import Kinds


class Room(NamedTuple):
    """For each later role the lots not known to be at odds with the choice, and the kinds."""

    lots: tuple[int, ...]
    kinds: int


class Rooms:
    """Narrows the room lot by lot; what a mark rules out of a line is worked out once."""

    def __init__(self, by_role: Sequence[Line[Costed]], rules: Together) -> None:
        self._lines, self._rules, self._traits = by_role, rules, rules.traits()
        # with two roles the lots that are left tell as much; strands may be alike in kind
        told = len(by_role) > 2 and not rules.colours
        self._kinds = Kinds(by_role, self._traits) if told else None
        self._odds: dict[tuple[int, str, Mark], int] = {}

    def whole(self) -> Room:
        """Nothing chosen yet."""
        every = self._kinds.every if self._kinds else 0
        return Room(tuple(line.everyone for line in self._lines), every)

    def after(self, room: Room, seen: Seen) -> Room | None:
        """What is left once this lot is taken for the first of these roles; None if no way on."""
        left = list(room.lots[1:])
        if not left:
            return Room((), 0)
        first = len(self._lines) - len(left)
        for trait in self._traits:
            for mark in trait.marks(seen):
                for i in range(len(left)):
                    if not (trait.of_colour and self._rules.of_one_colour(first - 1, first + i)):
                        left[i] &= ~self._at_odds(first + i, trait, mark)
        if not all(left):
            return None
        if len(left) == 1 or self._kinds is None:
            return Room(tuple(left), 0)
        kinds = self._kinds.beside(room.kinds, seen)
        return Room(tuple(left), kinds) if self._kinds.can_fill(first, kinds) else None

    def _at_odds(self, role: int, trait: Trait, mark: Mark) -> int:
        key = role, trait.name, mark
        if key not in self._odds:
            self._odds[key] = self._lines[role].at_odds(trait, mark)
        return self._odds[key]

    def least(self, room: Room) -> int:
        """The least that the later roles can cost, each with the first of its lots."""
        lines = self._lines[len(self._lines) - len(room.lots) :]
        return sum(line.least[first_of(lots)] for line, lots in zip(lines, room.lots, strict=True))
