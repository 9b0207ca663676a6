"""A fabric is the rows of one repeat."""

from __future__ import annotations

from fractions import Fraction

import pytest
from requirements.some_designs import SLIP_RIB, gauge

from stash.parsing.design.fabric import fabric
from stash.requirements.design.fabric import PLAIN, Fabric, FabricRow
from stash.requirements.design.stitches import STITCHES


def test_it_reads_as_it_is_typed() -> None:
    assert str(SLIP_RIB) == "1 hdc, 2 sl st blo"
    assert str(PLAIN) == "stockinette"


def test_rows_follow_the_repeat() -> None:
    names = [SLIP_RIB.row(index).stitch.name for index in range(5)]

    assert names == ["hdc", "sl st", "sl st", "hdc", "sl st"]


def test_row_height_is_the_mean_of_the_repeat() -> None:
    """14 stitches go with 11 rows of half double, 25 of slip stitch (common practice)."""
    assert 3 / SLIP_RIB.rows_to_width == pytest.approx(14 / 11 + 2 * 14 / 25)


def test_a_tall_row_takes_its_own_share_of_the_repeat() -> None:
    """14 stitches go with 16 rows of single, 8 of double (common practice)."""
    low, tall = fabric("1 sc, 1 dc").rows

    assert (low.tall, tall.tall) == (Fraction(2, 3), Fraction(4, 3))


@pytest.mark.parametrize("words", ["1 hdc, 2 sl st blo", "2 dc, 1 sc", "1 fpdc, (sc, ch 1)"])
def test_shares_of_the_rows_make_up_the_repeat(words: str) -> None:
    rows = fabric(words).rows

    assert sum(row.tall for row in rows) == len(rows)


def test_stranded_and_tapestry_rows_carry_a_second_strand() -> None:
    at = gauge(20, 28)
    stranded, tapestry = fabric("stranded").row(0), fabric("tapestry crochet").row(0)

    assert stranded.yarn_m(at, 0) - PLAIN.row(0).yarn_m(at, 0) == pytest.approx(at.stitch_m)
    assert tapestry.yarn_m(at, 0) > fabric("sc").row(0).yarn_m(at, 0)


@pytest.mark.parametrize(
    ("words", "low", "high"),
    [
        ("2x2 rib", 0.10, 0.20),
        ("cables", 0.15, 0.30),
        ("sc blo", 0.10, 0.30),
        ("sc", 0.0, 0.0),
        ("stockinette", 0.0, 0.0),
    ],
)
def test_what_a_textured_fabric_takes_more_than_plain(words: str, low: float, high: float) -> None:
    """Ranges that makers give over plain of the same area (common practice, no source)."""
    own = fabric(words)
    at = gauge(18, 24)

    more = own.by_plain_gauge().row(0).yarn_m(at, 0.001) / own.row(0).yarn_m(at, 0.001) - 1

    assert low <= round(more, 9) <= high


def test_knitted_and_crocheted_rows_do_not_mix() -> None:
    with pytest.raises(ValueError, match="mixed"):
        Fabric((FabricRow(STITCHES["sc"]), FabricRow(STITCHES["garter"])))
