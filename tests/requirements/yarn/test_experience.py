"""What was made before, brought to bear on a plan."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from requirements.some_designs import SC, cm, gauge, plain_scarf

from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.design.stitches import Craft
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import (
    Experience,
    Made,
    as_given,
    as_made,
    carried_over,
    experience,
    foreseen,
    stitch_of,
)
from stash.requirements.yarn.model import GUESSED_GAUGE, TESTED_SPREAD
from stash.requirements.yarn.need import Need, Source

SCARF = replace(plain_scarf(), fabric=SC, gauge=gauge(14, 16))
WIDE = replace(SCARF, size=Size(cm(40), cm(150)))
BLANKET = replace(SCARF, shape=Shape.BLANKET, size=Size(cm(90), cm(100)))


def total_of(plan: Design) -> float:
    said = foreseen(plan)
    assert said is not None
    return said.total_m


def took(plan: Design, ratio: float) -> OwnItem:
    return OwnItem((("A", ratio * total_of(plan)),))


def one_role(need: Need) -> tuple[Source, float, float]:
    (role,) = need.roles
    return role.source, role.estimate.expected_m, role.estimate.relative


def test_an_item_is_carried_over_to_another_size_as_the_model_goes() -> None:
    """It took a tenth more than foreseen; so will the wide one."""
    made = [Made(1, SCARF, took(SCARF, 1.1))]
    bears = experience(1, WIDE, made)

    assert bears.own[0].by_role[0][1] == pytest.approx(1.1 * total_of(WIDE))
    assert bears.notes == (Note("items_carried_over", count=1),)
    assert bears.notes[0] in need_of(WIDE, made=bears).notes


def test_a_total_is_carried_over_too() -> None:
    whole = OwnItem(total_m=100, scale_m=1)

    carried = carried_over(whole, SCARF, WIDE)

    assert carried.total_m == pytest.approx(100 * total_of(WIDE) / total_of(SCARF))
    assert carried.scale_m == pytest.approx(total_of(WIDE) / total_of(SCARF))


def test_figures_in_a_plan_follow_its_size_and_it_is_said() -> None:
    """A pattern's figure and a weighed item, given for the narrow scarf, on the wide one."""
    given = replace(SCARF, stated=(("A", metres(200)),), weighed=(("A", grams(110)),))
    wide = replace(given, size=WIDE.size)
    grown = total_of(WIDE) / total_of(SCARF)

    plan, notes = as_given(wide, given, given)

    assert plan.stated[0][1].m == pytest.approx(200 * grown)
    assert plan.weighed[0][1].g == pytest.approx(110 * grown, abs=0.001)
    assert [note.kind for note in notes] == [
        "stated_figure_carried_over",
        "weighed_item_carried_over",
    ]
    assert as_given(given, given, given) == (given, ())


def test_a_gauge_put_right_does_not_make_an_item_grow() -> None:
    better = replace(WIDE, gauge=gauge(12, 15))

    assert as_made(SCARF, better) == replace(better, size=SCARF.size)
    assert as_made(plain_scarf(), better) == plain_scarf()


def test_the_same_plan_needs_no_carrying_over() -> None:
    item = took(SCARF, 1.1)

    assert experience(1, SCARF, [Made(1, SCARF, item)]) == Experience((item,))


def test_where_the_model_has_no_word_an_item_stands_as_it_is() -> None:
    stated = Design(stated=(("A", metres(200)),))
    item = OwnItem((("A", 210.0),))

    bears = experience(
        1, stated, [Made(1, replace(stated, thickness_from=4, thickness_to=4), item)]
    )

    assert bears.own == (item,)
    assert bears.notes == ()


def test_other_designs_in_the_stitch_are_counted_in_and_said() -> None:
    made = [Made(1, SCARF, took(SCARF, ratio)) for ratio in (1.06, 1.05, 1.07, 1.06)]
    plain = need_of(BLANKET)
    learned = need_of(BLANKET, made=experience(2, BLANKET, made))

    assert one_role(learned)[0] is Source.GAUGE
    assert 1.03 < one_role(learned)[1] / one_role(plain)[1] < 1.06
    assert one_role(learned)[2] < 0.75 * one_role(plain)[2]
    (facts,) = [note.facts for note in learned.notes if note.kind == "learned_from_items"]
    assert (facts["count"], facts["stitches"][0]) == (4, "sc")
    assert facts["more"] > 0


def test_a_guessed_gauge_stays_a_guess() -> None:
    """Her hands cannot tell the gauge of a class: only the model's part comes down."""
    made = [Made(1, SCARF, took(SCARF, 1.06)) for _ in range(9)]
    guessed = replace(BLANKET, gauge=None)

    learned = need_of(guessed, made=experience(2, guessed, made))

    assert one_role(learned)[0] is Source.THICKNESS
    assert one_role(learned)[2] > GUESSED_GAUGE
    assert one_role(learned)[2] < math.hypot(GUESSED_GAUGE, TESTED_SPREAD[Craft.KNIT])


def test_a_swatch_is_not_put_right_by_other_designs() -> None:
    made = [Made(1, SCARF, took(SCARF, 1.3)) for _ in range(5)]
    stated = replace(BLANKET, stated=(("A", metres(900)),))

    learned = need_of(stated, made=experience(2, stated, made))

    assert one_role(learned)[:2] == (Source.STATED, 900)
    assert "learned_from_items" not in [note.kind for note in learned.notes]


def test_an_item_in_another_fabric_of_the_design_tells_of_her_hands_alone() -> None:
    was = plain_scarf()
    made = [Made(1, was, took(was, 1.2))]

    bears = experience(1, SCARF, made)

    assert bears.own == ()
    assert bears.hands.outcomes[0].stitch == stitch_of(was)


def test_a_plan_that_could_no_longer_be_made_teaches_nothing() -> None:
    no_height = replace(
        SCARF, shape=Shape.ROUND_HAT, size=Size(cm(60), cm(5)), name="too low for its crown"
    )
    with pytest.raises(Refusal):
        need_of(no_height)

    assert experience(2, BLANKET, [Made(1, no_height, OwnItem(total_m=50))]) == Experience()


def test_a_colour_of_a_few_metres_is_never_known_to_the_centimetre() -> None:
    small = Design(stated=(("A", metres(200)), ("B", metres(2))), strands=2)

    a, b = need_of(small).roles

    assert a.estimate.spread_m == pytest.approx(16)
    assert b.estimate.spread_m == 1  # half a metre for each strand
