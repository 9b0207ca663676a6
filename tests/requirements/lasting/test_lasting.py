"""Whether a ball lasts, against a makers' case, published formulas and simulated balls."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Refusal
from stash.requirements.lasting.lasting import (
    READING_NOISE,
    GrowingRows,
    Keep,
    Left,
    Reading,
    Verdict,
    Weighings,
    _fitted,
    lasting,
)

#: One-sided points of the normal distribution and of Student's t for 1 to 6 degrees of freedom
#: (handbook tables).
NORMAL = {0.90: 1.2816, 0.95: 1.6449}
STUDENT = {
    0.90: (3.078, 1.886, 1.638, 1.533, 1.476, 1.440),
    0.95: (6.314, 2.920, 2.353, 2.132, 2.015, 1.943),
}


def weighed(*points: tuple[float, float], step_g: float = 1.0) -> tuple[Reading, ...]:
    return tuple(Reading(rows, net_g, READING_NOISE * step_g) for rows, net_g in points)


def test_two_more_rounds_and_the_bind_off() -> None:
    """A maker's account, public thread: a ball of 27 g weighs 24 g after half a round and 21 g
    after a whole one; one round and a bind-off like it take 12 g. Enough, 9 g spare."""
    found = lasting(Weighings(weighed((0, 27), (0.5, 24), (1, 21))), Left(1, keep_rows=1), 1)

    assert found.need_g == pytest.approx(12)
    assert found.spare_g == pytest.approx(9)
    assert found.verdict is Verdict.YES


def test_a_forecast_from_all_motifs_and_never_from_the_first() -> None:
    """A maker's account, public thread: 4.62 yd to the gram, the first of 24 motifs took 30 yd,
    later ones 35 to 42; the forecast is 835 to 996 yd, never 720."""
    taken = (0, 30, 65, 101, 139, 179, 221)
    weighings = Weighings(weighed(*((i, 400 - yd / 4.62) for i, yd in enumerate(taken))))

    whole_yd = taken[-1] + 4.62 * lasting(weighings, Left(18), 1).need_g

    assert 835 <= whole_yd <= 996


def test_two_weighings_give_the_customary_rule() -> None:
    """b = (y0 - yn)/n, need = b r; variance r2(2 s2 + n p2)/n2 + r p2 + s2, and twice r/n s2 for
    the last weighing, which stands in the slope and in what is left (propagation of errors)."""
    n, r, noise, row = 40, 36, 0.29, 0.05 * 35 / 40
    points = (Reading(0, 98, noise), Reading(n, 63, noise))

    line = _fitted(points, row)

    rule = r**2 * (2 * noise**2 + n * row**2) / n**2 + r * row**2 + noise**2
    assert line.slope * r == pytest.approx((98 - 63) / n * r)
    assert line.square(r, noise) == pytest.approx(rule + 2 * r / n * noise**2)


def test_the_example_of_the_command() -> None:
    """98 g, 81 g after 20 rows, 63 g after 40, 36 rows left and 4 g kept back."""
    found = lasting(Weighings(weighed((0, 98), (20, 81), (40, 63))), Left(36, 4), 1)

    assert found.need_g == pytest.approx(35 / 40 * 36 + 4, abs=0.3)
    assert (found.have_g, found.keep_g, found.verdict) == (63, pytest.approx(4), Verdict.YES)


@pytest.mark.parametrize("points", [((0, 98.0), (11, 88.1), (20, 81.0), (33, 69.4), (40, 63.2))])
def test_the_filter_gives_the_line_of_generalised_least_squares(
    points: Sequence[tuple[float, float]],
) -> None:
    """Aitken's estimator, (F'C^-1 F)^-1 F'C^-1 y with cov = p2 min(xi, xj) + s2 on the diagonal,
    worked out with exact fractions."""
    noise, row = 0.3, 0.05

    line = _fitted(weighed(*points, step_g=noise / READING_NOISE), row)

    cov = [[Fraction(row**2 * min(x, z) + (noise**2 if x == z else 0)) for z, _ in points]
           for x, _ in points]  # fmt: skip
    ones = [Fraction(1) for _ in points]
    xs, ys = [Fraction(-x) for x, _ in points], [Fraction(y) for _, y in points]
    u, v, w = solved(cov, ones), solved(cov, xs), solved(cov, ys)
    normal = [[dot(ones, u), dot(ones, v)], [dot(xs, u), dot(xs, v)]]
    _, slope = solved(normal, [dot(ones, w), dot(xs, w)])
    _, variance = solved(normal, [Fraction(0), Fraction(1)])
    assert line.slope == pytest.approx(float(slope))
    assert line.variance == pytest.approx(float(variance))


def dot(a: Sequence[Fraction], b: Sequence[Fraction]) -> Fraction:
    return sum((x * y for x, y in zip(a, b, strict=True)), Fraction(0))


def solved(matrix: Sequence[Sequence[Fraction]], right: Sequence[Fraction]) -> list[Fraction]:
    """Gauss and Jordan's elimination."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for i, _ in enumerate(rows):
        rows[i] = [value / rows[i][i] for value in rows[i]]
        for j, row in enumerate(rows):
            if j != i:
                rows[j] = [b - row[i] * a for a, b in zip(rows[i], row, strict=True)]
    return [row[-1] for row in rows]


