"""The heading row: where it is, what is taken for what, and what is said of the rest."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from stash.errors import BadInput
from stash.exchange.header import HeadingRow, heading_place, read_headings
from stash.parsing.headings import KnownHeadings, mapped


def read(*cells: str, below: Sequence[Sequence[str]] = (), maps: Sequence[str] = ()) -> HeadingRow:
    return read_headings(1, cells, below, KnownHeadings(mapped=mapped([*maps])))


def taken(row: HeadingRow) -> dict[str, str]:
    return {head.theirs: str(head.meaning) for head in row.taken}


def said(row: HeadingRow) -> dict[str, str]:
    return {note.column: note.text for note in row.notes}


def test_headings_come_in_any_order_and_wording() -> None:
    row = read("Where", "Dye Lot", "Colour", "Quality")

    assert taken(row) == {"Where": "place", "Dye Lot": "lot", "Colour": "colour", "Quality": "yarn"}
    assert row.notes == ()


def test_a_guess_is_taken_and_told_with_both_ways_out() -> None:
    row = read("yarn", "Colur")

    assert taken(row)["Colur"] == "colour"
    assert '--map "Colur=colour"' in said(row)["Colur"]
    assert '--map "Colur="' in said(row)["Colur"]


def test_a_doubtful_guess_is_left_out_by_name() -> None:
    row = read("yarn", "Colour code")

    assert taken(row) == {"yarn": "yarn"}
    assert "if it is the colour_no" in said(row)["Colour code"]


def test_one_column_is_taken_once_and_the_surest_heading_wins() -> None:
    row = read("Colur", "Shade", "Color", "yarn")

    assert taken(row) == {"Shade": "colour", "yarn": "yarn"}
    assert "'Shade' is the colour already" in said(row)["Colur"]
    assert "'Shade' is the colour already" in said(row)["Color"]


def test_map_overrules_every_word() -> None:
    row = read("Colour", "Shade", "yarn", maps=["Shade=colour_no", "Colour=note", "yarn="])

    assert taken(row) == {"Colour": "note", "Shade": "colour_no"}
    assert said(row)["yarn"] == "left out, as you asked"


def test_what_was_said_of_a_heading_wins_its_column() -> None:
    assert taken(read("Colour", "Farbe", maps=["Farbe=colour"])) == {"Farbe": "colour"}


@pytest.mark.parametrize(
    ("maps", "kind"),
    [
        (["Mood=note"], "no_heading_of_this_sheet"),
        (["yarn=colour", "Colour=colour"], "column_mapped_twice"),
    ],
)
def test_a_map_that_cannot_be_followed_is_refused(maps: list[str], kind: str) -> None:
    with pytest.raises(BadInput, match=kind):
        read("yarn", "Colour", maps=maps)


@pytest.mark.parametrize(
    ("cells", "column"),
    [(("DK", "4", "worsted"), "thickness"), (("50 g", "", "1¾ oz", "50"), "mass")],
)
def test_a_column_headed_weight_is_what_its_cells_say(cells: tuple[str, ...], column: str) -> None:
    row = read("yarn", "Weight", below=[["x", cell] for cell in cells])

    assert taken(row)["Weight"] == column


@pytest.mark.parametrize("cells", [("4", "3"), ("DK", "50 g"), ()])
def test_a_column_headed_weight_that_may_be_either_is_left_out(cells: tuple[str, ...]) -> None:
    row = read("yarn", "Weight", below=[["x", cell] for cell in cells])

    assert taken(row) == {"yarn": "yarn"}
    assert '--map "Weight=mass g" or --map "Weight=thickness"' in said(row)["Weight"]


def test_the_row_that_names_the_most_columns_is_the_heading_row() -> None:
    rows = [["My yarn", "place"], ["yarn", "lot", "Colour"], ["lot", "yarn", "place"]]

    assert heading_place(rows, KnownHeadings()) == (1, 3)


def test_misspelt_headings_count_only_where_none_are_spelt_right() -> None:
    assert heading_place([["yarnn", "colur", "lott"], ["yarn", "lot"]], KnownHeadings()) == (1, 2)
    assert heading_place([["a list"], ["yarnn", "colur"]], KnownHeadings()) == (1, 2)


def test_headings_that_were_mapped_make_a_heading_row() -> None:
    known = KnownHeadings(mapped=mapped(["Garn=yarn"]), kept=mapped(["Farbe=colour"]))

    assert heading_place([["Garn", "Farbe"]], known) == (0, 2)
    assert heading_place([["Garn", "Farbe"]], KnownHeadings())[1] == 0


@pytest.mark.parametrize(
    ("heading", "cells", "others", "column"),
    [
        ("Amount", ("3 skeins", "1 skein"), (), "count"), ("Amount", ("2", "1", "12"), (), "count"),
        ("Amount", ("35 g", "20g"), ("Full skein",), "left"),
        ("Amount", ("350 g",), (), "total_mass"),
        ("Amount", ("80 yd", "1.5 m"), ("Put-up",), "left"), ("Amount", ("€3", "€4"), (), "paid"),
        ("Total", ("24.00", "2,40", "8.00 each"), (), "paid"),
        ("Total", ("350 g",), (), "total_mass"),
        ("How much", ("60 yd",), ("Skein weight",), "left"),
        ("Total", ("9", "12"), ("Price",), "paid"),
    ],
)  # fmt: skip
def test_an_amount_is_what_its_cells_say(
    heading: str, cells: tuple[str, ...], others: tuple[str, ...], column: str
) -> None:
    row = read("yarn", heading, *others, below=[["x", cell] for cell in cells])

    assert taken(row)[heading] == column


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Amount", ("50", "100")),
        ("Amount", ("2", "35 g")),
        ("Total", ("12", "3")),
        ("Total", ()),
        ("Amount", ("1.50", "0.50")),
    ],
)
def test_an_amount_that_may_be_several_things_is_left_out_with_ways_out(
    heading: str, cells: tuple[str, ...]
) -> None:
    row = read("yarn", heading, below=[["x", cell] for cell in cells])

    assert heading not in taken(row)
    assert f'--map "{heading}=count"' in said(row)[heading]
