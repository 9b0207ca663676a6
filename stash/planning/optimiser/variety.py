"""At least so many different sets of yarns: rows in which a set counts once, however often made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from stash.planning.model.problem import Column, Variety
from stash.planning.optimiser.solver import ENDLESS, Program

Pair = tuple[int, ...]


class Counted(NamedTuple):
    """A set of yarns where one variety counts it."""

    variety: int
    pair: Pair


class VarietyRows:
    """The rows and columns of some varieties in a program, growing with the kinds of items.

    A column for each set is at most 1, and at most as many as there are items of it.
    """

    def __init__(self, program: Program, varieties: Sequence[Variety]) -> None:
        self._program, self._varieties = program, varieties
        self._rows: dict[int, int] = {}
        self._items: dict[Counted, int] = {}
        self.columns: dict[Counted, int] = {}
        #: What counts for each variety that has begun.
        self.counted: dict[int, dict[int, float]] = {}

    def begin(self, variety: int) -> int:
        """From now on hold a program to a variety; told is its row."""
        self._rows[variety] = self._program.row(self._varieties[variety].at_least, ENDLESS)
        self.counted[variety] = {}
        return self._rows[variety]

    def entries(self, column: Column) -> dict[int, float]:
        """What an item of this kind brings to the rows of its set."""
        return {self._row(key): -1.0 for key in self.keys(column)}

    def keys(self, column: Column) -> list[Counted]:
        """Where an item of this kind counts."""
        return [
            Counted(i, column.pair) for i in self._rows if column.want in self._varieties[i].wants
        ]

    def _row(self, key: Counted) -> int:
        if key not in self._items:
            row = self._items[key] = self._program.row(-ENDLESS, 0.0)
            entries = {self._rows[key.variety]: 1.0, row: 1.0}
            at = self._program.column(0.0, entries, 1.0, whole=False)
            self.columns[key] = at
            self.counted[key.variety][at] = 1.0
        return self._items[key]

    def prices(self, rows: Sequence[float]) -> VarietyPrices:
        """What an item adds by its set alone, by what the rows of an answer are worth."""
        fresh = {i: max(0.0, -rows[row]) for i, row in self._rows.items()}
        # more than a new set is worth is never needed: with less, too, no column would gain
        known = {
            key: min(max(0.0, rows[row]), fresh[key.variety])
            for key, row in self._items.items()
            if row < len(rows)
        }
        wants = {i: self._varieties[i].wants for i, price in fresh.items() if price}
        return VarietyPrices(wants, fresh, known)


@dataclass(frozen=True, slots=True)
class VarietyPrices:
    """What a set of yarns that is not there yet is worth to each variety, and one that is."""

    wants: Mapping[int, frozenset[int]]
    fresh: Mapping[int, float]
    known: Mapping[Counted, float]

    def most(self, want: int) -> float:
        """What an item of a want can add at most."""
        return sum(self.fresh[i] for i, wants in self.wants.items() if want in wants)

    def of(self, column: Column) -> float:
        """What an item of a kind adds."""
        return sum(
            self.known.get(Counted(i, column.pair), self.fresh[i])
            for i, wants in self.wants.items()
            if column.want in wants
        )


#: Where nothing need differ.
NO_VARIETY = VarietyPrices({}, {}, {})
