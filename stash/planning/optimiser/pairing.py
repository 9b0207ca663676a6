"""From how much of each part every lot gives to items: which lots stand beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from stash.planning.model.problem import Column, Problem
from stash.planning.optimiser.solver import ENDLESS, Effort, Program, Stop

#: Less than this of an item is none.
_NOTHING = 1e-6
_EFFORT = Effort(0.0, 200)


class Slot(NamedTuple):
    """One part of a want from one lot."""

    want: int
    part: int
    lot: int


@dataclass(frozen=True, slots=True)
class Paired:
    """The items that could be made of the parts, and the wants of which these are not all."""

    items: list[Column]
    short: tuple[int, ...]


def slots_of(column: Column) -> list[Slot]:
    """The parts of one item of a kind."""
    return [Slot(column.want, part, lot) for part, lot in enumerate(column.lots)]


def paired(problem: Problem, counts: Mapping[Slot, int], stop: Stop) -> Paired:
    """Items of the counted parts; wants that share no limit on pairs are paired apart."""
    wants = sorted({slot.want for slot, count in counts.items() if count})
    items: list[Column] = []
    short: list[int] = []
    for group in _groups(problem, wants):
        of = {slot: n for slot, n in sorted(counts.items()) if n and slot.want in group}
        made = _made(problem, of, stop)
        items += made
        if len(made) < sum(n for slot, n in of.items() if slot.part == 0):
            short += group
    return Paired(sorted(items), tuple(short))


def _groups(problem: Problem, wants: Sequence[int]) -> list[list[int]]:
    """Wants that may share a pair: those of as many parts, where pairs are counted."""
    if problem.per_pair is None:
        return [[want] for want in wants]
    parts = sorted({len(problem.wants[want].parts) for want in wants})
    return [[w for w in wants if len(problem.wants[w].parts) == count] for count in parts]


def _made(problem: Problem, counts: Mapping[Slot, int], stop: Stop) -> list[Column]:
    """As many items as can be made of these parts."""
    program = Program(stop)
    rows = {slot: program.row(-ENDLESS, count) for slot, count in counts.items()}
    pairs: dict[tuple[int, ...], int] = {}
    columns = {}
    for column in kinds_of(problem, counts):
        entries = {rows[slot]: 1.0 for slot in slots_of(column)}
        if problem.per_pair is not None:
            if column.pair not in pairs:
                pairs[column.pair] = program.row(-ENDLESS, problem.per_pair)
            entries[pairs[column.pair]] = 1.0
        columns[column] = program.column(1.0, entries)
    if not columns:
        return []
    values: Sequence[float] | None = program.relaxed().values
    if values is None or any(abs(value - round(value)) > _NOTHING for value in values):
        values = program.whole(_EFFORT).values
    return [c for c, at in columns.items() for _ in range(round(values[at]) if values else 0)]


def kinds_of(problem: Problem, counts: Mapping[Slot, int]) -> Iterator[Column]:
    """The kinds of items that are of these parts."""
    for number in sorted({slot.want for slot in counts}):
        want = problem.wants[number]
        sets: list[tuple[int, ...]] = [()]
        for part in range(len(want.parts)):
            more = [slot.lot for slot in counts if (slot.want, slot.part) == (number, part)]
            sets = [
                (*lots, lot)
                for lots in sets
                for lot in more
                if all(want.beside.row(other) >> lot & 1 for other in lots)
            ]
        for lots in sets:
            yield Column(number, lots)
