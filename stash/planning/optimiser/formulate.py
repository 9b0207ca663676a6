"""The batch as rows and columns, with columns made as prices ask for them.

Rows are lots, wants, hours, mixes, pairs and what an earlier aim has reached; lengths stand in
metres, worths as shares of the largest. What must be reached at least may be missed at a price, so
that there is always an answer, and what is missed shows which wants clash.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from stash.planning.model.problem import Aim, Column, Mix, Place, Problem
from stash.planning.optimiser.pricing import Prices, gainful
from stash.planning.optimiser.solver import ENDLESS, Program, Relaxed, Stop
from stash.planning.optimiser.variety import VarietyRows
from stash.planning.optimiser.yarn_costs import DearerYarn, dearer_yarn

_M = 1_000_000
#: What missing one item, or one item's worth of an earlier aim, costs against one item.
MISSED = 1_000.0
#: How many columns of one want are taken at a time, with no lot twice; and how far to look.
AT_A_TIME, LOOKED_AT = 3, 200


def largest(problem: Problem, aim: Aim) -> int:
    """The largest worth of one item, to reckon with shares of it."""
    aim = Aim.BUYING if aim is Aim.LEFTOVERS else aim
    worths = [abs(problem.worth(Column(want, ()), aim)) for want in range(len(problem.wants))]
    return max([1, *worths])


@dataclass(frozen=True, slots=True)
class Reached:
    """An aim that came first, and what a plan reaches of it; later ones must not spoil it."""

    aim: Aim
    total: int


@dataclass(frozen=True, slots=True)
class Goal:
    """What to look for: the most of an aim (None: that every least is met), earlier ones kept."""

    aim: Aim | None
    kept: tuple[Reached, ...] = ()

    @property
    def leftovers(self) -> bool:
        """Whether part balls have to be reckoned with."""
        return Aim.LEFTOVERS in self.all

    @property
    def profit(self) -> bool:
        """Whether what yarn costs has to be reckoned with."""
        return Aim.PROFIT in self.all

    @property
    def all(self) -> tuple[Aim | None, ...]:
        """This aim and those kept."""
        return (self.aim, *(reached.aim for reached in self.kept))


class Master:
    """The program of a batch, growing by columns."""

    def __init__(self, problem: Problem, goal: Goal, stop: Stop) -> None:
        self.problem, self.goal, self.stop = problem, goal, stop
        self.program = Program(stop)
        self.program.column(0.0, {}, 0.0, whole=False)  # a program without columns has no prices
        self.columns: dict[Column, int] = {}
        self.at_lot: dict[int, list[Column]] = {}
        self.room: dict[tuple[int, int], int] = {}
        self.given: dict[tuple[int, int], int] = {}
        self.closed: set[Column] = set()
        self.ended: set[int] = set()
        self.made = [0] * len(problem.wants)
        self.scale = {aim: largest(problem, aim) for aim in Aim}
        self._yarn_rows()
        self._want_rows()
        self._mix_rows()
        self._pairs: dict[tuple[int, ...], int] = {}
        self._varied = VarietyRows(self.program, problem.varieties)
        for variety in range(len(problem.varieties)):
            self._may_miss(self._varied.begin(variety))
        self._dearer = self._dearer_rows() if goal.profit else DearerYarn()
        self._leftovers: dict[int, int] = {}
        self._used_up: dict[int, int] = {}
        if goal.leftovers:
            self._leftover_rows()
        self._kept = [self._kept_row(reached) for reached in goal.kept]

    def _yarn_rows(self) -> None:
        """A row for all of a lot, and for each set of its pieces that some part is tied to."""
        used = {
            (place.lot, place.pool)
            for want in self.problem.wants
            for part in want.parts
            for place in part.places.values()
        }
        every = {lot: (1 << len(self.problem.lots[lot].supplies)) - 1 for lot, _ in used}
        self._yarn: dict[tuple[int, int], int] = {}
        for key in sorted({*used, *every.items()}):
            lot, pool = key
            stock = self.problem.lots[lot]
            most = stock.most_um if pool == every[lot] else stock.together_um(pool)
            self.room[key] = min(most, stock.most_um)
            self._yarn[key] = self.program.row(-ENDLESS, self.room[key] / _M)
        self.most = {**self.room}
        pools: dict[int, list[int]] = {}
        for lot, pool in self._yarn:
            pools.setdefault(lot, []).append(pool)
        self.over = {
            (lot, pool): [(lot, p) for p in pools[lot] if p & pool == pool]
            for lot, pool in self._yarn
        }

    def _want_rows(self) -> None:
        self._wants = []
        for number, want in enumerate(self.problem.wants):
            row = self.program.row(want.at_least, want.at_most)
            self._wants.append(row)
            if want.at_least:
                self._may_miss(row, dearly=number in self.problem.first)
        minutes = self.problem.minutes
        self._hours = None if minutes is None else self.program.row(-ENDLESS, minutes / 60)

    def _may_miss(self, row: int, *, dearly: bool = False) -> None:
        """What a row lacks of its least, in items, may be missing at a price."""
        price = -1.0 if self.goal.aim is None and not dearly else -MISSED
        self.program.column(price, {row: 1.0}, whole=False)

    def _mix_rows(self) -> None:
        self._mixes: list[tuple[Mix, int, float, float]] = []
        for mix in self.problem.mixes:
            if mix.at_least:
                self._add_mix(mix, mix.at_least, ENDLESS)
            if mix.at_most is not None:
                self._add_mix(mix, -ENDLESS, mix.at_most)

    def _add_mix(self, mix: Mix, low: float, high: float) -> None:
        """Of a share: so many hundredths of all, taken off every item."""
        off = (low if high == ENDLESS else high) / 100 if mix.share else 0.0
        if mix.share:
            low, high = (0.0, ENDLESS) if high == ENDLESS else (-ENDLESS, 0.0)
        row = self.program.row(low, high)
        self._mixes.append((mix, row, 1.0 - off, -off))
        if high == ENDLESS:
            self._may_miss(row)

    def _leftover_rows(self) -> None:
        """What of the part balls of a lot is used: no more than there is, or than is used."""
        worth = 1 / self.scale[Aim.LEFTOVERS] if self.goal.aim is Aim.LEFTOVERS else 0.0
        for lot in sorted({lot for lot, _ in self._yarn}):
            opened = self.problem.lots[lot].opened_um
            if opened:
                row = self.program.row(-ENDLESS, 0.0)
                self._leftovers[lot] = row
                at = self.program.column(worth * _M, {row: 1.0}, opened / _M, whole=False)
                self._used_up[lot] = at

    def _dearer_rows(self) -> DearerYarn:
        worth = 1 / self.scale[Aim.PROFIT] if self.goal.aim is Aim.PROFIT else 0.0
        return dearer_yarn(self.program, self.problem, worth, {})

    def _kept_row(self, reached: Reached) -> int:
        scale = self.scale[reached.aim]
        entries = {}
        if reached.aim is Aim.LEFTOVERS:
            entries = dict.fromkeys(self._used_up.values(), _M / scale)
        if reached.aim is Aim.PROFIT:
            entries = self._dearer.worths(1 / scale)
        row = self.program.row(reached.total / scale - 1e-9, ENDLESS, entries)
        self._may_miss(row)
        return row

    # columns

    def add(self, column: Column) -> int:
        """A kind of item, put into the program if it is not there yet."""
        if column in self.columns:
            return self.columns[column]
        entries: dict[int, float] = {self._wants[column.want]: 1.0}
        for part, place in self.problem.places(column):
            for key in self.over[place.lot, place.pool]:
                row = self._yarn[key]
                entries[row] = entries.get(row, 0.0) + place.least_um / _M
            if place.lot in self._leftovers:
                row = self._leftovers[place.lot]
                entries[row] = entries.get(row, 0.0) - part.um / _M
            if place.lot in self._dearer.rows:
                row = self._dearer.rows[place.lot]
                entries[row] = entries.get(row, 0.0) + part.used_um / _M
            self.at_lot.setdefault(place.lot, []).append(column)
        want = self.problem.wants[column.want]
        if self._hours is not None and want.minutes:
            entries[self._hours] = want.minutes / 60
        for mix, row, inside, outside in self._mixes:
            brings = inside if mix.holds(column) else outside
            if brings:
                entries[row] = brings
        if self.problem.per_pair is not None:
            entries[self._pair(column)] = 1.0
        entries |= self._varied.entries(column)
        for reached, row in zip(self.goal.kept, self._kept, strict=True):
            worth = self.problem.worth(column, reached.aim)
            if worth:
                entries[row] = worth / self.scale[reached.aim]
        self.columns[column] = self.program.column(self._worth(column), entries)
        return self.columns[column]

    def _worth(self, column: Column) -> float:
        aim = self.goal.aim
        return 0.0 if aim is None else self.problem.worth(column, aim) / self.scale[aim]

    def _pair(self, column: Column) -> int:
        if column.pair not in self._pairs:
            self._pairs[column.pair] = self.program.row(-ENDLESS, self.problem.per_pair or 0)
        return self._pairs[column.pair]

    # prices

    def prices(self, found: Relaxed) -> Prices:
        """What a micrometre of each lot and an item of each want is worth in this answer."""
        rows = found.prices
        yarn = {}
        for key, above in self.over.items():
            price = fsum(rows[self._yarn[k]] for k in above)
            if key[0] in self._leftovers:
                price -= rows[self._leftovers[key[0]]]
            yarn[key] = price / _M
        item = [self._item_price(want, rows) for want in range(len(self.problem.wants))]
        # rows that came with the last columns have no price yet where it was stopped after them
        known = {pair: row for pair, row in self._pairs.items() if row < len(rows)}
        pairs = {pair: rows[row] for pair, row in known.items() if rows[row]}
        used, varied = self._used_prices(rows), self._varied.prices(rows)
        return Prices(yarn, item, self._main_prices(rows), pairs, used, varied)

    def _used_prices(self, rows: Sequence[float]) -> dict[int, float]:
        """What a micrometre that is used of each lot costs: its yarn, and that dearer follows."""
        if not self.goal.profit:
            return {}
        kept = zip(self.goal.kept, self._kept, strict=True)
        profit = float(self.goal.aim is Aim.PROFIT)
        profit -= fsum(rows[row] for reached, row in kept if reached.aim is Aim.PROFIT)
        profit /= self.scale[Aim.PROFIT]
        dearer = self._dearer.rows
        return {
            lot: (profit * stock.cheapest + (rows[dearer[lot]] if lot in dearer else 0.0)) / _M
            for lot, stock in enumerate(self.problem.lots)
        }

    def _item_price(self, want: int, rows: Sequence[float]) -> float:
        column = Column(want, ())
        price = self._worth(column) - rows[self._wants[want]]
        if self._hours is not None:
            price -= rows[self._hours] * self.problem.wants[want].minutes / 60
        for reached, row in zip(self.goal.kept, self._kept, strict=True):
            price -= rows[row] * self.problem.worth(column, reached.aim) / self.scale[reached.aim]
        for mix, row, inside, outside in self._mixes:
            everywhere = mix.lots is None and want in mix.wants
            price -= rows[row] * (inside if everywhere else outside)
        return price

    def _main_prices(self, rows: Sequence[float]) -> dict[tuple[int, int], float]:
        """What it costs beside its yarn to take the main yarn of a want out of a lot."""
        found: dict[tuple[int, int], float] = {}
        for mix, row, inside, outside in self._mixes:
            if mix.lots is not None and rows[row]:
                for want in sorted(mix.wants):
                    for lot in sorted(mix.lots):
                        key = want, lot
                        found[key] = found.get(key, 0.0) + rows[row] * (inside - outside)
        return found

    def binding(
        self, found: Relaxed, nothing: float
    ) -> tuple[list[int], list[int], list[int], bool]:
        """Wants and mixes whose least costs something, lots and hours that are worth something."""
        rows = found.prices
        wants = [i for i, row in enumerate(self._wants) if rows[row] < -nothing]
        mixes = [
            self.problem.mixes.index(mix) for mix, row, *_ in self._mixes if rows[row] < -nothing
        ]
        lots = sorted({lot for (lot, _), row in self._yarn.items() if rows[row] > nothing})
        return wants, mixes, lots, self._hours is not None and rows[self._hours] > nothing

    # answers

    def relaxed(self) -> tuple[Relaxed, float]:
        """The best in fractions with all columns that prices ask for, and a bound on any plan."""
        bound = ENDLESS
        while True:
            found = self.program.relaxed()
            if not found.done:
                return found, bound
            gain, new = self._priced(self.prices(found))
            bound = min(bound, found.total + gain)
            if not new or self.stop():
                return found, bound

    def nearly_relaxed(self) -> Relaxed:
        """The best in fractions with the columns asked for once, for what is left of the yarn."""
        found = self.program.relaxed()
        if found.done and self._priced(self.prices(found))[1]:
            return self.program.relaxed()
        return found

    def _priced(self, prices: Prices) -> tuple[float, int]:
        """Columns that would make the answer better; how much all of them could, and how many."""
        gain, new = 0.0, 0
        for want, asked in enumerate(self.problem.wants):
            if self.made[want] < asked.at_most and want not in self.ended:
                best, added = self._priced_want(prices, want)
                gain += best * asked.at_most
                new += added
        return gain, new

    def _priced_want(self, prices: Prices, want: int) -> tuple[float, int]:
        """The most that a column of this want gains, and how many are new."""
        best, used, new = 0.0, set[int](), 0
        for looked, found in enumerate(gainful(self.problem, prices, want, self.room)):
            best = max(best, found.gain)
            if used.isdisjoint(found.column.lots) and found.column not in self.columns:
                self.add(found.column)
                used.update(found.column.lots)
                new += 1
            if new >= AT_A_TIME or looked >= LOOKED_AT:
                return max(best, found.most), new
        return best, new

    def take(self, column: Column) -> None:
        """One item of this kind is made: its lots have so much less room."""
        self.made[column.want] += 1
        for _, place in self.problem.places(column):
            for key in self.over[place.lot, place.pool]:
                self.room[key] -= place.least_um
                self.given[key] = self.given.get(key, 0) + place.least_um

    def refuse(self, place: Place) -> None:
        """The lot's pieces cannot give that much again."""
        key = place.lot, place.pool
        self.room[key] = min(self.room[key], place.least_um - 1)
        self.program.limit(
            self._yarn[key], -ENDLESS, (self.given.get(key, 0) + self.room[key]) / _M
        )

    def end(self, want: int) -> None:
        """No more of a want are made than there are by now."""
        if want not in self.ended:
            self.ended.add(want)
            self.program.limit(self._wants[want], -ENDLESS, self.made[want])

    def restart(self, taken: Iterable[Column]) -> None:
        """Begin again with these items made and nothing refused."""
        self.closed.clear()
        for want in sorted(self.ended):
            asked = self.problem.wants[want]
            self.program.limit(self._wants[want], asked.at_least, asked.at_most)
        self.ended.clear()
        self.made = [0] * len(self.problem.wants)
        self.given.clear()
        for key, um in self.most.items():
            self.room[key] = um
            self.program.limit(self._yarn[key], -ENDLESS, um / _M)
        counts: dict[Column, int] = {}
        for column in taken:
            self.add(column)
            self.take(column)
            counts[column] = counts.get(column, 0) + 1
        self.hold(counts, sorted(self.at_lot))

    def hold(self, counts: Mapping[Column, int], lots: Iterable[int]) -> None:
        """Keep what is made, and let of each kind no more be made than its lots have room for."""
        for column in dict.fromkeys(c for lot in lots for c in self.at_lot.get(lot, ())):
            count, more = counts.get(column, 0), 0
            if column not in self.closed:
                places = [place for _, place in self.problem.places(column)]
                more = min(self.room[p.lot, p.pool] // p.least_um for p in places)
            self.program.between(self.columns[column], count, count + max(0, more))

    @property
    def scale_of_aim(self) -> int:
        """What the program's sum of 1 stands for."""
        return 1 if self.goal.aim is None else self.scale[self.goal.aim]
