"""Lists and ranges of items: each call one entry, all of them or none; and lists from a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line


@pytest.fixture
def maker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Maker:
    """Four hats set aside as items 1-4, of the skeins 1-4 and 5-8."""
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))
    maker = Maker(tmp_path / "shelf.stash")
    maker.does("add", "Fell Wool DK, 4 x 100g/240m, navy, lot 1")
    maker.does("add", "Fell Wool DK, 4 x 100g/240m, oatmeal, lot 2")
    maker.does("design", "add", "Hat", "--stated", "A=120m", "--stated", "B=24m")
    for number in range(1, 5):
        maker.does("aside", "Hat", "--skeins", f"A={number}", "--skeins", f"B={number + 4}")
    return maker


def states(maker: Maker) -> list[str]:
    return [maker.ask("show", "item", str(n))["state"] for n in range(1, 5)]


def test_a_range_is_one_entry_and_one_undo(maker: Maker) -> None:
    before = maker.entries()
    assert "Items 1-3 are begun" in maker.does("begin", "1-3").out
    assert maker.entries() == before + 1
    assert states(maker) == ["begun", "begun", "begun", "planned"]
    maker.does("undo", "--yes")
    assert states(maker) == ["planned"] * 4
    assert maker.does("check").status == 0


def test_one_colour_of_several_items_is_one_entry(maker: Maker) -> None:
    before = maker.entries()
    maker.does("release", "1-3", "--colour", "B")
    assert maker.entries() == before + 1
    assert [x["skein"] for x in maker.ask("shelf", "--aside")] == [1, 2, 3, 4, 8]
    assert "items 1-3 no longer have yarn set aside for colour B" in maker.ask("log")[0]["words"]


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        (("begin", "1,3,7"), "7"),
        (("done", "2-4", "--as-planned"), "4"),
        (("release", "2-4"), "4"),
        (("unravel", "1-2"), "1"),
        (("sold", "4,1-2", "--for", "28"), "item 1"),
        (("returned", "4,1"), "item 4"),
        (("tag", "4,1"), "1"),
        (("cost", "4,9"), "9"),
    ],
)
def test_a_wrong_item_among_several_is_named_and_nothing_is_written(
    maker: Maker, typed: tuple[str, ...], named: str
) -> None:
    maker.does("done", "4", "--as-planned")
    before = maker.entries()
    said = maker(*typed)
    refused_in_one_line(said, said.status, named)
    assert said.status in (3, 4)
    assert maker.entries() == before


def test_a_whole_batch_is_made_and_sold_in_a_few_commands(maker: Maker) -> None:
    before = maker.entries()
    maker.does("begin", "1-4")
    maker.does("done", "1-4", "--as-planned", "--hours", "2h10")
    said = maker.does("sold", "1,3-4", "--for", "28", "--fee", "1.50")
    assert "84.00 earned in all, less 4.50 in fees" in said.out
    assert maker.entries() == before + 3
    assert [one["batch"] for one in maker.ask("tag", "1-4")] == [1, 2, 3, 4]
    costs = maker.ask("cost", "1-4")
    assert [one["item"] for one in costs] == [1, 2, 3, 4]
    assert {one["hours_taken"] for one in costs} == {2 + 10 / 60}
    maker.does("returned", "3-4")
    assert maker.does("check").status == 0


@pytest.mark.parametrize(
    ("typed", "way_out"),
    [("4-1", "the lower first, as 1-12"), ("1-9999", "more than 1000 at once")],
)
def test_a_run_that_cannot_be_meant_is_refused(maker: Maker, typed: str, way_out: str) -> None:
    refused_in_one_line(maker("begin", typed), 2, typed, way_out)
    refused_in_one_line(maker("change", typed, "--place", "attic"), 2, typed, way_out)


def test_what_is_of_one_item_is_refused_for_several(maker: Maker) -> None:
    refused_in_one_line(maker("done", "1-2", "--left", "1=40g"), 2, "--left")
    maker.does("done", "1-2", "--as-planned")
    refused_in_one_line(maker("unravel", "1-2", "--weighed", "40g"), 2, "--weighed")


def test_weighings_of_many_items_come_in_one_list(maker: Maker, tmp_path: Path) -> None:
    sheet = tmp_path / "weighed.csv"
    sheet.write_text("item,ball,reading (g)\n1,1,51g\n,5,91 g\n2,2,50\n2,6,90\n")
    before = maker.entries()
    maker.does("done", "--from", str(sheet))
    assert maker.entries() == before + 1
    assert states(maker) == ["done", "done", "planned", "planned"]
    assert maker.skein(1)["held_g"] == 51
    assert maker.skein(6)["held_g"] == 90


def test_a_ball_of_several_items_is_weighed_once(maker: Maker, tmp_path: Path) -> None:
    """By hand: 20 g of skein 5 went into two hats that were to take as much of it."""
    maker.does("release", "2")
    maker.does("aside", "Hat", "--skeins", "A=2", "--skeins", "B=5")
    sheet = tmp_path / "weighed.csv"
    sheet.write_text('items,ball,reading\n1,1,51g\n5,2,50g\n"1,5",5,80g\n')
    before = maker.entries()
    said = maker.does("done", "--from", str(sheet))
    assert maker.entries() == before + 1
    assert maker.skein(5)["held_g"] == 80
    moved = maker.ask("show", "item", "1")["movements"]
    assert [one["change_g"] for one in moved if one["skein"] == 5] == [-10]
    assert "last weighed" not in said.err
    assert maker.does("check").status == 0
    maker.does("undo", "--yes")
    assert maker.skein(5)["held_g"] == 100
    assert maker.does("check").status == 0


def test_a_wrong_row_of_weighings_is_found_and_nothing_is_written(
    maker: Maker, tmp_path: Path
) -> None:
    sheet = tmp_path / "weighed.csv"
    sheet.write_text("Item;Ball;Reading (g)\n1;1;51\n2;2;a lot\n9;3;40\n4;;40\n1;1;50\n")
    before = maker.entries()
    said = maker("done", "--from", str(sheet))
    assert said.status == 2
    for row in (3, 4, 5, 6):
        assert f"weighed.csv: row {row}: " in said.err
    assert maker.entries() == before


def test_a_reading_without_a_unit_is_asked_about_in_a_list_as_at_the_scale(
    maker: Maker, tmp_path: Path
) -> None:
    sheet = tmp_path / "weighed.csv"
    rows = '1,1,"49,5"\n1,5,91g\n'
    sheet.write_text(f"item,ball,reading\n{rows}")
    before = maker.entries()
    said = maker("done", "--from", str(sheet))
    unclear = "'49,5' could be 49,5 g or 49,5 oz"
    assert said.status == 2
    assert f"row 2: {unclear}" in said.err
    assert unclear in maker("weigh", "1", "49,5").err
    assert maker.entries() == before
    sheet.write_text(f"item,ball,grams\n{rows}")
    maker.does("done", "--from", str(sheet))
    assert maker.skein(1)["held_g"] == 49.5


def test_a_market_s_list_is_sold_in_one_entry(maker: Maker, tmp_path: Path) -> None:
    maker.does("done", "1-4", "--as-planned")
    sheet = tmp_path / "market.csv"
    sheet.write_text(
        "item or design,price,fee,note\n3,28,1.5,to a neighbour\nhat,£30,,\nHat,25,,\n"
    )
    before = maker.entries()
    said = maker.does("sold", "--from", str(sheet))
    assert "Items 1-3 are sold" in said.out
    assert maker.entries() == before + 1
    assert maker.ask("show", "item", "3")["note"] == "to a neighbour"


def test_a_wrong_row_of_a_market_s_list_is_found_and_nothing_is_written(
    maker: Maker, tmp_path: Path
) -> None:
    maker.does("done", "1-2", "--as-planned")
    sheet = tmp_path / "market.csv"
    rows = "1,28,", "1,28,", "2,,", "Fez,20,", "3,20,", "2,5,6"
    sheet.write_text("\n".join(["what,price,fee", *rows]))
    before = maker.entries()
    said = maker("sold", "--from", str(sheet))
    assert said.status == 2
    found = [line.partition(": ")[2] for line in said.err.splitlines()[:-1]]
    assert [one.partition(":")[0] for one in found] == [f"row {n}" for n in (3, 4, 5, 6, 7)]
    assert maker.entries() == before


def test_the_next_batch_and_cost_plan_with_her_own_hours(maker: Maker) -> None:
    maker.does("settings", "hours Hat", "4h")
    maker.does("done", "1", "--as-planned", "--hours", "2h")
    maker.does("done", "2", "--as-planned", "--hours", "3h")
    assert maker.ask("cost", "1")["hours"] == 2
    assert maker.ask("cost", "Hat")["hours"] == 2.5
    maker.does("undo", "--yes")
    assert maker.ask("cost", "Hat")["hours"] == 2


def test_what_was_given_away_comes_back_without_a_refund(maker: Maker) -> None:
    maker.does("done", "1-2", "--as-planned")
    for number in ("1", "2"):
        maker.does("gone", "item", number, "--why", "given")

    said = maker.does("returned", "1-2").out
    assert "Items 1-2 came back" in said
    assert "refunded" not in said
    assert "refunded" not in maker("log").out
    maker.does("gone", "item", "1", "--why", "lost")
    assert "refunded" not in maker.does("returned", "1").out


def test_several_tags_are_printed_as_the_cards_of_one_sheet(maker: Maker, tmp_path: Path) -> None:
    maker.does("done", "1-2", "--as-planned")
    for name in ("tags.txt", "tags.html"):
        maker.does("tag", "1-2", "--print", str(tmp_path / name))
        sheet = (tmp_path / name).read_text()
        assert "item 1, made" in sheet
        assert "item 2, made" in sheet
