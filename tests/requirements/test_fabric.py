"""A fabric is the rows of one repeat."""

from __future__ import annotations

import pytest
from requirements.some_pieces import SLIP_RIB

from stash.requirements.fabric import PLAIN, Fabric, FabricRow
from stash.requirements.stitches import STITCHES


def test_it_reads_as_it_is_typed() -> None:
    assert str(SLIP_RIB) == "1 sc, 3 sl st blo"
    assert str(PLAIN) == "stockinette"


def test_rows_follow_the_repeat() -> None:
    names = [SLIP_RIB.row(index).stitch.name for index in range(5)]

    assert names == ["sc", "sl st", "sl st", "sl st", "sc"]


def test_row_height_is_the_mean_of_the_repeat() -> None:
    """One row at 16 and three at 25 to 4 in, 14 stitches: 20 to 23 rows (common practice)."""
    assert 20 < 14 * SLIP_RIB.rows_to_width < 23


def test_knitted_and_crocheted_rows_do_not_mix() -> None:
    with pytest.raises(ValueError, match="throughout"):
        Fabric((FabricRow(STITCHES["sc"]), FabricRow(STITCHES["garter"])))
