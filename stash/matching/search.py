"""Sets of lots in order of cost, best first, without ever holding all of them.

Each role has its lots sorted by cost. A row is a choice for the roles so far and the next role's
lots of one kind, looked at from the cheapest on; the row whose next set can be cheapest is always
taken up first. Rows that cannot end in a whole set are never begun: which kinds fit which is kept
as the bits of a number, one bit a kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import count
from typing import Generic, Protocol, TypeVar

from stash.matching.fits import Kind, Together
from stash.matching.sight import Seen

_Key = tuple[int, tuple[int, ...], int]


class Costed(Protocol):
    """A lot with what it costs in a role, in thousandths."""

    @property
    def seen(self) -> Seen:
        """The lot."""

    @property
    def cost(self) -> int:
        """Its cost in the role."""


Choice = TypeVar("Choice", bound=Costed)


def best_first(
    by_role: Sequence[Sequence[Choice]], rules: Together
) -> Iterator[tuple[Choice, ...]]:
    """Every set of lots that fit together, one for each role, by (cost, lot numbers by role).

    The lots of each role come sorted by (cost, lot number).
    """
    if by_role and all(by_role):
        yield from _Rows(by_role, rules)


class _Row(Generic[Choice]):
    """A choice for the first roles, and lots of one kind for the next; `cost` without that lot.

    `mask` holds the kinds that fit every kind so far, this one included.
    """

    __slots__ = ("chosen", "cost", "kinds", "lots", "mask")

    def __init__(
        self, chosen: tuple[Choice, ...], kinds: tuple[Kind, ...], mask: int, lots: list[Choice]
    ) -> None:
        self.chosen, self.kinds, self.mask, self.lots = chosen, kinds, mask, lots
        self.cost = 0


class _Rows(Generic[Choice]):
    def __init__(self, by_role: Sequence[Sequence[Choice]], rules: Together) -> None:
        self.rules = rules
        self.rows = [self._by_kind(lots) for lots in by_role]
        self.kinds = list(dict.fromkeys(kind for rows in self.rows for kind in rows))
        self.bits = {kind: 1 << i for i, kind in enumerate(self.kinds)}
        self.masks: dict[Kind, int] = {}
        self.ends: dict[tuple[int, int], bool] = {}
        self.aheads: dict[tuple[int, int], int] = {}
        self.heap: list[tuple[_Key, _Row[Choice], int]] = []
        self.tickets = count()

    def _by_kind(self, lots: Sequence[Choice]) -> dict[Kind, list[Choice]]:
        """The lots of each kind, cheapest first, and the kinds by their cheapest lot."""
        rows: dict[Kind, list[Choice]] = {}
        for lot in lots:
            rows.setdefault(self.rules.kind(lot.seen), []).append(lot)
        return rows

    def __iter__(self) -> Iterator[tuple[Choice, ...]]:
        self._begin((), (), (1 << len(self.kinds)) - 1)
        while self.heap:
            _, row, at = heappop(self.heap)
            chosen = (*row.chosen, row.lots[at])
            self._look_at(row, at + 1)
            if len(chosen) == len(self.rows):
                yield chosen
            else:
                self._begin(chosen, row.kinds, row.mask)

    def _begin(self, chosen: tuple[Choice, ...], kinds: tuple[Kind, ...], mask: int) -> None:
        """The rows that go on from this choice, one for each kind that can end in a whole set."""
        spent = sum(lot.cost for lot in chosen)
        role = len(chosen) + 1
        for kind, lots in self.rows[len(chosen)].items():
            if not self.bits[kind] & mask:
                continue
            left = mask & self._fitting(kind)
            if self._can_end(left, role):
                row = _Row(chosen, (*kinds, kind), left, lots)
                row.cost = spent + self.rules.cost(row.kinds) + self._ahead(left, role)
                self._look_at(row, 0)

    def _fitting(self, kind: Kind) -> int:
        """The kinds that can fit this one, as bits."""
        if kind not in self.masks:
            self.masks[kind] = sum(
                self.bits[other] for other in self.kinds if self.rules.could_fit(kind, other)
            )
        return self.masks[kind]

    def _can_end(self, mask: int, role: int) -> bool:
        """Whether these kinds can fill this role and all later ones, fitting each other."""
        if role == len(self.rows):
            return True
        if (mask, role) not in self.ends:
            self.ends[mask, role] = any(
                self._can_end(mask & self._fitting(kind), role + 1)
                for kind in self.rows[role]
                if self.bits[kind] & mask
            )
        return self.ends[mask, role]

    def _ahead(self, mask: int, role: int) -> int:
        """The least that this role and all later ones can still cost with lots of these kinds."""
        if role == len(self.rows):
            return 0
        if (mask, role) not in self.aheads:
            cheapest = next(
                lots[0].cost for kind, lots in self.rows[role].items() if self.bits[kind] & mask
            )
            self.aheads[mask, role] = cheapest + self._ahead(mask, role + 1)
        return self.aheads[mask, role]

    def _look_at(self, row: _Row[Choice], at: int) -> None:
        """Put the row back in line at its next lot that fits what is chosen already."""
        for i in range(at, len(row.lots)):
            lot = row.lots[i]
            if all(self.rules.fit(other.seen, lot.seen) for other in row.chosen):
                ids = (*(other.seen.id for other in row.chosen), lot.seen.id)
                heappush(self.heap, ((row.cost + lot.cost, ids, next(self.tickets)), row, i))
                return
