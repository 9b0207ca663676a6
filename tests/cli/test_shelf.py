"""Adding yarn and looking at the shelf."""

from __future__ import annotations

import math
import re
from types import SimpleNamespace

import commands
import pytest
from commands import NONE, NUMBER, WORDS, Maker, Terminal, keeps_its_keys, refused_in_one_line

LOT = {
    "lot_ref": WORDS,
    "yarn": WORDS,
    "maker": (str, NONE),
    "colour": (str, NONE),
    "colour_hex": (str, NONE),
    "colours_hex": (list,),
    "dyed": (str, NONE),
    "surface": WORDS,
    "lot": (str, NONE),
    "lot_state": WORDS,
    "thickness": (int, NONE),
    "thickness_to": (int, NONE),
    "fibre": (str, NONE),
    "conditions": (list,),
    "daylight": (bool,),
    "held_g": (*NUMBER, NONE),
    "held_m": (*NUMBER, NONE),
    "free_g": (*NUMBER, NONE),
    "free_m": (*NUMBER, NONE),
    "set_aside_g": (*NUMBER, NONE),
    "set_aside_m": (*NUMBER, NONE),
    "short_g": NUMBER,
    "spread_m": (*NUMBER, NONE),
    "skeins": (list,),
}
SKEIN = {
    "number": (int,),
    "state": WORDS,
    "full_g": (*NUMBER, NONE),
    "full_m": (*NUMBER, NONE),
    "full_from": WORDS,
    "held_g": (*NUMBER, NONE),
    "held_m": (*NUMBER, NONE),
    "free_g": (*NUMBER, NONE),
    "free_m": (*NUMBER, NONE),
    "set_aside_g": (*NUMBER, NONE),
    "place": (str, NONE),
}


def test_the_shelf_as_json_has_the_promised_keys_and_no_others(maker: Maker) -> None:
    for lot in maker.ask("shelf"):
        keeps_its_keys(lot, LOT)
        assert lot.keys() == LOT.keys()
        for skein in lot["skeins"]:
            keeps_its_keys(skein, SKEIN)
            assert skein.keys() == SKEIN.keys()


def test_how_a_lot_looks_is_what_was_said_and_else_what_follows(nobody: Maker) -> None:
    for line in ("Fell DK 50g, navy marl", "Fell DK 50g, rust", "Fell DK 50g, rust/teal",
                 "Fell DK 50g, brushed"):  # fmt: skip
        nobody.does("add", line)

    looks = {lot["colour"]: (lot["dyed"], lot["surface"]) for lot in nobody.ask("shelf")}
    assert looks == {
        "navy marl": ("heathered", "smooth"),
        "rust": ("solid", "smooth"),
        "rust/teal": ("variegated", "smooth"),
        None: (None, "brushed"),
    }


def test_what_is_not_known_is_null(maker: Maker) -> None:
    lots = {lot["lot_ref"]: lot for lot in maker.ask("shelf")}
    weight_only, length_only, unknown = lots["L4"], lots["L6"], lots["L5"]

    assert (weight_only["held_g"], weight_only["held_m"], weight_only["free_m"]) == (50, None, None)
    assert weight_only["skeins"][0]["full_from"] == "missing"
    assert (length_only["held_g"], length_only["held_m"]) == (None, 300)
    assert length_only["skeins"][0]["full_from"] == "assumed"
    assert (unknown["lot"], unknown["lot_state"], unknown["fibre"]) == (None, "unknown", None)


def test_held_is_set_aside_and_free(maker: Maker) -> None:
    for lot in maker.ask("shelf"):
        if lot["held_g"] is not None:
            assert lot["held_g"] == pytest.approx(lot["free_g"] + lot["set_aside_g"])


def test_an_empty_answer_is_an_empty_list_and_status_0(maker: Maker) -> None:
    assert maker.ask("shelf", "zzzz") == []
    assert maker.does("shelf", "zzzz", "--as", "csv").out == ""
    assert "stash shelf" in maker.does("shelf", "zzzz").out


