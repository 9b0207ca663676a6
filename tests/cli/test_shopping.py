"""What is missing and what to buy, typed and read; with makers' own accounts."""

from __future__ import annotations

import csv
import re
from math import ceil

import pytest
from commands import Maker, refused_in_one_line

HAT = ("design", "add", "Cap", "--stated", "A=90m", "--stated", "B=30m", "--thickness", "3")


def test_ten_balls_of_another_length(nobody: Maker) -> None:
    """A maker's account, public thread: 10 balls of 125 yd, a substitute of 145 yd: 9 (8.6 up)."""
    nobody.does("add", "Fell Wool 50g/120m")

    found = nobody.ask(
        "short", "--need", "A=1250yd", "--margin", "0%", "--offer", "Hedgebell 145 yd"
    )

    assert [(lot["yarn"], lot["skeins"]) for lot in found["buy"]] == [("Hedgebell", 9)]


def test_a_margin_is_told_from_the_need_and_what_the_lot_has_is_said(nobody: Maker) -> None:
    """900 m and a tenth; two skeins of 120 m are there of the lot that could be completed."""
    nobody.does("add", "Fell Wool DK, 2 x 50g/120m, navy, lot 48213")

    said = nobody.does("short", "--need", "A=900m", "--margin", "10%").out
    assert "A  990 m  900 m + 90 m margin" in said
    assert "(L1): you have 240 m" in said
    assert "margin" not in nobody.does("short", "--need", "A=900m", "--margin", "0%").out


def test_ounces_of_an_old_pattern(nobody: Maker) -> None:
    """A maker's account, public thread: 21 oz at 62.5 yd/oz are 1,312.5 yd: 8 skeins of 186 yd."""
    nobody.does("add", "Fell Wool 50g/120m")
    ask = ("short", "--need", "A=21oz", "--margin", "0%", "--offer", "Hedgebell 186 yd")

    found = nobody.ask(*ask, "--full", "1oz/62.5yd")
    assumed = nobody(*ask, "--thickness", "4")

    assert found["missing"][0]["each_m"] == pytest.approx(1312.5 * 0.9144, rel=1e-4)
    assert found["buy"][0]["skeins"] == 8
    assert "usual for this thickness" in assumed.err
    refused_in_one_line(nobody(*ask), 2, "--full")


def test_blocks_for_a_blanket(nobody: Maker) -> None:
    """A maker's account, public thread: 3 blocks a skein, 578 planned, 24 skeins: short by 169."""
    nobody.does("add", "Fell Wool 24 x 50g/90m, navy, lot 7")
    nobody.does("design", "add", "Block", "--stated", "A=30m", "--thickness", "4")

    found = nobody.ask("short", "--want", "Block=578", "--margin", "0%")

    assert found["wanted"] == [{"design": "Block", "wanted": 578, "from_stock": 72}]
    assert [(lot["skeins"], lot["each_m"]) for lot in found["buy"]] == [(169, 90)]


@pytest.fixture
def shop(nobody: Maker) -> Maker:
    """Yarn for a hat and the main colour of another; the shop has two put-ups of a yarn."""
    nobody.does("add", "Fell Wool DK 2 x 50g/120m, navy, lot 11, 4.50 each")
    nobody.does("add", "Hedgebell DK 50g/110m, oatmeal, lot 9, 40m left")
    nobody.does(*HAT)
    return nobody


def test_what_the_shelf_can_give_is_not_bought(shop: Maker) -> None:
    found = shop.ask("short", "--want", "Cap=2", "--margin", "0%")

    assert found["wanted"] == [{"design": "Cap", "wanted": 2, "from_stock": 1}]
    assert [(one["role"], one["count"]) for one in found["missing"]] == [("B", 1)]
    assert found["cost_coins"] == 450
    assert not found["at_least"]


def test_the_cheaper_of_two_put_ups_for_all_that_is_wanted(shop: Maker) -> None:
    ask = ("short", "--want", "Cap=5", "--margin", "0%")
    offers = ("--offer", "Hedgebell DK 50g/110m 4.00", "--offer", "Hedgebell DK 100g/220m 7.00")

    found = shop.ask(*ask, *offers)

    # by hand: each role in a lot of its own, whole skeins of the cheaper put-up
    by_hand = 0
    for one in found["missing"]:
        whole_m = one["count"] * one["each_m"]
        by_hand += min(400 * ceil(whole_m / 110), 700 * ceil(whole_m / 220))
    assert found["cost_coins"] == by_hand
    assert {one["role"] for one in found["missing"]} == {"A", "B"}
    assert found["proved_least"]
    assert "all of one dye lot" in shop.does(*ask, *offers).out


