"""How far yarn goes along the rows of a design."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import cm, designs, gauge, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.measures.length import metres
from stash.requirements.design.bands import Band, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.fabric import PLAIN
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.rowwise import RowAt, row_at, rows_of, stripes_of, takes_by_row, walk
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.design_context import DesignContext

SCARF = DesignContext(plain_scarf(20, 150.2))  # 413.9 rows
MITTENS = Design(
    shape=Shape.MITTEN, size=Size(cm(20), cm(26)), gauge=gauge(20, 28), fabric=PLAIN,
    thickness_from=4, thickness_to=4,
)  # fmt: skip


@given(designs(), st.booleans())
def test_rows_and_extras_make_up_what_is_set_aside(design: Design, pompom: bool) -> None:
    extras = (Extra(Kind.POMPOM, "A", (cm(6),)),) if pompom else ()
    known = DesignContext(replace(design, extras=extras), margin=0.2)
    need = known.need(known.design)

    for one in need.roles:
        beside = sum(extra.expected_m for extra in need.extras if extra.role == one.role)
        whole = sum(takes_by_row(known, one.role)) + 1.2 * beside
        assert whole == pytest.approx(one.set_aside_m)


@given(designs(), st.lists(st.floats(1, 200), min_size=1, max_size=3), st.floats(0, 1))
def test_no_lot_gives_more_than_it_has(design: Design, lots: list[float], begun: float) -> None:
    known = DesignContext(design)
    takes = takes_by_row(known, "A")
    done = int(begun * len(takes))

    found = walk(known, "A", lots, done)

    edges = [done, *found.changes, found.reached]
    spans = zip(edges, edges[1:], lots, strict=False)
    assert edges == sorted(edges)
    assert all(sum(takes[start:end]) <= lot + 1e-6 for start, end, lot in spans)
    if not found.whole:
        last = takes[edges[-2] : found.reached + 1]
        assert sum(last) > lots[-1] - 0.4 * design.strands - 1e-6


@given(st.floats(1, 500), st.floats(0, 100))
def test_more_yarn_never_goes_less_far(have_m: float, more_m: float) -> None:
    assert walk(SCARF, "A", [have_m]).reached <= walk(SCARF, "A", [have_m + more_m]).reached
    assert rows_of(SCARF, "A", have_m) <= rows_of(SCARF, "A", have_m + more_m)


def test_half_the_yarn_goes_half_of_an_even_scarf() -> None:
    """Elementary geometry: every row is alike."""
    whole = sum(takes_by_row(SCARF, "A"))

    found = walk(SCARF, "A", [whole / 2 + 0.2, whole / 2 + 0.3])

    assert found.rows == 414
    assert found.changes == (207,)
    assert found.whole


def test_begun_work_goes_on_from_its_row() -> None:
    whole = sum(takes_by_row(SCARF, "A"))

    left = walk(SCARF, "A", [whole / 2], 207)
    short = walk(SCARF, "A", [whole / 4], 207)

    assert left.whole
    assert left.left_m == pytest.approx(0, abs=1e-6)
    assert short.reached == 207 + 103
    with pytest.raises(Refusal) as refused:
        walk(SCARF, "A", [10.0], 415)
    assert refused.value.kind == "more_rows_done_than_planned"
    assert refused.value.facts["rows"] == 414


def test_a_lot_too_small_for_a_row_is_passed_by() -> None:
    assert walk(SCARF, "A", [0.1, 1000.0]).changes == (0,)


def test_rows_of_another_colour_take_nothing() -> None:
    striped = DesignContext(replace(plain_scarf(), bands=(Band("B", Rows(4)),)))

    assert walk(striped, "B", [100.0]).whole
    assert takes_by_row(striped, "A")[:4] == (0.0,) * 4
    assert walk(striped, "B", [0.0], done=4).whole


def test_whole_rows_and_stripes_are_rounded_down() -> None:
    """A stripe of four rows and its two tails; common practice, no source: a tail of 20 cm."""
    known = DesignContext(replace(plain_scarf(), bands=(Band("B", Rows(4), cm(20)),)), margin=0.0)
    one = next(role for role in known.need(known.design).roles if role.role == "B")
    assert one.row_m is not None
    stripe = 4 * one.row_m + 0.4

    assert one.set_aside_m == pytest.approx(stripe)
    assert [stripes_of(known, "B", n * stripe) for n in (0.99, 1, 2.5, 3)] == [0, 1, 2, 3]
    assert rows_of(known, "B", stripe) == 4
    assert rows_of(known, "B", stripe - 0.01) == 3
    assert stripes_of(known, "A", 100.0) is None


def test_every_row_of_a_sideways_hat_holds_both_colours() -> None:
    """Rows of 33 stitches of A and 5 of B: B takes its share of each."""
    takes = [takes_by_row(DesignContext(sideways_hat(), margin=0.0), role) for role in ("A", "B")]

    assert len(takes[0]) == len(takes[1]) == 90
    assert all(b > 0 for b in takes[1])


def test_a_row_of_a_pair_is_found_by_item_and_part() -> None:
    laid = by_rows(MITTENS)
    assert laid is not None
    body, thumb = (len(part.rows) for part in laid.layout.parts)

    assert row_at(laid.layout, 1) == RowAt(1, "body", 1)
    assert row_at(laid.layout, body + 2) == RowAt(1, "thumb", 2)
    assert row_at(laid.layout, body + thumb + 3) == RowAt(2, "body", 3)


@pytest.mark.parametrize(
    ("design", "role", "kind"),
    [
        (Design(stated=(("A", metres(100)),)), "A", "rows_not_known"),
        (plain_scarf(), "B", "no_such_role"),
        (
            replace(plain_scarf(), extras=(Extra(Kind.POMPOM, "B", (cm(6),)),)),
            "B",
            "role_in_no_row",
        ),
    ],
)
def test_what_has_no_rows_is_refused(design: Design, role: str, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        walk(DesignContext(design), role, [10.0])
    assert refused.value.kind == kind
    with pytest.raises(Refusal) as refused:
        rows_of(DesignContext(design), role, 10.0)
    assert refused.value.kind == kind
