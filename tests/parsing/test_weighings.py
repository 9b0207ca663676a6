"""Weighings, rows left and yarn to keep back as they are typed."""

from __future__ import annotations

import pytest

from stash.errors import StashError
from stash.measures.mass import Mass, grams
from stash.parsing.weighings import BallWords, counts, growing, keep, of_ball, readings, scale_step
from stash.requirements.lasting.lasting import GrowingRows, Keep

THREE = "0:98g 20:81g 40:63g"


@pytest.mark.parametrize(
    "typed",
    [THREE, "0: 98 g, 20: 81 g, 40: 63 g", "0=98g;20=81g;40=63g", "0 rows: 98g 20r:81g 40:63g"],
)
def test_weighings_are_read_however_they_are_parted(typed: str) -> None:
    found, in_stitches = readings(typed)

    assert [(one.count, one.gross) for one in found] == [
        (0, grams(98)),
        (20, grams(81)),
        (40, grams(63)),
    ]
    assert not in_stitches


def test_half_a_round_and_ounces_and_commas() -> None:
    found, _ = readings("0:3,4 oz 0.5:85,2g 1/2:80g")

    assert [float(one.count) for one in found] == [0, 0.5, 0.5]
    assert [round(one.gross.g, 1) for one in found] == [96.4, 85.2, 80]


def test_stitches_may_be_counted() -> None:
    found, in_stitches = readings("0st:98g 1600st:81g")

    assert in_stitches
    assert found[1].count == 1600


@pytest.mark.parametrize(
    ("typed", "usual", "step"),
    [
        (THREE, grams(1), grams(1)),
        (THREE, Mass(100), Mass(100)),
        ("0:98.4g 20:81g", grams(1), Mass(100)),
        ("0:3.4oz 20:3.1oz", grams(1), Mass(2834)),
    ],
)
def test_the_step_is_the_last_place_that_was_written(typed: str, usual: Mass, step: Mass) -> None:
    """A tenth of an ounce is 2.835 g."""
    assert scale_step(readings(typed)[0], usual).mg == pytest.approx(step.mg, abs=1)


@pytest.mark.parametrize(
    "typed", ["", "98g", "0:98", "x 0:98g", "0:98g 20st:81g 40row:3g", "0kg:98g", "0:98m 20:81m"]
)
def test_what_is_no_weighing_is_refused(typed: str) -> None:
    with pytest.raises(StashError):
        readings(typed)


def test_rows_that_change() -> None:
    assert growing("80 +2") == GrowingRows(80, 2)
    assert growing("80 sts - 1/2 a row") == GrowingRows(80, -0.5)
    assert growing("80") == GrowingRows(80, 0)
    with pytest.raises(StashError) as refused:
        growing("more and more")
    assert refused.value.kind == "no_growing_rows"


def test_what_is_kept_back() -> None:
    assert keep("4g") == Keep(mass_g=4)
    assert keep("6 m") == Keep(length_m=6)
    assert keep("3 rows") == Keep(rows=3)


def test_the_rows_at_several_weighings() -> None:
    assert counts("20,40") == counts("20 40") == (20, 40)


def test_the_tare_comes_off_every_reading() -> None:
    bare = of_ball(BallWords(THREE, "36"), grams(1), None)
    bowl = of_ball(BallWords("0:110g 20:93g 40:75g", "36"), grams(1), grams(12))

    assert bowl == bare


@pytest.mark.parametrize(
    ("words", "kind", "in_stitches"),
    [
        (BallWords(), "no_ball_weighed", None),
        (BallWords(THREE), "left_counted_otherwise", False),
        (BallWords(THREE, stitches_left="3000"), "left_counted_otherwise", False),
        (BallWords("0st:98g 1600st:81g", rows_left="36"), "left_counted_otherwise", True),
        (
            BallWords("0st:98g 9st:81g", stitches_left="6", stitches="80"),
            "left_counted_otherwise",
            True,
        ),
        (BallWords(THREE, "some"), "no_count_of_work_left", None),
    ],
)
def test_what_is_missing_is_named(words: BallWords, kind: str, in_stitches: bool | None) -> None:
    with pytest.raises(StashError) as refused:
        of_ball(words, grams(1), None)

    assert refused.value.kind == kind
    assert refused.value.facts.get("in_stitches") is in_stitches


def test_a_length_is_kept_back_by_the_put_up() -> None:
    with pytest.raises(StashError):
        of_ball(BallWords(THREE, "36", keep="6m"), grams(1), None)
