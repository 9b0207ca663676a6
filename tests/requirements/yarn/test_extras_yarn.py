"""What goes beside the fabric: its coefficients against what makers wrote, and where it counts."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import MEDIUM, SC, cm, gauge, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import inches, yards
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.requirements.design.cautions import CHILD
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem, Swatch
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.shapes import Seam, Shape, Size
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import Experience
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.need import ExtraYarn, Need, Source

GROUND = Ground(per_m2=1000, m_per_100g=200)
POMPOM = Extra(Kind.POMPOM, "B", (cm(6),))
CORDS = Extra(Kind.CORD, "A", (cm(40),), 2)


def takes(extra: Extra, design: Design | None = None, ground: Ground = GROUND) -> float:
    design = plain_scarf() if design is None else design
    (one,) = extras_yarn(replace(design, extras=(extra,)), ground)
    return one.expected_m


def expected(need: Need) -> dict[str, float]:
    return {role.role: role.estimate.expected_m for role in need.roles}


def test_a_pompom_takes_what_one_maker_wrote() -> None:
    """A weblog of 2019: one ball of 277 yd made eight of 3 3/8 in; a medium yarn is assumed."""
    one = takes(Extra(Kind.POMPOM, "A", (inches(Fraction(27, 8)),)), ground=Ground(None, 180))

    assert one == pytest.approx(yards(277).m / 8, rel=0.2)


def test_a_small_pompom_takes_what_a_tutorial_cuts() -> None:
    """A tutorial: 21 yd of a medium yarn on rings; of 2 3/4 in, as such rings usually are."""
    one = takes(Extra(Kind.POMPOM, "A", (inches(Fraction(11, 4)),)), ground=Ground(None, 180))

    assert one == pytest.approx(yards(21).m, rel=0.2)


def test_a_chain_takes_what_was_measured() -> None:
    """One maker's experiment: 4.8 to 5.1 in of yarn in an inch of chain; two tails are added."""
    one = takes(Extra(Kind.CHAIN, "A", (cm(100),))) - 0.4

    assert 4.8 <= one <= 5.1


def test_two_cords_are_twice_two_lengths_of_four_times() -> None:
    """A yarn maker's tutorial: two lengths, and the cord comes to a quarter of them."""
    assert takes(CORDS) == pytest.approx(2 * (2 * 4 * 0.40 + 0.4))


def test_a_tassel_is_its_turns_and_what_it_hangs_on() -> None:
    """Makers' pages: 25 and 36 turns round a card of its length, ties of 30 in and 2 x 10 in."""
    ties = 50 * 0.0254

    assert 50 * 0.08 + ties < takes(Extra(Kind.TASSEL, "A", (cm(8),))) < 72 * 0.08 + ties


def test_a_fringe_is_its_strands_folded_in_half() -> None:
    """Cut lengths of 16-20 in are usual (two leaflets): for a fringe of 20 cm it is 17 in."""
    typed = takes(Extra(Kind.FRINGE, "A", (cm(20),), 80))
    by_edge = takes(Extra(Kind.FRINGE, "A", (cm(20),)))

    assert 16 <= typed / 80 / 0.0254 <= 20
    assert by_edge == pytest.approx(typed * 60 / 80)  # both ends, 0.4 m, at 150 to a metre


def test_a_flap_is_two_thirds_of_its_rectangle_in_the_fabric() -> None:
    flaps = takes(Extra(Kind.FLAP, "A", (cm(9), cm(10)), 2))

    assert flaps == pytest.approx(2 * (0.09 * 0.10 * 2 / 3 * 1000 + 0.4))


def test_an_edging_runs_round_the_whole_edge() -> None:
    """8 times the edge: 7.8 by the strands of a single crochet at a medium yarn's gauge."""
    rounds = [takes(Extra(Kind.EDGING, "A", (), count)) for count in (None, 2)]

    assert rounds[0] == pytest.approx(8 * 3.4 + 0.4)
    assert rounds[1] == pytest.approx(2 * 8 * 3.4 + 0.4)


def test_strands_held_together_double_what_is_worked_with_them() -> None:
    double = replace(plain_scarf(), strands=2)

    assert takes(CORDS, double) == pytest.approx(2 * takes(CORDS))
    assert takes(POMPOM, double) == pytest.approx(takes(POMPOM))


