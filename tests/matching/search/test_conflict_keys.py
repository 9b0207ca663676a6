"""Values that conflict leave out no lots that fit."""

from __future__ import annotations

from itertools import combinations, product

from hypothesis import given
from hypothesis import strategies as st

from stash.matching.question.wish import Contrast, Gap, Wished
from stash.matching.rules.contrast import gaps_among, leaves_room, stands_apart
from stash.matching.search.conflict_keys import (
    hue_sectors,
    lightness_steps,
    never_apart,
    never_one_hue,
    step_for,
)
from stash.measures.colour import Lab

axis = st.floats(-60, 60)
labs = st.builds(Lab, st.floats(0, 100), axis, axis)
shades = st.lists(labs, max_size=3)


@given(
    one=shades,
    other=shades,
    wished=st.one_of(
        st.sampled_from(Contrast), st.builds(Gap, st.floats(0, 50), st.floats(50, 100))
    ),
)
def test_no_pair_that_suits_is_left_out(one: list[Lab], other: list[Lab], wished: Wished) -> None:
    if stands_apart(one, other, wished) and wished is not Contrast.ANY:
        step = step_for(wished)
        steps = product(lightness_steps(one, step), lightness_steps(other, step))
        assert not any(never_apart(x, y, step, gaps_among(wished, 2)) for x, y in steps)
        sectors = product(hue_sectors(one), hue_sectors(other))
        tonal = wished is Contrast.TONAL
        assert not any(tonal and never_one_hue(x, y) for x, y in sectors)


@given(
    lots=st.lists(st.lists(labs, min_size=1, max_size=2), min_size=2, max_size=5),
    slack=st.floats(0, 5),
)
def test_lots_that_all_stand_apart_leave_room_for_each_other(
    lots: list[list[Lab]], slack: float
) -> None:
    """Whatever the lots, they stand apart by the gap from their nearest to their farthest."""
    apart = [
        abs(x.lightness - y.lightness)
        for one, other in combinations(lots, 2)
        for x, y in product(one, other)
    ]
    wished = Gap(max(0.0, min(apart) - slack), max(apart) + slack)
    step = step_for(wished)

    for one, other in combinations(lots, 2):
        assert stands_apart(one, other, wished)
        assert leaves_room(one, other, wished, len(lots))
        steps = product(lightness_steps(one, step), lightness_steps(other, step))
        assert not any(never_apart(x, y, step, gaps_among(wished, len(lots))) for x, y in steps)