@pytest.mark.parametrize("count", [2, 5, 9])
def test_with_what_is_bought_everything_can_be_made(shop: Maker, count: int) -> None:
    for number, lot in enumerate(shop.ask("short", "--want", f"Cap={count}")["buy"]):
        label = f"{lot['yarn']} DK {lot['each_g']:g}g/{lot['each_m']:g}m, teal, lot new {number}"
        shop.does("add", label, "--count", str(lot["skeins"]))

    made = shop.ask("batch", "--want", f"Cap={count}")["made"]

    assert sum(one["count"] for one in made) == count


def test_one_more_of_the_same_lot_is_named_with_its_full_size(shop: Maker) -> None:
    said = shop.does("short", "--want", "Cap=3", "--margin", "0%").out

    assert "if your shop still has the same dye lot" in said
    assert "A of Cap: 1 more skein of 50 g / 110 m, oatmeal, Hedgebell DK, lot 9 (L2)" in said
    assert "B of Cap: 1 more skein" not in said  # L1 has enough, and is the A of its item


@pytest.fixture
def almost(nobody: Maker) -> Maker:
    """161 m of navy and 46 m of oatmeal, both at 10 cents a gram; a hat with a wide band."""
    nobody.does("add", "Greycairn DK, 100g/230m, navy, lot 1, 70g left", "--paid", "7 EUR")
    nobody.does("add", "Greycairn DK, 100g/230m, oatmeal, lot 2, 20g left", "--paid", "2 EUR")
    nobody.does(
        "design", "add", "Beanie", "--shape", "round hat", "--around", "54cm", "--tall", "22cm",
        "--gauge", "17 sts x 13 rows", "--fabric", "1 hdc", "--band", "B 6cm bottom",
        "--thickness", "DK",
    )  # fmt: skip
    return nobody


def test_what_could_be_made_otherwise_stands_beside_what_to_buy(almost: Maker) -> None:
    found = almost.ask("short", "--want", "Beanie=1")
    (one,) = found["otherwise"]

    assert found["compare"]
    assert one["design"] == "Beanie"
    kinds = [way["fix"]["kind"] for way in one["ways"]]
    assert "narrower_bands" in kinds
    assert {way["cost_coins"] for way in one["ways"]} == {0}
    said = almost.does("short", "--want", "Beanie=1").out
    assert "Or buy nothing, for one Beanie:" in said
    for way in one["ways"]:
        lots = "+".join(lot["lot_ref"] for lot in way["roles"].values())
        assert f"  {lots}: {way['fix']['words']}; takes " in said
        assert way["uses_m"] <= (70 + 20) * 2.3
        # by hand: 2.3 m to a gram
        assert way["uses_coins"] == pytest.approx(way["uses_m"] * 10 / 2.3, abs=1)


def test_a_way_without_buying_really_does(almost: Maker) -> None:
    """The band and the height it names are set in the design, and the shelf is asked again."""
    (one,) = almost.ask("short", "--want", "Beanie=1")["otherwise"]
    tried = 0
    for way in one["ways"]:
        facts = way["fix"]
        if facts["kind"] == "narrower_bands":
            almost.does(
                "design", "change", "Beanie", "--band", f"B {facts['counts'][0]} rows bottom"
            )
        elif facts["kind"] == "shorter":
            almost.does("design", "change", "Beanie", "--tall", f"{facts['length_m'] * 100:.2f}cm")
        else:
            continue
        tried += 1
        assert almost.ask("match", "Beanie")["proposals"], facts["words"]
        assert almost.ask("short", "--want", "Beanie=1")["missing"] == []
        almost.does("undo")
    assert tried


def test_yarn_that_the_items_of_the_plan_take_is_not_offered_again(almost: Maker) -> None:
    """Once one is made of all there is, nothing is left to make a second one otherwise of."""
    almost.does("design", "change", "Beanie", "--band", "B 2cm bottom")
    found = almost.ask("short", "--want", "Beanie=3")

    assert found["wanted"][0]["from_stock"] == 1
    assert found["otherwise"] == [{"design": "Beanie", "ways": []}]