@given(st.integers(1, 40), st.integers(1, 20), st.sampled_from(Kind))
def test_a_larger_extra_never_takes_less(millimetres: int, more: int, kind: Kind) -> None:
    lengths = {Kind.EDGING: 0, Kind.FLAP: 2}.get(kind, 1)
    small, large = (
        takes(Extra(kind, "A", (cm(size / 10),) * lengths, 2))
        for size in (millimetres, millimetres + more)
    )

    assert small <= large


def test_joined_squares_are_sewn_in_a_line_of_their_own() -> None:
    """24 squares of 10 cm, 4 by 6: 38 shared sides, whipped at three times their length."""
    squares = Design(
        shape=Shape.SQUARE, size=Size(cm(10), cm(10)), gauge=gauge(14, 16), fabric=SC, count=24
    )
    (joining,) = need_of(squares).extras

    assert (joining.what, joining.role) == (Note("joined_squares", count=24), "A")
    assert joining.expected_m == pytest.approx(3 * 38 * 0.10)
    assert not need_of(replace(squares, count=1)).extras
    assert not need_of(replace(squares, seam=Seam.NONE)).extras[0].expected_m


def test_extras_are_counted_into_their_roles() -> None:
    plain, trimmed = (
        need_of(sideways_hat()),
        need_of(replace(sideways_hat(), extras=(POMPOM, CORDS))),
    )
    before, after = expected(plain), expected(trimmed)
    beside = {one.role: one.expected_m for one in trimmed.extras}

    assert [one.what for one in trimmed.extras] == [POMPOM, CORDS]
    assert {role: after[role] - before[role] for role in after} == pytest.approx(beside)


def test_their_spread_adds_as_squares() -> None:
    """Error of a sum: 3 m and 4 m make 5 m."""
    cord = ExtraYarn(CORDS, "A", 4 / 0.30)

    assert with_extras({"A": Estimate(100.0, 3.0)}, [cord])["A"].spread_m == pytest.approx(5.0)


def test_a_swatch_is_given_the_extras_as_well() -> None:
    known = replace(sideways_hat(), gauge=None, bands=(), swatch=Swatch(grams(12), cm(15), cm(14)))
    plain, trimmed = need_of(known), need_of(replace(known, extras=(CORDS, POMPOM)))

    assert trimmed.roles[0].source is Source.SWATCH
    assert expected(trimmed)["A"] - expected(plain)["A"] == pytest.approx(takes(CORDS))
    assert trimmed.roles[1].source is Source.SWATCH


def test_an_item_and_a_printed_figure_hold_their_extras_already() -> None:
    trimmed = replace(sideways_hat(), extras=(CORDS,), stated=(("A", yards(200)),))
    own = [OwnItem((("A", 150.0), ("B", 15.0)))]

    assert expected(need_of(trimmed))["A"] == pytest.approx(yards(200).m)
    by_own = expected(need_of(trimmed, made=Experience(tuple(own))))
    assert by_own["A"] == pytest.approx(150.0, rel=0.03)


def test_a_colour_that_only_an_extra_has_is_part_of_the_need() -> None:
    hat = Design(stated=(("A", yards(120)),), put_up=MEDIUM, extras=(POMPOM,))
    a, b = need_of(hat).roles

    assert (a.source, b.source) == (Source.STATED, Source.THICKNESS)
    assert b.estimate.relative == pytest.approx(0.30)
    assert b.row_m is None


def test_an_extra_that_nothing_tells_of_is_asked_for() -> None:
    with pytest.raises(Refusal) as refused:
        need_of(Design(stated=(("A", yards(120)),), extras=(POMPOM,)))
    assert refused.value.kind == "extra_not_known"
    assert refused.value.facts["extra"] == POMPOM


@pytest.mark.parametrize(
    ("fits", "around_cm", "told"),
    [("child of 4 years: head 49.8 cm", 56, True), ("woman: head 56.1 cm", 53.3, False),
     ("", 47, True), ("", 56, False), ("newborn", 33, True)],
)  # fmt: skip
def test_small_parts_on_a_childs_hat_bring_a_caution(
    fits: str, around_cm: float, told: bool
) -> None:
    hat = replace(sideways_hat(across=cm(around_cm)), fits=fits)

    edged = replace(hat, extras=(Extra(Kind.EDGING, "A"),))

    assert (CHILD in need_of(replace(hat, extras=(POMPOM,))).notes) is told
    assert CHILD not in need_of(edged).notes
