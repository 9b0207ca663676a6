"""Profit and variety of a batch as they are typed; money is that of `cost`, and adds up."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from commands import Maker, refused_in_one_line

#: What was paid for two skeins of 50 g of each lot, some of two prices: yarn, colour, lot, coins.
BOUGHT = (
    ("Fellside DK", "navy", 0, 1_022),
    ("Loamy DK", "cream", 1, 1_169),
    ("Fellside DK", "rust", 2, 1_236),
    ("Fellside DK", "rust", 2, 337),
    ("Loamy DK", "teal", 3, 1_171),
    ("Fellside DK", "pink", 4, 1_185),
    ("Loamy DK", "plum", 5, 268),
)
#: Metres that each design is stated to take; a skein of 50 g has 120.
TAKES = {"Hat": {"A": 90, "B": 31}, "Cowl": {"A": 140, "B": 20}}
WANTS = ("--want", "Hat=0-4 at 30 in 2h", "--want", "Cowl=0-3 at 45 in 3h")


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    """Six lots of two yarns, some dear, one of two prices, and two designs of two colours."""
    for yarn, colour, lot, coins in BOUGHT:
        line = f"2 x {yarn} 50g/120m, {colour}, lot {lot}, 100% wool"
        nobody.does("add", line, "--paid", f"{coins / 100:.2f}")
    for design, metres in TAKES.items():
        stated = [word for role, m in metres.items() for word in ("--stated", f"{role}={m}m")]
        nobody.does("design", "add", design, *stated, "--thickness", "DK")
    nobody.does("settings", "currency", "EUR")
    nobody.does("settings", "sundries", "0.83")
    nobody.does("settings", "fees", "6.5%")
    return nobody


def made_and_costed(seller: Maker, folder: Path, *words: str) -> tuple[Any, list[Any]]:
    """A plan, and what `cost` says of its items once they are set aside and done as planned."""
    kept = str(folder / "plan.json")
    found = seller.ask("batch", *WANTS, "--aim", "profit", *words, "--save", kept)
    seller.does("batch", "--aside", kept)
    items = f"1-{found['items']}"
    seller.does("done", items, "--as-planned")
    costed = seller.ask("cost", items)
    return found, costed if isinstance(costed, list) else [costed]


@pytest.mark.parametrize("method", ["specific", "average"])
@pytest.mark.parametrize("words", [(), ("--different", "5"), ("--hours", "7")])
def test_the_profit_of_a_plan_is_that_of_its_items_to_the_coin(
    seller: Maker, tmp_path: Path, method: str, words: tuple[str, ...]
) -> None:
    """Value less what `cost` says of yarn and sundries, less 6.5 % of each price."""
    if method != "specific":
        seller.does("settings", "valuation", method)

    found, costed = made_and_costed(seller, tmp_path, *words)

    said = found["profit"]
    assert found["items"] == len(costed) > 2
    assert round(100 * said["yarn"]) == sum(one["yarn_coins"] for one in costed)
    assert round(100 * said["sundries"]) == sum(one["sundries_coins"] for one in costed)
    prices = {"Hat": 30, "Cowl": 45}
    takings = sum(prices[made["design"]] * made["count"] for made in found["made"])
    fees = sum({"Hat": 195, "Cowl": 293}[m["design"]] * m["count"] for m in found["made"])
    assert said["takings"] == takings
    assert round(100 * said["fees"]) == fees
    left = said["takings"] - said["yarn"] - said["sundries"] - said["fees"]
    assert said["profit"] == pytest.approx(left)
    assert found["aims"][0]["aim"] == "profit"
    assert found["objective"] == found["aims"][0]["value"] == said["profit"]
    assert found["bound"] >= found["objective"]


def average_cost(made: list[Any]) -> float:
    """What yarn costs at the average of its name, reckoned here from what was paid, in coins."""
    coins: dict[str, list[int]] = {}
    for yarn, _, _, paid in BOUGHT:
        coins.setdefault(yarn, []).append(paid)
    metre = {yarn: sum(paid) / (240 * len(paid)) for yarn, paid in coins.items()}
    return sum(
        one["count"] * TAKES[one["design"]][role] * metre[lot["yarn"]]
        for one in made
        for role, lot in one["roles"].items()
    )


@pytest.mark.parametrize("method", ["fifo", "average"])
def test_by_fifo_and_average_it_is_the_average_of_what_is_held(seller: Maker, method: str) -> None:
    seller.does("settings", "valuation", method)

    said = seller.does("batch", *WANTS, "--aim", "profit").out
    found = seller.ask("batch", *WANTS, "--aim", "profit")

    assert 100 * found["profit"]["yarn"] == pytest.approx(average_cost(found["made"]), abs=3)
    assert ("depends on which you finish first" in said) == (method == "fifo")


def test_the_money_on_the_screen_adds_up(seller: Maker) -> None:
    said = seller.does("batch", *WANTS, "--aim", "profit").out

    line = re.search(
        r"Sells for €(\S+), less €(\S+) for yarn, €(\S+) for sundries and €(\S+) for fees\.", said
    )
    profit = re.search(r"Profit €([\d.]+):", said)
    assert line
    assert profit
    takings, *off = map(Decimal, line.groups())
    assert takings - sum(off) == Decimal(profit[1])
    assert f"worth €{takings}" in said


def test_yarn_of_no_known_price_makes_it_at_most(seller: Maker) -> None:
    seller.does("add", "9 x Plain DK 50g/120m, white, lot 9, 100% wool")
    seller.does("add", "9 x Plain DK 50g/120m, black, lot 9b, 100% wool")

    said = seller.does("batch", *WANTS, "--aim", "profit").out
    found = seller.ask("batch", *WANTS, "--aim", "profit")["profit"]

    assert "less at least €" in said
    assert "Profit at most €" in said
    assert re.search(r"`stash change \d+ --paid 5.50`", said)
    assert found["at_least"]
    assert set(found["unpriced"]) <= set(range(15, 33))


def test_profit_is_no_aim_where_nothing_has_a_price(seller: Maker) -> None:
    refused_in_one_line(
        seller("batch", "--want", "Hat=2", "--aim", "profit"), 2, "value or profit", "value="
    )


def test_what_earns_nothing_is_named_with_its_reason(seller: Maker) -> None:
    found = seller.ask("batch", "--want", "Hat=0-2 at 1", "--aim", "profit")

    assert found["made"] == []
    assert [one["reasons"] for one in found["not_made"]] == [["loss"]]
    assert "would cost all that it brings" in seller.does(
        "batch", "--want", "Hat=0-2 at 1", "--aim", "profit"
    ).out  # fmt: skip


@pytest.mark.parametrize("typed", ["0", "four", "1.5", "-2", "99999"])
def test_how_many_differ_is_a_whole_number_from_one_on(
    seller: Maker, tmp_path: Path, typed: str
) -> None:
    refused_in_one_line(
        seller("batch", *WANTS, f"--different={typed}"), 2, typed, "whole number from 1"
    )
    plan = tmp_path / "plan.toml"
    plan.write_text(f'[[want]]\ndesign = "Hat"\ndifferent = "{typed}"\n', encoding="utf-8")
    refused_in_one_line(seller("batch", str(plan)), 2, "line 3", "whole number from 1")


def test_more_than_there_are_items_is_refused_with_the_way_out(
    seller: Maker, tmp_path: Path
) -> None:
    refused_in_one_line(
        seller("batch", *WANTS, "--different", "8"), 2, "at most 7", "raise at_most"
    )
    plan = tmp_path / "plan.toml"
    plan.write_text('[[want]]\ndesign = "Hat"\nat_most = 2\ndifferent = 3\n', encoding="utf-8")
    refused_in_one_line(seller("batch", str(plan)), 2, "line 4", "at most 2")


def test_of_each_want_and_of_all_sets_differ_as_often_as_asked(
    seller: Maker, tmp_path: Path
) -> None:
    plan = tmp_path / "plan.toml"
    plan.write_text(
        '[[want]]\ndesign = "Hat"\nat_most = 4\nvalue = 30\ndifferent = 3\n'
        '[[want]]\ndesign = "Cowl"\nat_most = 3\nvalue = 45\n[limits]\ndifferent = 5\n',
        encoding="utf-8",
    )

    made = seller.ask("batch", str(plan))["made"]

    sets = [
        (one["design"], frozenset(role["lot_ref"] for role in one["roles"].values()))
        for one in made
    ]
    assert len({lots for _, lots in sets}) >= 5
    assert len({lots for design, lots in sets if design == "Hat"}) >= 3


def test_what_cannot_differ_is_made_as_far_as_can_be_and_says_why(seller: Maker) -> None:
    """Seven hats of one yarn: there are no more lots than six, and hours for three."""
    seller.does("design", "add", "Band", "--stated", "A=20m", "--thickness", "DK")
    typed = ("batch", "--want", "Band=0-9 at 8 in 1h", "--different", "8")

    found, said = seller.ask(*typed), seller.does(*typed).out

    assert found["items"] == 9
    assert found["unmet_different"] == [
        {"design": None, "size": None, "different": 8, "count": 2, "reasons": ["yarn"]}
    ]
    assert "8 different sets of yarns: 2 missing; your yarn makes no more sets" in said
    (short,) = seller.ask(*typed, "--hours", "3")["unmet_different"]
    assert (short["count"], short["reasons"]) == (5, ["hours"])
    now = seller.does(*typed, "--aside-now")
    assert "not made: 8 different sets of yarns: 2 missing" in now.err