def test_the_shelf_as_csv_has_one_row_a_skein(maker: Maker) -> None:
    rows = maker.does("shelf", "--as", "csv").rows

    assert [row["number"] for row in rows if row["lot_ref"] == "L1"] == ["1", "2", "3"]
    assert len(rows) == 9
    assert {row["held_m"] for row in rows if row["lot_ref"] == "L4"} == {""}


def test_the_shelf_for_reading_tells_lots_places_and_what_is_free(maker: Maker) -> None:
    told = maker.does("shelf").out

    assert "navy" in told
    assert "lot 48213" in told
    assert "blue box" in told
    assert "50 g free, length not known" in told
    assert "6 lots, 9 skeins" in told


def test_an_empty_shelf_says_how_to_fill_it(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 50g/120m")
    nobody.does("undo")

    assert "stash add" in nobody.does("shelf").out


@pytest.mark.parametrize(
    ("filters", "refs"),
    [
        (("oatmeel",), {"L2"}),
        (("hedgbell",), {"L2", "L5"}),
        (("--thickness", "worsted"), {"L3"}),
        (("--thickness", "DK", "--free", "200m"), {"L1", "L5", "L6"}),
        (("--colour", "teal"), {"L5"}),
        (("--lot", "4"), {"L3"}),
        (("--fibre", "wool"), {"L1"}),
        (("--place", "blue"), {"L1", "L2", "L3", "L4", "L5", "L6"}),
        (("--owner", "nobody"), set()),
    ],
    ids=lambda given: " ".join(sorted(given)) or "none",
)
def test_filters_and_misspelt_words_find(
    maker: Maker, filters: tuple[str, ...], refs: set[str]
) -> None:
    assert {lot["lot_ref"] for lot in maker.ask("shelf", *filters)} == refs


def test_what_is_set_aside_is_told_with_its_item_and_place(maker: Maker) -> None:
    lines = maker.ask("shelf", "--aside")

    assert [(x["item"], x["design"], x["role"], x["skein"]) for x in lines] == [
        (1, "Hat", "A", 1),
        (1, "Hat", "B", 4),
    ]
    assert maker.does("shelf", "--aside", "--as", "csv").rows[0]["place"] == "blue box"


def test_nothing_set_aside_is_an_empty_list(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 50g/120m")

    assert nobody.ask("shelf", "--aside") == []


# a skein by its number, or by words that lead to one lot


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("2", 2),
        ("#2", 2),
        ("navy", 1),
        ("oatmeel", 4),
        ("fell wool", 1),
        ("lot 48213", 1),
        ("plum", 5),
    ],
)
def test_a_skein_is_found_as_people_name_it(maker: Maker, typed: str, number: int) -> None:
    assert maker.ask("show", typed)["number"] == number


def test_words_say_which_skein_they_led_to(maker: Maker) -> None:
    said = maker.does("show", "navy")

    assert said.err == "skein 1 of Fell Wool DK navy\n"
    assert maker.does("show", "1").err == ""


def test_words_lead_to_the_opened_skein_of_a_lot_first(maker: Maker) -> None:
    maker.does("use", "3", "5g")

    assert maker.ask("show", "navy")["number"] == 3


def test_words_for_several_lots_are_refused_with_the_lots_named(maker: Maker) -> None:
    refused_in_one_line(maker("show", "hedgebell"), 2, "L2", "oatmeal", "L5", "teal")


def test_a_skein_tells_its_facts_history_and_trace(maker: Maker) -> None:
    maker.does("use", "1", "10g", "--for", "Hat")
    maker.does("change", "1", "--tare", "4g")
    story = maker.skein(1)

    assert [move["kind"] for move in story["movements"]] == ["arrived", "used"]
    assert story["movements"][1]["item"] == 1
    assert (story["went_into"], story["set_aside_for"]) == ([1], [1])
    assert maker.skein(9)["put_right"] == []
    told = maker.does("show", "1").out
    assert "went into: item 1 (Hat)" in told
    assert "tare was not known" in told
    assert "tare_mg" not in told


