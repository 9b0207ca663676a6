"""Sets of lots in order of cost, best first, without ever holding all of them.

A branch is a choice for the first roles and, for each later one, the lots that are not known to be
at odds with it. Whatever can be cheapest is always taken up first, by the least it can cost; a lot
is weighed only when nothing else could be cheaper. A branch that leaves a role empty ends there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from heapq import heappop, heappush
from itertools import count
from typing import Generic

from stash.matching.rules.fits import Together
from stash.matching.search.candidate_list import Choice, Line, first_of
from stash.matching.search.pruning import Room, Rooms


def best_first(by_role: Sequence[Line[Choice]], rules: Together) -> Iterator[tuple[Choice, ...]]:
    """Every set of lots that fit together, one for each role, by (cost, lot numbers by role)."""
    if by_role and all(by_role):
        lots = len(set(rules.colours)) if rules.colours else len(by_role)
        yield from _Search(by_role, replace(rules, lots=lots))


class _Branch(Generic[Choice]):
    """A choice for the first roles, what it costs, and what it leaves for the later ones.

    `ahead` is the least that the roles after the next one can cost.
    """

    __slots__ = ("ahead", "chosen", "cost", "ids", "role", "room", "seen")

    def __init__(self, chosen: tuple[Choice, ...], cost: int, room: Room, ahead: int) -> None:
        self.chosen, self.cost, self.room, self.ahead = chosen, cost, room, ahead
        self.role = len(chosen)
        self.seen = tuple(lot.seen for lot in chosen)
        self.ids = tuple(seen.id for seen in self.seen)


_Found = tuple[Choice, ...] | None


class _Search(Generic[Choice]):
    """A queue of steps, each with the least that any set behind it costs and how its numbers begin.

    A set comes out when it stands at the head: nothing that could still come sorts before it.
    """

    def __init__(self, by_role: Sequence[Line[Choice]], rules: Together) -> None:
        self.lines, self.rules, self.rooms = by_role, rules, Rooms(by_role, rules)
        self.queue: list[tuple[int, tuple[int, ...], int, Callable[[], _Found[Choice]]]] = []
        self.tickets = count()

    def __iter__(self) -> Iterator[tuple[Choice, ...]]:
        self._take_up((), 0, self.rooms.whole())
        while self.queue:
            found = heappop(self.queue)[-1]()
            if found is not None:
                yield found

    def _later(self, least: int, ids: tuple[int, ...], step: Callable[[], _Found[Choice]]) -> None:
        heappush(self.queue, (least, ids, next(self.tickets), step))

    def _take_up(self, chosen: tuple[Choice, ...], cost: int, room: Room) -> None:
        ahead = self.rooms.least(Room(room.lots[1:], room.kinds))
        self._wait(_Branch(chosen, cost, room, ahead), room.lots[0])

    def _wait(self, branch: _Branch[Choice], lots: int) -> None:
        """Put the first of these lots in the queue for the branch's next role."""
        if lots:
            place = first_of(lots)
            least = branch.cost + self.lines[branch.role].least[place] + branch.ahead
            self._later(least, branch.ids, partial(self._look_at, branch, lots, place))

    def _look_at(self, branch: _Branch[Choice], lots: int, place: int) -> None:
        """See what the lot would leave for the later roles; the next one waits in its place."""
        self._wait(branch, lots & (lots - 1))
        line = self.lines[branch.role]
        seen = line.seen[place]
        if not self.rules.fit_all(branch.seen, seen):
            return
        room = self.rooms.after(branch.room, seen)
        if room is not None:
            least = branch.cost + line.least[place] + self.rooms.least(room)
            self._later(least, (*branch.ids, seen.id), partial(self._choose, branch, place))

    def _choose(self, branch: _Branch[Choice], place: int) -> None:
        """Take the lot at what it really costs."""
        chosen = (*branch.chosen, self.lines[branch.role].choice(place))
        seen = [lot.seen for lot in chosen]
        cost = sum(lot.cost for lot in chosen) + self.rules.cost(seen)
        room = self.rooms.after(branch.room, seen[-1])
        if room is None or not room.lots:
            self._later(cost, tuple(lot.id for lot in seen), lambda: chosen)
        else:
            self._take_up(chosen, cost, room)
