"""A seller's year worked out by itself from the rows of a season: no code of the project in it.

The three ways are those that IAS 2 names (paragraphs 23 and 25: specific identification, first-in
first-out, weighted average; here the moving one). Money is exact fractions of a coin; what is shown
of a skein or of a yarn's pool is rounded to the coin, halves up, and a movement costs what that
changes by.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from seasons import Happened

#: How an item may be away, or gone for good.
WAYS = ("sold", "given", "lost", "apart")


def coin(amount: Fraction) -> int:
    return math.floor(amount + Fraction(1, 2))


@dataclass
class Shelf:
    """Yarn at its cost: of each skein by itself, or of each yarn in layers or as one heap."""

    method: str
    layers: dict[object, list[list[Fraction]]] = field(default_factory=lambda: defaultdict(list))
    price: dict[int, Fraction] = field(default_factory=dict)

    def coins(self, heap: object) -> int:
        return coin(sum((layer[1] for layer in self.layers[heap]), Fraction(0)))

    def put(self, heap: object, mg: int, cost: Fraction) -> int:
        was = self.coins(heap)
        if self.method == "average" and self.layers[heap]:
            self.layers[heap][0][0] += mg
            self.layers[heap][0][1] += cost
        else:
            self.layers[heap].append([Fraction(mg), cost])
        return self.coins(heap) - was

    def take(self, heap: object, mg: int) -> tuple[int, Fraction]:
        was, left, cost = self.coins(heap), Fraction(mg), Fraction(0)
        for layer in self.layers[heap]:
            part = min(left, layer[0])
            share = layer[1] * part / layer[0] if layer[0] else Fraction(0)
            layer[0], layer[1] = layer[0] - part, layer[1] - share
            left, cost = left - part, cost + share
        self.layers[heap] = [layer for layer in self.layers[heap] if layer[0]]
        assert left == 0
        return was - self.coins(heap), cost


@dataclass
class Worked:
    """What the year comes to, in coins."""

    opening: int = 0
    bought: int = 0
    used: int = 0
    gone: int = 0
    closing: int = 0
    items: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    price: int = 0
    fee: int = 0
    yarn: int = 0
    sundries: int = 0

    @property
    def profit(self) -> int:
        return self.price - self.fee - self.yarn - self.sundries


def worked_out(
    told: Sequence[Happened], yarn_of: dict[int, str], method: str, year: int, sundries: int
) -> Worked:
    """The year of a season by one method."""
    shelf, found = Shelf(method), Worked()
    first, last = date(year, 1, 1), date(year, 12, 31)
    cost_of: dict[int, int] = defaultdict(int)  # an item's yarn in coins
    taken: dict[tuple[int, object], list[Fraction]] = {}  # and exactly, of each heap
    where: dict[int, str] = {}

    def heap(skein: int) -> object:
        return skein if method == "specific" else yarn_of[skein]

    def hers(item: int) -> bool:
        return where.get(item, "") == ""

    def close() -> tuple[int, dict[str, int]]:
        items: dict[str, int] = defaultdict(int)
        for item, coins in cost_of.items():
            items["hers" if hers(item) else where[item]] += coins
        return sum(shelf.coins(one) for one in [*shelf.layers]), items

    before: tuple[int, dict[str, int]] | None = None
    for one in told:
        if one.on >= first and before is None:
            before = close()
        if one.on > last:
            break
        now = one.on >= first
        sign = -1 if one.what.startswith("back") else 1
        if one.what == "bought":
            shelf.price[one.skein] = Fraction(one.coins, one.mg)
            found.bought += shelf.put(heap(one.skein), one.mg, Fraction(one.coins)) * now
        elif one.what == "unravelled":
            shelf.price[one.skein] = shelf.price[one.was]
            cost = shelf.price[one.was] * one.mg
            if method != "specific":
                mine = taken[one.item, heap(one.was)]
                cost = mine[1] * one.mg / mine[0]
            coins = shelf.put(heap(one.skein), one.mg, cost)
            cost_of[one.item] -= coins
            found.used -= coins * now
            found.items["made"] -= coins * now
        elif one.what == "used":
            coins, exact = shelf.take(heap(one.skein), one.mg)
            taken[one.item, heap(one.skein)] = [Fraction(one.mg), exact]
            cost_of[one.item] += coins
            found.used += coins * now
            found.items["made"] += coins * now
        elif one.what.startswith("yarn "):
            coins, _ = shelf.take(heap(one.skein), one.mg)
            found.gone += coins * now
            if one.what == "yarn sold" and now:
                found.price, found.fee = found.price + one.coins, found.fee + one.fee
                found.yarn += coins
        elif one.what in ("sold", "back from sold"):
            if now:
                found.price, found.fee = found.price + sign * one.coins, found.fee + sign * one.fee
                found.yarn += sign * cost_of[one.item]
                found.sundries += sign * sundries
            where[one.item] = "" if sign < 0 else "sold"
        else:
            where[one.item] = "" if sign < 0 else one.what
    assert before is not None
    found.opening, opening = before
    found.closing, closing = close()
    found.items |= {"opening": opening["hers"], "closing": closing["hers"]}
    found.items |= {way: closing[way] - opening[way] for way in WAYS}
    return found
