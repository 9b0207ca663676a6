"""Two lots in one role: the rows of each, and what each part takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from requirements.some_designs import SC, cm, designs, gauge, plain_scarf, sideways_hat

from stash.measures.length import metres
from stash.measures.note import Note
from stash.requirements.design.bands import Band, Place, Rows, Stripes
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.shapes import HATS, Shape, Size, Start
from stash.requirements.fit.rowwise import takes_by_row, walk
from stash.requirements.fit.splitting import Span, Split, Way, Ways, ways
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.estimate import stated_need
from stash.requirements.yarn.need import RoleNeed

#: 27 rows to 4 in are 3.76 mm each, 20 stitches 5.08 mm.
HAT = Design(
    shape=Shape.ROUND_HAT, size=Size(cm(54), cm(26)), gauge=gauge(20, 27), fabric=SC, brim=cm(5),
    bands=(Band("B", Rows(6), cm(8)),), thickness_from=4, thickness_to=4,
)  # fmt: skip


def role_of(known: DesignContext, role: str = "A") -> RoleNeed:
    return next(one for one in known.need(known.design).roles if one.role == role)


def ways_of(design: Design, role: str = "A", margin: float = 0.2) -> Ways:
    known = DesignContext(design, margin)
    return ways(known, role_of(known, role))


def every(found: Ways) -> Iterator[Split]:
    for way in Way:
        yield from found.of(way)


@st.composite
def brimmed(draw: st.DrawFn) -> Design:
    """Any design; a hat with a brim folded up, or not."""
    design = draw(designs())
    if design.shape in HATS and design.size and draw(st.booleans()):
        design = replace(design, brim=cm(draw(st.integers(10, design.size.up.um // 2_500)) / 10))
    return design


@given(brimmed(), st.booleans(), st.sampled_from("AB"))
def test_the_two_parts_make_up_what_the_role_needs(design: Design, pompom: bool, role: str) -> None:
    extras = (Extra(Kind.POMPOM, "A", (cm(6),)),) if pompom else ()
    known = DesignContext(replace(design, extras=extras), 0.2)
    assume(role in [one.role for one in known.need(known.design).roles])
    need = role_of(known, role)

    for split in every(ways(known, need)):
        assert sum(split.rows_m) == pytest.approx(need.set_aside_m)
        assert min(split.rows_m) > 0
        assert min(split.more_m) >= 0


@given(brimmed(), st.sampled_from("AB"))
def test_each_part_is_what_its_rows_take(design: Design, role: str) -> None:
    """Held against what each row takes, summed over the rows told; every row is told once.

    What is sewn on comes from the main lot, after a change from the last one.
    """
    known = DesignContext(design, 0.1)
    assume(role in [one.role for one in known.need(design).roles])
    takes = takes_by_row(known, role)
    worked = by_rows(design)
    assert worked
    holding = [n for n, m in enumerate(takes, start=1) if m > 0]
    beside = sum(m.expected_m * 1.1 for m in known.need(design).extras if m.role == role)
    stitches = sum(s.cells for s in worked.layout.stretches if s.role == role)

    for split in every(ways(known, role_of(known, role))):
        parts = [0.0, beside] if split.way is Way.CHANGE else [beside, 0.0]
        told: list[int] = []
        for span in split.spans():
            share = (span.stitches[1] - span.stitches[0] + 1) / stitches if span.stitches else 1
            rows = [n for n in range(span.first, span.last + 1) if takes[n - 1] > 0]
            parts[span.lot] += share * sum(takes[n - 1] for n in rows)
            told += rows
        assert parts == pytest.approx(list(split.rows_m))
        assert sorted(set(told)) == holding
        assert len(told) == len(holding) or worked.layout.sideways


@given(brimmed())
def test_a_change_goes_as_far_as_the_walk_along_the_rows(design: Design) -> None:
    """`walk` lays the same two lengths on the rows by itself: it gets to the end."""
    design = replace(design, count=1 if design.build.counted else None)
    known = DesignContext(design)
    for split in ways(known, role_of(known)).change:
        found = walk(known, "A", [split.length_m(0) + 1e-9, split.length_m(1) + 1e-9])
        assert found.whole
        assert found.changes[0] >= max(s.last for s in split.spans() if s.lot == 0)


@given(brimmed())
def test_the_nearest_split_comes_first(design: Design) -> None:
    """A change as far along as there is one, a longer stretch in turn before a shorter one."""
    found = ways_of(design)
    reached = [split.legs[0].stop for split in found.change]
    blends = [split.legs[-1].stop - split.legs[-1].start for split in found.alternate]

    assert reached == sorted(set(reached), reverse=True)
    assert blends == sorted(set(blends), reverse=True)
    assert all(split.rows_m[1] <= split.rows_m[0] + 1e-9 for split in found.brim)


def test_the_rows_of_a_hat_are_told() -> None:
    """Elementary geometry: 5 cm of brim are 13.3 rows; B lies on rows 22 to 27 from 8 cm up.

    69 rows are 25.96 cm; the crown closes over the last 2 x 0.08 x 54 = 8.64 cm, from row 46.04 on.
    """
    found = ways_of(HAT)

    assert [(s.place.kind, s.spans()[0]) for s in found.brim] == [
        ("in_brim", Span(1, 13, 1)), ("in_band", Span(1, 21, 1)),
    ]  # fmt: skip
    assert [(s.place.kind, s.legs[0].stop) for s in found.change] == [
        ("where_part_begins", 46 - 6), ("beside_colours", 21), ("under_fold", 13),
    ]  # fmt: skip
    assert [(x.first, x.last, x.lot) for x in found.change[1].spans()] == [(1, 21, 0), (28, 69, 1)]


def test_from_the_crown_down_the_same_places_come_in_the_other_order() -> None:
    found = ways_of(replace(HAT, start=Start.CROWN))

    assert [(s.place.kind, s.spans()[0].last) for s in found.change] == [
        ("under_fold", 42), ("beside_colours", 42), ("where_part_ends", 69 - 46),
    ]  # fmt: skip
    assert found.change[0].legs[0].stop == 69 - 13 - 6
    assert found.brim[0].spans()[-1] == Span(57, 69, 1)


def test_the_brim_of_a_sideways_hat_is_a_part_of_every_row() -> None:
    """38 stitches up, 5 cm of them 6.4; B between leaves A two stretches."""
    hat = replace(sideways_hat(), brim=cm(5), bands=(Band("B", cm(2), cm(8)),))
    brim, band = ways_of(hat).brim

    assert [(s.first, s.last, s.lot, s.stitches) for s in brim.spans()] == [
        (1, 90, 1, (1, 6)), (1, 90, 0, (7, 10)), (1, 90, 0, (14, 38)),
    ]  # fmt: skip
    assert brim.rows_m[1] == pytest.approx(sum(brim.rows_m) * 6 / 35)
    assert band.rows_m[1] == pytest.approx(sum(band.rows_m) * 10 / 35)
    assert (brim.more_m, ways_of(hat).change) == ((0.0, 0.4), ())


def test_two_rows_in_turn_are_carried_up_the_edge() -> None:
    """413 rows of a scarf: 207 turns, of which 104 and 103; past two rows each time, 1.2 times.

    The last turn has one row, so the first lot has 103 x 2 + 1.
    """
    (whole, shorter, *_) = ways_of(plain_scarf()).alternate
    past_m = 1.2 * 2 * 0.1016 / 28

    assert whole.more_m == pytest.approx((103 * past_m, 102 * past_m + 0.4))
    assert shorter.more_m == pytest.approx((102 * past_m, 101 * past_m + 0.4))
    assert whole.spans()[:3] == (Span(1, 2, 0), Span(3, 4, 1), Span(5, 6, 0))
    assert [(s.first, s.last) for s in shorter.spans()[:3]] == [(1, 6), (7, 8), (9, 10)]
    assert whole.rows_m[0] / sum(whole.rows_m) == pytest.approx(207 / 413)


def test_strands_multiply_tails() -> None:
    one, three = (ways_of(replace(HAT, strands=n)).change[0] for n in (1, 3))

    assert three.more_m == pytest.approx(tuple(3 * m for m in one.more_m))


def test_a_pair_is_shared_alike_in_both() -> None:
    mittens = Design(
        shape=Shape.MITTEN, size=Size(cm(20), cm(26)), gauge=gauge(20, 28), fabric=SC,
        thickness_from=4, thickness_to=4,
    )  # fmt: skip
    (thumb,) = ways_of(mittens).brim
    body, both = thumb.legs[0].stop, thumb.legs[1].stop

    assert thumb.place == Note("in_part", part="thumb")
    assert [s.first for s in thumb.spans() if s.lot] == [body + 1, both + body + 1]
    assert thumb.more_m == pytest.approx((0.4, 0.4))


def test_stripes_are_bands_and_each_hides_a_change() -> None:
    runs = (("A", Rows(4)), ("B", Rows(2)))
    scarf = replace(plain_scarf(20, 3), stripes=(Stripes(runs),))  # 8 rows: A4 B2 A2
    found = ways_of(scarf)

    assert [s.spans() for s in found.brim] == [(Span(1, 4, 0), Span(7, 8, 1))]
    assert [(s.place.kind, s.spans()) for s in found.change] == [
        ("beside_colours", (Span(1, 4, 0), Span(7, 8, 1)))
    ]


def test_mixed_rows_hide_a_change_too() -> None:
    mixed = Band("B", Rows(6), Place.MIDDLE, share=Fraction(1, 2))
    found = ways_of(replace(plain_scarf(), bands=(mixed,)))

    assert [s.place for s in found.change] == 2 * [Note("beside_colours", roles=("B",))]


def test_one_band_of_a_few_rows_can_only_be_worked_in_turn() -> None:
    found = ways_of(HAT, "B")

    assert (found.brim, found.change) == ((), ())
    assert [s.spans() for s in found.alternate] == [
        (Span(22, 23, 0), Span(24, 25, 1), Span(26, 27, 0))
    ]
    assert not [*every(ways_of(replace(HAT, bands=(Band("B", Rows(3), cm(8)),)), "B"))]


@pytest.mark.parametrize("known", [None, DesignContext(Design(stated=(("A", metres(101)),)), 0.0)])
def test_without_rows_both_take_half_of_the_length(known: DesignContext | None) -> None:
    role = stated_need({"A": metres(101)}, 0.0).roles[0]
    found = ways(known, role)
    (half,) = found.alternate

    assert (found.brim, found.change, found.rows_known) == ((), (), False)
    assert half.rows_m == (50.5, 50.5)
    assert half.spans() == ()
