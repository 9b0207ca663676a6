"""What is known of one size carried over to another."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from requirements.some_designs import cm, designs, gauge, plain_scarf, rows_of, sideways_hat

from stash.errors import Refusal
from stash.measures.length import Length, metres
from stash.measures.mass import grams
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.fabric import PLAIN
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import Experience
from stash.requirements.yarn.need import Source

SCARF = plain_scarf()
OWN = OwnItem(by_role=(("A", 300.0),))


def expected(known: DesignContext, design: Design, role: str = "A") -> float:
    return next(r.estimate.expected_m for r in known.need(design).roles if r.role == role)


def longer(design: Design, times: int) -> Design:
    size = design.needed_size
    return replace(design, size=Size(size.across, size.up * times))


@given(designs())
def test_the_plan_as_it_is_needs_what_it_always_did(design: Design) -> None:
    own = (OwnItem(total_m=200.0),)

    assert DesignContext(design, 0.1, Experience(own)).need(design) == need_of(
        design, 0.1, Experience(own)
    )


@pytest.mark.parametrize(
    "known",
    [
        DesignContext(SCARF, made=Experience((OWN,))),
        DesignContext(SCARF, made=Experience((OwnItem(total_m=300.0),))),
        DesignContext(replace(SCARF, stated=(("A", metres(300)),))),
        DesignContext(replace(SCARF, weighed=(("A", grams(160)),))),
        DesignContext(replace(SCARF, fabric=None, gauge=None, stated=(("A", metres(300)),))),
    ],
    ids=["own", "own total", "stated", "weighed", "by area alone"],
)
def test_a_scarf_of_twice_the_length_takes_twice_as_much(known: DesignContext) -> None:
    """Elementary geometry; cast-on, bind-off and tails stay, which is 2 % of it."""
    once, twice = (expected(known, longer(known.design, n)) for n in (1, 2))

    assert twice == pytest.approx(2 * once, rel=0.02)


def test_a_figure_that_was_carried_over_is_less_sure() -> None:
    known = DesignContext(SCARF, made=Experience((OWN,) * 5))

    near, far = (known.need(longer(SCARF, n)).roles[0] for n in (1, 3))

    assert near.source is far.source is Source.OWN_ITEMS
    assert far.estimate.relative > 2 * near.estimate.relative


def test_a_colour_that_is_gone_takes_nothing_and_the_main_one_what_it_leaves() -> None:
    hat = sideways_hat()
    known = DesignContext(hat, made=Experience((OwnItem(by_role=(("A", 100.0), ("B", 10.0))),)))
    plain = known.need(replace(hat, bands=()))

    assert [one.role for one in plain.roles] == ["A"]
    assert plain.roles[0].estimate.expected_m == pytest.approx(100 * 38 / 33, rel=0.02)


def test_what_cannot_be_told_of_another_size_is_refused_with_a_way_out() -> None:
    known = DesignContext(Design(name="hat", stated=(("A", metres(100)),)))

    with pytest.raises(Refusal) as refused:
        known.need(replace(known.design, strands=2))
    assert refused.value.kind == "another_size_not_known"


@pytest.mark.parametrize("rows", [slice(0, 5), slice(5, 10), slice(10, 15)], ids=[14, 20, 24])
def test_one_printed_size_of_a_leaflet_leads_to_its_others(rows: slice) -> None:
    """Rows H1: designer's leaflet at three gauges, year not seen; all seen when the spread was set.

    The middle size is taken as known; its four fellows print within 12 %, two spreads at the most.
    """
    leaflet = [row for row in rows_of("items.csv") if row["id"].startswith("H1")][rows]
    sizes = [Size(cm(float(row["across_cm"])), cm(float(row["up_cm"]))) for row in leaflet]
    printed = [float(row["length_m"]) for row in leaflet]
    at = gauge(float(leaflet[0]["sts_per_4in"]), float(leaflet[0]["rows_per_4in"]))
    stated = (("A", Length(round(printed[2] * 1e6))),)
    hat = Design(
        shape=Shape.ROUND_HAT, size=sizes[2], gauge=at, fabric=PLAIN,
        thickness_from=4, thickness_to=4,
        stated=stated,
    )  # fmt: skip

    carried = [expected(DesignContext(hat), replace(hat, size=size)) for size in sizes]

    assert carried == pytest.approx(printed, rel=0.12)
