"""A sheet dropped in: looked at row by row, answered, brought in; and what is no sheet."""

from __future__ import annotations

import io
import re
from pathlib import Path
from urllib.parse import quote

import pytest
from commands import Maker
from pages import Browser, Page

from stash.web.uploads import MOST, MOST_BYTES, Uploads

SHEET = (
    b"yarn,Farbe,lot,skeins,weight,length\n"
    b"Greycairn DK,pine,4821,2,100 g,230 m\n"
    b"Otter Fen,sage,407,1,50,112 m\n"
    b"Burnet Aran,plum,14,x,100 g,170 m\n"
)


def drops(browser: Browser, data: bytes, name: str = "yarn.csv") -> Page:
    """Choose a file and look at it."""
    form = browser.opens("/sheet").form("/sheet")
    return browser.presses(form, {"sheet": (name, io.BytesIO(data))})


def test_a_row_says_what_is_wrong_and_offers_the_readings(browser: Browser) -> None:
    page = drops(browser, SHEET)
    assert "1 of 3 rows are ready, 2 skeins. 2 need a look" in page.text
    assert {"50 g", "50 oz", "Leave row 4 out"} <= page.links.keys()
    assert "cannot read 'x' as a count" in page.text.replace("Cannot", "cannot")


def test_answered_rows_come_in_with_the_others(browser: Browser, demo: Maker) -> None:
    page = drops(browser, SHEET)
    answered = browser.opens(page.links["50 g"])
    whole = browser.opens(answered.links["Leave row 4 out"])
    assert "2 rows, 3 skeins. Nothing is saved yet" in whole.text
    done = browser.presses(whole.form("/sheet/bring"))
    assert "Brought in 3 skeins in 2 lots from yarn.csv" in done.source
    assert demo.skein(132)["held_g"] == 50


def test_the_good_rows_alone_can_come_in(browser: Browser, demo: Maker) -> None:
    page = drops(browser, SHEET)
    browser.presses(page.form("/sheet/bring", rows="good"))
    assert demo.ask("show", "131")["yarn"] == "Greycairn DK"
    assert demo("show", "132").status == 3


def test_a_heading_is_read_as_she_says(browser: Browser, demo: Maker) -> None:
    page = drops(browser, SHEET.replace(b",x,", b",1,").replace(b",50,", b",50 g,"))
    number = page.address.rpartition("/")[2]
    said = browser.opens(f"/sheet/{number}?map={quote('Farbe=colour')}")
    browser.presses(said.form("/sheet/bring"))
    assert demo.ask("show", "130")["colour"] == "pine"


def test_headings_read_so_anyway_are_not_said_again(browser: Browser) -> None:
    number = drops(browser, SHEET).address.rpartition("/")[2]
    maps = [("lot", "lot"), ("Farbe", ""), ("yarn", "yarn"), ("skeins", "count")]
    query = "&".join(f"map={quote(f'{one}={other}')}" for one, other in maps)
    assert "map=" not in browser.opens(f"/sheet/{number}?{query}").address


def test_the_same_file_twice_is_refused_in_place(browser: Browser, demo: Maker) -> None:
    data = SHEET.replace(b",x,", b",1,").replace(b",50,", b",50 g,")
    browser.presses(drops(browser, data).form("/sheet/bring"))
    before = demo.entries()
    again = browser.presses(drops(browser, data).form("/sheet/bring"))
    assert "was imported before" in again.text
    assert demo.entries() == before


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "Cannot read"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00", "not a sheet"),
        (b"PK\x03\x04broken", "cannot be opened"),
        (b"\xd0\xcf\x11\xe0old", "old kind of spreadsheet"),
        (b"just words\nand more", "Cannot read"),
    ],
)
def test_what_is_no_sheet_is_said_in_one_line(browser: Browser, data: bytes, words: str) -> None:
    page = drops(browser, data)
    assert page.address.partition("?")[0].endswith("/sheet")
    assert 'role="alert"' in page.source
    assert words in page.text


def test_no_file_at_all_is_said(browser: Browser) -> None:
    page = browser.presses(browser.opens("/sheet").form("/sheet"))
    assert "choose a file first" in page.text.replace("Choose", "choose")


def test_more_than_is_read_at_once_is_refused(browser: Browser) -> None:
    page = drops(browser, b"yarn,lot\n" + b"x" * 5_000_000)
    assert page.status == 413
    assert "more than the page takes at once" in page.source


def test_formulas_and_hostile_names_are_harmless(browser: Browser) -> None:
    data = b'yarn,lot,weight\n"=HYPERLINK(""x"")",<script>alert(1)</script>,50 g\n'
    page = drops(browser, data, name="../../etc/<b>pass\u202ewd.csv")
    assert "<script>alert" not in page.source
    assert "<b>" not in page.source
    assert "etc" not in page.text


def test_a_sheet_that_is_kept_no_more_says_so(browser: Browser) -> None:
    page = browser.opens("/sheet/unknown")
    assert "not kept any more" in page.text


def test_only_so_many_sheets_are_kept_and_so_many_bytes() -> None:
    uploads = Uploads()
    numbers = [uploads.keep("a.csv", b"x") for _ in range(MOST + 1)]
    assert uploads.find(numbers[0]) is None
    assert uploads.find(numbers[1]) is not None
    large = [uploads.keep("b.csv", b"x" * (MOST_BYTES // 2)) for _ in range(3)]
    assert [uploads.find(one) is None for one in large] == [True, False, False]


def test_what_cannot_be_read_is_answered_in_a_field_of_its_row(
    browser: Browser, demo: Maker
) -> None:
    page = drops(browser, SHEET.replace(b",50,", b",50 g,"))
    form = page.form(page.address.split("8000")[1].split("?")[0], of="4|count")
    whole = browser.presses(form, answer="2")
    assert "3 rows, 5 skeins. Nothing is saved yet" in whole.text
    browser.presses(whole.form("/sheet/bring"))
    assert demo.ask("show", "133")["yarn"] == "Burnet Aran"


def test_a_finding_names_columns_as_she_does(browser: Browser, demo: Maker, tmp_path: Path) -> None:
    data = b"Yarn,Shade,Grammes each,Metres each\nFen DK,teal,heavy,long\nFen DK,moss,50 g,120 m\n"
    page = drops(browser, data)
    assert not re.search(r"\b(?:mass|total_\w+|length):", page.text)
    assert "Grammes each: cannot read" in page.text.replace("Cannot", "cannot")
    assert "“thickness”" not in page.text
    sheet = tmp_path / "s.csv"
    sheet.write_bytes(data)
    said = demo("import", str(sheet), "--preview")
    assert "row 2, Grammes each, Metres each: Grammes each: cannot read" in said.out + said.err
