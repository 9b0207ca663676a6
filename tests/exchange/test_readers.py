"""Bytes to rows: encodings, separators, and what people put around their rows."""

from __future__ import annotations

import io
from datetime import datetime
from pathlib import Path

import pytest
from openpyxl import Workbook

from stash.errors import FileTrouble, Unreadable
from stash.exchange.readers import text_of
from stash.exchange.tables import SheetRow, read_table

SHEETS = Path(__file__).parents[2] / "fixtures" / "sheets"
PLAIN = "yarn,colour,lot\nDunmarle,grès,48213/B\n"


def rows(text: str) -> list[SheetRow]:
    return list(read_table("a.csv", text.encode()).rows)


def workbook(*sheets: list[list[object]]) -> bytes:
    book = Workbook()
    book.remove(book.worksheets[0])
    for lines in sheets:
        sheet = book.create_sheet()
        for line in lines:
            sheet.append(line)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]
)
def test_every_encoding_gives_the_same_row(encoding: str) -> None:
    # the encoders are Python's own codecs
    found = read_table("a.csv", PLAIN.encode(encoding)).rows

    assert found == (SheetRow(2, {"yarn": "Dunmarle", "colour": "grès", "lot": "48213/B"}),)


def test_windows_letters_are_those_of_the_published_table() -> None:
    # Unicode consortium's table CP1252.TXT: 0x80 is the euro sign, 0x92 a right single quote
    text, encoding = text_of("a.csv", b"4,95 \x80 weaver\x92s")

    assert (text, encoding) == ("4,95 \u20ac weaver\u2019s", "cp1252")


def test_a_guessed_encoding_is_said() -> None:
    table = read_table("a.csv", PLAIN.encode("cp1252"))

    assert [note.line for note in table.notes] == [0]
    assert "Windows text" in table.notes[0].text


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_separator_is_found_from_the_headings(separator: str) -> None:
    text = separator.join(("yarn", "lot", "note")) + "\n" + separator.join(("Dunmarle", "7", "x"))

    assert rows(text)[0].cells == {"yarn": "Dunmarle", "lot": "7", "note": "x"}


def test_commas_inside_cells_do_not_mislead_the_separator() -> None:
    found = rows("a list, of yarn, and lots, by place\nyarn;put up;paid\nDunmarle;1,5 oz;4,95\n")

    assert found[0].cells == {"yarn": "Dunmarle", "full": "1,5 oz", "paid": "4,95"}


def test_a_quoted_cell_may_hold_the_separator_quotes_and_a_line_end() -> None:
    # RFC 4180, section 2, rules 5 to 7
    found = rows('yarn,put_up,note\n"Dun, marle","8"" wide","first\nsecond"\nTansle,50g,\n')

    assert found[0].cells == {"yarn": "Dun, marle", "full": '8" wide', "note": "first\nsecond"}
    assert [row.line for row in found] == [2, 4]


def test_a_quotation_mark_left_open_swallows_nothing_unseen() -> None:
    with pytest.raises(Unreadable, match="quotation_out_of_place"):
        rows('yarn,lot\nDunmarle,1\n"Dunmarle,2\nDunmarle,3\n')


def test_a_title_empty_rows_repeated_headings_and_totals_are_passed_over() -> None:
    table = read_table(
        "a.csv",
        b"Shelf in May,,\n,,\nyarn,lot,qty\nDunmarle,1,2\n,,\nyarn,lot,qty\nTansle,2,3\nTotal,,5\n",
    )

    assert [(row.line, row.cells["yarn"]) for row in table.rows] == [(4, "Dunmarle"), (7, "Tansle")]
    assert [(note.line, note.column) for note in table.notes] == [(8, "")]


@pytest.mark.parametrize("first", ["Total", "TOTALS:", "sum", "Grand total", "Sub-total"])
def test_rows_of_totals_are_known_by_their_first_cell(first: str) -> None:
    assert rows(f"yarn,qty\nDunmarle,2\n{first},2\n,{first}\n")[-1].cells["yarn"] == "Dunmarle"


def test_a_yarn_may_have_total_in_its_name() -> None:
    assert rows("yarn,qty\nTotal eclipse,2\n")[0].cells["yarn"] == "Total eclipse"


def test_spaces_of_every_kind_around_a_cell_are_dropped() -> None:
    found = rows("yarn\u00a0, lot\u2009\n\u00a0Dunmarle \u202f,\ufeff7 \n")

    assert found[0].cells == {"yarn": "Dunmarle", "lot": "7"}


def test_see_above_takes_the_cell_above() -> None:
    found = rows('yarn,lot\nDunmarle,48213\nsee above,""""\nditto,48214\n')

    assert [tuple(row.cells.values()) for row in found] == [
        ("Dunmarle", "48213"),
        ("Dunmarle", "48213"),
        ("Dunmarle", "48214"),
    ]


def test_a_decimal_comma_that_split_a_cell_is_a_finding() -> None:
    table = read_table("a.csv", b"yarn,put_up\nDunmarle,1,5 oz\nDunmarle,50g,\n")

    assert [finding.line for finding in table.findings] == [2]
    assert [row.line for row in table.rows] == [3]


