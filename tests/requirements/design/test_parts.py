"""The parts of each shape, by elementary geometry and by what their items are known to take."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import MEDIUM, SC, cm, gauge, plain_scarf

from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN
from stash.requirements.design.layout import Layout, laid_out, laid_out_finely
from stash.requirements.design.parts import fringed_m, outline_m, profiles, shared_sides
from stash.requirements.design.shapes import BUILDS, Shape, Size, Start
from stash.requirements.design.stitches import CHAIN, diameter_m, tex
from stash.requirements.yarn.estimate import need_of

FINE = gauge(200, 280)


def made_of(shape: Shape, *sides_cm: float, **more: object) -> Design:
    size = Size(*(cm(side) for side in sides_cm))
    return replace(Design(shape=shape, size=size, fabric=PLAIN, put_up=MEDIUM), **more)  # type: ignore[arg-type]


def laid(design: Design) -> Layout:
    return laid_out(design, FINE, PLAIN)


def area_cm2(design: Design) -> float:
    return sum(laid(design).area_m2.values()) * 1e4


@pytest.mark.parametrize(
    ("design", "cm2"),
    [
        (made_of(Shape.CIRCLE, 30, 30), math.pi * 15**2),
        (made_of(Shape.SQUARE, 12, 12), 144),
        (made_of(Shape.SQUARE, 12, 12, start=Start.EDGE), 144),
        (made_of(Shape.SQUARE, 12, 12, count=24), 24 * 144),
        (made_of(Shape.TRIANGLE, 120, 60), 120 * 60 / 2),
        (made_of(Shape.TRIANGLE, 120, 60, start=Start.EDGE), 120 * 60 / 2),
        (made_of(Shape.COWL, 60, 25), 60 * 25),
    ],
)
def test_areas_are_those_of_geometry(design: Design, cm2: float) -> None:
    """Circle pi r squared, square, half a rectangle; half a row, or a round, is under 1 %."""
    assert area_cm2(design) == pytest.approx(cm2, rel=0.01)
    assert sum(laid_out_finely(design).area_m2.values()) * 1e4 == pytest.approx(cm2, rel=0.002)


def test_a_circle_grows_by_two_pi_row_heights_a_round() -> None:
    """At equal stitches and rows each round of a disc has 2 pi stitches more than the one before:
    flat circles are begun with six (common practice)."""
    rows = laid_out(made_of(Shape.CIRCLE, 40, 40, fabric=SC), gauge(20, 20), SC).rows

    for index, row in enumerate(rows[:-1]):
        assert row.stitches == pytest.approx(2 * math.pi * (index + 0.5), abs=0.51)


def test_a_mitten_is_a_hand_a_thumb_and_its_fellow() -> None:
    """The tube less its corners, by hand: over the last quarter of the girth it narrows to a third,
    which takes a twelfth of the girth squared off; the thumb is 0.4 by 0.3 of the girth."""
    around, tall = 20, 26
    one = around * tall - around**2 / 12 + 0.4 * 0.3 * around**2

    design = made_of(Shape.MITTEN, around, tall)

    assert area_cm2(design) == pytest.approx(2 * one, rel=0.01)
    assert area_cm2(replace(design, count=1)) == pytest.approx(one, rel=0.01)
    assert [part.name for part in laid(design).parts] == ["body", "thumb"]


def test_a_sock_is_a_tube_and_two_caps() -> None:
    """Leg and four fifths of the foot, less the toe's corners, and a heel that is another cap."""
    around, leg, foot = 20, 16, 25
    tube = around * (leg + 0.8 * foot) - around**2 / 12
    heel = around * foot / 5 - around**2 / 12

    assert area_cm2(made_of(Shape.SOCK, around, leg, foot)) == pytest.approx(
        2 * (tube + heel), rel=0.01
    )


def test_socks_and_mittens_take_what_pairs_are_known_to_take() -> None:
    """A machine knitter's ladies' socks weighed 58-62 g a pair (weblog, 2016), at least 400 yd of
    fine yarn are to be had (a guide, 2022); leg, gauge and put-up are assumed. Mittens for the
    grown up take 100-200 yd of a medium yarn (from memory)."""
    sock = made_of(Shape.SOCK, 20.5, 16, 24.6, gauge=gauge(30, 42))
    sock = replace(sock, put_up=PutUp(grams(100), metres(420)))
    (pair,) = need_of(sock).roles
    (mittens,) = need_of(made_of(Shape.MITTEN, 18.7, 25.1, gauge=gauge(20, 28))).roles

    assert pair.expected_g is not None
    assert pair.expected_g == pytest.approx(60, rel=0.15)
    assert pair.set_aside_m <= 400 * 0.9144
    assert 100 <= mittens.estimate.expected_m / 0.9144 <= 200


