"""The batch in whole numbers: how many of each want, and how often a lot gives each of its parts.

It knows nothing of which lots stand beside each other in one item but what follows for numbers;
`pairing` makes items of them, and tells what more must hold where that fails. A lot whose
skeins do not give what is asked is written out skein by skein. So it stays small, however many
kinds of items there are, and what it proves holds for every plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import permutations
from math import ceil, fsum

from stash.planning.model.problem import Aim, Column, Mix, Place, Problem, Want
from stash.planning.optimiser.cutting import Strand
from stash.planning.optimiser.draft_plan import mostly_um
from stash.planning.optimiser.formulate import Goal, Reached, largest
from stash.planning.optimiser.pairing import Slot, slots_of
from stash.planning.optimiser.plan import Plan, used_up_um
from stash.planning.optimiser.plan_in_skeins import put_cuts
from stash.planning.optimiser.skeinwise import Sketched, Written, sketch_out, write_out
from stash.planning.optimiser.solver import ENDLESS, Effort, Program, Stop, Whole
from stash.planning.optimiser.variety import VarietyRows
from stash.planning.optimiser.yarn_costs import DearerYarn, cut_cheaply, dearer_yarn

_M = 1_000_000


class Counts:
    """The program of a batch in numbers.

    `careful` asks no more of a lot than can mostly be cut: then what it says is soon a plan, but
    holds only for plans that are as careful.
    """

    def __init__(self, problem: Problem, goal: Goal, stop: Stop, *, careful: bool = False) -> None:
        self.problem, self.goal, self.careful = problem, goal, careful
        self.scale = 1 if goal.aim is None else largest(problem, goal.aim)
        self.program = Program(stop)
        self.made = [self.program.column(0.0, {}, want.at_most) for want in problem.wants]
        self.most = [want.at_most for want in problem.wants]
        self.slots = {slot: self._slot(slot) for slot in _slots(problem)}
        self.used_up: dict[int, int] = {}
        self.known: set[int] = set()
        self.sketched: dict[int, Sketched] = {}
        self._written: dict[int, Written] = {}
        self._lacks: dict[int, tuple[float, Mapping[int, float]]] = {}
        self._kinds: dict[Column, int] = {}
        self._pairs: dict[tuple[int, ...], int] = {}
        self._varied = VarietyRows(self.program, problem.varieties)
        self._dearer = self._dearer_rows() if goal.profit else DearerYarn()
        self._want_rows()
        self._beside_rows()
        self._lot_rows()
        for mix in problem.mixes:
            self._mix_rows(mix)
        if goal.leftovers:
            self._leftover_rows()
        for reached in goal.kept:
            self._keep(reached)
        worths = dict.fromkeys(self._lacks, -1.0) if goal.aim is None else self.worths(goal.aim)
        self.program.worths([worths.get(at, 0.0) for at in range(self.program.columns)])

    def _slot(self, slot: Slot) -> int:
        return self.program.column(0.0, {}, self._most_of(slot))

    def _most_of(self, slot: Slot) -> int:
        most = self.problem.lots[slot.lot].most_um // max(1, self._place(slot).least_um)
        return min(self.problem.wants[slot.want].at_most, most)

    def _least(self, entries: Mapping[int, float], least: float) -> None:
        """At least so much; where what must be made is asked for, what lacks of it is counted."""
        if self.goal.aim is None:
            lacks = self.program.column(0.0, {})
            self._lacks[lacks] = least, entries
            entries = {**entries, lacks: 1.0}
        self.program.row(least, ENDLESS, entries)

    def _want_rows(self) -> None:
        hours = {}
        for number, want in enumerate(self.problem.wants):
            for part, asked in enumerate(want.parts):
                given = {self.slots[Slot(number, part, lot)]: 1.0 for lot in asked.places}
                self.program.row(0.0, 0.0, {**given, self.made[number]: -1.0})
            if number in self.problem.first:
                self.program.row(want.at_least, ENDLESS, {self.made[number]: 1.0})
            elif want.at_least:
                self._least({self.made[number]: 1.0}, want.at_least)
            if want.minutes:
                hours[self.made[number]] = want.minutes / 60
        if self.problem.minutes is not None:
            self.program.row(-ENDLESS, self.problem.minutes / 60, hours)

    def _beside_rows(self) -> None:
        """Lots that may not stand beside each other never give two parts of one item."""
        for number, want in enumerate(self.problem.wants):
            for entries in dict.fromkeys(self._apart(number, want)):
                self.program.row(
                    -ENDLESS, 0.0, dict.fromkeys(entries, 1.0) | {self.made[number]: -1.0}
                )

    def _apart(self, number: int, want: Want) -> Iterator[tuple[int, ...]]:
        """Slots of which one item has at most one."""
        lots = sorted({lot for part in want.parts for lot in part.places})
        for lot in lots if len(want.parts) > 1 else []:
            together = [lot] if not want.beside.row(lot) >> lot & 1 else []
            for other in lots:
                row = want.beside.row(other)
                if other != lot and not any(row >> m & 1 for m in (*together, lot, other)):
                    together.append(other)
            yield self._slots_in(number, want, [*together])
        for one, other in permutations(range(len(want.parts)), 2):
            alike: dict[tuple[int, ...], list[int]] = {}
            for lot in want.parts[one].places:
                row = want.beside.row(lot)
                not_beside = tuple(m for m in want.parts[other].places if not row >> m & 1)
                alike.setdefault(not_beside, []).append(lot)
            for not_beside, lots in alike.items():
                slots = [self.slots[Slot(number, one, lot)] for lot in lots]
                slots += [self.slots[Slot(number, other, lot)] for lot in not_beside]
                if not_beside:
                    yield tuple(sorted(slots))

    def _slots_in(self, number: int, want: Want, lots: Sequence[int]) -> tuple[int, ...]:
        """All parts of a want out of some lots."""
        every = range(len(want.parts))
        return tuple(
            sorted(
                self.slots[Slot(number, p, lot)]
                for p in every
                for lot in lots
                if lot in want.parts[p].places
            )
        )

    def _lot_rows(self) -> None:
        """Of all of a lot, and of each set of its pieces that some part is tied to."""
        for lot, slots in self._by_lot().items():
            stock = self.problem.lots[lot]
            places = {slot: self._place(slot) for slot in slots}
            every = (1 << len(stock.supplies)) - 1
            for pool in sorted({every, *(place.pool for place in places.values())}):
                most = stock.together_um(pool)
                if self.careful and pool == every:
                    most = mostly_um(self.problem, lot)
                entries = {
                    self.slots[slot]: place.least_um / _M
                    for slot, place in places.items()
                    if place.pool & pool == place.pool
                }
                self.program.row(-ENDLESS, min(most, stock.most_um) / _M, entries)

    def _by_lot(self) -> dict[int, list[Slot]]:
        found: dict[int, list[Slot]] = {}
        for slot in self.slots:
            found.setdefault(slot.lot, []).append(slot)
        return found

    def _place(self, slot: Slot) -> Place:
        return self.problem.wants[slot.want].parts[slot.part].places[slot.lot]

    def _mix_rows(self, mix: Mix) -> None:
        if mix.lots is None:
            inside = {self.made[want]: 1.0 for want in mix.wants}
        else:
            inside = {
                at: 1.0
                for slot, at in self.slots.items()
                if slot.part == 0 and slot.want in mix.wants and slot.lot in mix.lots
            }
        if mix.at_least:
            self._least(self._less(inside, mix, mix.at_least), 0 if mix.share else mix.at_least)
        if mix.at_most is not None:
            most = 0 if mix.share else mix.at_most
            self.program.row(-ENDLESS, most, self._less(inside, mix, mix.at_most))

    def _less(self, inside: Mapping[int, float], mix: Mix, share: int) -> dict[int, float]:
        """Of a share: so many hundredths of all, taken off what counts."""
        every = self.made if mix.share else []
        return {
            at: inside.get(at, 0.0) - (share / 100 if at in every else 0.0)
            for at in dict.fromkeys([*inside, *every])
        }

    def _leftover_rows(self) -> None:
        """What of the part balls of a lot is used: no more than there is, or than is asked."""
        for lot, slots in self._by_lot().items():
            opened = self.problem.lots[lot].opened_um
            if opened:
                at = self.program.column(0.0, {}, opened / _M, whole=False)
                self.used_up[lot] = at
                need = {self.slots[slot]: -self._part_um(slot) / _M for slot in slots}
                self.program.row(-ENDLESS, 0.0, {at: 1.0, **need})

    def _dearer_rows(self) -> DearerYarn:
        used = {lot: self._used_of(lot) for lot in self._by_lot()}
        return dearer_yarn(self.program, self.problem, 0.0, used)

    def _used_of(self, lot: int) -> dict[int, float]:
        """What each column uses of a lot, in metres."""
        return {self.slots[slot]: self._used_um(slot) / _M for slot in self._by_lot()[lot]}

    def _used_um(self, slot: Slot) -> int:
        return self.problem.wants[slot.want].parts[slot.part].used_um

    def _part_um(self, slot: Slot) -> int:
        return self.problem.wants[slot.want].parts[slot.part].um

    def worths(self, aim: Aim) -> dict[int, float]:
        """What each column adds to an aim, as a share of the largest worth of an item."""
        if aim is Aim.LEFTOVERS:
            return dict.fromkeys(self.used_up.values(), _M / largest(self.problem, aim))
        scale = largest(self.problem, aim)
        items = {
            at: self.problem.worth(Column(want, ()), aim) / scale
            for want, at in enumerate(self.made)
        }
        return items | (self._yarn_costs(scale) if aim is Aim.PROFIT else {})

    def _yarn_costs(self, scale: int) -> dict[int, float]:
        """What yarn takes off the profit: the cheapest of each lot, and what dearer costs more."""
        cheapest = [lot.cheapest for lot in self.problem.lots]
        used = {
            at: -cheapest[slot.lot] * self._used_um(slot) / _M / scale
            for slot, at in self.slots.items()
        }
        return used | self._dearer.worths(1 / scale)

    def _keep(self, reached: Reached) -> None:
        least = reached.total / largest(self.problem, reached.aim)
        self.program.row(least - 1e-9, ENDLESS, self.worths(reached.aim))

    # answers

    def whole(self, effort: Effort, plan: Plan) -> Whole:
        """The best in whole numbers, looked for from a plan on."""
        return self.program.whole(effort, self._as_values(plan))

    def _as_values(self, plan: Plan) -> list[float]:
        """A plan as it stands in the program."""
        values = [0.0] * self.program.columns
        used = Counter[int]()
        for column in plan.items:
            values[self.made[column.want]] += 1
            for slot in slots_of(column):
                values[self.slots[slot]] += 1
                used[slot.lot] += self._used_um(slot)
            if column in self._kinds:
                values[self._kinds[column]] += 1
            for key in self._varied.keys(column):
                values[self._varied.columns[key]] = 1.0
        for at, metres in self._dearer.filled(used).items():
            values[at] = metres
        for lot, at in self.used_up.items():
            values[at] = used_up_um(self.problem, plan, lot) / _M
        for lot, written in self._written.items():
            put_cuts(values, written, self.problem, plan, lot)
        for lot, sketched in self.sketched.items():
            put_cuts(values, sketched, self.problem, plan, lot)
        for at, (least, entries) in self._lacks.items():
            given = fsum(values[column] * brings for column, brings in entries.items())
            values[at] = float(max(0, ceil(least - given - 1e-9)))
        return values

    def parts(self, values: Sequence[float]) -> dict[Slot, int]:
        """How often each lot gives each part."""
        return {slot: round(values[at]) for slot, at in self.slots.items()}

    def asked(self, values: Sequence[float]) -> dict[int, list[Strand]]:
        """The strands that every lot is asked for."""
        found: dict[int, list[Strand]] = {}
        for slot, count in self.parts(values).items():
            found.setdefault(slot.lot, []).extend(self._strands(slot) * count)
        return found

    def _strands(self, slot: Slot) -> list[Strand]:
        pool = self._place(slot).pool
        part = self.problem.wants[slot.want].parts[slot.part]
        return [Strand(um, pool) for um in part.strand_lengths]

    def used_up_um(self, values: Sequence[float], lot: int) -> int:
        """What it says is used of the part balls of a lot."""
        return round(values[self.used_up[lot]] * _M) if lot in self.used_up else 0

    # what more must hold

    def make_as_many(self, plan: Plan) -> None:
        """From now on make as many of each want as a plan does."""
        counts = plan.made()
        for want, at in enumerate(self.made):
            self.most[want] = counts[want]
            self.program.between(at, counts[want], counts[want])

    def keep_all_but(self, plan: Plan, wants: Collection[int], lots: Collection[int]) -> None:
        """From now on make what a plan makes, but of these wants and of these lots as is best."""
        counts = Counter(slot for column in plan.items for slot in slots_of(column))
        for slot, at in self.slots.items():
            free = slot.want in wants or slot.lot in lots
            self.program.between(at, 0 if free else counts[slot], self._most_of(slot))

    def keep_nothing(self) -> None:
        """From now on make whatever is best, as before `keep_all_but`."""
        for slot, at in self.slots.items():
            self.program.between(at, 0, self._most_of(slot))

    def pair_up(self, wants: Sequence[int], kinds: Sequence[Column]) -> None:
        """From now on let the parts of some wants make up items of these kinds."""
        made = {
            slot: self.program.row(0.0, 0.0, {at: -1.0})
            for slot, at in self.slots.items()
            if slot.want in wants
        }
        self._vary(wants)
        for column in kinds:
            entries = {made[slot]: 1.0 for slot in slots_of(column)}
            if self.problem.per_pair is not None:
                if column.pair not in self._pairs:
                    row = self.program.row(-ENDLESS, self.problem.per_pair)
                    self._pairs[column.pair] = row
                entries[self._pairs[column.pair]] = 1.0
            entries |= self._varied.entries(column)
            most = self.problem.wants[column.want].at_most
            self._kinds[column] = self.program.column(0.0, entries, most)

    def _vary(self, wants: Sequence[int]) -> None:
        """Hold to what varieties ask of these wants."""
        for at, variety in enumerate(self.problem.varieties):
            if all(want in wants or not self.most[want] for want in variety.wants):
                row = self._varied.begin(at)
                if self.goal.aim is None:
                    lacks = self.program.column(-1.0, {row: 1.0})
                    self._lacks[lacks] = variety.at_least, self._varied.counted[at]

    def kinds_made(self, values: Sequence[float]) -> list[Column]:
        """The items of the kinds that were written out."""
        return [c for c, at in self._kinds.items() for _ in range(round(values[at]))]

    def write_out(self, lot: int) -> None:
        """From now on hold a lot to what can be cut of its skeins."""
        self.known.add(lot)
        stock = self.problem.lots[lot]
        asked = self._asked_of(lot)
        self._written[lot] = write_out(self.program, stock, self.problem.ends, asked)
        self._use_up(lot, self._written[lot])

    def sketch_out(self, lot: int) -> None:
        """From now on hold a lot to what holds of any cutting of its skeins."""
        stock = self.problem.lots[lot]
        asked = self._asked_of(lot)
        self.sketched[lot] = sketch_out(self.program, stock, self.problem.ends, asked)
        self._use_up(lot, self.sketched[lot])
        if lot in self._dearer.rows:
            # not where it is written out: there too few joins are tried to say what is cheapest
            dearer = self._dearer.most_m[lot]
            cut_cheaply(self.program, stock, self._used_of(lot), dearer, self.sketched[lot])

    def _asked_of(self, lot: int) -> dict[Strand, dict[int, float]]:
        """The columns that ask a lot for strands of each kind."""
        asked: dict[Strand, dict[int, float]] = {}
        for slot in self._by_lot()[lot]:
            for strand in self._strands(slot):
                entries = asked.setdefault(strand, {})
                at = self.slots[slot]
                entries[at] = entries.get(at, 0.0) + 1.0
        return asked

    def _use_up(self, lot: int, cut: Written | Sketched) -> None:
        """No more of the part balls of a lot is used than is cut of them."""
        stock = self.problem.lots[lot]
        if lot in self.used_up:
            opened: dict[int, float] = {}
            for i, supply in enumerate(stock.supplies):
                opened |= {} if supply.whole else cut.of_supply(i)
            entries = {at: -um for at, um in opened.items()}
            self.program.row(-ENDLESS, 0.0, {self.used_up[lot]: 1.0, **entries})

    def limit_lot(self, lot: int, um: int) -> None:
        """From now on ask no more than so much of a lot."""
        self.known.add(lot)
        entries = {self.slots[slot]: self._part_um(slot) / _M for slot in self._by_lot()[lot]}
        self.program.row(-ENDLESS, um / _M, entries)


def _slots(problem: Problem) -> Iterator[Slot]:
    for number, want in enumerate(problem.wants):
        for part, asked in enumerate(want.parts):
            for lot in asked.places:
                yield Slot(number, part, lot)
