"""A swatch gives the yarn, the model only how it is shared."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from requirements.some_designs import MEDIUM, cm, gauge, plain_scarf, sideways_hat

from stash.measures.length import metres
from stash.parsing.design.fabric import fabric
from stash.requirements.design.bands import Band, Place, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import Swatch
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import laid_out
from stash.requirements.design.shapes import Size
from stash.requirements.design.stitches import diameter_m, tex
from stash.requirements.design.thickness_defaults import in_fabric
from stash.requirements.yarn.model import finishing, summed, worked_by_role
from stash.requirements.yarn.sources import from_swatch

EVERY_FABRIC = (
    "stockinette",
    "garter",
    "3x1 rib",
    "cables",
    "stranded",
    "1 hdc, 1 sl st blo",
    "hdc flo",
    "2 dc, 2 tr",
    "front/back post dc",
    "linen stitch",
    "tapestry crochet",
)
SQUARE = Size(cm(20), cm(20))


def per_20cm(stitches: int, rows: int) -> Gauge:
    return Gauge(Fraction(stitches), Fraction(rows), cm(20))


def scarf(words: str, at: Gauge) -> Design:
    return replace(plain_scarf(20, 160), fabric=fabric(words), gauge=at)


def modelled(design: Design) -> dict[str, float]:
    """Everything but what is sewn, as the model has it."""
    assert design.gauge is not None
    assert design.fabric is not None
    layout = laid_out(design, in_fabric(design.fabric, design.gauge), design.fabric)
    return worked_by_role(layout, diameter_m(tex(MEDIUM.m_per_100g)))


def swatch_of(design: Design, times: float) -> Swatch:
    """A swatch that takes so many times what the model gives for a design of its size."""
    small = replace(design, bands=(), size=SQUARE)
    return Swatch(MEDIUM.mass_of(metres(times * modelled(small)["A"])), SQUARE.across, SQUARE.up)


@pytest.mark.parametrize("words", EVERY_FABRIC)
def test_twice_the_yarn_in_the_swatch_is_twice_the_yarn_in_the_design(words: str) -> None:
    """20 stitches and rows to 20 cm go up evenly into swatch and scarf, whatever the fabric."""
    design = scarf(words, per_20cm(20, 20))
    layout = laid_out(design, design.gauge, design.fabric)
    sewn = summed(finishing(design, layout))["A"]

    said = from_swatch(design, swatch_of(design, 2))["A"]

    assert said.expected_m == pytest.approx(2 * modelled(design)["A"] + sewn, rel=1e-4)


def test_a_small_swatch_has_more_edge_than_the_design() -> None:
    """Cast-on and bind-off are about two rows: 8 % of 24 rows, taken off again."""
    design = scarf("stockinette", per_20cm(20, 24))
    swatch = swatch_of(design, 1)

    by_area = MEDIUM.length_of(swatch.mass).m * 8
    said = from_swatch(design, swatch)["A"].expected_m

    assert by_area / said == pytest.approx(26 / 24, abs=0.015)


def test_a_colour_of_tall_rows_takes_more_than_its_share_of_rows() -> None:
    """Rows of double in B, of single in A: B takes the taller stitch, so more of the swatch."""
    at = per_20cm(20, 20)
    one_row = (Band("B", Rows(1), Place.BOTTOM),)
    design = replace(scarf("1 dc, 1 sc", at), bands=one_row, size=SQUARE)

    said = from_swatch(design, swatch_of(design, 1))
    row_of_b = said["B"].expected_m - 0.4
    mean_row = (said["A"].expected_m + said["B"].expected_m - 0.8) / 20

    assert row_of_b > 1.2 * mean_row


def test_a_swatch_weighed_with_a_gauge_of_plain_is_laid_out_in_its_fabric() -> None:
    hat = replace(sideways_hat(), gauge=replace(gauge(14, 16), plain=True))
    own = replace(hat, gauge=in_fabric(hat.fabric, hat.gauge))
    swatch = Swatch(MEDIUM.mass_of(metres(20)), SQUARE.across, SQUARE.up)

    assert from_swatch(hat, swatch) == from_swatch(own, swatch)
