"""`stash items`: each item with its state, its next step and its figures."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
from commands import Maker, at_a_terminal, refused_in_one_line
from openpyxl import load_workbook

#: As the contract names them.
KEYS = {
    *("number", "design", "size", "state", "since", "colours", "next", "cost", "asked", "hours"),
    *("order", "sold_for", "sold_on"),
}


@pytest.fixture
def maker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Maker:
    """One item of each state: 1 sold, 2 done, 3 begun, 4 planned, 5 yarn held under a note."""
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))
    maker = Maker(tmp_path / "shelf.stash")
    maker.does("settings", "currency", "GBP")
    maker.does("add", "Fell Wool DK, 5 x 100g/240m, navy, lot 1", "--paid", "50")
    maker.does("add", "Fell Wool DK, 4 x 100g/240m, oatmeal, lot 2")
    maker.does("design", "add", "Hat", "--stated", "A=120m", "--stated", "B=24m")
    for number in range(1, 5):
        maker.does("aside", "Hat", "--skeins", f"A={number}", "--skeins", f"B={number + 5}")
    maker.does("aside", "--note", "for the class", "--skein", "5", "20g")
    maker.does("done", "1", "--left", "1=52g", "--left", "6=90g", "--hours", "2h10")
    maker.does("done", "2", "--as-planned")
    maker.does("begin", "3")
    maker.does("sold", "1", "--for", "28")
    return maker


def test_each_item_stands_with_its_next_step(maker: Maker) -> None:
    found = {one["number"]: one for one in maker.ask("items")}
    assert all(one.keys() >= KEYS for one in found.values())
    today = date.today().isoformat()
    assert [one["state"] for one in found.values()] == [
        "done",
        "done",
        "begun",
        "planned",
        "planned",
    ]
    assert found[1]["next"] == f"sold on {today}"
    assert found[2]["next"] == "sell it"
    assert found[3]["next"] == "weigh the part balls of A and B"
    assert found[4]["next"] == "begin it"
    assert (found[1]["sold_for"], found[1]["sold_on"], found[1]["hours"]) == (28, today, 2 + 1 / 6)
    assert found[3]["colours"] == ["navy", "oatmeal"]
    assert found[5]["note"] == "for the class"


def test_the_next_step_of_a_begun_item_follows_the_scale(maker: Maker) -> None:
    maker.does("weigh", "3", "60g", "--opened")
    assert maker.ask("items", "--open")[0]["next"] == "weigh the part ball of B"
    maker.does("weigh", "8", "95g", "--opened")
    assert maker.ask("items", "--open")[0]["next"] == "finish: weigh what is left"


def test_cost_is_that_of_the_yarn_so_far(maker: Maker) -> None:
    """By hand: 48 g of 100 g at 10.00; nothing is known of what the other colour cost."""
    found = maker.ask("items")[0]
    assert (found["cost"], found["cost_at_least"]) == (4.8, True)


def test_a_cost_of_which_no_price_is_known_is_none_and_not_nothing(maker: Maker) -> None:
    maker.does("add", "Fell Wool DK, 2 x 100g/240m, rust, lot 3")
    maker.does("aside", "Hat", "--skeins", "A=10", "--skeins", "B=11")
    maker.does("done", "6", "--as-planned")

    found = maker.ask("items")[-1]
    assert found["cost"] is None
    assert found["cost_at_least"] is True
    said = maker.does("items").out
    assert "not known" in said
    assert "`stash cost 1`" in said
    assert maker.ask("cost", "6")["yarn_coins"] is None
    assert maker.ask("show", "item", "6")["yarn_coins"] is None
    assert "£0.00" not in said + maker.does("cost", "2,6").out + maker.does("show", "item", "6").out


def test_where_every_price_is_known_nothing_is_said_of_prices(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 100g/240m, navy, lot 1", "--paid", "10 EUR")
    nobody.does("design", "add", "Band", "--stated", "A=60m")
    nobody.does("aside", "Band")
    assert "not known" not in nobody.does("items").out
    nobody.does("done", "Band", "--as-planned")

    said = nobody.does("items").out
    assert "€2.50" in said  # by hand: 60 of 240 m at 10.00
    assert "not known" not in said


def test_at_a_terminal_no_line_is_wider_than_it(maker: Maker) -> None:
    """A name and colours as long as they come, every column used, at 80 places."""
    maker.does("design", "change", "Hat", "--name", "Winter hat with a fold-up brim")
    maker.does("order", "add", "aunt", "Winter hat", "--by", "2999-12-12", "--price", "1000")
    maker.does("change", "item", "3", "--order", "1", "--asked", "1000", "--note", "ring first")
    status, screen = at_a_terminal(maker.file, "", "items")

    assert status == 0, screen
    lines = screen.replace("\r", "").splitlines()
    assert max(map(len, lines)) <= 80
    piped = maker.does("items").out
    for words in ("navy + oatmeal", "weigh the part balls of A and B", "ring first", "2 h 10 min"):
        assert words in screen
        assert words in piped
    assert len(piped.splitlines()) == 1 + 5 + 2


@pytest.mark.parametrize(
    ("option", "numbers"),
    [("--open", [3, 4, 5]), ("--finished", [1, 2]), ("--unsold", [2]), ("--sold", [1])],
)
def test_the_list_can_be_narrowed(maker: Maker, option: str, numbers: list[int]) -> None:
    assert [one["number"] for one in maker.ask("items", option)] == numbers


def test_the_list_is_read_by_people(maker: Maker) -> None:
    said = maker.does("items").out
    assert "navy + oatmeal" in said
    assert "5 items: 2 planned, 1 begun, 1 done and not sold, 1 sold" in said
    refused_in_one_line(maker("items", "--open", "--sold"), 2, "--open, --sold")


def test_the_list_is_saved_with_numbers_as_numbers(maker: Maker, tmp_path: Path) -> None:
    maker.does("items", "--save", str(tmp_path / "items.xlsx"))
    sheet = load_workbook(tmp_path / "items.xlsx").active
    assert sheet is not None
    head, first, *_ = sheet.iter_rows(values_only=True)
    row = dict(zip(head, first, strict=True))
    assert (row["number"], row["sold_for"], row["cost"]) == (1, 28, 4.8)
    maker.does("items", "--save", str(tmp_path / "items.csv"))
    assert len((tmp_path / "items.csv").read_text().splitlines()) == 6
    refused_in_one_line(maker("items", "--save", str(tmp_path / "items.pdf")), 2, ".xlsx")


def test_an_item_that_is_not_there_points_to_the_list(maker: Maker) -> None:
    refused_in_one_line(maker("begin", "99"), 3, "`stash items`")


@pytest.mark.parametrize(("why", "words"), [("given", "given away"), ("lost", "lost")])
def test_what_went_without_a_buyer_is_neither_sold_nor_to_be_sold(
    maker: Maker, why: str, words: str
) -> None:
    maker.does("gone", "item", "2", "--why", why)

    found = {one["number"]: one for one in maker.ask("items")}
    assert found[2]["next"] == f"{words} on {date.today().isoformat()}"
    assert found[2]["sold_for"] is None
    assert maker.ask("items", "--unsold") == []
    assert [one["number"] for one in maker.ask("items", "--sold")] == [1]
    assert "1 sold, 1 given away or lost" in maker.does("items").out


def test_the_order_of_an_item_stands_with_it(maker: Maker) -> None:
    maker.does("order", "add", "aunt", "Hat", "--by", "2999-12-12", "--count", "3")
    maker.does("change", "item", "3-4", "--order", "1")

    assert [one["order"] for one in maker.ask("items")] == [None, None, 1, 1, None]


def test_an_item_is_shown_with_what_was_planned_and_what_it_took(maker: Maker) -> None:
    maker.does("order", "add", "aunt", "Hat", "--by", "2999-12-12", "--price", "32")
    maker.does("change", "item", "1", "--order", "1", "--asked", "30", "--hours", "2h10")

    found = maker.ask("show", "item", "1")
    assert (found["asked_coins"], found["order"]) == (3000, 1)
    assert (found["hours"], found["hours_taken"], found["hours_planned"]) == (13 / 6, 13 / 6, None)
    said = maker.does("show", "item", "1").out
    assert "asked for it: £30.00, took 2 h 10 min" in said
    assert "for order 1 (aunt), by 2999-12-12" in said


def test_hours_are_written_in_one_way_on_every_screen(maker: Maker) -> None:
    """Item 1 took 2 h 10 min and is sold; for item 3 two hours are planned."""
    planned = maker.does("change", "item", "3", "--hours", "2:00").out
    listed = maker.does("items").out
    sold = maker.does("sales").out
    settled = maker.does("settings", "hours hat", "2h").out
    said = "\n".join([planned, listed, sold, settled, maker.does("show", "item", "1").out])

    assert "hours set to 2 h" in planned
    assert "2 h 10 min" in listed
    assert "2 h planned" in listed
    assert "2 h 10 min" in sold
    assert not re.findall(r"\b\d+:\d\d\b|\b\d+h\d*\b|\d\.\d+ h\b", said)


def test_a_sheet_has_hours_to_the_hundredth_and_no_words_of_a_program(
    maker: Maker, tmp_path: Path
) -> None:
    saved = tmp_path / "items.csv"
    maker.does("items", "--save", str(saved))
    maker.does("items", "--save", str(tmp_path / "items.xlsx"))
    sheet = load_workbook(tmp_path / "items.xlsx").active
    assert sheet is not None
    head, first, *_ = sheet.iter_rows(values_only=True)

    for text in (saved.read_text(), maker.does("sales", "--as", "csv").out):
        assert "2.17" in text
        assert not re.findall(r"\b(?:True|False|None)\b|2\.16", text)
    assert dict(zip(head, first, strict=True))["hours"] == 2.17
    assert maker.ask("items")[0]["hours"] == pytest.approx(130 / 60)
