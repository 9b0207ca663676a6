"""Sets of lots in order of cost, best first, without ever holding all of them.

A branch is a choice for the first roles and, for each later one, the lots that are not known to
conflict with it. Whatever can be cheapest is always taken up first, by the least it can cost; a lot
is weighed only when nothing else could be cheaper. A branch that leaves a role empty ends there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from heapq import heappop, heappush
from itertools import count
from typing import Generic

from stash.matching.lots.lot_view import order_of
from stash.matching.rules.fits import PairRules
from stash.matching.search.candidate_list import CandidateList, Choice, first_of
from stash.matching.search.pruning import Domains, Pruner


def best_first(
    by_role: Sequence[CandidateList[Choice]], rules: PairRules
) -> Iterator[tuple[Choice, ...]]:
    """Every set of lots that fit together, one for each role, by (cost, lot numbers by role)."""
    if by_role and all(by_role):
        lots = len(set(rules.colours)) if rules.colours else len(by_role)
        yield from _Search(by_role, replace(rules, lots=lots))


class _Branch(Generic[Choice]):
    """A choice for the first roles, what it costs, and what it leaves for the later ones.

    `ahead` is the least that the roles after the next one can cost.
    """

    __slots__ = ("ahead", "chosen", "cost", "domains", "ids", "lots", "role")

    def __init__(self, chosen: tuple[Choice, ...], cost: int, domains: Domains, ahead: int) -> None:
        self.chosen, self.cost, self.domains, self.ahead = chosen, cost, domains, ahead
        self.role = len(chosen)
        self.lots = tuple(one.lots for one in chosen)
        self.ids = tuple(map(order_of, self.lots))


_Found = tuple[Choice, ...] | None
#: How the choices of a branch come one after the other where they cost the same.
_Ids = tuple[tuple[int, ...], ...]


class _Search(Generic[Choice]):
    """A queue of steps, each with the least that any set behind it costs and how its numbers begin.

    A set comes out when it is at the head: nothing that could still come sorts before it.
    """

    def __init__(self, by_role: Sequence[CandidateList[Choice]], rules: PairRules) -> None:
        self.by_role, self.rules, self.pruner = by_role, rules, Pruner(by_role, rules)
        self.queue: list[tuple[int, _Ids, int, Callable[[], _Found[Choice]]]] = []
        self.tickets = count()

    def __iter__(self) -> Iterator[tuple[Choice, ...]]:
        self._take_up((), 0, self.pruner.whole())
        while self.queue:
            found = heappop(self.queue)[-1]()
            if found is not None:
                yield found

    def _later(self, least: int, ids: _Ids, step: Callable[[], _Found[Choice]]) -> None:
        heappush(self.queue, (least, ids, next(self.tickets), step))

    def _take_up(self, chosen: tuple[Choice, ...], cost: int, domains: Domains) -> None:
        ahead = self.pruner.least(Domains(domains.places[1:], domains.classes))
        self._wait(_Branch(chosen, cost, domains, ahead), domains.places[0])

    def _wait(self, branch: _Branch[Choice], places: int) -> None:
        """Put the first of these places in the queue for the branch's next role."""
        if places:
            place = first_of(places)
            least = branch.cost + self.by_role[branch.role].least[place] + branch.ahead
            self._later(least, branch.ids, partial(self._try, branch, places, place))

    def _try(self, branch: _Branch[Choice], places: int, place: int) -> None:
        """See what the lot would leave for the later roles; the next one waits in its place."""
        self._wait(branch, places & (places - 1))
        candidates = self.by_role[branch.role]
        chosen = candidates.lots[place]
        if not self.rules.fit_all(branch.lots, chosen):
            return
        domains = self.pruner.after(branch.domains, chosen)
        if domains is not None:
            least = branch.cost + candidates.least[place] + self.pruner.least(domains)
            ids = (*branch.ids, order_of(chosen))
            self._later(least, ids, partial(self._choose, branch, place))

    def _choose(self, branch: _Branch[Choice], place: int) -> None:
        """Take the lot at what it really costs."""
        chosen = (*branch.chosen, self.by_role[branch.role].choice(place))
        lots = [one.lots for one in chosen]
        cost = sum(one.cost for one in chosen) + self.rules.cost([x for one in lots for x in one])
        domains = self.pruner.after(branch.domains, lots[-1])
        if domains is None or not domains.places:
            self._later(cost, tuple(map(order_of, lots)), lambda: chosen)
        else:
            self._take_up(chosen, cost, domains)