def test_another_yarn_is_a_way_where_a_colour_was_asked_for(almost: Maker) -> None:
    almost.does("add", "Greycairn DK, 100g/230m, rust, lot 3")
    ask = ("short", "--want", "Beanie=1", "--colour", "B=oatmeal")

    ways = almost.ask(*ask)["otherwise"][0]["ways"]
    (other,) = [way for way in ways if way["fix"]["kind"] == "other_yarn"]
    assert "L3" in {lot["lot_ref"] for lot in other["roles"].values()}
    assert other["uses_coins"] is None  # nobody said what the rust cost
    rows = almost.does(*ask, "--as", "csv").rows
    assert [row["line"] for row in rows].count("buy nothing") == len(ways)


def test_what_was_set_aside_and_is_gone(shop: Maker) -> None:
    shop.does("aside", "Cap", "1", "--margin", "0%")
    whole = shop.does("short").out
    shop.does("weigh", "3", "9g", "--recount")
    lacks = shop.ask("short")

    assert "All the yarn you set aside is there" in whole
    assert [(one["item"], one["role"], one["skein"]) for one in lacks] == [(1, "B", 3)]
    assert lacks[0]["short_m"] == pytest.approx(30 - 9 * 110 / 50, abs=0.1)
    assert "Item 1 (Cap), B, is short of 11 m (4.7 g): skein 3 has less" in shop.does("short").out
    assert (
        "buy 1 more skein of 50 g / 110 m, oatmeal, Hedgebell DK, lot 9" in shop.does("short").out
    )


def test_nothing_missing(shop: Maker) -> None:
    assert "Nothing is missing" in shop.does("short", "--want", "Cap", "--margin", "0%").out


def test_what_is_typed_wrong_is_refused_in_one_line(shop: Maker) -> None:
    refused_in_one_line(shop("short", "--want", "Cpa=2"), 3, "Cap")
    refused_in_one_line(shop("short", "--want", "Cap=2", "--offer", "Hedgebell"), 2, "how long")
    refused_in_one_line(shop("short", "--need", "A=0m"), 2, "more than 0")
    refused_in_one_line(shop("short", "--want", "Cap", "--need", "A=9m"), 2, "leave out")
    refused_in_one_line(
        shop("short", "--offer", "Hedgebell 145 yd"), 2, "what do you want to make? Add --want"
    )


def test_a_sheet_of_what_is_missing_holds_every_line_and_the_total(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 24 x 50g/90m, navy, lot 7")
    nobody.does("design", "add", "Block", "--stated", "A=30m", "--thickness", "4")
    ask = ("short", "--want", "Block=75", "--margin", "0%", "--offer", "Fell Wool 50g/90m 4.50")

    sheet = [*csv.DictReader(nobody.does(*ask, "--as", "csv").out.splitlines())]

    assert [row["line"] for row in sheet] == [
        *("wanted", "missing", "buy", "total"),
        *("top up", "buy new"),
    ]
    assert (sheet[0]["count"], sheet[0]["from_stock"]) == ("75", "72")
    assert sheet[-1]["cost_coins"] == sheet[2]["cost_coins"] == "450"


def test_a_sheet_of_nothing_missing_is_not_empty(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 24 x 50g/90m, navy, lot 7")
    nobody.does("design", "add", "Block", "--stated", "A=30m", "--thickness", "4")

    sheet = nobody.does("short", "--want", "Block=2", "--margin", "0%", "--as", "csv").out

    assert [row["line"] for row in csv.DictReader(sheet.splitlines())] == ["wanted", "total"]


@pytest.mark.parametrize("units", ["metric", "us", "length yd"])
def test_what_is_bought_less_what_is_needed_is_what_is_left_as_shown(
    shop: Maker, units: str
) -> None:
    """All that is bought = what is needed + what the joins take + what is left over."""
    shop.does("settings", *(units.split() if " " in units else ("units", units)))
    ask = ("short", "--want", "Cap=9", "--margin", "13%", "--offer", "Fell Wool 50g/121m 4.50")
    said = shop.does(*ask).out

    needs = [int(need) for need in re.findall(r"(\d+) (?:m|yd) for \d", said)]
    whole = [int(all_of_it) for all_of_it in re.findall(r"(\d+) (?:m|yd) in all", said)]
    joined = re.findall(r"    for ([^;]*); (\w+)", said)
    taken = [int(found[1]) if (found := re.search(r"taking (\d+)", joins)) else 0
             for joins, _ in joined]  # fmt: skip
    left = [int(number.replace("nothing", "0")) for _, number in joined]
    assert len(needs) == len(whole) == len(left) == 2
    used = [a - b - c for a, b, c in zip(whole, taken, left, strict=True)]
    assert sorted(used) == sorted(needs)