class Ball:
    """A simulated ball: what it weighed on the way, and what it really held at the end."""

    def __init__(self, chance: random.Random) -> None:
        self.step_g = chance.choice((0.1, 1.0))
        self.ahead = chance.randint(10, 60)
        share, row_g = chance.uniform(0.02, 0.10), chance.uniform(0.5, 2.0)
        held, gap = chance.uniform(300, 400), chance.randint(5, 10)

        def after(rows: int) -> float:
            return held - sum(row_g * (1 + share * chance.gauss(0, 1)) for _ in range(rows))

        self.points = [(0, round(held / self.step_g) * self.step_g)]
        for i in range(1, chance.randint(3, 8)):
            held = after(gap)
            self.points.append((i * gap, round(held / self.step_g) * self.step_g))
        self.left = after(self.ahead)

    def foreseen(self, bound: float) -> bool:
        """Whether at least as much is left as the estimate promises at this bound."""
        weighings = Weighings(weighed(*self.points, step_g=self.step_g))
        need_g, spread_g = weighings.need(self.ahead)
        return self.left >= weighings.have_g - need_g - NORMAL[bound] * spread_g

    def foreseen_by_a_plain_line(self, bound: float) -> bool:
        """The same with ordinary least squares and Student's t."""
        n = len(self.points)
        mx, my = (math.fsum(column) / n for column in zip(*self.points, strict=True))
        sxx = sum((x - mx) ** 2 for x, _ in self.points)
        slope = sum((x - mx) * (y - my) for x, y in self.points) / sxx
        square = sum((y - my - slope * (x - mx)) ** 2 for x, y in self.points) / (n - 2)
        spread = math.sqrt(square / sxx) * STUDENT[bound][n - 3]
        return self.left >= self.points[-1][1] + (slope - spread) * self.ahead


@pytest.mark.parametrize("bound", [0.90, 0.95])
def test_the_bounds_hold_in_simulation_where_a_plain_line_does_not(bound: float) -> None:
    """Rows differ by 2 to 10 %, the scale shows 1 or 0.1 g, 3 to 8 weighings, the variation is
    estimated: over 2,000 balls a bound holds as often as it says, within 3 in a hundred."""
    chance = random.Random(20)
    balls = [Ball(chance) for _ in range(2000)]

    held = sum(ball.foreseen(bound) for ball in balls) / 2000
    plain = sum(ball.foreseen_by_a_plain_line(bound) for ball in balls) / 2000

    print(f"\n{bound:.0%} bound holds {held:.1%}, by a plain line {plain:.1%}")
    assert abs(held - bound) <= 0.03
    assert plain < bound - 0.10


