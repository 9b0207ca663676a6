"""Colours apart, by the thresholds that were settled (our choice, written in the module)."""

import pytest

from stash.matching.question.wish import Contrast, Gap, wished
from stash.matching.rules.contrast import (
    contrast_of,
    least_difference,
    least_gap,
    leaves_room,
    stands_apart,
)
from stash.measures.colour import Lab


def grey(lightness: float) -> Lab:
    return Lab(lightness, 0, 0)


@pytest.mark.parametrize(
    ("wished", "gap", "suits"),
    [
        (Contrast.BOLD, 40, True),
        (Contrast.BOLD, 39.9, False),
        (Contrast.CLEAR, 25, True),
        (Contrast.CLEAR, 24.9, False),
        (Contrast.CLEAR, 60, True),
        (Contrast.SOFT, 12, True),
        (Contrast.SOFT, 11.9, False),
        (Contrast.SOFT, 25, True),
        (Contrast.SOFT, 25.1, False),
        (Contrast.TONAL, 3, True),
        (Contrast.TONAL, 2.9, False),
        (Contrast.TONAL, 12, True),
        (Contrast.TONAL, 12.1, False),
        (Contrast.ANY, 0, True),
    ],
)
def test_a_wish_asks_for_a_gap(wished: Contrast, gap: float, suits: bool) -> None:
    assert stands_apart([grey(0)], [grey(gap)], wished) == suits


@pytest.mark.parametrize(
    ("wished", "gap", "suits"),
    [
        (Gap(30), 30, True),
        (Gap(30), 29.9, False),
        (Gap(30), 90, True),
        (Gap(20, 40), 19.9, False),
        (Gap(20, 40), 40, True),
        (Gap(20, 40), 40.1, False),
    ],
)
def test_a_gap_by_numbers_is_at_least_and_at_most(wished: Gap, gap: float, suits: bool) -> None:
    assert stands_apart([grey(0)], [grey(gap)], wished) == suits


@pytest.mark.parametrize("kept", ["bold", "any", "30", "20-40", "12.5"])
def test_a_wish_is_kept_as_it_is_written(kept: str) -> None:
    assert str(wished(kept)) == kept


@pytest.mark.parametrize(("degrees", "suits"), [(29, True), (29.99, True), (30.01, False)])
def test_tonal_stays_in_one_hue(degrees: float, suits: bool) -> None:
    from math import cos, radians, sin

    turned = Lab(58, 40 * cos(radians(degrees)), 40 * sin(radians(degrees)))

    assert stands_apart([Lab(50, 40, 0)], [turned], Contrast.TONAL) == suits


def test_a_grey_beside_a_colour_is_not_tonal() -> None:
    assert not stands_apart([grey(50)], [Lab(58, 40, 0)], Contrast.TONAL)


def test_a_variegated_yarn_stands_apart_with_every_colour() -> None:
    spotted = [grey(10), grey(70)]

    assert stands_apart([grey(10)], [grey(95)], Contrast.BOLD)
    assert not stands_apart(spotted, [grey(95)], Contrast.BOLD)
    assert least_gap([spotted, [grey(95)]]) == 25


def test_an_unknown_colour_suits_any_alone() -> None:
    assert stands_apart([], [grey(50)], Contrast.ANY)
    assert not stands_apart([], [grey(50)], Contrast.SOFT)
    assert least_gap([[], [grey(50)]]) is None


def test_the_least_of_three_lots_counts() -> None:
    assert least_gap([[grey(0)], [grey(50)], [grey(90)]]) == 40
    assert least_difference([[grey(0)], [grey(100)]]) == pytest.approx(100)


@pytest.mark.parametrize(
    ("gap", "contrast"),
    [
        (40, Contrast.BOLD),
        (39, Contrast.CLEAR),
        (25, Contrast.CLEAR),
        (24, Contrast.SOFT),
        (12, Contrast.SOFT),
        (11, Contrast.TONAL),
        (3, Contrast.TONAL),
        (2, None),
    ],
)
def test_a_gap_answers_a_contrast(gap: float, contrast: Contrast | None) -> None:
    assert contrast_of([[grey(0)], [grey(gap)]]) is contrast


def test_a_gap_between_hues_is_not_tonal() -> None:
    assert contrast_of([[Lab(50, 40, 0)], [Lab(58, -40, 0)]]) is None


def test_what_answers_a_contrast_is_what_the_wish_finds() -> None:
    """A yarn of two colours, 12 and 60 from the other: a soft wish does not find it."""
    spotted, plain = [grey(12), grey(60)], [grey(0)]

    assert contrast_of([plain, spotted]) is None
    assert not stands_apart(plain, spotted, Contrast.SOFT)


def test_of_three_lots_every_two_answer() -> None:
    assert contrast_of([[grey(0)], [grey(12)], [grey(24)]]) is Contrast.SOFT
    assert contrast_of([[grey(0)], [grey(20)], [grey(40)]]) is None
    assert contrast_of([[grey(0)], [grey(30)], [grey(60)]]) is Contrast.CLEAR


# Worked by hand: of 10 < 20 < 30 in L* neighbours are 10 apart and the outer two 20.
@pytest.mark.parametrize(("gap", "leaves"), [(10, True), (15, False), (20, True)])
def test_of_three_lots_ten_to_twenty_apart_two_are_ten_or_twenty_apart(
    gap: float, leaves: bool
) -> None:
    one, other = [Lab(30, 0, 0)], [Lab(30 + gap, 0, 0)]

    assert leaves_room(one, other, Gap(10, 20), 3) is leaves
    assert leaves_room(one, other, Gap(10, 20), 2)
