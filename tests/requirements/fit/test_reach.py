"""All that so much yarn says of a design."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import cm, plain_scarf

from stash.measures.length import metres
from stash.requirements.design.bands import Band, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.fit_to_yarn import largest, widest_band, without_brim
from stash.requirements.fit.reach import reach, together_m
from stash.requirements.yarn.design_context import DesignContext

STRIPED = DesignContext(
    replace(plain_scarf(), bands=(Band("B", Rows(4)), Band("C", Rows(4), cm(20))))
)


def test_a_change_of_lots_takes_two_tails() -> None:
    """Common practice, no source: a join is two tails of 20 cm, of each strand."""
    doubled = DesignContext(replace(plain_scarf(), strands=2))

    assert together_m(STRIPED, [80.0, 120.0]) == pytest.approx(199.6)
    assert together_m(doubled, [80.0, 60.0, 60.0]) == pytest.approx(198.4)


def test_each_answer_is_that_of_its_own_question() -> None:
    lots = {"A": (100.0, 50.0), "B": (9.0,)}
    have = {"A": 149.6, "B": 9.0}

    found = reach(STRIPED, lots)

    assert found.short == ("A",)
    assert [one.side for one in found.sizes] == ["", "wide", "long"]
    assert [one.changed for one in found.sizes] == [
        largest(STRIPED, have, side) for side in ("", "wide", "long")
    ]
    assert found.bands == (widest_band(STRIPED, 0, have),)  # of C nothing is told
    assert [(one.role, one.stripes) for one in found.roles] == [("A", None), ("B", 1)]
    assert found.roles[0].walk is not None
    assert len(found.roles[0].walk.changes) == 1


def test_leaving_the_brim_out_is_a_way_where_it_is_short() -> None:
    hat = replace(plain_scarf(), shape=Shape.ROUND_HAT, size=Size(cm(54), cm(28)), brim=cm(6))

    assert reach(DesignContext(hat), {"A": (10.0,)}).brimless == without_brim(DesignContext(hat))
    assert reach(DesignContext(hat), {"A": (1000.0,)}).brimless is None


def test_what_lies_in_no_row_that_is_known_is_only_counted() -> None:
    pompom = DesignContext(replace(plain_scarf(), extras=(Extra(Kind.POMPOM, "B", (cm(6),)),)))
    no_rows = DesignContext(Design(
        shape=Shape.SCARF, size=Size(cm(20), cm(150)), stated=(("A", metres(300)),)
    ))  # fmt: skip

    assert reach(pompom, {"B": (5.0,)}).roles[0].rows is None
    assert reach(no_rows, {"A": (200.0,)}).roles[0].walk is None
    assert reach(no_rows, {"A": (200.0,)}).short == ("A",)
