"""From rows to yarn: sums, and what goes round the stitches."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import SC, SLIP_RIB, cm, gauge, plain_scarf, sideways_hat

from stash.parsing.design.fabric import fabric
from stash.requirements.design.bands import Band, Place, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.layout import laid_out
from stash.requirements.design.shapes import Seam
from stash.requirements.design.stitches import CHAIN, STITCHES, diameter_m
from stash.requirements.yarn.model import (
    TESTED_SPREAD,
    UNTESTED_SPREAD,
    finishing,
    spread,
    summed,
    yarn_by_role,
)

THICK = diameter_m(590)


def yarn_of(design: Design) -> dict[str, float]:
    assert design.gauge is not None
    assert design.fabric is not None
    layout = laid_out(design, design.gauge, design.fabric)
    return {role: yarn.total_m for role, yarn in yarn_by_role(design, layout, THICK).items()}


def test_a_knitted_scarf_is_its_loops_two_edges_and_two_tails() -> None:
    """39 stitches by 413 rows, and one row each for cast-on and bind-off, worked by hand."""
    loop = STITCHES["stockinette"].yarn_m(gauge(20, 28), 0)

    assert yarn_of(plain_scarf()) == pytest.approx({"A": 39 * (413 + 2) * loop + 0.4})


def test_a_crocheted_scarf_has_a_chain_below_and_one_before_every_row() -> None:
    scarf = replace(plain_scarf(), fabric=SC, gauge=gauge(14, 16))
    link, stitch = (one.yarn_m(gauge(14, 16), THICK) for one in (CHAIN, STITCHES["sc"]))

    # 20 cm are 28 stitches, 150 cm are 236 rows.
    expected = 28 * 236 * stitch + 28 * link + 236 * link + 0.4

    assert yarn_of(scarf) == pytest.approx({"A": expected})


def test_every_stretch_of_colour_ends_in_two_tails() -> None:
    """A join is two tails, about 0.4 m (common practice, no source)."""
    striped = replace(plain_scarf(), bands=(Band("B", Rows(12), Place.MIDDLE),))
    layout = laid_out(striped, gauge(20, 28), PLAIN)

    assert summed(finishing(striped, layout)) == pytest.approx({"A": 0.8, "B": 0.4})


def test_a_sideways_hat_is_sewn_in_the_colours_that_are_there() -> None:
    hat = sideways_hat()
    layout = laid_out(hat, gauge(13, 18), SLIP_RIB)
    size = layout.size

    around = summed(finishing(hat, layout))

    # A whipped seam takes three times its length; a gathering goes twice round. 5 of 38 are B.
    assert around["A"] == pytest.approx(0.8 + 3 * size.up.m * 33 / 38 + 2 * size.across.m)
    assert around["B"] == pytest.approx(0.4 + 3 * size.up.m * 5 / 38)


def test_a_hat_left_unsewn_takes_less() -> None:
    assert yarn_of(replace(sideways_hat(), seam=Seam.NONE))["A"] < yarn_of(sideways_hat())["A"]


def test_two_strands_take_twice_the_length() -> None:
    single, double = plain_scarf(), replace(plain_scarf(), strands=2)

    assert yarn_of(double)["A"] == pytest.approx(2 * yarn_of(single)["A"])


def test_one_row_times_its_rows_is_the_fabric() -> None:
    hat = sideways_hat()
    layout = laid_out(hat, gauge(13, 18), SLIP_RIB)
    yarn = yarn_by_role(hat, layout, THICK)["B"]

    stitches = sum(row.yarn_m(gauge(13, 18), THICK) for row in SLIP_RIB.rows)

    assert yarn.row_m == pytest.approx(5 * stitches / 3)


@pytest.mark.parametrize(
    ("worked", "tex_held", "tested"),
    [
        (SC, 590, True),
        (fabric("(sc, ch 1)"), 590, True),
        (SLIP_RIB, 590, False),
        (fabric("(sc, tr)"), 590, False),
        (fabric("front/back post dc"), 590, False),
        (SC, 300, False),
        (PLAIN, 300, True),
        (fabric("cables"), 300, False),
    ],
)
def test_what_was_never_compared_is_trusted_less(
    worked: Fabric, tex_held: float, *, tested: bool
) -> None:
    kind = TESTED_SPREAD if tested else UNTESTED_SPREAD

    assert spread(worked, tex_held) == kind[worked.craft]
    assert UNTESTED_SPREAD[worked.craft] > TESTED_SPREAD[worked.craft]


def test_shares_by_stitches_not_by_rows() -> None:
    """Five stitches of 38 in every row: B takes 5/38 of the fabric."""
    layout = laid_out(sideways_hat(), gauge(13, 18), SLIP_RIB)

    assert layout.area_m2["B"] / sum(layout.area_m2.values()) == pytest.approx(5 / 38)


def test_a_wider_band_takes_more_from_a() -> None:
    narrow = replace(plain_scarf(), bands=(Band("B", cm(2)),))
    wide = replace(plain_scarf(), bands=(Band("B", cm(4)),))

    assert yarn_of(wide)["A"] < yarn_of(narrow)["A"]
    assert yarn_of(wide)["B"] > yarn_of(narrow)["B"]
