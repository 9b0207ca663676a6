"""Selling, cost, value and tags as they are typed."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

from stash.rendering.sentences.say import sentence
from stash.requirements.design.cautions import CHILD, COT, HAZARD, PERHAPS_CHILD


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    """Item 1 is a finished hat of 40 g at 10.00 for 100 g and 10 g of a gift."""
    nobody.does("settings", "currency", "EUR")
    nobody.does("add", "Fell Wool DK 100g/240m, navy, lot 1, 75% wool 25% nylon, machine wash 30",
                "--paid", "10")  # fmt: skip
    nobody.does("add", "Loamy DK 100g/240m, plum, lot 2, 100% wool, hand wash", "--paid", "0")
    stated = ("--stated", "A=100m", "--stated", "B=20m", "--thickness", "DK")
    nobody.does("design", "add", "Hat", *stated)
    nobody.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=2")
    nobody.does("done", "1", "--left", "1=60g", "--left", "2=90g")
    return nobody


def test_a_sale_is_said_and_shown(seller: Maker) -> None:
    said = seller.does("sold", "1", "--for", "28.00", "--fee", "1.20")

    assert "Sold item 1 (Hat) for €28.00, less a fee of €1.20: €26.80 for you" in said.out
    assert "sold on" in seller.does("show", "item", "1").out
    (sale,) = seller.ask("show", "item", "1")["sales"]
    assert (sale["kind"], sale["price_coins"], sale["fee_coins"]) == ("sold", 2800, 120)
    assert "€28.00 refunded" in seller.does("returned", "hat").out


def test_the_cost_in_keys_that_carry_their_unit(seller: Maker) -> None:
    """By hand: 4.00 of yarn and 0.50; 2 h at 10.00; a tenth on top, 26.95; over 0.9, 29.95."""
    typed = ("--hours", "2", "--wage", "10", "--sundries", "0.50")
    found = seller.ask("cost", "1", *typed, "--overhead", "10%", "--fees", "10%")

    assert [line["cost_coins"] for line in found["yarn"]] == [400, 0]
    assert [line["gift"] for line in found["yarn"]] == [False, True]
    assert (found["materials_coins"], found["at_least"]) == (450, False)
    assert found["wanted"]["price_coins"] == 2995
    assert found["floor"]["price_coins"] == 550
    assert found["three_times"]["price_coins"] == 1350


def test_gifts_can_be_counted_for_something(seller: Maker) -> None:
    """By hand: 10 g at 4.00 for 100 g are 0.40."""
    assert seller.ask("cost", "1", "--gifts-at", "4.00")["materials_coins"] == 440
    said = seller("cost", "1", "--gifts-at", "4.00", "--method", "fifo")
    refused_in_one_line(said, 4, "--method specific")


def test_a_sold_item_tells_what_an_hour_earned(seller: Maker) -> None:
    """By hand: 28.00 less 1.20 and 4.00 of yarn are 22.80, 11.40 an hour."""
    seller.does("sold", "1", "--for", "28", "--fee", "1.20")

    assert seller.ask("cost", "1", "--hours", "2")["sold"]["pays_coins_per_h"] == 1140
    assert "€11.40 an hour" in seller.does("cost", "1", "--hours", "2").out


def test_an_unknown_price_makes_it_at_least(seller: Maker) -> None:
    seller.does("add", "Ottermeade DK 100g/240m, teal, lot 3")
    seller.does("aside", "Hat", "--skeins", "A=3", "--skeins", "B=2")
    seller.does("done", "2", "--left", "3=60g", "--left", "2=80g")
    said = seller.does("cost", "2")

    assert "at least" in said.out
    assert "no price known for skein 3" in said.err
    assert seller.ask("cost", "2")["yarn"][0]["cost_coins"] is None


def test_a_design_costs_what_the_shelf_proposes_first(seller: Maker) -> None:
    found = seller.ask("cost", "Hat")

    assert found["item"] is None
    assert found["key"]
    assert found["others"] == [{"item": 1, "yarn_coins": 400, "at_least": False}]
    assert seller.ask("value")["stock"]["cost_coins"] == 600, "asking books nothing"


@pytest.mark.parametrize(
    ("typed", "status", "words"),
    [
        (("sold", "1", "--for", "much"), 2, "amount of money"),
        (("sold", "7", "--for", "28"), 3, "no item 7; `stash items`"),
        (("sold", "cap", "--for", "28"), 3, "no finished, unsold item 'cap'; try 1 (Hat)"),
        (("returned", "1"), 4, "not sold"),
        (("cost", "cap"), 3, "no design for 'cap'"),
        (("cost", "1", "--hours", "long"), 2, "3h 20min"),
        (("cost", "1", "--fees", "100%"), 2, "0% to 99%"),
        (("cost", "1", "--method", "lifo"), 2, "specific, fifo or average"),
        (("value", "--from", "2025-02-01", "--on", "2025-01-01"), 4, "earlier day first"),
        (("tag", "1", "--rules", "moon"), 2, "eu, uk or us"),
        (("tag", "1", "--functional", "moonbeam"), 2, "is not a fibre we know"),
        (("tag", "9"), 3, "no item 9; `stash items`"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    seller: Maker, typed: tuple[str, ...], status: int, words: str
) -> None:
    refused_in_one_line(seller(*typed), status, words)


def test_the_value_of_a_day_balances(seller: Maker) -> None:
    found = seller.ask("value")
    yarn, made = found["yarn"], found["items"]

    coins = {name: part["cost_coins"] for name, part in yarn.items()}
    assert coins["opening"] + coins["bought"] == coins["used"] + coins["gone"] + coins["closing"]
    assert (found["stock"]["cost_coins"], found["finished"]["cost_coins"]) == (600, 400)
    assert made["closing_cost_coins"] == 400
    assert "1 finished, not sold" in seller.does("value").out


def test_another_method_is_shown_and_said_not_to_be_that_of_the_books(seller: Maker) -> None:
    said = seller.does("value", "--method", "average")

    assert "average (each yarn at" in said.out
    assert "you keep" in said.err
    assert "by specific, and this answer is by average" in said.err


def test_a_tag_tells_content_care_batch_and_cautions(seller: Maker) -> None:
    """By hand: 30 of 40 g and all of 10 g are wool, 80 %; the care of both is a hand wash at 30."""
    found = seller.ask("tag", "1", "--rules", "eu")

    assert found["content"] == "80% wool, 20% polyamide"
    assert found["care"]["washing"] == "hand wash at up to 30 °C"
    assert found["care"]["professional_care"] is None
    assert (found["batch"], found["pure"]) == (1, False)
    assert "check your local rules" in found["cautions"][-1]
    assert seller.ask("tag", "1", "--rules", "us")["content"] == "80% wool, 20% nylon"


def test_a_tag_is_printed_to_a_file_and_never_over_one(seller: Maker, tmp_path: Path) -> None:
    sheet = tmp_path / "tag.txt"
    seller.does("tag", "1", "--print", str(sheet))

    assert "80% wool, 20% polyamide" in sheet.read_text("utf-8")
    assert all(len(line) <= 90 for line in sheet.read_text("utf-8").splitlines())
    refused_in_one_line(seller("tag", "1", "--print", str(sheet)), 5, "--over")
    seller.does("tag", "1", "--print", str(sheet), "--over")


def test_a_tag_calls_its_item_an_item_finished_or_not(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 100g/240m, navy, lot 1, 100% wool")
    nobody.does("design", "add", "Cap", "--stated", "A=60m", "--thickness", "DK")
    nobody.does("aside", "Cap")
    nobody.does("begin", "1")
    nobody.does("weigh", "1", "80g", "--for", "1")
    said = nobody.does("tag", "1").out
    assert said.splitlines()[:2] == ["Cap", "item 1"]
    assert "not finished yet" in said
    assert "Item 1 is made from:" in said
    nobody.does("done", "1", "--as-planned")
    assert "item 1, made " in nobody.does("tag", "1").out


def test_a_child_s_hat_with_a_pompom_is_cautioned(nobody: Maker) -> None:
    """On the tag and to the maker; no rule by its number, for none of them covers a hat."""
    nobody.does("add", "Fell Wool DK, 2 x 100g/240m, navy, lot 1, 100% wool")
    size = ("--size", "child 4 years", "--gauge", "17 sts x 13 rows", "--fabric", "1 hdc")
    nobody.does("design", "add", "Cap", "--shape", "round hat", *size, "--extra", "pompom A 6cm",
                "--thickness", "DK")  # fmt: skip
    nobody.does("aside", "Cap", "--skeins", "A=1")
    nobody.does("done", "1", "--left", "1=60g")
    tag = nobody.ask("tag", "1", "--rules", "us")
    on_it, _, kept = nobody.does("tag", "1", "--rules", "us").out.partition("- - -")

    assert tag["warnings"] == [sentence(HAZARD)]
    assert sentence(CHILD) in tag["cautions"]
    assert "check your local rules" in tag["cautions"][-1]
    assert "can strangle" in on_it
    assert " ".join(kept.split()).endswith("check your local rules.")
    assert not re.search(r"\b(?:EN|CFR|U\.S\.C\.|ASTM)\b", on_it + kept)
    assert "compliant" not in on_it + kept


@pytest.fixture
def shared_out(nobody: Maker) -> Maker:
    """Item 1 is of 30 g of one yarn and 10 g of another, and not weighed yet."""
    nobody.does("add", "Fell Wool DK 100g/240m, navy, lot 1, 75% wool 25% nylon")
    nobody.does("add", "Loamy DK 100g/240m, plum, lot 2, 100% wool")
    nobody.does(
        "design", "add", "Hat", "--stated", "A=72m", "--stated", "B=24m", "--thickness", "DK"
    )
    nobody.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=2")
    return nobody


@pytest.mark.parametrize(
    ("known", "estimated"),
    [
        (("--as-planned",), True), (("--weighed", "42g"), True),
        (("--weighed", "A=31g,B=11g"), False), (("--left", "1=70g", "--left", "2=90g"), False),
    ],
)  # fmt: skip
def test_fibres_of_grams_that_nobody_weighed_are_estimated(
    shared_out: Maker, known: tuple[str, ...], estimated: bool
) -> None:
    shared_out.does("done", "1", *known)
    on_it, _, kept = shared_out.does("tag", "1").out.partition("- - -")
    said = "estimated; weigh before you label"

    assert shared_out.ask("tag", "1")["estimated"] is estimated
    assert said not in on_it, "it is for her, not for who buys it"
    assert (said in " ".join(kept.split())) is estimated
    assert ("by grams used" in " ".join(kept.split())) is not estimated


def test_a_tag_bears_the_maker_and_what_it_is(seller: Maker) -> None:
    """Regulation (EU) 2023/988, item 9: name, postal and electronic address, what it is."""
    hers = {"maker": "Tarn Loft", "address": "3 Mill Lane, Fellby", "contact": "hat@tarn.example"}
    asked = "postal and electronic address"
    assert asked in " ".join(seller.ask("tag", "1", "--rules", "eu")["notes"])
    for name, value in hers.items():
        seller.does("settings", name, value)
    tag = seller.ask("tag", "1", "--rules", "eu")

    assert list(tag["maker"].values()) == list(hers.values())
    assert tag["product"] == "Hat"
    assert asked not in " ".join(tag["notes"])
    assert f"made by {', '.join(hers.values())}" in seller.does("tag", "1").out


@pytest.mark.parametrize(
    ("rules", "fibres"), [("eu", "20% polyamide"), ("uk", "20% nylon"), ("us", "20% nylon")]
)
def test_the_same_fibre_is_named_as_its_rules_name_it(
    seller: Maker, rules: str, fibres: str
) -> None:
    seller.does("settings", "rules", rules)

    assert fibres in seller.ask("tag", "1")["content"]
    assert "25% nylon" in seller.does("shelf").out


#: What is for a child, and what may hurt of it.
SMALL = [
    (("--shape", "mitten", "--around", "15cm", "--tall", "18cm"), "cord A 60cm"),
    (("--shape", "sock", "--around", "16cm", "--tall", "12cm", "--long", "15cm"), "chain A 30cm"),
    (("--shape", "headband", "--around", "46cm", "--tall", "8cm"), "tassel A 6cm"),
    (("--shape", "flat hat", "--around", "42cm", "--tall", "18cm"), "pompom A 5cm"),
    (("--shape", "blanket", "--wide", "70cm", "--long", "90cm", "--for", "child"), "fringe A 6cm"),
    (("--shape", "scarf", "--wide", "12cm", "--long", "90cm", "--for", "child"), "fringe A 6cm"),
    (("--shape", "cowl", "--around", "50cm", "--tall", "20cm", "--for", "baby"), "cord A 50cm"),
    (("--shape", "triangle", "--wide", "60cm", "--long", "40cm", "--for", "child"), "tassel A 5cm"),
]


@pytest.mark.parametrize(("made", "part"), SMALL)
def test_a_small_item_is_cautioned_in_every_answer_about_it(
    nobody: Maker, made: tuple[str, ...], part: str
) -> None:
    worked = ("--gauge", "18 sts x 22 rows", "--fabric", "stockinette", "--thickness", "DK")
    nobody.does("add", "Fell Wool DK, 5 x 100g/240m, navy, lot 1")
    nobody.does("design", "add", "Small", *made, *worked, "--extra", part)

    assert sentence(CHILD) in nobody.does("need", "Small").out
    assert sentence(CHILD) in nobody.does("aside", "Small", "1").out
    assert sentence(CHILD) in nobody.does("done", "Small", "--as-planned").out
    assert sentence(HAZARD) in nobody.ask("tag", "1")["warnings"]


def test_for_whom_it_is_is_said_where_its_size_cannot_tell(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 5 x 100g/240m, navy, lot 1")
    scarf = ("--shape", "scarf", "--wide", "15cm", "--long", "120cm", "--thickness", "DK")
    worked = ("--gauge", "18 sts x 22 rows", "--fabric", "garter", "--extra", "fringe A 8cm")
    nobody.does("design", "add", "Scarf", *scarf, *worked)

    assert sentence(PERHAPS_CHILD) in nobody.does("need", "Scarf").out
    assert sentence(CHILD) not in nobody.does("need", *scarf, *worked, "--for", "adult").out
    assert sentence(CHILD) in nobody.does("need", *scarf, *worked, "--for", "child").out
    assert nobody.ask("aside", "Scarf", "1", "--for", "child")["cautions"][0] == sentence(CHILD)
    assert sentence(CHILD) in nobody.does("done", "1", "--as-planned", "--for", "child").out
    assert sentence(CHILD) in nobody.ask("tag", "1", "--for", "child")["cautions"]
    assert sentence(COT) in nobody.ask("tag", "1", "--for", "baby")["warnings"]
    refused_in_one_line(nobody("tag", "1", "--for", "dog"), 2, "baby, child, adult")


def test_care_is_put_right_and_taken_into_the_tag(seller: Maker) -> None:
    seller.does("change", "L1", "--care", "dry clean only")

    assert seller.ask("tag", "1")["care"]["washing"] == "do not wash"


def test_a_sheet_of_what_is_there_holds_the_yarn_and_the_totals(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 2 x 50g/90m, navy, lot 7, €4.50 each")

    sheet = [*csv.DictReader(nobody.does("value", "--as", "csv").out.splitlines())]
    keys = nobody.ask("value")

    assert sheet[-1]["line"] == "together"
    assert int(sheet[-1]["cost_coins"]) == keys["cost_coins"] == 900
    lines = {row["line"]: row["cost_coins"] for row in sheet}
    assert {lines["yarn bought"], lines["yarn closing"]} == {"900"}


@pytest.mark.parametrize("rules", ["eu", "uk", "us"])
def test_no_tag_claims_to_follow_the_rules_and_each_ends_by_pointing_to_them(
    seller: Maker, rules: str
) -> None:
    sheet = " ".join(seller.does("tag", "1", "--rules", rules).out.split())
    cautions = seller.ask("tag", "1", "--rules", rules)["cautions"]

    assert sheet.endswith("check your local rules.")
    assert cautions[-1].endswith("check your local rules.")
    assert "complian" not in sheet.lower()
    assert ("fiber" in sheet) is (rules == "us")
    assert ("°F" in sheet) is (rules == "us")


def test_a_caution_on_the_tag_is_not_repeated_under_it(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 5 x 100g/240m, navy, lot 1, brushed wool")
    scarf = ("--shape", "scarf", "--wide", "15cm", "--long", "120cm", "--thickness", "DK")
    worked = ("--gauge", "18 sts x 22 rows", "--fabric", "garter", "--extra", "fringe A 8cm")
    nobody.does("design", "add", "Scarf", *scarf, *worked)
    nobody.does("aside", "Scarf", "1")
    nobody.does("done", "1", "--as-planned")

    assert nobody.does("tag", "1").out.count("burn fast") == 1
    assert any("burn fast" in one for one in nobody.ask("tag", "1")["cautions"])


def test_a_command_on_a_tag_sheet_is_never_broken(seller: Maker) -> None:
    lines = seller.does("tag", "1").out.splitlines()

    assert any('`stash change L1 --care "hand wash 30"`' in line for line in lines)
    assert all(line.count("`") % 2 == 0 for line in lines)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("sold", "2", "--for", "28"), "only finished items can be sold: `stash done 2` first"),
        (("tag", "2"), "tags are for items begun or done"),
        (("sold", "1", "--for", "2", "--fee", "3"), "the fee is more than the price"),
        (
            ("cost", "2"),
            'has used no yarn yet; for what the next one would cost: `stash cost "Hat"`',
        ),
    ],
)
def test_a_refusal_says_what_to_do(seller: Maker, typed: tuple[str, ...], words: str) -> None:
    seller.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=2", "--margin", "0%")

    refused_in_one_line(seller(*typed), 4, words)


@pytest.mark.parametrize(
    "typed",
    [
        ("sold", "1", "--for", "28 GBP"),
        ("change", "1", "--paid", "9 GBP"),
        ("change", "item", "1", "--asked", "£30"),
        ("add", "Loamy DK 100g/240m, plum, lot 2", "--paid", "8 GBP"),
        ("order", "add", "a neighbour", "Hat", "--by", "2999-12-12", "--price", "£30"),
        ("settings", "wage", "£12"),
    ],
)
def test_the_first_money_sign_gives_the_file_its_currency_and_says_so(
    nobody: Maker, typed: tuple[str, ...]
) -> None:
    nobody.does("add", "Fell Wool DK 100g/240m, navy, lot 1, 100% wool")
    nobody.does("design", "add", "Hat", "--stated", "A=72m", "--thickness", "DK")
    nobody.does("aside", "Hat")
    nobody.does("done", "1", "--as-planned")
    assert nobody.does(*typed).err.count("Money is in GBP now") == 1
    assert "Money" not in nobody.does("change", "item", "1", "--asked", "£31").err
