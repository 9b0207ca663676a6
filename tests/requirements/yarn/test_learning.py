"""How finished items tighten the next estimate.

The formulas are the standard ones of shrinkage (normal prior, normal evidence, nested levels); the
bounds are those the tool was asked for: one own item brings a spread of 20 % to 7 % or less,
five to 5 % or less, and one of five that is off by half moves the estimate under 5 %.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.estimate import Estimate
from stash.requirements.yarn.learning import (
    HANDS,
    Hands,
    Normal,
    Observed,
    Outcome,
    centre,
    corrected,
    group_variance,
    next_item,
    outcome,
)

MODEL = Estimate(100, 20)
SC, DC = ("sc", "class 4"), ("dc", "class 4")
GROUP = group_variance(0.15)


def after(*lengths_m: float, prior: Estimate | None = MODEL) -> Estimate:
    return next_item(prior, [Observed(length_m) for length_m in lengths_m])


def taught(*ratios: float) -> Sequence[Observed]:
    return [Observed(ratio) for ratio in ratios]


def test_one_item_brings_a_fifth_to_seven_percent_and_five_to_five() -> None:
    one, five = after(105), after(96, 98, 100, 102, 104)

    print(f"\nspread after one item {one.relative:.1%}, after five {five.relative:.1%}")
    assert one.relative <= 0.07
    assert five.relative <= 0.05


@pytest.mark.parametrize("off", [1.5, 0.5])
def test_one_item_off_by_half_hardly_moves_five(off: float) -> None:
    """As the fifth, and as a sixth; the worst of 300 makers whose items scatter by 4 %."""
    chance = random.Random(8)
    worst = 0.0
    for _ in range(300):
        good = [100 * math.exp(0.04 * chance.gauss(0, 1)) for _ in range(5)]
        for count in (4, 5):
            with_it = after(*good[:count], 100 * off).expected_m
            worst = max(worst, abs(with_it / after(*good[:count]).expected_m - 1))

    print(f"\none item x {off}: at most {worst:.1%}")
    assert worst < 0.05


def test_the_mean_of_one_is_drawn_as_precisions_say() -> None:
    """A prior of 8 % and one item of 4 %: a fifth of the way in logarithms."""
    said = after(105, prior=Estimate(100, 8))

    assert math.log(said.expected_m / 105) == pytest.approx(0.2 * math.log(100 / 105))


def test_a_figure_that_contradicts_her_items_counts_less() -> None:
    near, far = (after(m, prior=Estimate(100, 8)).expected_m / m for m in (90, 50))

    assert math.log(far) / math.log(100 / 50) < 0.6 * math.log(near) / math.log(100 / 90)


lengths = st.lists(st.floats(60, 160), min_size=1, max_size=7)


@given(lengths, st.randoms())
def test_the_order_of_items_does_not_matter(made: list[float], chance: random.Random) -> None:
    mixed = chance.sample(made, len(made))

    assert after(*mixed) == after(*made)


@given(lengths)
def test_the_estimate_lies_between_the_model_and_the_items(made: list[float]) -> None:
    low, high = min(100.0, *made), max(100.0, *made)

    assert low * (1 - 1e-9) <= after(*made).expected_m <= high * (1 + 1e-9)


@given(st.floats(60, 160), st.integers(1, 8))
def test_more_items_that_agree_never_widen(length_m: float, count: int) -> None:
    fewer, more = (after(*[length_m] * n) for n in (count, count + 1))

    assert more.relative <= fewer.relative + 1e-9


@given(lengths, st.floats(0.1, 10))
def test_twice_the_size_is_twice_the_yarn(made: list[float], factor: float) -> None:
    large = after(*(factor * m for m in made), prior=Estimate(100 * factor, 20 * factor))
    small = after(*made)

    assert large.expected_m == pytest.approx(factor * small.expected_m)
    assert large.relative == pytest.approx(small.relative)


def test_items_that_differ_widen_the_spread() -> None:
    assert after(80, 100, 125).relative > 2 * after(100, 100, 100).relative


def test_the_middle_of_three_is_theirs_where_they_agree() -> None:
    three = [Normal(mean, 0.01) for mean in (-0.02, 0.0, 0.05)]

    assert centre(three).mean == pytest.approx(0.01)
    assert centre(three).variance == pytest.approx(0.01 / 3)


def test_with_nothing_learned_the_model_stands_as_it_is() -> None:
    lesson = Hands().lesson(SC, GROUP)

    assert corrected({"A": Estimate(100, 15)}, lesson, GROUP)["A"].expected_m == 100
    assert corrected({"A": Estimate(100, 15)}, lesson, GROUP)["A"].spread_m == pytest.approx(15)


def test_another_design_in_the_stitch_narrows_the_model_and_moves_it() -> None:
    hands = Hands((outcome(SC, taught(1.06, 1.05, 1.07, 1.06)),))
    said = corrected({"A": Estimate(100, 15)}, hands.lesson(SC, GROUP), GROUP)["A"]

    assert 103 < said.expected_m < 106
    assert 0.07 < said.relative < 0.11


def test_another_stitch_teaches_less_than_the_same() -> None:
    hands = Hands((outcome(SC, taught(1.10, 1.10, 1.10)),))
    same, other = (hands.lesson(stitch, GROUP) for stitch in (SC, DC))

    assert 0 < other.ratio.mean < 0.5 * same.ratio.mean
    assert same.ratio.variance < other.ratio.variance < GROUP + HANDS**2
    assert (same.alike, same.others) == (3, 0)
    assert (other.alike, other.others) == (0, 3)


def test_one_design_off_by_half_hardly_moves_what_five_teach() -> None:
    good = [outcome(SC, taught(1.0)) for _ in range(4)]
    five, spoilt = Hands((*good, good[0])), Hands((*good, outcome(SC, taught(0.5))))

    moved = math.exp(spoilt.lesson(SC, GROUP).ratio.mean - five.lesson(SC, GROUP).ratio.mean)

    assert abs(moved - 1) < 0.05


outcomes = st.lists(
    st.builds(
        Outcome,
        st.sampled_from([SC, DC, ("tr", "class 4")]),
        st.builds(Normal, st.floats(-0.5, 0.5), st.floats(0.003, 0.02)),
        st.integers(1, 5),
    ),
    max_size=6,
)


@given(outcomes, st.randoms())
def test_the_order_of_designs_does_not_matter(made: list[Outcome], chance: random.Random) -> None:
    mixed = chance.sample(made, len(made))

    assert Hands(tuple(mixed)).lesson(SC, GROUP) == Hands(tuple(made)).lesson(SC, GROUP)


@given(outcomes)
def test_a_lesson_lies_between_the_model_and_what_was_made(made: list[Outcome]) -> None:
    ratio = Hands(tuple(made)).lesson(SC, GROUP).ratio
    means = [0.0, *(one.ratio.mean for one in made)]

    assert min(means) - 1e-9 <= ratio.mean <= max(means) + 1e-9
    assert ratio.variance <= GROUP + HANDS**2 + 1e-12


def test_a_simulated_maker_is_foreseen_ever_better() -> None:
    """2,000 makers drawn as the levels say (hands 7.1 %, stitch and class, design 6 %, item 4 %):
    the error of the next item after 0, 1 and 5 items, and the share within 1.645 spreads
    (90 % of a normal distribution)."""
    chance = random.Random(3)
    errors: dict[int, list[float]] = {0: [], 1: [], 5: []}
    within = dict.fromkeys(errors, 0)
    prior = Estimate(100, 15)
    for _ in range(2000):
        centre_ = math.log(100) + chance.gauss(0, math.sqrt(0.15**2 - 0.04**2))
        *made, coming = (math.exp(centre_ + chance.gauss(0, 0.04)) for _ in range(6))
        for count, found in errors.items():
            said = after(*made[:count], prior=prior) if count else prior
            off = math.log(coming / said.expected_m)
            found.append(off)
            within[count] += abs(off) <= 1.645 * said.relative

    rms = {n: math.sqrt(math.fsum(e * e for e in each) / 2000) for n, each in errors.items()}
    print(f"\nerror after 0, 1, 5 items: {rms}; within 90 %: {within}")
    assert rms[0] > 0.13
    assert rms[1] < 0.065
    assert rms[5] < 0.05
    assert all(abs(count / 2000 - 0.90) < 0.04 for count in within.values())
