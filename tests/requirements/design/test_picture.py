"""The picture of a design: to scale, every role seen, nothing outside its outline."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

import pytest
from hypothesis import given
from requirements.some_designs import cm, designs, plain_scarf, sideways_hat

from stash.requirements.design.bands import Band, Place, Rows, Stitches, Stripes
from stash.requirements.design.design import Design
from stash.requirements.design.picture import OUTSIDE, Picture, picture
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.yarn.by_rows import by_rows


def drawn(design: Design) -> Picture:
    rows = by_rows(design)
    assert rows is not None
    assert design.shape is not None
    return picture(design.shape, rows.layout)


def test_a_band_is_as_tall_as_its_share() -> None:
    shawl = replace(plain_scarf(60, 60), bands=(Band("B", cm(15)),))
    lines = drawn(shawl).lines

    assert [set(line) for line in lines] == 9 * [{"A"}] + 3 * [{"B"}]


def test_a_character_is_twice_as_tall_as_wide() -> None:
    """A square takes twice as many characters along as lines up."""
    lines = drawn(plain_scarf(60, 60)).lines

    assert (len(lines[0]), len(lines)) == (24, 12)


def test_a_tube_is_seen_from_the_front() -> None:
    """A girth of 20 in is 10 in across, 11.7 in tall."""
    found = drawn(sideways_hat())

    assert found.half
    assert len(found.lines[0]) / len(found.lines) / 2 == pytest.approx(10 / 11.7, abs=0.05)


def test_a_band_too_narrow_for_a_line_is_shown_all_the_same() -> None:
    lines = drawn(replace(plain_scarf(60, 60), bands=(Band("B", Rows(1), Place.MIDDLE),))).lines

    assert sum("B" in line for line in lines) in (1, 2)


def test_what_is_long_lies_on_its_side() -> None:
    found = drawn(replace(plain_scarf(), bands=(Band("B", cm(30)),)))

    assert found.lying
    assert all(line[:8] == "B" * 8 and line[-1] == "A" for line in found.lines)


def test_a_circle_leaves_its_corners() -> None:
    """pi/4 of the square round it."""
    circle = replace(plain_scarf(), shape=Shape.CIRCLE, size=Size(cm(40), cm(40)))
    cells = "".join(drawn(circle).lines)

    assert 1 - cells.count(OUTSIDE) / len(cells) == pytest.approx(0.785, abs=0.06)


@given(designs())
def test_every_design_can_be_drawn_with_all_its_roles(design: Design) -> None:
    found = drawn(design)

    assert len(found.lines) <= 12
    assert len({len(line) for line in found.lines}) == 1
    assert len(found.lines[0]) <= 44
    assert set(found.roles) <= {"A", *(band.role for band in design.bands)}
    assert found.roles


def striped(*rows: int) -> Design:
    """A scarf of 60 x 60 cm with stripes of so many rows, 12 rows apart from the bottom."""
    bands = [Band("BCD"[at % 3], Rows(count), cm(6 + 18 * at)) for at, count in enumerate(rows)]
    return replace(plain_scarf(60, 60), bands=tuple(bands))


def shown(design: Design, role: str) -> float:
    """How many lines a role fills, dots counted by their number."""
    lines = drawn(design).lines
    return sum(line.count(role) for line in lines) / len(lines[0])


def test_a_stripe_of_one_row_is_not_as_wide_as_one_of_four() -> None:
    one_and_four = striped(1, 4)

    assert shown(one_and_four, "C") >= 1.5 * shown(one_and_four, "B") > 0


@pytest.mark.parametrize("rows", [(2, 6, 12), (12, 6, 2), (4, 4, 4), (6, 12, 6)])
def test_stripes_are_as_wide_as_their_rows(rows: tuple[int, ...]) -> None:
    """Within half a line of what so many of all rows come to in twelve lines."""
    design = striped(*rows)
    found = by_rows(design)
    assert found is not None
    line = len(found.layout.body.rows) / 12

    for role, count in zip("BCD", rows, strict=True):
        assert shown(design, role) == pytest.approx(count / line, abs=0.5)
    widths = {(count, shown(design, role)) for role, count in zip("BCD", rows, strict=True)}
    assert len(widths) == len({*rows})


def test_more_stripes_than_lines_fill_as_much_as_their_rows() -> None:
    bands = tuple(Band("B", Rows(1), cm(2 * at)) for at in range(25))
    found = drawn(replace(plain_scarf(60, 60), bands=bands))

    rows = by_rows(replace(plain_scarf(60, 60), bands=bands))
    assert rows is not None
    cells = "".join(found.lines)
    assert len(found.lines) == 12
    assert cells.count("B") / len(cells) == pytest.approx(25 / len(rows.layout.body.rows), abs=0.03)


def test_stripes_along_the_stitches_are_as_wide_as_they_are_too() -> None:
    hat = sideways_hat()
    thin, wide = (replace(hat, bands=(Band("B", Stitches(n), Place.BOTTOM),)) for n in (1, 4))

    assert shown(wide, "B") > shown(thin, "B") > 0


def _runs(lines: tuple[str, ...]) -> list[tuple[str, int]]:
    """The stripes as they are drawn, from the bottom: the role, and so many lines."""
    return [(role, len([*same])) for role, same in groupby(line[0] for line in lines[::-1])]


@pytest.mark.parametrize("rows", [(1, 1), (2, 2), (3, 3), (5, 5), (7, 7), (6, 3), (2, 4), (3, 1)])
def test_equal_stripes_look_equal(rows: tuple[int, int]) -> None:
    stripes = Stripes((("A", Rows(rows[0])), ("B", Rows(rows[1]))))
    found = drawn(replace(plain_scarf(60, 60), stripes=(stripes,)))

    assert all(len(set(line)) == 1 for line in found.lines)
    runs = _runs(found.lines)
    inside = {(role, count) for role, count in runs[1:-1]}
    assert len(inside) == 2  # one width for each colour
    widths = dict(inside)
    assert widths["A"] * rows[1] == pytest.approx(widths["B"] * rows[0], rel=0.5)


def test_a_picture_with_fewer_stripes_than_there_are_says_so() -> None:
    narrow, wide = (
        drawn(replace(plain_scarf(60, 60), stripes=(Stripes((("A", Rows(n)), ("B", Rows(n)))),)))
        for n in (1, 20)
    )

    assert narrow.fewer
    assert not wide.fewer
