"""The batch as the planner sees it: whole micrometres, minutes, coins and counts, nothing else.

Lots, wants and groups are known by their place in the problem, so that no name is ever compared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple, Protocol

from stash.stock.picking import Supply

#: A coin is counted in millionths where yarn is priced; micrometres in a metre.
MILLIONTHS = METRE_UM = 1_000_000


class Aim(StrEnum):
    """What a plan is to have most of (least, for buying)."""

    VALUE = "value"
    PROFIT = "profit"
    ITEMS = "items"
    LEFTOVERS = "leftovers"
    BUYING = "buying"


@dataclass(frozen=True, slots=True)
class Ends:
    """What a join costs, and the shortest piece worth joining in."""

    join_um: int
    shortest_um: int


@dataclass(frozen=True, slots=True)
class StockLot:
    """A lot with the pieces that may be taken of it, and how much of them all together.

    Pieces stand opened before whole, longest first, then by number. A set of them is kept as the
    bits of one number: bit `i` is the piece at place `i`. `prices` are theirs, in millionths of a
    coin for a metre; empty where no cost is asked for.
    """

    supplies: tuple[Supply, ...]
    most_um: int
    prices: tuple[int, ...] = ()

    @property
    def cheapest(self) -> int:
        """The price of its cheapest yarn; nothing where nothing is known to cost."""
        return min(self.prices, default=0)

    @property
    def several_prices(self) -> bool:
        """Whether it matters of which of its pieces is cut."""
        return len({*self.prices}) > 1

    def least_paid(self, um: int) -> int:
        """What so much costs at least, of the cheapest pieces first, in millionths of a coin."""
        paid = 0
        for price, have in sorted(
            (p, s.um) for s, p in zip(self.supplies, self.prices, strict=True)
        ):
            paid += price * min(um, have)
            um -= min(um, have)
        return paid // METRE_UM

    def together_um(self, pool: int) -> int:
        """How long the pieces of a set are together."""
        return sum(supply.um for i, supply in enumerate(self.supplies) if pool >> i & 1)

    @property
    def opened_um(self) -> int:
        """What lies in part balls."""
        return sum(supply.um for supply in self.supplies if not supply.whole)


class Place(NamedTuple):
    """A lot that may fill a part: from which of its pieces, and the least it gives for that.

    `least_um` holds the tails of the joins that no cutting of these pieces can avoid.
    """

    lot: int
    pool: int
    least_um: int


@dataclass(frozen=True, slots=True)
class Part:
    """One role of a wanted design: its length over so many strands, and where it may come from.

    `used_um` is what it is expected to use of that, which is what it costs.
    """

    role: str
    um: int
    strands: int
    places: Mapping[int, Place]
    used_um: int = 0

    @property
    def strand_lengths(self) -> list[int]:
        """The length of each strand; they add up to the whole."""
        return [(self.um + strand) // self.strands for strand in range(self.strands)]


class Beside(Protocol):
    """Which lots may stand beside which in one item."""

    def row(self, lot: int) -> int:
        """The lots that may stand beside this one, as bits."""


@dataclass(frozen=True, slots=True)
class Want:
    """A design that is wanted: how many at least and at most, what one brings and takes.

    `expenses` are what one costs beside its yarn, in coins.
    """

    parts: tuple[Part, ...]
    at_least: int
    at_most: int
    coins: int
    minutes: int
    beside: Beside
    expenses: int = 0

    @property
    def um(self) -> int:
        """All yarn of one."""
        return sum(part.um for part in self.parts)


@dataclass(frozen=True, slots=True)
class Mix:
    """Of these wants, with a main yarn out of these lots, so many at least and at most.

    Counts of items, or (`share`) hundredths of all that are made. None is no limit.
    """

    wants: frozenset[int]
    lots: frozenset[int] | None
    at_least: int = 0
    at_most: int | None = None
    share: bool = False

    def holds(self, column: Column) -> bool:
        """Whether an item of this kind counts here."""
        return column.want in self.wants and (self.lots is None or column.lots[0] in self.lots)


@dataclass(frozen=True, slots=True)
class Variety:
    """Of these wants, at least so many different pairs (see `Column.pair`) among what is made."""

    wants: frozenset[int]
    at_least: int


class Column(NamedTuple):
    """A kind of item: which want, and the lot of each of its parts, the main one first."""

    want: int
    lots: tuple[int, ...]

    @property
    def pair(self) -> tuple[int, ...]:
        """The lots in whichever order: the same two yarns are one pair."""
        return tuple(sorted(self.lots))


@dataclass(frozen=True, slots=True)
class Problem:
    """Everything that a plan is held against.

    `first` are wants that have the first say of the yarn, one after the other.
    """

    lots: tuple[StockLot, ...]
    wants: tuple[Want, ...]
    ends: Ends
    minutes: int | None = None
    per_pair: int | None = None
    mixes: tuple[Mix, ...] = ()
    first: tuple[int, ...] = ()
    varieties: tuple[Variety, ...] = ()

    def places(self, column: Column) -> list[tuple[Part, Place]]:
        """The parts of an item of this kind, each with where it comes from."""
        parts = self.wants[column.want].parts
        return [(p, p.places[lot]) for p, lot in zip(parts, column.lots, strict=True)]

    def worth(self, column: Column, aim: Aim) -> int:
        """What one item of this kind adds to the aim, leftovers apart: they go by lots.

        Profit is in millionths of a coin, at the cheapest yarn of each lot; of a column without
        lots before its yarn is paid.
        """
        want = self.wants[column.want]
        if aim is Aim.PROFIT:
            return (want.coins - want.expenses) * MILLIONTHS - self._yarn_cost(column)
        return {Aim.VALUE: want.coins, Aim.ITEMS: 1, Aim.BUYING: want.um, Aim.LEFTOVERS: 0}[aim]

    def _yarn_cost(self, column: Column) -> int:
        parts = zip(self.wants[column.want].parts, column.lots, strict=False)
        return sum(self.lots[lot].cheapest * part.used_um // METRE_UM for part, lot in parts)


def least_um(longest_first: Sequence[Supply], um: int, ends: Ends) -> int | None:
    """What a strand takes at least of these pieces, tails of joins included; None if too long."""
    have = 0
    for joins, supply in enumerate(longest_first):
        have += supply.um
        if have >= um + ends.join_um * joins:
            return um + ends.join_um * joins
        if supply.um < ends.shortest_um:
            return None
    return None
