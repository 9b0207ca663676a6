"""How yarn, colour and lot are named."""

from __future__ import annotations

from stash.stock.incoming import Incoming
from stash.stock.yarn import Lot, LotState, Yarn


def test_a_lot_is_named_by_its_record() -> None:
    lot = Lot(12, Yarn(1, "Ottermeade", "Fellside"), "navy", "07", lot="3a")

    assert (lot.ref, str(lot.yarn), lot.colour_words) == (
        "L12",
        "Ottermeade Fellside",
        "navy no. 07",
    )


def test_what_is_not_known_is_said() -> None:
    lot = Lot(1, Yarn(1, "", "Fellside"))

    assert (str(lot.yarn), lot.colour_words, lot.lot_words) == (
        "Fellside",
        "colour not known",
        "lot not known",
    )


def test_every_state_of_a_lot_has_words() -> None:
    said = {
        state: Lot(1, Yarn(1, "", "Fellside"), lot="7", lot_state=state).lot_words
        for state in LotState
    }
    assert said[LotState.NUMBERED] == "lot 7"
    assert said[LotState.CLAIMED_NONE] == "no dye lot claimed"
    assert len({*said.values()}) == len(LotState)


def test_a_line_is_trimmed_and_a_blank_lot_is_not_known() -> None:
    line = Incoming(" Fellside ", colour=" navy", lot=" 7 ", lot_state=LotState.NUMBERED)
    blank = Incoming("Fellside", lot="  ", lot_state=LotState.NUMBERED)

    assert (line.trimmed().name, line.trimmed().colour, line.trimmed().lot) == (
        "Fellside",
        "navy",
        "7",
    )
    assert blank.trimmed().lot_state is LotState.UNKNOWN