def test_an_item_tells_the_skeins_it_is_made_of(maker: Maker) -> None:
    story = maker.ask("show", "item", "1")

    assert (story["state"], story["design"]) == ("planned", "Hat")
    assert [skein["number"] for skein in story["skeins"]] == [1, 4]
    assert story["movements"] == []
    assert maker.ask("show", "hat")["item"] == 1  # a design's name, while one item is open


# what is added


@pytest.mark.parametrize(
    ("label", "options", "grams"),
    [
        ("Fell Wool 2x50g/120m", (), [50, 50]),
        ("Fell Wool 50g/120m", ("--count", "3"), [50, 50, 50]),
        ("Fell Wool 100g/200m, 43g left", (), [43]),
        ("Fell Wool 100g/200m, 1 1/2 oz left", (), [42.524]),
        ("Fell Wool 100g/200m, 1,5 oz left", (), [42.524]),
        ("Fell Wool 100g/200m, ½ oz left", (), [14.175]),
        ("Fell Wool 100g/200m, 91.44 m left", (), [45.72]),
        ("Fell Wool 100g/200m, 100yd left", (), [45.72]),
    ],
)
def test_amounts_are_read_as_people_type_them(
    nobody: Maker, label: str, options: tuple[str, ...], grams: list[float]
) -> None:
    # one ounce is 28.349523125 g, one yard 0.9144 m (NIST Handbook 44, appendix C)
    nobody.does("add", label, *options)

    held = [s["held_g"] for lot in nobody.ask("shelf") for s in lot["skeins"]]

    assert held == grams


def test_what_was_understood_and_what_is_not_known_is_said(nobody: Maker) -> None:
    told = nobody.does("add", "Skerry 50g/120m").out

    assert "weight 50 g; length 120 m" in told
    assert "not known: thickness, fibre, colour, lot" in told


def test_options_stand_above_the_label(nobody: Maker) -> None:
    options = ("--lot", "none", "--colour", "sage", "--hex", "#aabbcc/#ddeeff", "--tare", "4g")
    nobody.does("add", "Fell Wool 50g/120m navy lot 7", *options, "--paid", "3.20 each")
    (lot,) = nobody.ask("shelf")

    assert (lot["lot"], lot["lot_state"], lot["colour"]) == (None, "claimed none", "sage")
    assert (lot["colour_hex"], lot["colours_hex"]) == ("#aabbcc", ["#aabbcc", "#ddeeff"])
    assert (nobody.skein(1)["tare_g"], nobody.skein(1)["paid_coins"]) == (4, 320)


