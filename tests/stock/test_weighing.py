"""Scale against books, for one skein: the rules of weighing, without a file."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.weighing import Reading, Verdict, WeighingOutcome, weighed
from stash.stock.yarn import FullFrom, Pair

STEP = grams(1)
BAND = Pair(PutUp(grams(100), metres(200)), FullFrom.BAND)
ASSUMED = Pair(PutUp(grams(100), metres(200)), FullFrom.ASSUMED)
MISSING = Pair(None, FullFrom.MISSING)
HAT, SCARF = (4, "hat"), (6, "scarf")


def whole(pair: Pair = BAND, **facts: object) -> HeldSkein:
    return replace(HeldSkein(1, 1, grams(100), Mass(0), pair, opened=False), **facts)  # type: ignore[arg-type]


def opened(held_g: int = 80, **facts: object) -> HeldSkein:
    return replace(whole(), held=grams(held_g), opened=True, **facts)  # type: ignore[arg-type]


def weigh(
    skein: HeldSkein, gross: Mass, *begun: tuple[int, str], **said: object
) -> WeighingOutcome:
    return weighed(skein, Reading(gross, **said), STEP, begun)  # type: ignore[arg-type]


def test_a_reading_is_gross_and_the_tare_given_comes_first() -> None:
    skein = opened(tare=grams(10))

    assert weigh(skein, grams(85), tare=grams(5)).net == grams(80)
    assert weigh(skein, grams(90)).net == grams(80)
    assert weigh(opened(), grams(80)).net == grams(80)
    assert weigh(skein, grams(85), tare=grams(5)).tare_from == "given"
    assert weigh(skein, grams(90)).tare_from == "skein"
    assert weigh(opened(), grams(80)).tare_from == "none"


def test_a_tare_of_nothing_is_a_tare() -> None:
    assert weigh(opened(tare=grams(10)), grams(80), tare=grams(0)).net == grams(80)


def test_a_reading_below_its_tare_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        weigh(opened(tare=grams(30)), grams(20))
    assert refused.value.kind == "tare_above_reading"


def test_a_whole_skein_settles_its_own_mass_and_keeps_its_length() -> None:
    outcome = weigh(whole(), grams(93))

    assert outcome.restates
    assert outcome.change == grams(-7)
    assert outcome.own_pair == PutUp(grams(93), metres(200))


@pytest.mark.parametrize("net_g", [88, 112])
def test_a_whole_skein_up_to_12_percent_off_is_still_whole(net_g: int) -> None:
    assert weigh(whole(), grams(net_g)).own_pair == PutUp(grams(net_g), metres(200))


@pytest.mark.parametrize("net_mg", [87_999, 112_001, 0])
def test_a_whole_skein_more_than_12_percent_off_asks(net_mg: int) -> None:
    with pytest.raises(Refusal) as refused:
        weigh(whole(), Mass(net_mg))
    assert refused.value.kind == ("whole_skein_far_off" if net_mg else "whole_skein_weighs_nothing")


@pytest.mark.parametrize("net_g", [113, 200, 1000])
def test_more_than_a_full_skein_holds_is_asked_about_before_a_rise(net_g: int) -> None:
    full = {"full": grams(100)}

    with pytest.raises(Refusal) as refused:
        weigh(opened(), grams(net_g), **full)
    assert refused.value.kind == "more_than_full"
    assert refused.value.facts["risen"] == grams(net_g - 80)
    assert weigh(opened(), grams(net_g), recount=True, **full).change == grams(net_g - 80)
    assert weigh(opened(), grams(net_g), tare=grams(net_g - 80), **full).verdict == "in agreement"


def test_a_rise_that_a_full_skein_can_hold_is_a_correction() -> None:
    assert weigh(opened(), grams(112), full=grams(100)).change == grams(32)


def test_a_skein_the_books_hold_too_full_may_still_fall() -> None:
    assert weigh(opened(held_g=150), grams(130), full=grams(100)).change == grams(-20)


def test_opened_answers_the_question() -> None:
    outcome = weigh(whole(), grams(60), opened=True)

    assert (outcome.verdict, outcome.change, outcome.opens) == (
        Verdict.CORRECTION,
        grams(-40),
        True,
    )
    assert outcome.own_pair is None


def test_recount_answers_the_question() -> None:
    outcome = weigh(whole(), grams(60), recount=True)

    assert (outcome.verdict, outcome.change) == (Verdict.CORRECTION, grams(-40))
    assert not outcome.restates


def test_a_whole_skein_of_one_begun_item_and_far_too_light_was_worked_from() -> None:
    outcome = weigh(whole(), grams(60), HAT)

    assert (outcome.verdict, outcome.item, outcome.change) == (Verdict.USE, 4, grams(-40))


def test_a_whole_skein_that_only_gave_its_mass_settles_the_mass_alone() -> None:
    outcome = weigh(whole(MISSING), grams(95))

    assert (outcome.change, outcome.restates, outcome.own_pair) == (grams(-5), True, None)


@pytest.mark.parametrize("skein", [whole(ASSUMED), replace(whole(ASSUMED), opened=True)])
@pytest.mark.parametrize("net_g", [30, 100, 170])
def test_the_first_weighing_settles_an_assumed_pair_and_changes_no_length(
    skein: HeldSkein, net_g: int
) -> None:
    outcome = weigh(skein, grams(net_g))

    assert outcome.restates
    assert outcome.own_pair == PutUp(grams(net_g), metres(200))


def test_a_whole_skein_whose_mass_is_not_known_cannot_weigh_nothing() -> None:
    with pytest.raises(Refusal):
        weigh(whole(ASSUMED), grams(0))


def test_a_fall_is_use_for_the_one_begun_item() -> None:
    outcome = weigh(opened(), grams(62), HAT)

    assert (outcome.verdict, outcome.item, outcome.change) == (Verdict.USE, 4, grams(-18))


def test_a_fall_with_several_begun_items_is_refused_with_their_names() -> None:
    with pytest.raises(Refusal) as refused:
        weigh(opened(), grams(62), HAT, SCARF)
    assert refused.value.kind == "several_items_under_way"
    assert refused.value.facts["items"] == (HAT, SCARF)


def test_for_settles_which_item() -> None:
    assert weigh(opened(), grams(62), HAT, SCARF, item=6).item == 6


def test_a_recount_is_a_correction_whoever_claims_it() -> None:
    outcome = weigh(opened(), grams(62), HAT, SCARF, recount=True)

    assert (outcome.verdict, outcome.item) == (Verdict.CORRECTION, None)


def test_a_fall_without_any_begun_item_is_a_correction() -> None:
    assert weigh(opened(), grams(62)).verdict is Verdict.CORRECTION


def test_a_rise_is_a_correction() -> None:
    outcome = weigh(opened(), grams(90), HAT)

    assert (outcome.verdict, outcome.change, outcome.item) == (
        Verdict.CORRECTION,
        grams(10),
        None,
    )


@pytest.mark.parametrize(
    ("held_g", "net_mg", "agrees"),
    [
        (80, 79_000, True),  # one step of the scale
        (80, 78_999, False),
        (300, 297_000, True),  # one percent
        (300, 296_999, False),
        (300, 303_000, True),
    ],
)
def test_within_a_step_or_one_percent_scale_and_books_agree(
    held_g: int, net_mg: int, agrees: bool
) -> None:
    outcome = weigh(opened(held_g), Mass(net_mg), HAT)

    assert (outcome.verdict is Verdict.IN_AGREEMENT) is agrees
    assert bool(outcome.change) is not agrees


def test_agreement_books_nothing_even_for_an_item_that_is_named() -> None:
    assert weigh(opened(), Mass(79_500), HAT, item=4).verdict is Verdict.IN_AGREEMENT


def test_closing_an_item_counts_every_gram() -> None:
    outcome = weigh(opened(), Mass(79_500), HAT, item=4, closing=True)

    assert (outcome.verdict, outcome.change) == (Verdict.USE, Mass(-500))


def test_a_whole_ball_that_weighs_what_it_did_was_not_worked_from() -> None:
    assert weigh(whole(), grams(103), item=4, closing=True).own_pair == PutUp(
        grams(103), metres(200)
    )


@given(st.integers(0, 200_000), st.integers(1, 200_000), st.booleans())
def test_what_is_booked_brings_the_books_to_the_scale(net: int, held: int, known: bool) -> None:
    pair = BAND if known else ASSUMED
    skein = replace(whole(pair), held=Mass(held), opened=True)

    outcome = weigh(skein, Mass(net), HAT)

    if outcome.verdict is not Verdict.IN_AGREEMENT:
        assert skein.held + outcome.change == Mass(net)
