"""Several balls of one colour: each known to the row at which it was last weighed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.requirements.lasting.balls import (
    Ball,
    Point,
    newest_of_each_row,
    one_after_another,
    readings,
    speaks_from,
)
from stash.requirements.lasting.lasting import (
    GrowingRows,
    Lasting,
    Left,
    Reading,
    Verdict,
    Weighings,
    lasting,
)

FULL_G = 100.0


def ball(number: int, *points: tuple[float, float], ended: bool = False) -> Ball:
    return Ball(number, tuple(Point(*point) for point in points), ended)


def answer(balls: list[Ball], rows_left: float, now: float) -> Lasting:
    """Whether two balls of 100 g each last, asked at a row."""
    opening = Reading(0, FULL_G * len(balls), 0.3)
    told = Weighings(readings(balls, opening, GrowingRows(), 1.0))
    return lasting(told, Left(rows_left + now - told.done), 1.0)


def test_a_ball_last_weighed_earlier_is_not_spread_over_later_rows() -> None:
    """Half a gram a row of each: 10 g of the second by row 20, not by row 50."""
    both = [ball(1, (50, 25)), ball(2, (20, 10))]

    found = answer(both, rows_left=140, now=50)

    assert speaks_from(both).number == 2
    assert found.as_of == 20
    assert found.need_g == pytest.approx(170 * 1.0)
    assert found.have_g == pytest.approx(180)
    assert answer(both, rows_left=160, now=50).verdict is not Verdict.YES


@given(
    st.integers(5, 100), st.integers(5, 100), st.floats(0.1, 0.4), st.floats(0.1, 0.4),
    st.integers(10, 300),
)  # fmt: skip
def test_whichever_is_weighed_when_the_need_is_that_of_both(
    first: int, second: int, of_first: float, of_second: float, left: int
) -> None:
    """Even rows: what is to come takes what both balls give to a row."""
    both = [ball(1, (first, first * of_first)), ball(2, (second, second * of_second))]
    now = max(first, second)

    found = answer(both, left, now)

    assert found.as_of == min(first, second)
    assert found.need_g == pytest.approx((of_first + of_second) * (left + now - found.as_of))
    assert found.have_g == pytest.approx(2 * FULL_G - (of_first + of_second) * found.as_of)


def test_a_ball_that_ended_is_known_for_every_later_row() -> None:
    """100 g in 50 rows, then 20 g of the next by row 60."""
    balls = one_after_another([ball(1, (25, 50), (50, 100), ended=True), ball(2, (60, 20))])
    opening = Reading(0, 200.0, 0.3)

    told = readings(balls, opening, GrowingRows(), 1.0)

    assert [(one.rows, one.net_g) for one in told] == [(0, 200), (25, 150), (50, 100), (60, 80)]


def test_a_ball_weighed_again_without_use_is_known_there() -> None:
    balls = [ball(1, (30, 94), (50, 94)), ball(2, (50, 60))]

    told = readings(balls, Reading(0, 200.0, 0.3), GrowingRows(), 1.0)

    assert [(one.rows, one.net_g) for one in told] == [(0, 200), (50, 46)]


def test_a_lower_row_later_means_that_work_was_ripped_back() -> None:
    points = [Point(10, 10), Point(20, 20), Point(30, 30), Point(15, 30)]

    assert newest_of_each_row(points) == (Point(10, 10), Point(15, 30))


def test_what_lies_between_two_weighings_goes_by_the_work_there() -> None:
    """Rows of 10, 12, 14… stitches: by row 10 of 20 they hold 190 of 580."""
    growing = GrowingRows(10, 2)

    used = ball(1, (20, 58.0)).used_g(10, growing)

    assert used == pytest.approx(58 * growing(10) / growing(20))
    assert growing(10) / growing(20) == pytest.approx(190 / 580)