def test_a_price_for_the_line_is_shared_to_the_last_coin(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 3x50g/120m", "--paid", "10.00")

    assert sorted(nobody.skein(n)["paid_coins"] for n in (1, 2, 3)) == [333, 333, 334]


def test_yarn_added_for_an_earlier_day_is_dated_so(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 50g/120m", "--on", "2024-02-29")

    assert nobody.ask("log")[0]["on"] == "2024-02-29"


def test_a_skein_tells_where_it_came_from_and_what_came_of_it(maker: Maker) -> None:
    maker.does("split", "1", "4g")
    maker.does("use", "1", "20g", "--for", "1")
    maker.does("unravel", "1")

    assert [maker.skein(n)["parent"] for n in (1, 10, 11)] == [None, 1, 1]
    assert [maker.skein(n)["children"] for n in (1, 10)] == [[10, 11], []]
    assert "came from it: skein 10-11" in maker.does("show", "1").out
    assert "wound off skein 1" in maker.does("show", "10").out
    assert "unravelled, once part of skein 1" in maker.does("show", "11").out
    maker.does("undo")
    assert maker.skein(1)["children"] == [10]


def test_a_narrow_terminal_has_a_lots_free_yarn_in_its_first_line(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setattr(commands, "io", SimpleNamespace(StringIO=Terminal))
    maker.does("change", "L5", "--place", "the basket by the window")
    monkeypatch.setenv("COLUMNS", "72")
    narrow = maker.does("shelf", "teal").out.splitlines()
    monkeypatch.setenv("COLUMNS", "200")
    wide = maker.does("shelf", "teal").out.splitlines()

    assert re.fullmatch(r"  L5  teal \(\w+\) +lot not known  \d+ m free.*", narrow[1])
    assert re.fullmatch(r" {7}7-8 whole; the basket by the window", narrow[2])
    assert len(narrow) == len(wide) + 1


def test_a_story_tells_what_was_set_aside_and_released(maker: Maker) -> None:
    aside = maker.ask("show", "1")["promises"]
    assert [(one["kind"], one["item"], one["role"]) for one in aside] == [("set aside", 1, "A")]
    maker.does("release", "1", "--colour", "A")
    story = maker.ask("show", "1")["promises"]
    assert [one["kind"] for one in story] == ["set aside", "released"]
    assert sum(one["change_g"] for one in story) == 0
    told = maker.does("show", "1").out.split("\n")
    (line,) = (one for one in told if "  released " in one)
    assert line.split() == [
        *("entry", str(story[1]["entry"]), story[1]["on"], "released"),
        *(f"{math.ceil(-story[1]['change_g'] * 10 - 1e-3) / 10:g}", "g"),
        *("for", "item", "1,", "colour", "A"),
    ]
    maker.does("undo", "--yes")
    assert "cancels entry 9" in maker.does("show", "1").out


def test_the_story_of_a_lot_adds_up_what_an_entry_did_to_its_skeins(maker: Maker) -> None:
    maker.does("release", "1")
    maker.does("aside", "Hat", "--skeins", "A=2-3", "--skeins", "B=#4")
    told = maker.does("show", "L1").out
    assert re.search(r"entry 1 +\S+ +arrived +\+150 g +skeins 1-3\b", told)
    assert re.search(r"set aside +[0-9.]+ g +skein.* 2.* for item 2, colour A", told)
    changes = maker.ask("show", "L1")["promises"]
    assert {one["skein"] for one in changes} <= {1, 2, 3}


def test_a_lot_is_shown_with_all_its_skeins(maker: Maker) -> None:
    told = maker.does("show", "L1").out
    shown = maker.ask("show", "L1")
    on_shelf = next(lot for lot in maker.ask("shelf") if lot["lot_ref"] == "L1")

    assert told.startswith("L1: 3 skeins, ")
    for number in (1, 2, 3):
        assert f"  skein {number}  " in told
    assert {key: shown[key] for key in on_shelf} == on_shelf
    rows = maker.does("show", "L1", "--as", "csv").rows
    assert [row["number"] for row in rows] == ["1", "2", "3"]


def test_screens_are_in_the_spelling_of_her_settings(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool chunky, 50g/60m, slate grey, 75% wool 25% nylon")
    nobody.does("settings", "units", "us")

    told = nobody.does("show", "1").out
    assert "fiber: 75% wool, 25% nylon" in told
    assert "slate grey" in told
    assert "bulky (5)" in told
    refused_in_one_line(nobody("shelf", "--family", "blu"), 2, "color family", "gray")
    nobody.does("settings", "terms", "uk")
    assert "fibre: 75% wool" in nobody.does("show", "1").out
    assert "chunky (5)" in nobody.does("show", "1").out


def test_words_that_find_nothing_are_answered_with_the_nearest_on_the_shelf(
    nobody: Maker,
) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, midnight blue, lot 4")

    assert "did you mean blue?" in nobody.does("shelf", "bluu", "zzz").out
    assert nobody.does("shelf", "blu").out.startswith("Fell Wool")  # its beginning is enough
    assert "lists all of it" in nobody.does("shelf", "zzzz").out
