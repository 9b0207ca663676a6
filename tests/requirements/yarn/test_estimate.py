"""The whole estimate against printed and trade figures, its order of trust and its notes."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import (
    MEDIUM,
    SC,
    cm,
    counted_band,
    designs,
    gauge,
    plain_scarf,
    sideways_hat,
)

from stash.errors import Refusal
from stash.measures.length import Length, inches, metres, yards
from stash.measures.mass import grams
from stash.requirements.design.bands import Ends
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem, Swatch
from stash.requirements.design.shapes import BUILDS, Shape, Size
from stash.requirements.yarn.estimate import need_of, stated_need
from stash.requirements.yarn.experience import Experience
from stash.requirements.yarn.need import Need, RoleNeed, Source

YARD_M = 0.9144


def a_and_b(need: Need) -> tuple[RoleNeed, RoleNeed]:
    a, b = need.roles
    return a, b


def test_the_order_of_trust_gives_the_number_and_keeps_the_others() -> None:
    known = replace(
        sideways_hat(),
        stated=(("A", yards(200)),),
        swatch=Swatch(grams(12), cm(15), cm(14)),
        weighed=(("A", grams(95)), ("B", grams(8))),
    )

    a, b = a_and_b(need_of(known))

    assert a.source is Source.OWN_ITEMS
    assert [figure.source for figure in a.others] == [Source.SWATCH, Source.STATED, Source.GAUGE]
    assert [figure.source for figure in b.others] == [Source.SWATCH, Source.GAUGE]


def test_a_role_the_pattern_leaves_out_is_reckoned() -> None:
    need = need_of(replace(sideways_hat(), stated=(("A", yards(200)),)))
    a, b = a_and_b(need)

    assert (a.source, b.source) == (Source.STATED, Source.GAUGE)
    assert need.source is Source.GAUGE


def test_without_a_gauge_the_thickness_gives_a_wider_answer() -> None:
    need = need_of(replace(sideways_hat(), gauge=None))

    assert need.source is Source.THICKNESS
    assert need.roles[0].estimate.relative == pytest.approx(math.hypot(0.24, 0.12))
    assert need.roles[0].estimate.relative > need_of(sideways_hat()).roles[0].estimate.relative
    assert "usual_gauge_taken" in [note.kind for note in need.notes]


def test_sources_more_than_two_spreads_apart_are_pointed_out() -> None:
    near = need_of(replace(sideways_hat(), stated=(("A", yards(230)),)))
    far = need_of(replace(sideways_hat(), stated=(("A", yards(480)),)))

    assert "sources_far_apart" not in [note.kind for note in near.notes]
    (apart,) = [note.facts for note in far.notes if note.kind == "sources_far_apart"]
    assert (apart["source"], apart["other_source"]) == (Source.STATED, Source.GAUGE)
    assert apart["expected_m"] == pytest.approx(yards(480).m)


def test_a_small_margin_is_used_and_its_chance_is_told() -> None:
    """15 % on a spread of 24 %: 0.625 spreads of a normal distribution, 73 % of it below."""
    need = need_of(sideways_hat(), margin=0.15)

    assert need.margin == 0.15
    left = next(note.facts for note in need.notes if note.kind == "margin_leaves_chance")
    assert (left["role"], left["margin"]) == ("A", 0.15)
    assert left["spread"] == pytest.approx(0.24, abs=0.005)
    assert left["chance"] == pytest.approx(0.73, abs=0.005)


def test_the_size_worked_out_is_told() -> None:
    worked = need_of(sideways_hat(16, inches(Fraction(45, 2)))).notes[0]

    assert (worked.kind, worked.facts["parts"]) == ("worked_out_as", (("body", 38, 90),))
    assert [side.m for side in worked.facts["sides"]] == pytest.approx([0.571, 0.297], abs=0.001)


def test_grams_follow_the_put_up() -> None:
    a, _ = a_and_b(need_of(sideways_hat()))

    assert a.expected_g == pytest.approx(100 * a.estimate.expected_m / MEDIUM.m_per_100g)


def test_one_row_follows_the_number_that_is_trusted() -> None:
    """The same rows, twice the yarn: each row is twice as long."""
    by_gauge, _ = a_and_b(need_of(sideways_hat()))
    expected = by_gauge.estimate.expected_m
    doubled = Experience((OwnItem((("A", 2 * expected), ("B", 30.0))),))

    by_own, _ = a_and_b(need_of(sideways_hat(), made=doubled))

    assert by_gauge.row_m is not None
    grown = by_own.estimate.expected_m / expected
    assert grown == pytest.approx(2, rel=0.03)
    assert by_own.row_m == pytest.approx(grown * by_gauge.row_m)


def test_a_stated_need_is_what_was_stated() -> None:
    need = stated_need(
        {"B": metres(18), "A": metres(165)}, margin=0.15, thickness_from=4, thickness_to=4
    )

    assert [(r.role, r.estimate.expected_m) for r in need.roles] == [("A", 165), ("B", 18)]
    assert need.roles[0].set_aside_m == pytest.approx(189.75)
    assert (need.source, need.thickness_from, need.thickness_to) == (Source.STATED, 4, 4)


@pytest.mark.parametrize(
    ("design", "kind"),
    [
        (Design(), "need_not_known"),
        (Design(shape=Shape.SCARF), "design_has_no_size"),
        (replace(plain_scarf(), fabric=None), "design_has_no_fabric"),
        (replace(plain_scarf(), gauge=None, put_up=None), "design_has_no_gauge"),
    ],
)
def test_what_is_missing_is_named(design: Design, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        need_of(design)
    assert refused.value.kind == kind


def test_thickness_unknown_moves_a_crocheted_design_little() -> None:
    """A 40 % error in bulk moves a crochet stitch by 3-5 %, a knitted one not at all."""
    known = replace(plain_scarf(), fabric=SC, gauge=gauge(14, 16))
    unknown = replace(known, put_up=None)

    a, b = (need_of(design).roles[0].estimate.expected_m for design in (known, unknown))

    assert a == pytest.approx(b, rel=0.05)
    assert "thickness_guessed" in [note.kind for note in need_of(unknown).notes]


@given(designs(), st.integers(0, 80), st.integers(0, 80))
def test_a_larger_design_never_needs_less(design: Design, wider: int, taller: int) -> None:
    assert design.size is not None
    up = Length(design.size.up.um + taller * 5_000 + wider * 1_000)
    foot = design.size.sides[2:]
    larger = replace(design, size=Size(Length(design.size.across.um + wider * 5_000), up, *foot))

    before, after = (sum(r.set_aside_m for r in need_of(p).roles) for p in (design, larger))

    assert after >= before * (1 - 1e-9)


@given(designs())
def test_shares_of_the_roles_make_up_the_whole(design: Design) -> None:
    """What one colour alone would take, and the tails of each further stretch, is the sum."""
    striped = need_of(replace(design, ends=Ends.CUT))
    alone = need_of(replace(design, bands=()))

    whole = sum(r.estimate.expected_m for r in striped.roles)
    extra = whole - alone.roles[0].estimate.expected_m

    assert extra / design.strands / 0.4 == pytest.approx(
        round(extra / design.strands / 0.4), abs=1e-6
    )
    assert 0 <= round(extra / design.strands / 0.4) <= 2 * len(design.bands) * design.made


@given(st.sampled_from(list(Shape)))
def test_bands_are_counted_the_way_the_rows_run(shape: Shape) -> None:
    sideways = BUILDS[shape].sideways
    base = replace(plain_scarf(50, 25), shape=shape)

    assert len(need_of(replace(base, bands=(counted_band(sideways),))).roles) == 2
    with pytest.raises(Refusal):
        need_of(replace(base, bands=(counted_band(not sideways),)))


@given(designs(), st.integers(1, 40), st.integers(0, 2))
def test_one_longer_side_never_makes_it_need_less(design: Design, steps: int, side: int) -> None:
    assert design.size is not None
    sides = [*design.size.sides]
    index = min(side, len(sides) - 1)
    sides[index] = Length(sides[index].um + steps * 2_500)

    before, after = (
        sum(r.estimate.expected_m for r in need_of(replace(design, size=size)).roles)
        for size in (design.size, Size(*sides))
    )

    assert after >= before * (1 - 1e-9)
