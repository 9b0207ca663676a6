"""What each movement of yarn cost: skein by skein, first in first out, or by moving average."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from stash.measures.money import Money
from stash.stock.movement import Kind
from stash.stock.turnover import MeasuredMovement, Way

#: A coin is shared in millionths, so that many small uses do not each round a coin away.
MILLIONTHS = 1_000_000


class Method(StrEnum):
    """How yarn that leaves is priced (IAS 2 names all three).

    *specific*: each skein at what was paid for it. *fifo*: the yarn of one name that came first
    leaves first. *average*: all yarn of one name that is there, at its average of the moment.
    """

    SPECIFIC = "specific"
    FIFO = "fifo"
    AVERAGE = "average"


@dataclass(slots=True)
class _Layer:
    """So many milligrams at a cost in millionths of a coin; `priced` if all of it is known."""

    mg: int
    cost: int
    priced: bool


@dataclass(slots=True)
class _Pool:
    """The yarn of one name that is there, oldest first; one layer where it is averaged."""

    averaged: bool
    layers: deque[_Layer] = field(default_factory=deque)
    cost: int = 0

    @property
    def coins(self) -> int:
        """All of it to the nearest coin."""
        return (self.cost + MILLIONTHS // 2) // MILLIONTHS

    def put(self, mg: int, cost: int, priced: bool) -> None:
        """Yarn comes in at its cost."""
        self.cost += cost
        if self.averaged and self.layers:
            whole = self.layers[0]
            whole.mg, whole.cost = whole.mg + mg, whole.cost + cost
            whole.priced = whole.priced and priced
        else:
            self.layers.append(_Layer(mg, cost, priced))

    def take(self, mg: int) -> tuple[int, bool]:
        """Yarn goes out: what it cost, and whether all of that is known."""
        cost, priced = 0, True
        while self.layers and (mg > 0 or not self.layers[0].mg):
            first = self.layers[0]
            part, share = first.mg, first.cost
            if mg < part:
                part, share = mg, (first.cost * mg + first.mg // 2) // first.mg
            else:
                self.layers.popleft()
            first.mg, first.cost = first.mg - part, first.cost - share
            mg, cost, priced = mg - part, cost + share, priced and first.priced
        self.cost -= cost
        return cost, priced

    def restate(self, mg: int) -> None:
        """The same yarn in other grams: the oldest layer grows or shrinks, its cost stays."""
        if not self.layers:
            self.layers.append(_Layer(0, 0, True))
        while mg < -self.layers[0].mg and len(self.layers) > 1:
            gone = self.layers.popleft()
            mg += gone.mg
            self.layers[0].cost += gone.cost
            self.layers[0].priced = self.layers[0].priced and gone.priced
        self.layers[0].mg += mg


@dataclass(slots=True)
class _Taken:
    """What one item took of one pool so far."""

    mg: int = 0
    cost: int = 0


def priced_by(
    method: Method, moved: Sequence[MeasuredMovement], pools: Mapping[int, int]
) -> list[MeasuredMovement]:
    """The same movements in the order of the days, each at its cost by the method.

    `pools` says of which yarn (maker and name) each skein is: skeins of one yarn are
    interchangeable, whatever their colour. Yarn comes in at what was paid for it, grams that were
    found at the price of their skein, and what is unravelled at what the item had taken it for.
    A cost that is not known counts as nothing and is marked. No movement is priced by a later one,
    so what is booked later changes nothing before it.
    """
    in_order = sorted(moved, key=lambda m: (m.on, m.entry, m.movement.id or 0))
    if method is Method.SPECIFIC:
        return in_order
    run = _Run(method is Method.AVERAGE)
    return [run.priced(m, pools[m.skein]) for m in in_order]


@dataclass(slots=True)
class _Run:
    averaged: bool
    pools: dict[int, _Pool] = field(default_factory=dict)
    taken: dict[tuple[int, int], _Taken] = field(default_factory=dict)

    def priced(self, m: MeasuredMovement, name: int) -> MeasuredMovement:
        pool = self.pools.setdefault(name, _Pool(self.averaged))
        before, priced = pool.coins, True
        if m.way is Way.RESTATED:
            pool.restate(m.total.mass.mg)
        elif m.way is Way.IN:
            priced = self._put(m, pool, name)
        elif m.way is Way.OUT:
            priced = self._take(m, pool, name)
        cost = Money(pool.coins - before)
        return replace(m, total=replace(m.total, cost=cost, all_priced=priced))

    def _put(self, m: MeasuredMovement, pool: _Pool, name: int) -> bool:
        mg, cost, priced = m.total.mass.mg, m.total.cost.coins * MILLIONTHS, m.total.all_priced
        taken = self.taken.get((m.movement.item or 0, name), _Taken())
        if m.kind is Kind.UNRAVELLED and taken.mg > 0:
            cost = taken.cost * min(mg, taken.mg) // taken.mg
            taken.mg, taken.cost = taken.mg - min(mg, taken.mg), taken.cost - cost
        pool.put(mg, cost, priced)
        return priced

    def _take(self, m: MeasuredMovement, pool: _Pool, name: int) -> bool:
        cost, priced = pool.take(-m.total.mass.mg)
        if m.movement.item is not None:
            taken = self.taken.setdefault((m.movement.item, name), _Taken())
            taken.mg, taken.cost = taken.mg - m.total.mass.mg, taken.cost + cost
        return priced
