"""The gap closed on a small shelf: whole numbers of items and of parts from every lot.

The numbers are made into items with their lots and cuts. Where that fails, it is put into the
program what they broke, and it is asked again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, combinations, cycle, islice

from stash.measures.note import Note
from stash.planning.model.problem import Column, Problem
from stash.planning.optimiser.counting import Counts
from stash.planning.optimiser.draft_plan import DraftPlan, mostly_um
from stash.planning.optimiser.formulate import Master
from stash.planning.optimiser.incumbent import Calls, Incumbent
from stash.planning.optimiser.pairing import Paired, Slot, kinds_of, paired
from stash.planning.optimiser.plan import costs_more, lot_cut, opened_um, sets_lacking
from stash.planning.optimiser.pricing import Prices, gainful
from stash.planning.optimiser.skeinwise import can_be_written
from stash.planning.optimiser.solver import Effort

#: More parts, each counted for each lot that may give it, than this are left as they are.
MOST_SLOTS = 4_000
#: On more lots than this, diving comes so near to the best that this hardly finds anything: there
#: so small a gap is left, and less work is done for a larger one.
FEW_LOTS, NEARLY = 60, 5e-3
#: More kinds of items than this are not written out.
MOST_KINDS = 4_000
#: The fewest steps that are worth a beginning, and those that tell how much work a step is.
LEAST_STEPS, TOLD_STEPS = 5, 20
#: To plan in parts, wants and lots are dealt out to so many heaps, and two are taken at a time; so
#: often may that be tried for the work there is for it.
HEAPS, TRIES = 4, 16
#: What is lost of the part balls of a lot by cutting, below which it is left as it is.
LITTLE_UM = 100_000
#: So near to the best of the part balls is near enough.
NEAR = 2e-3
#: The share of the work for numbers that are soon a plan, of part balls a larger one: there the
#: plan to begin with is often far from the best, and a large program of kinds gives nothing at all
#: in a fifth of the work.
SOON, SOON_OF_LEFTOVERS = 5, 2
#: Of part balls that are nearly the best from the start, so much less work is done.
LESS = 3


def close_gap(held: Incumbent, at: tuple[Master, Prices], work: int, calls: Calls) -> int:
    """Look among all whole plans that could be better; prices are those of the best fractions.

    From the first lot on that is too large to be written out, what is found is still a plan, but
    no bound. `work` is how much there may be of it; told is how much there was.
    """
    few = min(1.0, FEW_LOTS / max(1, len(held.problem.lots)))
    if _slots(held.problem) > MOST_SLOTS or (few < 1 and held.within(NEARLY)):
        return 0
    if held.goal.leftovers and held.within(NEARLY):
        work //= LESS
    soon = SOON_OF_LEFTOVERS if held.goal.leftovers else SOON
    left, hard = (most := int(work * few**2)), list[int]()
    for narrow in (True, False):
        counts = Counts(held.problem, held.goal, calls.stop, careful=narrow)
        if narrow and held.goal.kept and held.goal.leftovers:
            counts.make_as_many(held.plan)
        for lot in hard:
            counts.sketch_out(lot)
        search = _Search(held, counts, *at, proved=not narrow)
        if held.problem.per_pair is not None or held.problem.varieties:
            search.pair_up_all()
        left -= search.go_on(left // soon if narrow else left, calls)
        if narrow and not (held.goal.aim is None or search.ended or held.within(NEARLY)):
            left = max(left - search.mend(left // 3, calls), most // 3)
        hard = [*counts.sketched]
    return most - left


def _slots(problem: Problem) -> int:
    return sum(len(part.places) for want in problem.wants for part in want.parts)


def _parts(problem: Problem) -> Iterator[tuple[frozenset[int], frozenset[int]]]:
    """The wants, or the lots, that are planned anew at a time."""
    for heaps in combinations(range(HEAPS), 2):
        yield frozenset(), frozenset(i for i in range(len(problem.lots)) if i % HEAPS in heaps)
        yield frozenset(i for i in range(len(problem.wants)) if i % HEAPS in heaps), frozenset()


@dataclass(frozen=True, slots=True)
class _Round:
    """How much work it took, and whether it taught anything."""

    work: int
    learnt: bool


@dataclass(slots=True)
class _Search:
    held: Incumbent
    counts: Counts
    master: Master
    prices: Prices
    paired: set[int] = field(default_factory=set)
    proved: bool = True
    pace: float = 1.0
    ended: bool = False

    def go_on(self, work: int, calls: Calls) -> int:
        """Ask until there is nothing more to be had for so much work; how much it took."""
        left, more = work, True
        while more and not (calls.stop() or self.near()):
            # what the numbers break costs another round
            steps = self._steps(left if self.counts.careful else left * 4 // 5)
            if steps < LEAST_STEPS:
                break
            calls.report(Note("closing_the_gap", gap=self.held.attained.gap))
            asked = self.round(steps)
            left -= asked.work
            more = asked.learnt or (not self.ended and left > work // 2)
        return work - left

    def mend(self, work: int, calls: Calls) -> int:
        """Plan some of the wants or lots anew, the rest kept, while it helps; how much it took.

        Where all at once is too much, parts of a plan are soon made better.
        """
        left, still, parts = work, 0, [*_parts(self.held.problem)]
        # with most of it kept a step is less work than told
        steps = max(TOLD_STEPS, self._steps(work // TRIES))
        for wants, lots in cycle(parts):
            if calls.stop() or self.near() or left < work // TRIES or still >= len(parts):
                break
            had = self.held.total
            self.counts.keep_all_but(self.held.plan, wants, lots)
            found = self.counts.whole(self._effort(steps), self.held.plan)
            if found.values is not None:
                self._offer(found.values)
            left -= found.work
            still = 0 if self.held.total > had else still + 1
        self.counts.keep_nothing()
        return work - left

    def _steps(self, work: int) -> int:
        """About how many steps can be taken for so much work."""
        return int(work / (self.counts.program.step_work * self.pace))

    def near(self) -> bool:
        """Whether what is found is as good as can be asked for."""
        return self.held.within(NEAR if self.held.goal.leftovers else 0.0)

    def round(self, steps: int) -> _Round:
        """Ask once."""
        held, counts = self.held, self.counts
        found = counts.whole(self._effort(steps), held.plan)
        if found.steps >= TOLD_STEPS:
            self.pace = max(0.25, found.work / found.steps / counts.program.step_work)
        self.ended = found.ended
        if self.proved:
            held.lower(found.bound * counts.scale)
        if found.values is None or self.near():
            return _Round(found.work, False)
        return _Round(found.work, self._learn(self._offer(found.values), found.values))

    def _offer(self, values: Sequence[float]) -> Paired:
        """Make items of the numbers and keep them if they are better."""
        held, counts = self.held, self.counts
        kinds = counts.kinds_made(values) if held.problem.varieties else []
        rest = {slot: n for slot, n in counts.parts(values).items() if slot.want not in self.paired}
        made = paired(held.problem, rest if kinds else counts.parts(values), counts.program.stop)
        made = replace(made, items=sorted([*kinds, *made.items]))
        held.offer(made.items)
        held.offer(_as_given(held, made.items))
        return made

    def _effort(self, steps: int) -> Effort:
        gap = NEAR if self.held.goal.leftovers else 0.0
        return Effort(gap, steps, self.held.least / self.counts.scale)

    def _learn(self, made: Paired, values: Sequence[float]) -> bool:
        """Put in what the numbers broke; whether there was anything."""
        short = self._too_alike(made)
        news = self._pair_up(short, self.counts.parts(values))
        hard = [*self._hard(values)]
        for lot in hard:
            if lot not in self.counts.sketched:
                self.counts.sketch_out(lot)
            elif can_be_written(self.held.problem.lots[lot]):
                self.counts.write_out(lot)
            else:
                self.proved = False
                self.counts.limit_lot(lot, mostly_um(self.held.problem, lot))
        return bool(hard) or news

    def _too_alike(self, made: Paired) -> list[int]:
        """The wants to be written out: those that are short, and where too few sets differ.

        Wants of which a variety speaks together are written out together.
        """
        most, short = self.counts.most, dict.fromkeys(made.short)
        varieties = [v for v in self.held.problem.varieties if any(most[w] for w in v.wants)]
        for variety in sorted(varieties, key=lambda v: len(v.wants)):
            if sets_lacking(variety, made.items) or not short.keys().isdisjoint(variety.wants):
                short |= dict.fromkeys(sorted(variety.wants))
        return [*short]

    def pair_up_all(self) -> None:
        """Write out all kinds of items, where they are few enough."""
        wants = [want for want, most in enumerate(self.counts.most) if most]
        kinds = chain.from_iterable(map(self._could_be_better, wants))
        if len([*islice(kinds, MOST_KINDS + 1)]) <= MOST_KINDS:
            self._pair_up(wants, {})

    def _pair_up(self, short: Sequence[int], parts: Mapping[Slot, int]) -> bool:
        """Write out the kinds of items of some wants; if there are any.

        Where they are too many, those that are made, those that could be made of the parts that
        were asked for, and those that promise most; then there is no bound any more.
        """
        short = [want for want in short if want not in self.paired]
        could = {want: [*islice(self._could_be_better(want), MOST_KINDS)] for want in short}
        of_short = {slot: n for slot, n in parts.items() if n and slot.want in short}
        kinds = {column: None for column in self.held.plan.items if column.want in short}
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
        """The kinds of items of a want that a better plan could hold.

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
            if (
                cutting is None
                or (told and told - opened_um(problem.lots[lot], cutting, strands) > LITTLE_UM)
                or (self.held.goal.profit and costs_more(problem.lots[lot], cutting))
            ):
                yield lot


def _as_given(held: Incumbent, items: Sequence[Column]) -> list[Column]:
    """Those of the items that the balls give, one after the other."""
    bench = DraftPlan(held.problem)
    for column in items:
        bench.put(column)
    return bench.columns
