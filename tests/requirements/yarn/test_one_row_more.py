"""From one size to the next a need changes by one row at most, whatever the fabric's repeat."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from requirements.some_designs import cm, designs, gauge

from stash.measures.length import Length
from stash.measures.note import Note
from stash.parsing.design.fabric import fabric
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Row
from stash.requirements.design.parts import profiles
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.yarn.by_rows import ByRows, by_rows
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.model import in_row


def laid(design: Design) -> ByRows:
    found = by_rows(design)
    assert found is not None
    return found


def fabric_m(design: Design) -> float:
    return math.fsum(yarn.fabric_m for yarn in laid(design).yarn.values())


def one_row_m(design: Design) -> float:
    """The most that a row of each of its parts takes, over all strands and all of a pair."""
    rows = laid(design)
    layout = rows.layout
    most = (max(row_m(row, rows) for row in part.rows) for part in layout.parts)
    return design.strands * layout.made * math.fsum(most)


def row_m(row: Row, rows: ByRows) -> float:
    return math.fsum(m for _, m in in_row(row, rows.layout.gauge, rows.diameter_m, False))


def longer_by(design: Design, more: Length) -> Design:
    """The design larger the way its rows are stacked."""
    size = design.needed_size
    if len(design.build.words) == 1:
        return replace(design, size=Size(size.across + more, size.across + more))
    if design.build.sideways:
        return replace(design, size=replace(size, across=size.across + more))
    return replace(design, size=replace(size, up=size.up + more))


@given(designs(), st.integers(1, 100))
@settings(max_examples=200)
def test_a_size_less_than_a_row_larger_takes_no_more_than_a_row(design: Design, part: int) -> None:
    step = Length(int(laid(design).layout.gauge.row_um * part / 200) * 2)
    larger = longer_by(design, step)

    assert fabric_m(larger) - fabric_m(design) <= one_row_m(larger) + 1e-9


@pytest.mark.parametrize(
    "words", ["1 tr", "1 sc, 7 sl st blo", "3 dc, 1 sc", "1 hdc", "8 sc, 8 dc"]
)
def test_a_cowl_that_grows_by_millimetres_grows_row_by_row(words: str) -> None:
    """Never by a repeat of 8 or 16 rows, and from the first to the last as much as it is taller."""
    worked = fabric(words)
    cowl = Design(
        shape=Shape.COWL, size=Size(cm(60), cm(10)), gauge=gauge(14, 8), fabric=worked,
        thickness_from=4, thickness_to=4,
    )  # fmt: skip
    sizes = [replace(cowl, size=Size(cm(60), Length(um))) for um in range(80_000, 300_000, 1_000)]

    counts = [len(laid(one).layout.rows) for one in sizes]
    needs = [need_of(one).roles[0].set_aside_m for one in sizes]

    assert {after - before for before, after in pairwise(counts)} == {0, 1}
    for one, (before, after) in zip(sizes[1:], pairwise(needs), strict=True):
        one_row = laid(one).yarn["A"].total_m / laid(one).yarn["A"].fabric_m * one_row_m(one)
        margin = need_of(one).roles[0].margin
        assert 0 <= after - before <= (1 + margin) * 1.1 * one_row


@given(designs())
def test_rows_are_to_the_nearest(design: Design) -> None:
    """No part is more than half a row off the height that its geometry asks for."""
    layout = laid(design).layout

    for part, profile in zip(layout.parts, profiles(design), strict=True):
        off = abs(len(part.rows) - profile.height.um / layout.gauge.row_um)
        assert off <= Fraction(1, 2) or len(part.rows) == 1


def test_a_treble_cowl_a_millimetre_taller_takes_the_same() -> None:
    """10.1 and 10.2 cm are both five rows of 2 cm; taken up to whole ones, six were worked."""
    low, high = (
        Design(
            shape=Shape.COWL, size=Size(cm(60), cm(tall)), gauge=gauge(12, Fraction(508, 100)),
            fabric=fabric("1 tr"), thickness_from=4, thickness_to=4,
        )
        for tall in (10.1, 10.2)
    )  # fmt: skip

    assert [len(laid(one).layout.rows) for one in (low, high)] == [5, 5]
    assert fabric_m(low) == fabric_m(high)


def test_a_repeat_that_meets_its_own_beginning_says_where_it_ends() -> None:
    """50 cm at 20 rows to 4 in are 98.4 rows: two of the 33rd repeat of three."""
    hat = Design(
        shape=Shape.SIDEWAYS_HAT, size=Size(cm(50), cm(24)), gauge=gauge(16, 20),
        fabric=fabric("1 sc, 2 hdc"), thickness_from=4, thickness_to=4,
    )  # fmt: skip
    closed = replace(hat, size=Size(Length(99 * 101_600 // 20), cm(24)))

    assert Note("repeat_does_not_meet", repeat=3, rows=98) in need_of(hat).notes
    assert "repeat_does_not_meet" not in [note.kind for note in need_of(closed).notes]
