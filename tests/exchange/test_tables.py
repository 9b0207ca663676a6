"""Raw rows to rows under our own columns: units of headings, titles, totals."""

from __future__ import annotations

import pytest

from stash.errors import Unreadable
from stash.exchange.tables import read_table, with_unit
from stash.parsing.headings import KnownHeadings, mapped


@pytest.mark.parametrize(
    ("column", "text", "unit", "read"),
    [
        ("mass", "50", "g", "50 g"),
        ("mass", "1¾", "oz", "1¾ oz"),
        ("length", "2 400", "m", "2 400 m"),
        ("length", "~200", "yd", "~200 yd"),
        ("length", "about 200", "yd", "about 200 yd"),
        ("mass", "50 g", "oz", "50 g"),
        ("full", "50g/125m", "g", "50g/125m"),
        ("left", "1/2", "g", "1/2"),
        ("left", "½", "oz", "½ oz"),
        ("left", "half", "g", "half"),
        ("mass", "?", "g", "?"),
        ("length", "200", "", "200"),
        ("paid", "4,95 €", "each", "4,95 € each"),
        ("paid", "€4.50 ea", "each", "€4.50 ea"),
        ("paid", "-", "each", "-"),
    ],
)
def test_a_unit_in_the_heading_is_that_of_bare_figures(
    column: str, text: str, unit: str, read: str
) -> None:
    assert with_unit(column, text, unit) == read


def test_rows_carry_the_units_of_their_headings() -> None:
    table = read_table("a.csv", b"yarn,weight (g),yardage\nDunmarle,50,137\nTansel,2 oz,100 m\n")

    assert [row.cells for row in table.rows] == [
        {"yarn": "Dunmarle", "mass": "50 g", "length": "137 yd"},
        {"yarn": "Tansel", "mass": "2 oz", "length": "100 m"},
    ]


def test_one_text_across_a_whole_row_is_a_title_and_said() -> None:
    table = read_table("a.csv", b"yarn,lot,place\nDK,DK,DK\nDunmarle,1,box\n")

    assert [row.line for row in table.rows] == [3]
    assert [(note.line, note.text) for note in table.notes] == [(2, "skipped, a title ('DK')")]


def test_a_sheet_with_headings_of_its_own_is_read_once_they_are_mapped() -> None:
    data = b"Garn;Farbe\nDunmarle;grau\n"

    with pytest.raises(Unreadable, match="no_sheet_of_columns"):
        read_table("a.csv", data)
    table = read_table("a.csv", data, KnownHeadings(mapped=mapped(["Garn=yarn", "Farbe=colour"])))

    assert table.rows[0].cells == {"yarn": "Dunmarle", "colour": "grau"}