def test_a_knitted_hat_takes_the_same_from_either_end() -> None:
    """In crochet a hat from its crown needs no chain as long as the brim, and nothing else less."""
    hat = made_of(Shape.ROUND_HAT, 50, 22, gauge=gauge(14, 16))
    ends = [replace(hat, start=start) for start in (Start.BRIM, Start.CROWN)]
    knitted = [need_of(design).roles[0].estimate.expected_m for design in ends]
    ends = [replace(design, fabric=SC) for design in ends]
    crocheted = [need_of(design).roles[0].estimate.expected_m for design in ends]
    first = [laid_out(design, gauge(14, 16), SC).rows[0].stitches for design in ends]
    assert hat.m_per_100g is not None
    link = CHAIN.yarn_m(gauge(14, 16), diameter_m(tex(hat.m_per_100g)))

    assert knitted[0] == pytest.approx(knitted[1])
    assert crocheted[0] - crocheted[1] == pytest.approx((first[0] - first[1]) * link)


def test_from_the_top_the_same_rows_are_worked_the_other_way_round() -> None:
    for shape in (Shape.ROUND_HAT, Shape.FLAT_HAT, Shape.MITTEN, Shape.TRIANGLE, Shape.SOCK):
        design = made_of(shape, 40, 40)
        up, down = laid(design), laid(replace(design, start=BUILDS[shape].top))

        assert down.from_top
        for one, other in zip(up.parts, down.parts, strict=True):
            assert [r.counts for r in one.rows] == [r.counts for r in other.rows[::-1]]
            assert one.stretches == other.stretches


def test_the_parts_are_the_whole() -> None:
    for shape in Shape:
        layout = laid(made_of(shape, 40, 40))
        rows = sum(len(part.rows) for part in layout.parts)

        assert len(layout.rows) == layout.made * rows
        assert layout.rows[: len(layout.body.rows)] == layout.body.rows


@pytest.mark.parametrize(
    ("squares", "shared"), [(1, 0), (2, 1), (4, 4), (6, 7), (7, 8), (12, 17), (24, 38), (100, 180)]
)
def test_squares_share_sides_as_in_the_closest_rectangle(squares: int, shared: int) -> None:
    """A rectangle of a by b has 2ab - a - b sides inside it, counted by hand: 4 by 6 has 38."""
    assert shared_sides(squares) == shared


@given(st.integers(1, 40), st.integers(1, 40))
def test_no_rectangle_of_squares_shares_more(wide: int, tall: int) -> None:
    assert 2 * wide * tall - wide - tall <= shared_sides(wide * tall)


def test_edges_run_round_what_is_open() -> None:
    scarf = plain_scarf(20, 150)

    assert outline_m(scarf) == pytest.approx(3.4)
    assert fringed_m(scarf) == pytest.approx(0.4)
    assert outline_m(made_of(Shape.CIRCLE, 30, 30)) == pytest.approx(0.3 * math.pi)
    assert outline_m(made_of(Shape.SQUARE, 10, 10, count=24)) == pytest.approx(2.0)  # 4 by 6
    assert outline_m(made_of(Shape.MITTEN, 20, 26)) == pytest.approx(0.4)
    assert fringed_m(made_of(Shape.TRIANGLE, 60, 40)) == pytest.approx(1.0)  # 3, 4, 5
    assert outline_m(made_of(Shape.TRIANGLE, 60, 40)) == pytest.approx(1.6)
    assert outline_m(made_of(Shape.COWL, 60, 25)) == pytest.approx(1.2)


@pytest.mark.parametrize("shape", Shape)
def test_every_shape_has_a_body_first(shape: Shape) -> None:
    body, *_ = profiles(made_of(shape, 40, 40))

    assert body.name == "body"
    assert outline_m(made_of(shape, 40, 40)) > 0


@pytest.mark.parametrize(
    ("design", "kind"),
    [
        (made_of(Shape.SCARF, 20, 100, start=Start.CROWN), "wrong_start"),
        (made_of(Shape.ROUND_HAT, 50, 22, start=Start.TOE), "wrong_start"),
        (made_of(Shape.HEADBAND, 50, 9, count=3), "made_once"),
        (made_of(Shape.SQUARE, 100, 100, count=2000), "endless_rows"),
    ],
)
def test_what_does_not_go_with_a_shape_is_refused(design: Design, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        laid(design)
    assert refused.value.kind == kind
