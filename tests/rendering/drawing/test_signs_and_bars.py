"""Signs, bars of amounts, and how a ball runs down."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from stash.rendering.drawing.bars import BarShown, NeedShown, cut_bar, need_axis, skein_bar
from stash.rendering.drawing.running_down import RunningDown, running_down
from stash.rendering.drawing.signs import Sign, sign
from stash.rendering.drawing.svg import CLASSES


def inside(drawing: str) -> list[ElementTree.Element]:
    return [*ElementTree.fromstring(drawing).iter()]


def test_each_sign_is_drawn_otherwise_in_the_colour_of_its_words() -> None:
    drawn = {sign(one) for one in Sign}

    assert len(drawn) == len(Sign)
    for one in drawn:
        inks = {e.get(k) for e in inside(one) for k in ("stroke", "fill")} - {None, "none"}
        assert inks == {"currentColor"}
        assert 'aria-hidden="true"' in one


def test_a_sign_that_stands_alone_has_a_title() -> None:
    root = ElementTree.fromstring(sign(Sign.FIND, 24, "Find <it>"))

    assert root.get("role") == "img"
    assert root[0].text == "Find <it>"


@pytest.mark.parametrize(
    ("free", "aside", "used"), [(351, 42, 60), (7, 24, 90), (86, 334, 0), (690, 0, 0)]
)
def test_a_bar_is_free_then_aside_then_used_by_their_shares(
    free: float, aside: float, used: float
) -> None:
    drawn = skein_bar(free, aside, used, BarShown(201, 10))
    total = free + aside + used
    solid = re.search(r'd="M[^"]*?H([\d.]+)[^"]*" fill="currentColor"', drawn)
    hatched = [e for e in inside(drawn)[1:] if e.tag == "svg"]

    assert solid is not None
    end = 200.5 if not aside and not used else 0.5 + 200 * free / total
    assert float(solid[1]) == pytest.approx(end, abs=5 if end > 195 else 0.1)
    assert len(hatched) == (1 if aside else 0)
    if hatched:
        assert float(hatched[0].get("x", 0)) == pytest.approx(0.5 + 200 * free / total, abs=0.1)
        assert float(hatched[0].get("width", 0)) == pytest.approx(200 * aside / total, abs=0.1)


@pytest.mark.parametrize(
    ("cuts", "left"), [([100.0], 21.0), ([80, 43, 5], 7.0), ([60, 60], 0.0), ([], 5.0)]
)
def test_a_skein_is_parted_at_each_cut_and_empty_where_it_is_left(
    cuts: list[float], left: float
) -> None:
    drawn, total = cut_bar(cuts, left, 201), sum(cuts) + left
    gaps = [float(x) for x in re.findall(r'd="M([\d.]+) 0v', drawn)]
    solid = re.search(r'd="M[^"]*?H([\d.]+)[^"]*" fill="currentColor"', drawn)

    places = [0.5 + 200 * sum(cuts[: i + 1]) / total for i in range(len(cuts))]
    assert gaps == pytest.approx(places[:-1], abs=0.1)
    if cuts:
        assert solid is not None
        assert float(solid[1]) == pytest.approx(places[-1], abs=6 if not left else 0.1)
    else:
        assert solid is None


def test_a_bar_of_nothing_is_empty_and_a_mark_stays_in_it() -> None:
    assert "currentColor" in skein_bar(0, 0, 0)
    assert 'fill="currentColor"' not in skein_bar(0, 0, 5)
    marked = skein_bar(10, 0, 0, BarShown(100, 14, mark=40))
    (line,) = [e for e in inside(marked) if e.get("class") == "woad"]
    assert line.get("d", "").startswith("M96.5 ")


def test_a_need_lies_on_its_axis_expected_between_its_spread_and_set_aside_beyond() -> None:
    drawn = inside(need_axis(NeedShown(76, 7, 85, 120), width=244))
    wash = next(e for e in drawn if e.get("class") == "wash")
    bar = next(e for e in drawn if e.get("stroke-width") == "3" and not e.get("class"))
    dashes = next(e for e in drawn if e.get("class") == "woad")

    def at(path: ElementTree.Element) -> float:
        return float(path.get("d", "M0").split()[0][1:])

    assert float(wash.get("x", 0)) == pytest.approx(2 + 2 * 69)
    assert float(wash.get("width", 0)) == pytest.approx(2 * 14)
    assert (at(bar), at(dashes)) == (2 + 2 * 76, 2 + 2 * 85)


LASTS = RunningDown(
    weighings=[(12, 47), (20, 33), (34, 13)],
    projection=[(34, 13), (41, 0)],
    band=[(34, 13, 13), (40, 0.5, 2.5)],
    keep=2,
    last_row=40,
    ticks=[(0, "0"), (25, "25"), (50, "50 g")],
    row_words=[(12, "row 12"), (34, "row 34, now"), (40, "row 40, done")],
    notes=[(34, 13, "13 g, <now>")],
    keep_words="2 g kept back",
    last_words="the last row",
)


def test_how_a_ball_runs_down_has_a_dot_a_weighing_and_its_last_row() -> None:
    drawn = running_down(LASTS, 740, 320, "No, about 1 time in 3")
    found = inside(drawn)
    dots = [e for e in found if e.tag.endswith("circle")]
    last = next(e for e in found if e.get("class") == "woad")

    assert len(dots) == 3
    assert [float(d.get("cx", 0)) for d in dots] == sorted(float(d.get("cx", 0)) for d in dots)
    assert float(last.get("d", "")[1:].split()[0]) > float(dots[-1].get("cx", 0))
    assert {c for e in found if (c := e.get("class"))} <= set(CLASSES)
    assert "13 g, &lt;now&gt;" in drawn


def test_words_under_the_picture_stay_in_it_and_apart() -> None:
    for width in (300, 340, 740):
        drawn = inside(running_down(LASTS, width, 260))
        words = [
            (float(e.get("x", 0)), len(e.text or "") * 3.5)
            for e in drawn
            if e.get("text-anchor") == "middle"
        ]
        words.sort()
        assert words
        assert all(x - half >= 0 and x + half <= width for x, half in words)
        for (x, half), (other, more) in pairwise(words):
            assert x + half < other - more


def test_a_ball_weighed_once_or_never_is_drawn_too() -> None:
    assert "circle" in running_down(RunningDown([(5, 80)]), 300, 200)
    assert "circle" not in running_down(RunningDown([]), 300, 200)