def test_headings_that_are_not_ours_are_left_out_and_said() -> None:
    table = read_table("a.csv", b"Yarn,Lot,Mood\nDunmarle,7,gay\n")

    assert [(head.theirs, head.meaning.column) for head in table.headings] == [
        ("Yarn", "yarn"),
        ("Lot", "lot"),
    ]
    assert [(note.line, note.column) for note in table.notes] == [(1, "Mood")]


def test_the_first_of_two_headings_for_one_column_counts() -> None:
    table = read_table("a.csv", b"yarn,color,colour\nDunmarle,moss,pine\n")

    assert table.rows[0].cells["colour"] == "moss"
    assert [note.column for note in table.notes] == ["colour"]


def test_an_xlsx_cell_reads_as_it_was_typed() -> None:
    table = read_table(
        "a.xlsx",
        workbook(
            [["yarn", "qty", "bought", "put up"], ["Dunmarle", 3.0, datetime(2024, 2, 1), 50]]
        ),
    )

    assert table.rows[0].cells == {
        "yarn": "Dunmarle",
        "count": "3",
        "bought": "2024-02-01",
        "full": "50",
    }
    assert table.rows[0].not_text == {"count", "bought", "full"}


def test_a_workbook_counts_its_rows_as_the_person_sees_them() -> None:
    data = workbook([["shelf"], [], ["yarn", "lot"], [None, None], ["Dunmarle", "1"]])

    assert [row.line for row in read_table("a.xlsx", data).rows] == [5]


def test_of_several_sheets_the_one_with_the_most_of_our_headings_is_read() -> None:
    data = workbook(
        [["ideas"]],
        [["yarn", "lot"], ["Tansel", "2"]],
        [["yarn", "lot", "place"], ["Dunmarle", "1", "tin"]],
    )

    table = read_table("a.xlsx", data)

    assert [row.cells["lot"] for row in table.rows] == ["1"]
    assert [note.text for note in table.notes] == [
        "read from the sheet 'Sheet2'; 'Sheet1' was not used"
    ]


def test_of_like_sheets_the_first_is_read() -> None:
    data = workbook([["yarn", "lot"], ["Dunmarle", "1"]], [["yarn", "lot"], ["Tansel", "2"]])

    assert [row.cells["lot"] for row in read_table("a.xlsx", data).rows] == ["1"]


def merged(lines: list[list[object]], *spans: str) -> bytes:
    book = Workbook()
    sheet = book.worksheets[0]
    for line in lines:
        sheet.append(line)
    for span in spans:
        sheet.merge_cells(span)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_a_merged_cell_fills_the_cells_it_spans() -> None:
    # openpyxl writes the value into the first cell alone, as spreadsheets do (ECMA-376, 18.3.1.55)
    data = merged(
        [
            ["Shelf in May", None, None],
            ["yarn", "lot", "place"],
            ["Dunmarle", "1", "tin"],
            [None, "2", None],
            [None, "3", "box"],
            ["In the attic", None, None],
            ["Tansel", "none", None],
            ["Total", None, "3"],
        ],
        *("A1:C1", "A3:A5", "C3:C4", "A6:C6", "B7:C7", "A8:B8"),
    )

    table = read_table("a.xlsx", data)

    assert [tuple(row.cells.values()) for row in table.rows] == [
        ("Dunmarle", "1", "tin"),
        ("Dunmarle", "2", "tin"),
        ("Dunmarle", "3", "box"),
        ("Tansel", "none", "none"),
    ]
    assert [(note.line, note.text) for note in table.notes] == [
        (6, "skipped, a title ('In the attic')"),
        (8, "skipped, a row of totals ('Total')"),
    ]


@pytest.mark.parametrize("name", ["windows_1252.csv", "utf16_tabs.csv", "spoilt_lots.xlsx"])
def test_the_sample_sheets_read(name: str) -> None:
    table = read_table(name, (SHEETS / name).read_bytes())

    assert {row.cells["yarn"] for row in table.rows} == {"Dunmarle"}


@pytest.mark.parametrize(
    "data",
    [
        b"SQLite format 3\x00" + bytes(range(256)),
        b"PK\x03\x04 no archive at all",
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
        b"\xff\xfeodd",
        b"yarn,lot\n\x81\x8d\n",
    ],
)
def test_what_is_no_sheet_is_file_trouble(data: bytes) -> None:
    with pytest.raises(FileTrouble) as trouble:
        read_table("a.bin", data)

    assert trouble.value.path == "a.bin"


@pytest.mark.parametrize("data", [b"", b"dear diary\nno yarn today\n", b"yarn\nDunmarle\n"])
def test_a_text_without_our_headings_is_told_which_to_write(data: bytes) -> None:
    with pytest.raises(Unreadable, match="full"):
        read_table("a.txt", data)


def test_a_workbook_without_our_headings_likewise() -> None:
    with pytest.raises(Unreadable, match="full"):
        read_table("a.xlsx", workbook([["ideas"]]))
