"""Edges of bands: always between whole rows, never across one another, read back as typed."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.parsing.design import design as design_typed
from stash.parsing.design.bands import band
from stash.parsing.design.design import DesignWords
from stash.rendering import figures
from stash.rendering.band_edges import Ruled, ruled, ruled_upright, spaced
from stash.rendering.typed_design import band_typed, typed
from stash.requirements.design.design import Design
from stash.requirements.yarn.estimate import need_of

SHAPES = ("round hat", "sideways hat", "headband", "cowl", "scarf", "blanket", "mitten", "sock")
SIDES = {
    "scarf": ("", "20cm", "90cm"),
    "blanket": ("", "70cm", "90cm"),
    "sock": ("20cm", "", "24cm"),
}


def planned(shape: str, gauge: tuple[int, int], start: int, count: int) -> tuple[Design, Ruled]:
    around, wide, long = SIDES.get(shape, ("52cm", "", ""))
    tall = "" if shape in ("scarf", "blanket") else "24cm"
    one = "sts" if shape == "sideways hat" else "rows"
    text = f"{gauge[0]} sts x {gauge[1]} rows per 10cm"
    words = DesignWords(
        shape=shape, around=around, tall=tall, wide=wide, long=long, gauge=text, fabric="1 hdc"
    )
    plain = design_typed.design(words)
    laid = need_of(plain).laid
    assert laid is not None
    bottom = ruled(plain, laid[1]).typed[start]
    design = replace(plain, bands=(band(f"B {count} {one} {bottom}"),))
    laid = need_of(design).laid
    assert laid is not None
    return design, ruled(design, laid[1])


@pytest.mark.parametrize("unit", ["cm", "in"])
@given(
    shape=st.sampled_from(SHAPES),
    gauge=st.tuples(st.integers(8, 34), st.integers(8, 44)),
    start=st.integers(0, 5),
    count=st.integers(1, 6),
    data=st.data(),
)
def test_a_moved_edge_lies_on_a_whole_row_and_is_read_back_there(
    unit: str, shape: str, gauge: tuple[int, int], start: int, count: int, data: st.DataObject
) -> None:
    figures.use(figures.Units(size=unit))
    design, bands = planned(shape, gauge, start, count)
    one = data.draw(st.sampled_from(bands.edges))
    at = data.draw(st.integers(one.low, one.high))
    words = bands.moved(one, at)
    assert words is not None
    moved = replace(design, bands=(band(" ".join(("B", *words))),))
    ends = (at, one.other) if one.side == "begins" else (one.other, at)
    if ends == (0, bands.grid.cells):
        return  # nothing would be left for A, which is refused elsewhere
    laid = need_of(moved).laid
    assert laid is not None
    (lies,) = ruled(moved, laid[1]).bands
    assert (lies.start, lies.end) == ends
    figures.use(figures.Units())


@pytest.mark.parametrize("unit", ["cm", "in"])
@given(
    shape=st.sampled_from([one for one in SHAPES if one != "sock"]),
    gauge=st.tuples(st.integers(8, 34), st.integers(8, 44)),
    start=st.integers(0, 5),
    count=st.integers(1, 6),
    data=st.data(),
)
def test_a_moved_edge_of_an_upright_band_is_read_back_where_it_was_put(
    unit: str, shape: str, gauge: tuple[int, int], start: int, count: int, data: st.DataObject
) -> None:
    figures.use(figures.Units(size=unit))
    design, _ = planned(shape, gauge, 1, 2)
    laid = need_of(design).laid
    assert laid is not None
    one = "rows" if laid[1].sideways else "sts"
    left = ruled_upright(design, laid[1]).typed[start]
    two = replace(design, bands=(*design.bands, band(f"C {count} {one} upright {left}")))
    laid = need_of(two).laid
    assert laid is not None
    upright = ruled_upright(two, laid[1])
    edge = data.draw(st.sampled_from(upright.edges))
    at = data.draw(st.integers(edge.low, edge.high))
    words = upright.moved(edge, at)
    assert words is not None
    moved = replace(design, bands=(*design.bands, band(" ".join(("C", *words)))))
    ends = (at, edge.other) if edge.side == "begins" else (edge.other, at)
    if ends == (0, upright.grid.cells):
        return  # nothing would be left of what is below
    laid = need_of(moved).laid
    assert laid is not None
    (lies,) = ruled_upright(moved, laid[1]).bands
    assert (lies.start, lies.end) == ends
    assert [one.band for one in ruled(moved, laid[1]).edges] == [1, 1]
    figures.use(figures.Units())


def test_a_mixed_band_stays_mixed_where_it_is_moved() -> None:
    words = DesignWords(
        shape="round hat", around="52cm", tall="24cm", gauge="16 sts x 10 rows per 10cm",
        fabric="stranded", bands=("B 30% of 4 rows bottom",),
    )  # fmt: skip
    design = design_typed.design(words)
    laid = need_of(design).laid
    assert laid is not None
    bands = ruled(design, laid[1])
    moved = bands.moved(bands.edges[1], 6)
    assert moved == ("30% of 6 rows", "bottom")


@given(gauge=st.tuples(st.integers(8, 34), st.integers(12, 44)), data=st.data())
def test_edges_of_two_bands_do_not_cross(gauge: tuple[int, int], data: st.DataObject) -> None:
    design, _ = planned("round hat", gauge, 1, 2)
    two = replace(design, bands=(*design.bands, band("C 3 rows 12cm up")))
    laid = need_of(two).laid
    assert laid is not None
    bands = ruled(two, laid[1])
    low, high = bands.bands
    one = data.draw(st.sampled_from(bands.edges))
    beyond = data.draw(st.integers(-5, bands.grid.cells + 5))
    inside = one.low <= beyond <= one.high
    assert (bands.moved(one, beyond) is not None) is inside
    assert (low.low, low.high, high.low, high.high) == (0, high.start, low.end, bands.grid.cells)


@given(wanted=st.lists(st.floats(0, 300), max_size=8).map(sorted), apart=st.floats(5, 30))
def test_handles_keep_apart_in_their_order(wanted: list[float], apart: float) -> None:
    places = spaced(wanted, apart, 0.0, 400.0)
    assert all(b - a >= apart - 1e-6 for a, b in pairwise(places))


def test_a_row_has_the_number_it_is_worked_as() -> None:
    words = DesignWords(
        shape="round hat", around="52cm", tall="24cm", gauge="16 sts x 10 rows per 10cm",
        fabric="1 hdc", bands=("B 4 rows bottom",), start="crown",
    )  # fmt: skip
    design = design_typed.design(words)
    laid = need_of(design).laid
    assert laid is not None
    begins, ends = ruled(design, laid[1]).edges
    assert (begins.row, ends.row) == ("row 24", "row 21")


@pytest.mark.parametrize(
    "text", ["B 4 cm bottom", "C 5 rows 11 cm up", "B 30% of 6 cm middle", "D 3 cm upright left"]
)
def test_a_band_is_shown_as_it_may_be_typed(text: str) -> None:
    assert band(" ".join(band_typed(band(text)))) == band(text)


def test_a_design_is_shown_as_it_may_be_typed() -> None:
    words = DesignWords(
        shape="round hat", around="54 cm", tall="22 cm", gauge="17 sts x 13 rows per 10 cm",
        fabric="1 sc, 1 hdc", extras=("pompom B 6 cm", "cord A 40 cm x 2"), thickness="3-4",
        swatch="12 g, 15 cm x 14 cm", bands=("B 4 cm bottom",), brim="6 cm",
        stripes=("A 4 rows, B 2 rows",),
    )  # fmt: skip
    design = design_typed.design(words)
    shown = typed(design)
    again = DesignWords(
        **{k: v for k, v in shown.items() if k not in ("extras", "stripes")},
        extras=tuple(shown["extras"].split("; ")),
        stripes=tuple(shown["stripes"].split("; ")),
        bands=words.bands,
    )
    assert design_typed.design(again) == design
