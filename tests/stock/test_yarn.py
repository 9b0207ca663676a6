"""How yarn and lots are named, and what a line of yarn says at least."""

from __future__ import annotations

from stash.stock.incoming import Incoming
from stash.stock.yarn import Lot, LotState, Yarn


def test_a_lot_is_named_by_its_record() -> None:
    lot = Lot(12, Yarn(1, "Ottermeade", "Fellside"), "navy", "07", lot="3a")

    assert (lot.ref, str(lot.yarn)) == ("L12", "Ottermeade Fellside")


def test_a_yarn_without_a_maker_is_its_name() -> None:
    assert str(Yarn(1, "", "Fellside")) == "Fellside"


def test_a_line_is_trimmed_and_a_blank_lot_is_not_known() -> None:
    line = Incoming(" Fellside ", colour=" navy", lot=" 7 ", lot_state=LotState.NUMBERED)
    blank = Incoming("Fellside", lot="  ", lot_state=LotState.NUMBERED)

    assert (line.trimmed().name, line.trimmed().colour, line.trimmed().lot) == (
        "Fellside",
        "navy",
        "7",
    )
    assert blank.trimmed().lot_state is LotState.UNKNOWN
