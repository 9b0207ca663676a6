"""A design as rows: whole stitches, whole rows, and areas by geometry."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from requirements.some_designs import SC, cm, designs, gauge, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.measures.length import inches
from stash.requirements.design.bands import Band, Place, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out, laid_out_finely
from stash.requirements.design.shapes import Crown, Shape, Size


def laid(design: Design) -> Layout:
    assert design.gauge is not None
    assert design.fabric is not None
    return laid_out(design, design.gauge, design.fabric)


LEAFLET = gauge(20, 28)


def round_hat(crown: Crown, at: Gauge = LEAFLET, fabric: Fabric = PLAIN) -> Design:
    return Design(
        shape=Shape.ROUND_HAT,
        size=Size(inches(20), inches(9)),
        gauge=at,
        fabric=fabric,
        crown=crown,
    )


def test_a_sideways_hat_has_both_colours_in_every_row() -> None:
    """Rows of 33 stitches of A and 5 of B; 20 in round are 90 rows at 18 to 4 in."""
    rows = laid(sideways_hat()).rows

    assert len(rows) == 90
    assert {row.counts for row in rows} == {(("B", 5), ("A", 33))}


def test_the_size_that_results_is_known() -> None:
    size = laid(sideways_hat()).size

    assert size.across.m == pytest.approx(90 * 4 / 18 * 0.0254, abs=1e-6)
    assert size.up.m == pytest.approx(38 * 4 / 13 * 0.0254, abs=1e-6)


@pytest.mark.parametrize("crown", Crown)
def test_a_crown_takes_its_share_off_the_tube(crown: Crown) -> None:
    """Girth x height less 0.080 (a flat disc), 0.060 or 0 times girth squared."""
    loss = {Crown.FLAT: 0.080, Crown.DECREASED: 0.060, Crown.GATHERED: 0}[crown]
    fine = gauge(200, 280)

    area = sum(laid(round_hat(crown, fine)).area_m2.values()) / 0.0254**2

    assert area == pytest.approx(20 * 9 - loss * 20**2, rel=0.002)


def test_a_flat_crown_is_a_circle() -> None:
    """Each round of a disc grows by 2 pi row heights; k = 0.080 is 1/(4 pi) rounded."""
    worked = laid(round_hat(Crown.FLAT, gauge(20, 20), SC)).rows
    top = [row.stitches for row in worked[::-1][:10]]

    for index, count in enumerate(top):
        assert count == pytest.approx(2 * math.pi * (index + 0.5), abs=0.85)


def test_a_hat_lower_than_its_crown_is_refused() -> None:
    low = replace(round_hat(Crown.FLAT), size=Size(inches(20), inches(3)))

    with pytest.raises(Refusal) as refused:
        laid(low)
    assert refused.value.kind == "too_low_for_crown"


def test_rows_of_a_band_are_whole_rounds() -> None:
    striped = replace(plain_scarf(), bands=(Band("B", Rows(4), Place.MIDDLE),))

    assert sum(1 for row in laid(striped).rows if row.counts[0][0] == "B") == 4


def test_areas_without_a_gauge_are_those_of_the_plan() -> None:
    striped = replace(plain_scarf(), gauge=None, bands=(Band("B", cm(15)),))

    areas = laid_out_finely(striped).area_m2

    assert areas == pytest.approx({"A": 0.2 * 1.35, "B": 0.2 * 0.15})


def test_a_slip_of_the_finger_makes_no_endless_design() -> None:
    with pytest.raises(Refusal) as refused:
        laid(plain_scarf(20, 5_000_000))
    assert refused.value.kind == "endless_rows"


@given(designs())
def test_every_stitch_belongs_to_one_role(design: Design) -> None:
    layout = laid(design)
    cells = sum(row.stitches for row in layout.rows)

    whole = cells * layout.gauge.stitch_m * layout.gauge.row_m

    assert sum(layout.area_m2.values()) == pytest.approx(whole)
    assert set(layout.roles) == {"A", *(band.role for band in design.bands)}
