"""Stripes, upright and mixed bands, and what becomes of the ends between them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import MEDIUM, SC, cm, gauge, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.requirements.design.bands import Band, Ends, Place, Rows, Stitches, Stripes
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN
from stash.requirements.design.layout import Layout, laid_out
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.design.stitches import Craft, carried_m, diameter_m, tex
from stash.requirements.yarn.model import summed, yarn_by_role
from stash.requirements.yarn.tails import CARRIED_TAKES, carried_and_cut, finishing

TWO_BY_TWO = Stripes((("A", Rows(2)), ("B", Rows(2))))


def laid(design: Design) -> Layout:
    assert design.gauge
    return laid_out(design, design.gauge, design.fabric or PLAIN)


def stitches(design: Design) -> dict[str, int]:
    return summed_counts(laid(design))


def summed_counts(layout: Layout) -> dict[str, int]:
    counts: dict[str, int] = {}
    for row in layout.rows:
        for role, count in row.counts:
            counts[role] = counts.get(role, 0) + count
    return counts


def test_stripes_repeat_from_end_to_end() -> None:
    scarf = replace(plain_scarf(), stripes=(TWO_BY_TWO,))

    rows = [row.counts[0][0] for row in laid(scarf).rows]
    assert rows[:6] == ["A", "A", "B", "B", "A", "A"]
    assert rows.count("A") - rows.count("B") in (0, 1, 2)


def test_stripes_may_lie_between_two_heights() -> None:
    """28 rows to 4 in are 2.76 to the centimetre: from 10 to 20 cm, rows 28 to 55."""
    scarf = replace(plain_scarf(), stripes=(replace(TWO_BY_TWO, start=cm(10), end=cm(20)),))

    roles = [row.counts[0][0] for row in laid(scarf).rows]
    first, last = roles.index("B"), len(roles) - roles[::-1].index("B")
    assert (first, last) == (28 + 2, 55)


def test_bands_lie_over_stripes() -> None:
    scarf = replace(plain_scarf(), stripes=(TWO_BY_TWO,), bands=(Band("C", Rows(6)),))

    assert [row.counts[0][0] for row in laid(scarf).rows[:8]] == ["C"] * 6 + ["B", "B"]


def test_an_upright_band_cuts_every_row() -> None:
    scarf = replace(plain_scarf(), bands=(Band("B", Stitches(6), Place.MIDDLE, upright=True),))

    (first, *_, last) = laid(scarf).rows
    assert first.counts == last.counts == (("A", 16), ("B", 6), ("A", 17))


def test_on_a_sideways_hat_an_upright_band_is_whole_rows() -> None:
    hat = replace(sideways_hat(), bands=(Band("B", Rows(4), cm(10), upright=True),))

    rows = [row.counts for row in laid(hat).rows]
    assert rows.count((("B", 38),)) == 4
    assert rows.count((("A", 38),)) == len(rows) - 4


def test_a_share_is_a_block_of_the_height() -> None:
    scarf = replace(plain_scarf(), bands=(Band("B", Fraction(1, 3), Place.TOP),))
    counted = stitches(scarf)

    assert counted["B"] / (counted["A"] + counted["B"]) == pytest.approx(1 / 3, abs=0.003)


def test_a_mixed_band_shares_its_stitches_and_carries_both() -> None:
    """Each colour goes along behind every stitch that it does not work: by geometry."""
    scarf = replace(plain_scarf(), bands=(Band("B", Rows(10), share=Fraction(3, 10)),))
    row, *_ = laid(scarf).rows

    assert dict(row.counts) == {"A": 27, "B": 12}
    assert dict(row.carried) == {"A": 12, "B": 27}


@pytest.mark.parametrize("fabric", [PLAIN, SC], ids=["stranded", "tapestry"])
def test_what_is_carried_is_taken_by_the_colour_that_is_carried(fabric: object) -> None:
    plain = replace(plain_scarf(), fabric=fabric)
    mixed = replace(plain, bands=(Band("B", Rows(10), share=Fraction(1, 2)),))
    diameter = diameter_m(tex(MEDIUM.m_per_100g))

    one = yarn_by_role(plain, laid(plain), diameter)
    both = yarn_by_role(mixed, laid(mixed), diameter)

    more = sum(y.fabric_m for y in both.values()) - one["A"].fabric_m
    craft = Craft.KNIT if fabric is PLAIN else Craft.CROCHET
    assert more == pytest.approx(10 * 39 * carried_m(craft, gauge(20, 28)))


def test_narrow_stripes_are_carried_up_the_edge_and_wide_ones_cut() -> None:
    """1.2 times the height that is passed, else two tails of 0.2 m (common practice, no source)."""
    narrow = replace(plain_scarf(20, 10), stripes=(TWO_BY_TWO,))
    wide = replace(plain_scarf(20, 30), stripes=(Stripes((("A", Rows(10)), ("B", Rows(10)))),))

    times, cut = carried_and_cut(narrow, laid(narrow))
    assert cut == 0
    around = summed(finishing(narrow, laid(narrow)))
    row_m = 4 * 0.0254 / 28
    assert sum(around.values()) == pytest.approx(2 * 0.4 + times * CARRIED_TAKES * 2 * row_m)

    times, cut = carried_and_cut(wide, laid(wide))
    assert times == 0
    assert sum(summed(finishing(wide, laid(wide))).values()) == pytest.approx((2 + cut) * 0.4)


def test_she_may_cut_what_could_be_carried() -> None:
    scarf = replace(plain_scarf(), stripes=(TWO_BY_TWO,))
    cut = replace(scarf, ends=Ends.CUT)

    assert carried_and_cut(scarf, laid(scarf)) == carried_and_cut(cut, laid(cut))[::-1]


def test_an_upright_band_is_one_strand_all_the_way() -> None:
    """A on its left and its right are two strands, so three blocks with two tails each."""
    scarf = replace(plain_scarf(), bands=(Band("B", Stitches(6), Place.MIDDLE, upright=True),))

    assert summed(finishing(scarf, laid(scarf))) == pytest.approx({"A": 0.8, "B": 0.4})


def test_the_narrowing_crown_keeps_an_upright_band_in_proportion() -> None:
    hat = Design(
        shape=Shape.ROUND_HAT, size=Size(cm(50), cm(22)), gauge=gauge(16, 20), fabric=SC,
        put_up=MEDIUM, bands=(Band("B", Fraction(1, 4), upright=True),),
    )  # fmt: skip

    for row in laid(hat).rows:
        assert abs(dict(row.counts).get("B", 0) - row.stitches / 4) <= 1


@pytest.mark.parametrize(
    ("bands", "stripes", "kind"),
    [
        ((), (Stripes((("B", Rows(2)), ("C", Rows(2)))),), "colours_leave_nothing"),
        ((), (replace(TWO_BY_TWO, start=cm(10), end=cm(900)),), "stripes_do_not_fit"),
        ((Band("B", Stitches(4), share=Fraction(1, 2), upright=True),), (), "mixed_band_upright"),
        ((Band("B", Rows(4)), Band("C", Rows(2))), (), "band_over_another"),
    ],
)
def test_colours_that_cannot_be_are_refused(
    bands: tuple[Band, ...], stripes: tuple[Stripes, ...], kind: str
) -> None:
    with pytest.raises(Refusal) as refused:
        laid(replace(plain_scarf(), bands=bands, stripes=stripes))
    assert refused.value.kind == kind


def test_rounds_about_a_centre_have_no_left() -> None:
    circle = replace(plain_scarf(), shape=Shape.CIRCLE, bands=(Band("B", cm(2), upright=True),))

    with pytest.raises(Refusal) as refused:
        laid(circle)
    assert refused.value.kind == "rounds_have_no_left"


@given(
    st.sampled_from([Shape.SCARF, Shape.SIDEWAYS_HAT, Shape.ROUND_HAT, Shape.TRIANGLE, Shape.COWL]),
    st.lists(
        st.tuples(st.sampled_from("ABCD"), st.integers(1, 40).map(lambda mm: cm(mm / 10))),
        min_size=2, max_size=4,
    ),
    st.booleans(),
    st.sampled_from([None, *Ends]),
)  # fmt: skip
def test_however_it_is_striped_every_stitch_has_one_colour(
    shape: Shape, runs: list[tuple[str, object]], upright: bool, ends: Ends | None
) -> None:
    plain = replace(plain_scarf(50, 25), shape=shape)
    striped = replace(
        plain, stripes=(Stripes((("A", cm(1)), *runs), upright=upright),), ends=ends  # type: ignore[arg-type]
    )  # fmt: skip

    counted = summed_counts(laid(striped))
    assert sum(counted.values()) == sum(summed_counts(laid(plain)).values())
    assert all(metres > 0 for _, metres in finishing(striped, laid(striped)) if metres)