def test_the_spread_follows_how_unevenly_she_works() -> None:
    even = Weighings(weighed(*((10 * i, 98 - 9 * i) for i in range(7)), step_g=0.1))
    bumpy = Weighings(
        weighed((0, 98), (10, 92), (20, 79), (30, 73), (40, 60), (50, 54), (60, 44), step_g=0.1)
    )

    assert even.need(20)[1] < 0.5 * bumpy.need(20)[1]


def test_growing_rows_take_more_each_time() -> None:
    """A shawl from 1 stitch with 2 more each row: n rows hold n squared, so the second half of 80
    rows takes three times the first (triangular numbers)."""
    shawl = Weighings(weighed((0, 100), (20, 95), (40, 80)), GrowingRows(1, 2))

    assert shawl.need(shawl.ahead(40))[0] == pytest.approx(3 * 20, rel=0.02)


def test_rows_that_shrink_come_to_an_end() -> None:
    crown = Weighings(weighed((0, 50), (10, 43)), GrowingRows(80, -4))

    lasting(crown, Left(10), 1)
    with pytest.raises(Refusal) as refused:
        lasting(crown, Left(11), 1)
    assert refused.value.kind == "rows_shrink_away"
    assert refused.value.facts["last"] == 20


@given(st.integers(1, 60), st.integers(1, 60), st.floats(0, 10))
def test_more_rows_never_last_longer(rows: int, more: int, keep_g: float) -> None:
    weighings = Weighings(weighed((0, 98), (20, 81), (40, 63)))
    short, long = (lasting(weighings, Left(r, keep_g), 1) for r in (rows, rows + more))

    assert short.chance >= long.chance
    assert short.need_g < long.need_g
    assert short.rows_likely == long.rows_likely


def test_the_rows_it_is_good_for_are_those_at_which_the_verdict_turns() -> None:
    weighings = Weighings(weighed((0, 98), (20, 81), (40, 63)))
    found = lasting(weighings, Left(36, 4), 1)
    assert found.rows_sure is not None
    assert found.rows_likely is not None

    at = [lasting(weighings, Left(found.rows_sure + i, 4), 1).verdict for i in (0, 1)]
    beyond = [lasting(weighings, Left(found.rows_likely + i, 4), 1).verdict for i in (0, 1)]

    assert at == [Verdict.YES, Verdict.TIGHT]
    assert beyond == [Verdict.TIGHT, Verdict.NO]


def test_weighing_again_waits_until_the_scale_can_tell() -> None:
    """Single rows on a 1 g scale tell nothing: 5 steps at 0.875 g are 6 rows."""
    tight = lasting(Weighings(weighed((0, 98), (20, 81), (40, 63))), Left(20, 45), 1)
    soon = lasting(Weighings(weighed((0, 98), (20, 81), (40, 63))), Left(5, 4), 1)

    assert tight.weigh_again == 6
    assert soon.weigh_again is None


def test_metres_kept_back_need_a_put_up() -> None:
    assert Keep(length_m=6).grams(230) == pytest.approx(2.61, abs=0.01)
    with pytest.raises(Refusal) as refused:
        Keep(length_m=6).grams(None)
    assert refused.value.kind == "kept_metres_not_in_grams"


@pytest.mark.parametrize(
    ("points", "kind"),
    [
        (((0, 98),), "one_weighing"),
        (((0, 98), (20, 98)), "ball_no_lighter"),
        (((0, 98), (20, 81), (20, 80)), "rows_out_of_order"),
        (((0, 98), (20, 60), (40, 75)), "ball_heavier"),
        (((0, 98), (20, -3)), "ball_below_tare"),
    ],
)
def test_weighings_that_tell_nothing_are_refused(
    points: tuple[tuple[float, float], ...], kind: str
) -> None:
    with pytest.raises(Refusal) as refused:
        Weighings(weighed(*points))
    assert refused.value.kind == kind
