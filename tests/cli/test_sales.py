"""Sales by period, yarn that was sold, items that went without a buyer, and the year, as typed."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

import pytest
from commands import Maker, refused_in_one_line
from sums import Workbook


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    """Items 1-3: hats of 40 g at 10.00 for 100 g and 10 g of a gift; 2 h each, sundries of 0.50."""
    nobody.does("settings", "currency", "EUR")
    nobody.does("settings", "sundries", "0.50")
    nobody.does("settings", "hours hat", "2h")
    nobody.does("add", "Fell Wool DK, 3 x 100g/240m, navy, lot 1", "--paid", "30")
    nobody.does("add", "Loamy DK 100g/240m, plum, lot 2", "--paid", "0")
    nobody.does("add", "Ottermeade DK 100g/240m, teal, lot 3")
    stated = ("--stated", "A=100m", "--stated", "B=20m", "--thickness", "DK")
    nobody.does("design", "add", "Hat", *stated)
    for number in (1, 2, 3):
        nobody.does("aside", "Hat", "--skeins", f"A={number}", "--skeins", "B=4")
        left = ("--left", f"{number}=60g", "--left", f"4={100 - 10 * number}g")
        nobody.does("done", str(number), *left)
    return nobody


NUMBERS = ("price", "fee", "yarn", "sundries", "profit")


def sums(found: Any) -> dict[str, float]:
    return {
        name: round(sum(row[name] or 0 for row in found["rows"]), 2) for name in (*NUMBERS, "hours")
    }


def test_a_sale_is_a_row_with_its_profit_and_what_an_hour_earned(seller: Maker) -> None:
    """By hand: 28.00 less 1.20, 4.00 of yarn and 0.50 are 22.30, in 2 h 11.15 each."""
    seller.does("sold", "1", "--for", "28", "--fee", "1.20")

    (row,) = seller.ask("sales")["rows"]
    assert list(row)[:10] == [
        "on", "item", "design", "price", "fee", "yarn", "sundries", "profit", "hours", "per_hour",
    ]  # fmt: skip
    assert (row["item"], row["design"]) == (1, "Hat")
    assert [row[name] for name in NUMBERS] == [28.0, 1.2, 4.0, 0.5, 22.3]
    assert (row["hours"], row["per_hour"]) == (2.0, 11.15)
    assert seller.ask("cost", "1")["sold"]["pays_coins_per_h"] == 1115
    assert "22.30" in seller.does("sales").out


def test_a_return_is_a_row_of_its_own_and_takes_all_but_the_fee_back(seller: Maker) -> None:
    seller.does("sold", "1", "--for", "28", "--fee", "1.20")
    seller.does("returned", "1", "--fee-back", "0.20")
    seller.does("sold", "1", "--for", "26")

    found = seller.ask("sales")
    assert [row["kind"] for row in found["rows"]] == ["sold", "returned", "sold"]
    assert [row["price"] for row in found["rows"]] == [28.0, -28.0, 26.0]
    assert sums(found) == {name: found["totals"][name] for name in (*NUMBERS, "hours")}
    assert found["totals"]["profit"] == 26 - 1.0 - 4.0 - 0.5
    assert found["rows"][1]["per_hour"] is None


def test_yarn_that_was_sold_is_among_the_sales(seller: Maker) -> None:
    """By hand: 20 g at 10.00 for 100 g are 2.00; 6.00 less 0.40 leaves 3.60."""
    said = seller.does("gone", "1", "20g", "--why", "sold", "--for", "6.00", "--fee", "0.40")

    assert "sold for €6.00, less €0.40" in said.out
    (row,) = seller.ask("sales")["rows"]
    assert (row["item"], row["skein"], row["hours"]) == (None, 1, None)
    assert [row[name] for name in NUMBERS] == [6.0, 0.4, 2.0, 0.0, 3.6]
    assert seller.ask("value")["takings_coins"] == 600
    seller.does("undo")
    assert seller.ask("sales")["rows"] == []


def test_what_is_not_known_makes_the_totals_at_least(seller: Maker) -> None:
    seller.does("gone", "5", "30g", "--why", "sold", "--for", "4")
    found = seller.ask("sales")

    assert (found["rows"][0]["yarn"], found["rows"][0]["at_least"]) == (None, True)
    assert (found["totals"]["yarn_at_least"], found["totals"]["price_at_least"]) == (True, False)
    assert "at most 4.00" in seller.does("sales").out
    assert "stash change 5 --paid" in seller.does("sales").err

    seller.does("gone", "1", "10g", "--why", "sold")
    assert seller.ask("sales")["totals"]["price_at_least"]
    assert "with --for" in seller.does("sales").err


@pytest.mark.parametrize(("why", "words"), [("given", "given away"), ("lost", "is lost")])
def test_an_item_goes_without_a_buyer_and_can_come_back(
    seller: Maker, why: str, words: str
) -> None:
    said = seller.does("gone", "item", "2", "--why", why)

    assert words in said.out
    assert seller.ask("sales")["rows"] == []
    (row,) = seller.ask("sales")["unsold"]
    assert (row["kind"], row["item"], row["yarn"]) == (why, 2, 4.0)
    assert seller.ask("value")["items"][f"{why}_cost_coins"] == 400
    assert (
        f"Item 2, Hat, {'was given away' if why == 'given' else 'is lost'}"
        in seller.does("log").out
    )
    refused_in_one_line(seller("sold", "2", "--for", "20"), 4, "stash returned 2")
    refused_in_one_line(seller("gone", "item", "2", "--why", why), 4, "stash returned 2")
    refused_in_one_line(seller("unravel", "2"), 4, "stash returned 2")
    seller.does("check")
    seller.does("returned", "2")
    seller.does("sold", "2", "--for", "20")
    assert seller.ask("value")["items"][f"{why}_cost_coins"] == 0


def test_a_period_has_its_own_sum(seller: Maker) -> None:
    seller.does("sold", "1", "--for", "28")
    seller.does("sold", "2", "--for", "30")

    for by in ("month", "week"):
        (period,) = seller.ask("sales", "--by", by)["periods"]
        assert period["price"] == 58.0
    assert seller.ask("sales", "--by", "all")["periods"] == []
    assert seller.ask("sales", "--to", "2020-01-01")["rows"] == []


def test_the_sheet_of_sales_has_the_rows_that_are_summed(seller: Maker) -> None:
    seller.does("sold", "1", "--for", "28", "--fee", "1.20")
    seller.does("gone", "item", "2", "--why", "given")

    rows = [*csv.DictReader(seller.does("sales", "--as", "csv").out.splitlines())]
    assert [(row["item"], row["profit"]) for row in rows] == [("1", "22.3")]


def test_hours_that_an_item_really_took_come_first(seller: Maker) -> None:
    import sqlite3

    with sqlite3.connect(seller.file) as db:
        db.execute("UPDATE item SET made_minutes = 90 WHERE number = 1")
    seller.does("sold", "1", "--for", "28")

    (row,) = seller.ask("sales")["rows"]
    assert (row["hours"], row["hours_from"]) == (1.5, "noted")


@pytest.mark.parametrize(
    ("typed", "status", "words"),
    [
        (("gone", "1", "--why", "given", "--for", "6"), 4, "--why sold"),
        (("gone", "1", "--why", "sold", "--fee", "1"), 2, "--for 6.00"),
        (("gone", "1", "5g", "--why", "sold", "--for", "6", "--fee", "7"), 4, "fee"),
        (("gone", "1", "5g", "--why", "sold", "--for", "lots"), 2, "money"),
        (("gone", "item", "--why", "given"), 2, "gone item 3"),
        (("gone", "item", "1", "--why", "sold"), 2, "stash sold 1"),
        (("gone", "item", "1", "--why", "spoilt"), 2, "given or lost"),
        (("gone", "item", "1", "--why", "given", "--for", "6"), 2, "stash sold 1"),
        (("gone", "item", "9", "--why", "lost"), 3, "no item 9;"),
        (("sales", "--by", "year"), 2, "month, week or all"),
        (("sales", "--from", "2026-02-01", "--to", "2026-01-01"), 2, "earlier day first"),
        (("year", "26", "y.xlsx"), 2, "like 2026"),
        (("year", "2020", "y.csv"), 2, ".xlsx"),
        (("year", "2099", "y.xlsx"), 4, "has not begun"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    seller: Maker, typed: tuple[str, ...], status: int, words: str
) -> None:
    before = seller.entries()
    refused_in_one_line(seller(*typed), status, words)
    assert seller.entries() == before


def test_an_item_that_is_not_done_cannot_go(seller: Maker) -> None:
    seller.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=4")

    refused_in_one_line(seller("gone", "item", "4", "--why", "lost"), 4, "stash release 4")


def test_a_year_is_written_whole_and_never_over_a_file_unasked(
    seller: Maker, tmp_path: Path
) -> None:
    from stash.actions import clock

    seller.does("sold", "1", "--for", "28", "--fee", "1.20")
    path, this = tmp_path / "year.xlsx", str(clock.today().year)
    said = seller.does("year", this, str(path))

    assert "profit on them €22.30" in said.out
    book = Workbook(path)
    assert book.labelled("Profit", "= profit on sales", "B") * 100 == 2230
    written = path.read_bytes()
    refused_in_one_line(seller("year", this, str(path)), 5, "--over")
    assert path.read_bytes() == written
    seller.does("year", this, str(path), "--over")
    seller.does("year", "2001", str(tmp_path / "empty.xlsx"))


def test_a_name_that_looks_like_a_formula_stays_a_text(seller: Maker, tmp_path: Path) -> None:
    from stash.actions import clock

    seller.does("design", "add", "=1+1 hat", "--stated", "A=20m", "--thickness", "DK")
    seller.does("aside", "=1+1 hat", "--skeins", "A=1")
    seller.does("done", "4", "--left", "1=50g")
    path = tmp_path / "year.xlsx"
    seller.does("year", str(clock.today().year), str(path))

    cells = [cell for row in Workbook(path).sheets["Items"].iter_rows() for cell in row]
    (named,) = [cell for cell in cells if cell.value == "=1+1 hat"]
    assert named.data_type == "s"
