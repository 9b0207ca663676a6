"""The only file that knows the solver: linear programs that grow, in fractions or in whole numbers.

The solver is HiGHS. It runs on one thread, with the settings below, so that the same program gives
the same answer; it knows no clock, and is stopped by asking.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Any

Stop = Callable[[], bool]
#: No limit.
ENDLESS = float("inf")
#: Work is counted in rows that are looked at: in each change of basis all rows, a quarter as many
#: as there are columns, and so many more; so many for each entry before there is a beginning. One
#: takes 0.1 to 0.4 microseconds in long programs; steps alone differ by fifty times.
MORE_ROWS, BEGINNING = 160, 110


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The best in fractions: how much of each column, what each row is worth a unit, the sum.

    `done` is false where it was stopped, or where the rows contradict each other.
    """

    values: Sequence[float]
    prices: Sequence[float]
    total: float
    done: bool


@dataclass(frozen=True, slots=True)
class Whole:
    """The best found in whole numbers (None where none was), and what no answer can exceed.

    `ended` is false where it was stopped or ran out of steps; `steps` are those that were taken,
    `work` is what they came to.
    """

    values: Sequence[float] | None
    bound: float
    ended: bool
    steps: int
    work: int


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to look for whole numbers: until so near the best, or for so many steps.

    `gap` is a share of the best, `least` what the next better answer is better by at least. Steps
    are counted by how often the solver asks whether to go on, so they are the same every time.
    """

    gap: float
    steps: int
    least: float = 0.0


def going_on() -> bool:
    """Never stop."""
    return False


class Program:
    """Rows and columns that are added to; the largest sum of worths is asked for."""

    def __init__(self, stop: Stop) -> None:
        self._highs = _quiet()
        self.stop = stop
        self._whole: list[bool] = []

    @property
    def columns(self) -> int:
        """How many columns there are."""
        return len(self._whole)

    @property
    def step_work(self) -> int:
        """About what a step of looking for whole numbers comes to."""
        return min(self.columns * int(self._highs.getNumRow()), 1_600_000) // 8 + 1

    def row(self, low: float, high: float, entries: Mapping[int, float] | None = None) -> int:
        """One more row, from low to high; `entries` are what columns already there bring to it."""
        at: int = self._highs.getNumRow()
        told = entries or {}
        self._highs.addRow(low, high, len(told), [*told], [*told.values()])
        return at

    def column(
        self, worth: float, entries: Mapping[int, float], most: float = ENDLESS, whole: bool = True
    ) -> int:
        """One more column from 0 to `most`, with what a unit of it brings to each row."""
        at = self.columns
        self._highs.addCol(-worth, 0.0, most, len(entries), [*entries], [*entries.values()])
        self._whole.append(whole)
        return at

    def worths(self, worths: Sequence[float]) -> None:
        """From now on ask for the largest sum of these."""
        count = len(worths)
        self._highs.changeColsCost(count, [*range(count)], [-worth for worth in worths])

    def limit(self, row: int, low: float, high: float) -> None:
        """Put other limits on a row."""
        self._highs.changeRowBounds(row, low, high)

    def between(self, column: int, least: float, most: float) -> None:
        """Put other limits on a column."""
        self._highs.changeColBounds(column, least, most)

    def relaxed(self) -> Relaxed:
        """The best in fractions, going on from the last answer."""
        self._highs.run()
        found = self._highs.getSolution()
        done = self._highs.getModelStatus().name == "kOptimal"
        total = -self._highs.getInfo().objective_function_value
        return Relaxed([*found.col_value], [-dual for dual in found.row_dual], total, done)

    def whole(self, effort: Effort, start: Sequence[float] = ()) -> Whole:
        """The best in whole numbers, looked for from `start` where one is known."""
        highs, steps = self._looked(effort, start)
        if start and self._kept_the_start(highs):
            highs, steps = self._looked(effort, ())
        return _whole(highs, steps)

    def _kept_the_start(self, highs: Any) -> bool:
        """Whether it tells of something better than it gives.

        Where a start becomes better as the program is made smaller, HiGHS 1.16 tells the better sum
        and gives the start back as it was.
        """
        told, found = highs.getInfo().objective_function_value, highs.getSolution()
        if not found.value_valid:
            return False
        costs = self._highs.getLp().col_cost_
        given = fsum(cost * value for cost, value in zip(costs, found.col_value, strict=True))
        return bool(given > told + 1e-6 * max(1.0, abs(told)))

    def _looked(self, effort: Effort, start: Sequence[float]) -> tuple[Any, int]:
        """The solver after its work, and how many steps that was."""
        import highspy

        highs = _quiet()
        model = self._highs.getLp()
        kinds = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
        model.integrality_ = [kinds[not whole] for whole in self._whole]
        highs.passModel(model)
        highs.setOptionValue("mip_rel_gap", effort.gap)
        highs.setOptionValue("mip_abs_gap", max(1e-6, 0.99 * effort.least))
        steps = 0

        def asked(event: Any) -> None:
            nonlocal steps
            steps += 1
            if self.stop() or steps > effort.steps:
                event.data_in.user_interrupt = True

        highs.cbMipInterrupt += asked
        if start:
            given = highspy.HighsSolution()
            given.col_value = [*start]
            highs.setSolution(given)
        highs.run()
        return highs, steps


def _whole(highs: Any, steps: int) -> Whole:
    import highspy

    info = highs.getInfo()
    found = info.primal_solution_status == int(highspy.SolutionStatus.kSolutionStatusFeasible)
    status = highs.getModelStatus().name
    bound = -ENDLESS if status == "kInfeasible" else -info.mip_dual_bound
    ended = status in ("kOptimal", "kInfeasible")
    changes = max(0, info.simplex_iteration_count)
    rows, columns = highs.getNumRow(), highs.getNumCol()
    work = changes * (rows + columns // 4 + MORE_ROWS) + 2 * (rows + columns) * steps
    work += BEGINNING * highs.getNumNz()
    return Whole([*highs.getSolution().col_value] if found else None, bound, ended, steps, work)


def _quiet() -> Any:
    import highspy

    class Quiet(highspy.Highs):
        """It would print its name while it is made, before it can be asked to be silent."""

        def enableCallbacks(self) -> None:  # noqa: N802
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    highs = Quiet()  # type: ignore[no-untyped-call]
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("random_seed", 1)
    return highs
