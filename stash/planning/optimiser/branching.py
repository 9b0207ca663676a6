"""The gap closed on a small shelf: whole numbers of articles and of parts from every lot.

The numbers are made into articles with their lots and cuts. Where that fails, it is put into the
program what they broke, and it is asked again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, islice

from stash.planning.model.problem import Column, Problem
from stash.planning.optimiser.counting import Counts
from stash.planning.optimiser.draft_plan import Bench, mostly_um
from stash.planning.optimiser.formulate import Master
from stash.planning.optimiser.incumbent import Calls, Held
from stash.planning.optimiser.pairing import Paired, Slot, kinds_of, paired
from stash.planning.optimiser.plan import lot_cut, opened_um
from stash.planning.optimiser.pricing import Prices, gainful
from stash.planning.optimiser.skeinwise import can_be_written
from stash.planning.optimiser.solver import Effort

#: More parts, each counted for each lot that may give it, than this are left as they are.
MOST_SLOTS = 4_000
#: More kinds of articles than this are not written out.
MOST_KINDS = 3_000
#: So many steps are taken for an aim, times what a step is of work in that program; and the fewest
#: steps that are worth a beginning.
WORK, LEAST_STEPS = 120_000_000, 20
#: What is lost of the part balls of a lot by cutting, below which it is left as it is.
LITTLE_UM = 100_000
#: So near to the best of the part balls is near enough.
NEAR = 2e-3


def close_gap(held: Held, at: tuple[Master, Prices], calls: Calls) -> None:
    """Look among all whole plans that could be better; prices are those of the best fractions.

    From the first lot on that is too large to be written out, what is found is still a plan, but
    no bound.
    """
    if _slots(held.problem) > MOST_SLOTS:
        return
    left = WORK
    for narrow in (True, False):
        counts = Counts(held.problem, held.goal, calls.stop, careful=narrow)
        if narrow and held.goal.kept and held.goal.leftovers:
            counts.make_as_many(held.plan)
        search = _Search(held, counts, *at, proved=not narrow)
        if held.problem.per_pair is not None:
            search.pair_up_all()
        left -= search.go_on(left // 3 if narrow else left, calls)


def _slots(problem: Problem) -> int:
    return sum(len(part.places) for want in problem.wants for part in want.parts)


@dataclass(frozen=True, slots=True)
class _Round:
    """How many steps it took, whether it taught anything, and whether it came to its end."""

    steps: int
    learnt: bool
    ended: bool


@dataclass(slots=True)
class _Search:
    held: Held
    counts: Counts
    master: Master
    prices: Prices
    paired: set[int] = field(default_factory=set)
    proved: bool = True

    def go_on(self, work: int, calls: Calls) -> int:
        """Ask until there is nothing more to be had for so much work; how much it took."""
        left, last = work, self.counts.careful
        while not (calls.stop() or self.near()):
            weight = self.counts.weight
            steps = (left if last else left * 2 // 3) // weight
            if steps < LEAST_STEPS:
                break
            calls.tell(f"closing the gap: {100 * self.held.attained.gap:.1f} % so far")
            asked = self.round(steps)
            left -= asked.steps * weight
            if not asked.learnt and (last or asked.ended):
                break
            last = not asked.learnt
        return work - left

    def near(self) -> bool:
        """Whether what is found is as good as can be asked for."""
        return self.held.within(NEAR if self.held.goal.leftovers else 0.0)

    def round(self, steps: int) -> _Round:
        """Ask once."""
        held, counts = self.held, self.counts
        found = counts.whole(self._effort(steps), held.plan)
        if self.proved:
            held.lower(found.bound * counts.scale)
        if found.values is None or self.near():
            return _Round(found.steps, False, found.ended)
        made = paired(held.problem, counts.parts(found.values), counts.program.stop)
        held.offer(made.articles)
        held.offer(_as_given(held, made.articles))
        return _Round(found.steps, self._learn(made, found.values), found.ended)

    def _effort(self, steps: int) -> Effort:
        gap = NEAR if self.held.goal.leftovers else 0.0
        return Effort(gap, steps, self.held.unit / self.counts.scale)

    def _learn(self, made: Paired, values: Sequence[float]) -> bool:
        """Put in what the numbers broke; whether there was anything."""
        news = self._pair_up(made.short, self.counts.parts(values))
        hard = [*self._hard(values)]
        for lot in hard:
            if can_be_written(self.held.problem.lots[lot]):
                self.counts.write_out(lot)
            else:
                self.proved = False
                self.counts.limit_lot(lot, mostly_um(self.held.problem, lot))
        return bool(hard) or news

    def pair_up_all(self) -> None:
        """Write out all kinds of articles, where they are few enough."""
        wants = [want for want, most in enumerate(self.counts.most) if most]
        kinds = chain.from_iterable(map(self._could_be_better, wants))
        if len([*islice(kinds, MOST_KINDS + 1)]) <= MOST_KINDS:
            self._pair_up(wants, {})

    def _pair_up(self, short: Sequence[int], parts: Mapping[Slot, int]) -> bool:
        """Write out the kinds of articles of some wants; if there are any.

        Where they are too many, those that are made, those that could be made of the parts that
        were asked for, and those that promise most; then there is no bound any more.
        """
        short = [want for want in short if want not in self.paired]
        could = {want: [*islice(self._could_be_better(want), MOST_KINDS)] for want in short}
        of_short = {slot: n for slot, n in parts.items() if n and slot.want in short}
        kinds = {column: None for column in self.held.plan.articles if column.want in short}
        kinds |= dict.fromkeys(islice(kinds_of(self.held.problem, of_short), MOST_KINDS))
        if sum(map(len, could.values())) >= MOST_KINDS:
            self.proved = False
            could = {want: of[: MOST_KINDS // len(short)] for want, of in could.items()}
        kinds |= dict.fromkeys(chain.from_iterable(could.values()))
        if short:
            self.counts.pair_up(short, [*kinds])
            self.paired.update(short)
        return bool(short)

    def _could_be_better(self, want: int) -> Iterator[Column]:
        """The kinds of articles of a want that a better plan could hold.

        One that loses more than the gap against the prices of the best fractions is in none of
        them.
        """
        held, room = self.held, self.master.most
        least = -(held.bound - held.total) / self.counts.scale - 1e-6
        return (gain.column for gain in gainful(held.problem, self.prices, want, room, least))

    def _hard(self, values: Sequence[float]) -> Iterator[int]:
        """The lots that do not give what they are asked for, or not out of the part balls."""
        problem, counts = self.held.problem, self.counts
        for lot, strands in counts.asked(values).items():
            if lot in counts.known:
                continue
            cutting = lot_cut(problem, lot, strands, self.held.goal.leftovers)
            told = counts.used_up_um(values, lot)
            if cutting is None or (
                told and told - opened_um(problem.lots[lot], cutting, strands) > LITTLE_UM
            ):
                yield lot


def _as_given(held: Held, articles: Sequence[Column]) -> list[Column]:
    """Those of the articles that the balls give, one after the other."""
    bench = Bench(held.problem)
    for column in articles:
        bench.put(column)
    return bench.columns
