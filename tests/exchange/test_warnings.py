"""Notes that keep nothing out: whole columns, and lots that a spreadsheet may have spoilt."""

from __future__ import annotations

from datetime import date

import pytest

from stash.exchange.tables import SheetRow
from stash.exchange.take_in import read_sheet
from stash.exchange.warnings import at_row


def notes(text: str) -> list[str]:
    return [str(note) for note in read_sheet("a.csv", text.encode(), date(2025, 3, 1)).notes]


@pytest.mark.parametrize("lot", ["12-Mar", "2024-03-12", "1E+05", "48213.0", "3/12/2024"])
def test_a_lot_that_looks_like_a_day_or_a_float_is_pointed_at(lot: str) -> None:
    assert [note.line for note in at_row(SheetRow(7, {"lot": lot}))] == [7]


def test_a_lot_that_a_workbook_kept_as_a_number_is_pointed_at() -> None:
    assert [note.column for note in at_row(SheetRow(7, {"lot": "7"}, frozenset({"lot"})))] == [
        "lot"
    ]
    assert at_row(SheetRow(7, {"lot": "7", "count": "3"}, frozenset({"count"}))) == []


def test_a_column_of_bare_figures_gets_one_way_out_for_all_its_rows() -> None:
    told = notes("yarn;length\nDunmarle;125\nTansel;225\n")

    assert told == ['length: which unit? Add --map "length=length m" or --map "length=length yd"']


def test_a_column_with_some_units_needs_no_way_out_for_all() -> None:
    assert notes("yarn;length\nDunmarle;125\nTansel;225 m\n") == []


def test_amounts_beside_a_count_are_said_to_be_those_of_one() -> None:
    (told,) = notes("yarn;count;grams\nDunmarle;3;50\n")

    assert '--map "grams=total mass g"' in told


@pytest.mark.parametrize("heading", ["grams per skein", "total grams"])
def test_a_heading_that_says_whose_its_amounts_are_needs_no_note(heading: str) -> None:
    assert notes(f"yarn;count;{heading}\nDunmarle;3;150\n") == []


def test_amounts_of_single_skeins_need_no_note() -> None:
    assert notes("yarn;count;grams\nDunmarle;1;50\n") == []


def test_thicknesses_in_names_are_told_once() -> None:
    told = notes("yarn;put up\nDunmarle DK;50g\nTansel aran;50g\nLoam;50g\n")

    assert told == ["thickness: from the yarn's name in 2 rows, 'Dunmarle DK' as DK (3)"]


def test_a_blend_that_does_not_come_to_the_whole_is_pointed_at() -> None:
    found = at_row(SheetRow(7, {"fibre": "60% cotton, 38% acrylic"}))

    assert [(note.line, note.column) for note in found] == [(7, "fibre")]
    assert "98%" in found[0].text
    assert at_row(SheetRow(7, {"fibre": "75% wool, 25% nylon"})) == []
