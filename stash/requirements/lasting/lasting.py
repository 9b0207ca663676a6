"""Will the ball last? What the rows left will take, from what it weighed after so many rows.

A ball that is weighed now and then loses b grams a row. Two things blur b: rows differ (a random
walk: what one row took more stays taken at every later weighing) and the scale rounds (anew at
each weighing). So later weighings are not independent, and a straight line drawn through them by
ordinary least squares claims to be far surer than it is. Here the line is fitted with both kinds
of error in it: generalised least squares, written as a filter that takes one weighing after the
other.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import pairwise

from stash.errors import Refusal
from stash.measures.estimate import normal_cdf

#: How much one row differs from the next, as a share, before the weighings show it: 5 % in the
#: middle, seldom under 2 or over 14 (an assumption; no study was found).
ROW_SPREAD = 0.05
_LOG_SPREAD = 0.55
#: The shares that are tried: from a hundredth to two fifths, in even steps of their logarithm.
_TRIED = tuple(0.01 * 40 ** (step / 24) for step in range(25))

#: A reading to the nearest step is off by step/sqrt(12): an even spread over one step.
READING_NOISE = 1 / math.sqrt(12)

#: From here on the answer is *yes*, below the other *no* (the contract of this command).
SURE = 0.95
EVEN = 0.50
#: So many spreads below what is likely, it is as sure as that.
SURE_SPREADS = 1.645
#: Rows are only worth weighing once the ball has lost some steps of the scale.
_STEPS_WORTH_WEIGHING = 5
#: Rows the answer looks ahead at most.
_FAR = 20_000

#: Where only stitches are counted, so many are taken for a row. It decides nothing but how far
#: their yarn scatters before the weighings show it (our choice).
STITCHES_TO_A_ROW = 100

#: From a count of rows to what they hold, such as stitches.
Work = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Reading:
    """What the ball weighed, without its tare, after so many rows; `noise_g` is one spread."""

    rows: float
    net_g: float
    noise_g: float


class Verdict(StrEnum):
    """Whether it lasts: nineteen times in twenty, less than every other time, or between."""

    YES = "yes"
    TIGHT = "tight"
    NO = "no"


@dataclass(frozen=True, slots=True)
class GrowingRows:
    """Rows that begin with `first` stitches and grow by `more` each; alike if nothing is said."""

    first: float = 1
    more: float = 0

    def __call__(self, count: float) -> float:
        """The stitches of the first so many rows; none after the rows have shrunk away."""
        count = min(count, self.last)
        return count * self.first + self.more * count * (count - 1) / 2

    @property
    def last(self) -> float:
        """The last row that has a stitch; no end where rows do not shrink."""
        return math.ceil(-self.first / self.more) if self.more < 0 else math.inf


@dataclass(frozen=True)
class Weighings:
    """What is known of a ball that is being worked from.

    `work` turns rows into what they hold, where they do not all hold alike. `row` is what a usual
    row holds, where stitches are counted and not rows.
    """

    readings: tuple[Reading, ...]
    work: Work = GrowingRows()
    row: float | None = None

    def __post_init__(self) -> None:
        if len(self.readings) < 2:
            raise Refusal("one_weighing")
        for before, after in pairwise(self.readings):
            _refuse_strange(before, after)
            if self.work(after.rows) <= self.work(before.rows):
                raise Refusal("nothing_worked", first=before.rows, last=after.rows)
        first, last = self.readings[0], self.readings[-1]
        if last.net_g >= first.net_g or self._row_g <= 0:
            raise Refusal("ball_no_lighter", first=first.rows, last=last.rows)

    @property
    def have_g(self) -> float:
        """What is left: the last weighing."""
        return self.readings[-1].net_g

    @property
    def done(self) -> float:
        """The rows worked at the last weighing."""
        return self.readings[-1].rows

    @cached_property
    def _each(self) -> float:
        """What each row held on average up to now."""
        first, last = self.readings[0].rows, self.done
        return (self.work(last) - self.work(first)) / (last - first)

    @property
    def _row(self) -> float:
        return self.row or self._each

    def ahead(self, rows: float) -> float:
        """So many more rows, counted in usual rows up to now."""
        return (self.work(self.done + rows) - self.work(self.done)) / self._row

    @cached_property
    def _lines(self) -> tuple[tuple[float, _Line], ...]:
        """The line for each row spread tried, with how likely that spread is by now.

        The weight is what is thought beforehand times the likelihood of the weighings after the
        second; with only two, nothing is learned yet of how rows differ.
        """
        points = [
            Reading(self.work(each.rows) / self._row, each.net_g, each.noise_g)
            for each in self.readings
        ]
        per_row = (points[0].net_g - points[-1].net_g) / (points[-1].rows - points[0].rows)
        lines = [_fitted(points, share * per_row) for share in _TRIED]
        logs = [
            line.log_likelihood - (math.log(share / ROW_SPREAD) / _LOG_SPREAD) ** 2 / 2
            for share, line in zip(_TRIED, lines, strict=True)
        ]
        weights = [math.exp(each - max(logs)) for each in logs]
        total = math.fsum(weights)
        return tuple((weight / total, line) for weight, line in zip(weights, lines, strict=True))

    @cached_property
    def _row_g(self) -> float:
        return math.fsum(weight * line.slope for weight, line in self._lines)

    @property
    def each_g(self) -> float:
        """What one of what is counted takes, in grams: a row up to now, or a stitch."""
        return self._row_g * self._each / self._row

    def need(self, ahead: float) -> tuple[float, float]:
        """What so much work will take, and the spread of what is then left; in grams.

        For a known row spread s and m rows ahead the spread's square is
        e^2 - 2m cov(left, b) + m^2 var(b) + m s^2: the last weighing, the slope, and the rows to
        come. With two weighings n rows apart it is e^2 (1 + 2m/n + 2 m^2/n^2) + s^2 (m^2/n + m),
        the customary rule with the term that it leaves out: the slope hangs on the last weighing.
        """
        noise = self.readings[-1].noise_g
        expected = self._row_g * ahead
        square = math.fsum(
            weight * (line.square(ahead, noise) + ((line.slope - self._row_g) * ahead) ** 2)
            for weight, line in self._lines
        )
        return expected, math.sqrt(square)


def _refuse_strange(before: Reading, after: Reading) -> None:
    if after.rows <= before.rows:
        raise Refusal("rows_out_of_order", before=before.rows, after=after.rows)
    if after.net_g < 0:
        raise Refusal("ball_below_tare", after=after.rows)
    if after.net_g - before.net_g > 4 * math.hypot(before.noise_g, after.noise_g):
        raise Refusal("ball_heavier", before=before.rows, after=after.rows)


@dataclass(frozen=True, slots=True)
class _Line:
    """Grams a row, with its variance, its covariance with the grams left, and the likelihood."""

    slope: float
    variance: float
    with_left: float
    row_square: float
    log_likelihood: float

    def square(self, ahead: float, noise: float) -> float:
        return (
            noise**2
            - 2 * ahead * self.with_left
            + ahead**2 * self.variance
            + ahead * self.row_square
        )


def _fitted(points: Sequence[Reading], row_spread: float) -> _Line:
    """The line by generalised least squares: the first two weighings give it, each later one
    corrects it by as much as it says more than what was foreseen (a two-state Kalman filter)."""
    first, second, *later = points
    rows = second.rows - first.rows
    row_square = row_spread**2
    slope, left = (first.net_g - second.net_g) / rows, second.net_g
    v_left = second.noise_g**2
    v_slope = (first.noise_g**2 + v_left + rows * row_square) / rows**2
    both = -v_left / rows
    log_likelihood = 0.0
    for before, now in pairwise([second, *later]):
        rows = now.rows - before.rows
        left -= slope * rows
        v_left += rows * (rows * v_slope - 2 * both + row_square)
        both -= rows * v_slope
        total = v_left + now.noise_g**2
        more = now.net_g - left
        log_likelihood -= (math.log(total) + more**2 / total) / 2
        left, slope = left + v_left / total * more, slope + both / total * more
        v_slope -= both**2 / total
        v_left, both = v_left * (1 - v_left / total), both * (1 - v_left / total)
    return _Line(slope, v_slope, both, row_square, log_likelihood)


@dataclass(frozen=True, slots=True)
class Keep:
    """What must stay for crown, edging or bind-off: grams, metres or rows of the last size."""

    mass_g: float = 0.0
    length_m: float = 0.0
    rows: float = 0.0

    def grams(self, m_per_100g: float | None) -> float:
        """What is kept by weight or by length, in grams."""
        if not self.length_m:
            return self.mass_g
        if m_per_100g is None:
            raise Refusal("kept_metres_not_in_grams")
        return self.mass_g + 100 * self.length_m / m_per_100g


NOTHING_KEPT = Keep()


@dataclass(frozen=True, slots=True)
class Left:
    """What is still to be made, and what of the yarn must stay: grams and rows kept back.

    `have_spread_g`: how far off what is there may be beside the scale's step, such as a second
    ball that is known by its band alone.
    """

    rows: float
    keep_g: float = 0.0
    keep_rows: float = 0.0
    have_spread_g: float = 0.0


@dataclass(frozen=True, slots=True)
class Lasting:
    """Whether the ball lasts. Grams; `spread_g` is one standard deviation of have less need.

    It speaks from `as_of`, the count at the last weighing.
    `rows_likely` come out of it every other time, `rows_sure` nineteen times in twenty, what is
    kept back not touched; None where the rows end before the yarn does. `step_g` is the scale's.
    """

    need_g: float
    keep_g: float
    have_g: float
    spread_g: float
    each_g: float
    step_g: float
    rows_left: float
    as_of: float
    rows_likely: int | None
    rows_sure: int | None

    @property
    def spare_g(self) -> float:
        """What will be over; below nothing it is what will be short."""
        return self.have_g - self.need_g

    @property
    def chance(self) -> float:
        """How likely it lasts (normal distribution)."""
        return normal_cdf(self.spare_g / self.spread_g)

    @property
    def verdict(self) -> Verdict:
        """In one word."""
        if self.chance >= SURE:
            return Verdict.YES
        return Verdict.NO if self.chance < EVEN else Verdict.TIGHT

    @property
    def weigh_again(self) -> int | None:
        """After how many more rows to weigh again: half way where it is sure to last, sooner where
        it is not, but not before the scale can tell; None where nothing is left to be told."""
        if self.need_g <= self.keep_g:
            return None
        part = 2 if self.verdict is Verdict.YES else 4
        worth = _STEPS_WORTH_WEIGHING * self.step_g / self.each_g
        rows = math.ceil(max(worth, self.rows_left / part))
        return rows if rows < self.rows_left and self.chance > 1 - SURE else None


def lasting(weighings: Weighings, left: Left, step_g: float) -> Lasting:
    """Whether what is left covers the rows to come and what is to be kept back."""
    work = weighings.work
    if isinstance(work, GrowingRows) and weighings.done + left.rows + left.keep_rows > work.last:
        raise Refusal("rows_shrink_away", first=work.first, lost=-work.more, last=work.last)
    need_g, spread_g = _need(weighings, left, left.rows)
    rows_g = weighings.need(weighings.ahead(left.rows))[0]
    return Lasting(
        need_g=need_g,
        keep_g=need_g - rows_g,
        have_g=weighings.have_g,
        spread_g=spread_g,
        each_g=weighings.each_g,
        step_g=step_g,
        rows_left=left.rows,
        as_of=weighings.done,
        rows_likely=_rows_covered(weighings, left, 0.0),
        rows_sure=_rows_covered(weighings, left, SURE_SPREADS),
    )


def _need(weighings: Weighings, left: Left, rows: float) -> tuple[float, float]:
    """What so many rows and all that is kept back take, and the spread of what is then left."""
    expected, spread = weighings.need(weighings.ahead(rows + left.keep_rows))
    return expected + left.keep_g, math.hypot(spread, left.have_spread_g)


def _rows_covered(weighings: Weighings, left: Left, spreads: float) -> int | None:
    """The most rows that leave so many spreads of room."""

    def too_many(rows: int) -> bool:
        need_g, spread_g = _need(weighings, left, rows)
        return weighings.have_g < need_g + spreads * spread_g

    most = bisect_left(range(1, _FAR), True, key=too_many)
    return most if most < _FAR - 1 else None
