"""Dye lots; an unknown lot must never pass for a known one (the house's rule)."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.parsing.label import read
from stash.parsing.label.lots import LotSaid, lot
from stash.stock.yarn import LotState


@pytest.mark.parametrize("text", ["48213/B", "007", "1125 9210", "A 12", "aB-9", "12.5"])
def test_a_lot_is_kept_exactly(text: str) -> None:
    assert lot(text) == lot(f"  lot {text}\u00a0") == LotSaid(LotState.NUMBERED, text)


@pytest.mark.parametrize(
    "text", ["", " ", "-", "–", "?", "??", "n/a", "N/A", "unknown", "not known"]
)
def test_nothing_said_is_unknown(text: str) -> None:
    assert lot(text) == LotSaid(LotState.UNKNOWN)


@pytest.mark.parametrize("text", ["none", "no dye lot", "No Lot", "no dyelot", "none claimed"])
def test_a_claim_of_none_is_not_unknown(text: str) -> None:
    assert lot(text) == LotSaid(LotState.CLAIMED_NONE)


@pytest.mark.parametrize("text", ["same lot as last time (?)", "48213?", "maybe 12", "see above"])
def test_doubt_stays_visible_and_is_no_number(text: str) -> None:
    assert lot(text) == LotSaid(LotState.UNKNOWN, doubt=text)


@pytest.mark.parametrize("text", ["mixed lots 3+2", "two lots", "lots 3 and 4"])
def test_several_lots_are_several_lines(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        lot(text)
    assert refused.value.kind == "several_lots_in_a_field"


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("Fern lot 48213/B navy 50g", "48213/B"),
        ("Fern, dl 1125 9210, 50g", "1125 9210"),
        ("Fern dl 1125 9210 50g/125m", "1125 9210"),
        ("Fern lot 12 3 skeins", "12"),
        ("Fern lot 12 x3", "12"),
        ("Fern lot 7 4 ply", "7"),
        ("Fern lot 7 £3.20 ea", "7"),
        ("Fern (lot 77)", "77"),
        ("Fern; Lot no. 0042", "0042"),
        ("Fern, dye lot: 12-B, teal", "12-B"),
        ("Fern, batch 7/A", "7/A"),
    ],
)
def test_a_lot_in_a_line_ends_where_something_else_begins(line: str, text: str) -> None:
    found = read(line).incoming
    assert (found.lot, found.lot_state) == (text, LotState.NUMBERED)


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("Fern, no dye lot, 50g", LotState.CLAIMED_NONE),
        ("Fern, lot: none, 50g", LotState.CLAIMED_NONE),
        ("Fern, lot unknown, 50g", LotState.UNKNOWN),
        ("Fern, no lot number, 50g", LotState.UNKNOWN),
        ("Fern, lot ?, 50g", LotState.UNKNOWN),
        ("Fern, lot 48213?, 50g", LotState.UNKNOWN),
        ("Fern, a lot of wool, 50g", LotState.UNKNOWN),
    ],
)
def test_a_line_without_a_number_says_which_kind(line: str, state: LotState) -> None:
    found = read(line).incoming
    assert (found.lot, found.lot_state) == ("", state)


def test_one_lot_or_another_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        read("Fern, lot 12 or 13")
    assert asked.value.readings == ("lot 12", "lot 13")


def test_two_lots_in_a_line_are_refused() -> None:
    with pytest.raises(Unreadable):
        read("Fern, lot 3, lot 4")
