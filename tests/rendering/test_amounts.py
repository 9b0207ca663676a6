"""Colours and dye lots as a person says them."""

from __future__ import annotations

from stash.rendering.amounts import colour_name, dye_lot
from stash.stock.yarn import Lot, LotState, Yarn

FELLSIDE = Yarn(1, "", "Fellside")


def test_a_colour_has_its_number_beside_it() -> None:
    assert colour_name(Lot(12, FELLSIDE, "navy", "07")) == "navy no. 07"
    assert colour_name(Lot(12, FELLSIDE, "", "07")) == "no. 07"


def test_what_is_not_known_is_said() -> None:
    lot = Lot(1, FELLSIDE)

    assert (colour_name(lot), dye_lot(lot)) == ("colour not known", "lot not known")


def test_every_state_of_a_lot_has_words() -> None:
    said = {state: dye_lot(Lot(1, FELLSIDE, lot="7", lot_state=state)) for state in LotState}

    assert said[LotState.NUMBERED] == "lot 7"
    assert said[LotState.CLAIMED_NONE] == "no dye lot"
    assert len({*said.values()}) == len(LotState)
