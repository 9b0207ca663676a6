"""From fractions to whole items: step by step, each step checked against the real balls."""

from __future__ import annotations

from stash.planning.model.problem import Column
from stash.planning.optimiser.draft_plan import DraftPlan
from stash.planning.optimiser.formulate import Master

#: What counts as nothing among fractions.
NOTHING = 1e-6


def dive(master: Master, bench: DraftPlan) -> None:
    """Whole items out of the best fractions: what is whole is kept, and the rest asked again."""
    while not master.stop():
        found = master.nearly_relaxed()
        counts = bench.counts
        parts = [
            (found.values[at] - counts.get(column, 0), column)
            for column, at in master.columns.items()
            if at < len(found.values)
        ]
        parts = sorted((p for p in parts if p[0] > NOTHING), key=lambda p: (-p[0], p[1]))
        if not parts or not found.done:
            return
        whole = [(column, int(part + NOTHING)) for part, column in parts if part + NOTHING >= 1]
        if not whole:
            whole = [(column, 1) for _, column in parts[: max(1, len(parts) // 6)]]
        touched: set[int] = set()
        for column, count in whole:
            touched.update(column.lots)
            _put(master, bench, column, count)
        for want in bench.out_of_time():
            master.end(want)
        master.hold(bench.counts, sorted(touched))


def _put(master: Master, bench: DraftPlan, column: Column, count: int) -> None:
    """Make so many of a kind, as far as the balls give them."""
    for _ in range(count):
        lot = bench.put(column)
        if lot is None:
            master.take(column)
            continue
        master.closed.add(column)
        for _, place in master.problem.places(column):
            if place.lot == lot:
                master.refuse(place)
        return
