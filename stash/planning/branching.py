"""The gap closed on a small shelf: every kind of article that a better plan could hold, branched.

Where the balls of a lot cannot give what the whole numbers ask of it, that is put into the program
as a clash, and it is asked again.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stash.planning.bench import Bench, mostly_um
from stash.planning.cutting import Cannot, Strand, clashes, exactly
from stash.planning.formulate import Master
from stash.planning.held import Calls, Held
from stash.planning.plan import asked_of_lots
from stash.planning.pricing import Prices, gainful
from stash.planning.problem import Column, Ends, StockLot
from stash.planning.solver import Effort, Whole

#: More kinds of articles than this are not branched over.
MOST_COLUMNS = 2_000
#: So often clashes are put in, and so often may that end without an answer; so many branches times
#: columns are looked at each time.
ROUNDS, UNENDED, EFFORT = 80, 5, 60_000


def close_gap(held: Held, prices: Prices, calls: Calls) -> None:
    """Look among all whole plans that could be better; `prices` are those of the best fractions.

    From the first clash on that is not proved, what is found is still a plan, but no bound.
    """
    stop = calls.stop
    master = Master(held.problem, held.goal, stop)
    if not _filled(master, held, prices):
        return
    proved, unended = True, UNENDED
    branches = EFFORT // len(master.columns)
    for _ in range(ROUNDS):
        calls.tell(f"closing the gap: {100 * held.attained.gap:.1f} % so far")
        found = master.whole(Effort(0.0, branches))
        if proved and not stop():
            held.lower(found.bound * master.scale_of_aim)
        articles = _articles(master, found)
        unended -= not found.ended
        if held.within(0.0) or not articles or stop():
            return
        held.offer(articles)
        held.offer(_as_given(held, articles))
        clashing = _clashing(held, articles)
        if held.within(0.0) or not unended or (found.ended and not clashing):
            return
        if not clashing:
            branches *= 3  # the plan is sound, but the bound is not down to it
        for clash in clashing:
            proved = proved and clash.proved
            _put_in(master, clash)


class _Clash(NamedTuple):
    """Strands that a lot was asked for and does not give."""

    lot: int
    strands: list[Strand]
    proved: bool


def _put_in(master: Master, clash: _Clash) -> None:
    """A lot that was asked for its last metres is asked for no more than can mostly be cut."""
    mostly = mostly_um(master.problem, clash.lot)
    if not clash.proved and sum(strand.um for strand in clash.strands) > mostly:
        master.limit_lot(clash.lot, mostly)
    else:
        master.clash(clash.lot, clash.strands)


def _filled(master: Master, held: Held, prices: Prices) -> bool:
    """Put in every kind of article that a better plan could hold; whether there are few enough.

    One that loses more than the gap against the prices of the best fractions is in none of them.
    """
    least = -(held.bound - held.total) / master.scale_of_aim - 1e-6
    for want, asked in enumerate(held.problem.wants):
        if asked.at_most:
            for gain in gainful(held.problem, prices, want, master.room, least):
                master.add(gain.column)
                if len(master.columns) > MOST_COLUMNS:
                    return False
    return bool(master.columns)


def _articles(master: Master, found: Whole) -> list[Column]:
    values = found.values or ()
    return [
        column
        for column, at in sorted(master.columns.items())
        for _ in range(round(values[at]) if values else 0)
    ]


def _as_given(held: Held, articles: Sequence[Column]) -> list[Column]:
    """Those of the articles that the balls give, one after the other."""
    bench = Bench(held.problem)
    for column in articles:
        bench.put(column)
    return bench.columns


def _clashing(held: Held, articles: Sequence[Column]) -> list[_Clash]:
    """For each lot that cannot give what is asked, as few of the strands as clash already."""
    problem = held.problem
    found: list[_Clash] = []
    for lot, asked in sorted(asked_of_lots(problem, articles).items()):
        strands = [strand for _, strand in asked]
        cannot = exactly(problem.lots[lot], strands, problem.ends)
        if isinstance(cannot, Cannot):
            if cannot.proved:
                strands = _least(problem.lots[lot], strands, problem.ends)
            found.append(_Clash(lot, strands, cannot.proved))
    return found


def _least(lot: StockLot, strands: list[Strand], ends: Ends) -> list[Strand]:
    """Without the strands that are not needed for the clash, the longest dropped first."""
    kept = sorted(strands, reverse=True)
    for strand in sorted(strands, reverse=True):
        fewer = [*kept]
        fewer.remove(strand)
        if clashes(lot, fewer, ends):
            kept = fewer
    return kept
