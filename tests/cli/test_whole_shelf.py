"""What the whole shelf can become, as a maker or a script asks for it."""

from __future__ import annotations

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

from stash.rendering import first_screen
from stash.rendering.wrapped import wrapped

DESIGN = {
    "design": WORDS,
    "times": (int,),
    "times_counted_to": (int,),
    "proposal": (dict, NONE),
    "lacks": (list,),
    "need": (dict,),
    "near_miss": (dict, NONE),
    "roles_without_yarn": (list,),
}
ONE_MORE = {
    "lot_ref": WORDS,
    "yarn": WORDS,
    "colour": (str, NONE),
    "lot": (str, NONE),
    "free_m": NUMBER,
    "skeins": (list,),
    "one_more_g": NUMBER,
    "one_more_m": NUMBER,
    "designs": (list,),
}


@pytest.fixture
def planning(maker: Maker) -> Maker:
    """Beside the stocked hat: a cowl for which the one plum skein lacks another, a thick rug."""
    maker.does("design", "add", "Cowl", "--stated", "A=280m", "--thickness", "4")
    maker.does("design", "add", "Rug", "--stated", "A=500m", "--thickness", "7")
    return maker


def test_each_design_that_can_be_made_is_answered_by_match(planning: Maker) -> None:
    designs = planning.ask("ideas")["designs"]

    assert {one["design"] for one in designs} == {"Hat", "Cowl", "Rug"}
    for one in designs:
        keeps_its_keys(one, DESIGN)
        found = planning.ask("match", one["design"])
        assert one["need"] == found["need"]
        assert bool(one["times"]) is bool(found["proposals"])
        assert one["proposal"] == (found["proposals"][0] if found["proposals"] else None)
        assert one["near_miss"] is None or one["near_miss"] in found["near_misses"]
        assert one["lacks"] == (one["near_miss"]["blockers"] if one["near_miss"] else [])


def test_what_it_says_is_set_aside_once_is_no_longer_there(planning: Maker) -> None:
    before = {one["design"]: one["times"] for one in planning.ask("ideas")["designs"]}
    planning.does("aside", "Hat", "1")
    after = {one["design"]: one["times"] for one in planning.ask("ideas")["designs"]}

    assert after["Hat"] == before["Hat"] - 1


def test_one_more_skein_does_what_it_was_said_to_do(planning: Maker) -> None:
    """Plum: one skein of 100 g / 180 m, lot 4; the cowl takes 280 m and a tenth."""
    told = planning.ask("ideas")["one_more"]
    (plum,) = [one for one in told if one["colour"] == "plum"]
    keeps_its_keys(plum, ONE_MORE)
    assert (plum["free_m"], plum["one_more_m"], plum["skeins"]) == (180, 180, [5])
    assert [p["design"] for p in plum["designs"]] == ["Cowl"]
    assert planning.ask("match", "Cowl")["proposals"] == []

    planning.does("add", "Loamy aran 100g/180m, plum, lot 4")

    (found,) = planning.ask("match", "Cowl")["proposals"]
    assert found["roles"]["A"]["lot_ref"] == plum["lot_ref"]
    assert "plum" not in [one["colour"] for one in planning.ask("ideas")["one_more"]]


def test_the_answer_for_reading_ranks_tells_and_leads_on(planning: Maker) -> None:
    said = planning.does("ideas").out

    assert said.startswith("From 6 lots you can make 1 of your 3 designs today.")
    assert said.index("Hat: ") < said.index("Cowl: not yet") < said.index("Rug: not yet")
    assert "180 m of 309 m" in said
    assert "A: L3 (plum) has 180 m, 129 m short" in said
    assert "No jumbo (7) yarn here is close; it needs A 552 m." in said
    assert "plum (dark), " in said
    assert "180 m here: Cowl" in said
    best = planning.ask("match", "Hat")["proposals"][0]["key"]
    assert f'stash aside "Hat" {best}' in said


@pytest.mark.parametrize("across", [80, 120])
def test_at_a_terminal_it_fits_24_lines_and_says_what_is_hidden(
    nobody: Maker, monkeypatch: pytest.MonkeyPatch, across: int
) -> None:
    for number in range(9):
        nobody.does("add", f"Loamy aran 100g/180m, plum, lot {number}")
        nobody.does("design", "add", f"Cowl {number}", "--stated", f"A={280 + number}m")
        nobody.does("design", "add", f"Cup {number}", "--stated", f"A={20 + number}m")
    nobody.does("aside", "Cup 1", "1")
    piped = nobody.does("ideas").out
    monkeypatch.setattr(first_screen, "is_shown", lambda: True)
    monkeypatch.setenv("COLUMNS", str(across))

    shown, whole = nobody.does("ideas").out, nobody.does("ideas", "--all").out

    assert len(wrapped(shown, across).splitlines()) <= 24
    assert shown.count("stash aside") == 3
    assert "6 ideas" in shown.splitlines()[-1]
    assert "--all" in shown.splitlines()[-1]
    assert piped.count("stash aside") == 3
    assert piped.splitlines()[-1] == "Not shown: 6 ideas. To see all, add --all"
    open_items = whole[whole.index("Still open") :].rstrip()
    assert open_items in piped, "into a pipe the rest is whole"
    assert "Not shown" not in whole
    assert whole.count("stash aside") == 9


def test_an_open_item_is_listed_with_what_it_still_needs(planning: Maker) -> None:
    planning.does("aside", "Hat", "1")

    *_, item = planning.ask("ideas")["open_items"]

    keeps_its_keys(item, {"number": (int,), "design": WORDS, "state": WORDS, "needs": (list,)})
    assert (item["number"], item["design"], item["state"]) == (2, "Hat", "planned")
    aside = planning.ask("match", "Hat")["need"]["roles"]
    for role in item["needs"]:
        assert role["set_aside_m"] == pytest.approx(aside[role["role"]]["set_aside_m"], abs=0.01)
        assert role["short_g"] == 0
    said = planning.does("ideas").out
    assert "2 Hat, planned: A 111 m, B 23 m: `stash begin 2`" in said


def test_an_open_item_whose_yarn_is_gone_says_how_much(planning: Maker) -> None:
    """Weighing finds 5 g left of each skein that is set aside for the item's main colour."""
    takes = planning.ask("match", "Hat")["proposals"][0]["roles"]["A"]["skeins"]
    planning.does("aside", "Hat", "1")
    for take in takes:
        planning.does("weigh", f"{take['number']}", "5g", "--recount")

    *_, item = planning.ask("ideas")["open_items"]

    needs = {role["role"]: role for role in item["needs"]}
    assert needs["A"]["short_g"] == pytest.approx(needs["A"]["set_aside_g"] - 5 * len(takes))
    assert needs["B"]["short_g"] == 0
    assert "of it gone" in planning.does("ideas").out
    assert "`stash short`" in planning.does("ideas").out


def test_a_lot_or_words_for_it_stand_for_all_its_free_yarn(planning: Maker) -> None:
    """Teal: two skeins of 120 m; a join of two tails of 20 cm goes off for the second."""
    by_ref, by_words = planning.ask("ideas", "L5"), planning.ask("ideas", "teal")

    assert by_ref == by_words
    assert (by_ref["skein"], by_ref["lot_ref"], by_ref["free_m"]) == (None, "L5", 240)
    (cowl,) = [one for one in by_ref["designs"] if one["design"] == "Cowl"]
    assert not cowl["enough"]
    (lack,) = cowl["lacks"]
    assert lack["kind"] == "role_lacks"
    assert lack["length_m"] == pytest.approx(cowl["set_aside_m"] - 240 + 0.4)
    said = planning.does("ideas", "L5").out
    assert said.startswith("The whole lot: 240 m free, 239 m once joined, teal")
    assert "--with A=L5" in said


def test_words_for_several_lots_are_asked(planning: Maker) -> None:
    refused_in_one_line(planning("ideas", "hedgebell"), 2, "L2", "L5")
    refused_in_one_line(planning("ideas", "L77"), 3)


def test_the_keys_of_the_contract_are_kept(planning: Maker) -> None:
    planning.does("aside", "Hat", "1")

    whole, of_skein = planning.ask("ideas"), planning.ask("ideas", "4")

    assert {"designs", "one_more", "open_items"} <= whole.keys()
    for one in whole["designs"]:
        assert {"design", "times", "proposal", "lacks"} <= one.keys()
    for one in of_skein["designs"]:
        assert {"design", "role", "enough", "size", "band", "lacks"} <= one.keys()
        assert bool(one["lacks"]) is not one["enough"]


def test_csv_has_one_row_a_design(planning: Maker) -> None:
    rows = planning.does("ideas", "--as", "csv").rows

    assert [(r["design"], r["times"] != "0") for r in rows] == [
        ("Hat", True), ("Cowl", False), ("Rug", False),
    ]  # fmt: skip


def test_without_a_design_it_says_how_to_keep_one(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy")

    assert "stash design add" in nobody.does("ideas").out
    assert nobody.ask("ideas")["designs"] == []


def test_nothing_is_written_by_asking(planning: Maker) -> None:
    before = planning.file.read_bytes()
    planning.does("ideas")

    assert planning.file.read_bytes() == before


def test_an_idea_says_why_it_is_these_yarns(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy, lot 1, 40g left", "--bought", "2020-02-03")
    nobody.does("add", "Hedgebell DK, 2 x 50g/120m, rust, lot 9")
    nobody.does("design", "add", "Band", "--stated", "A=20m", "--thickness", "DK")
    nobody.does("design", "add", "Cap", "--stated", "A=60m", "--stated", "B=20m")

    said = nobody.does("ideas").out
    (band,) = [line for line in said.splitlines() if line.startswith("Band: ")]
    assert band == (
        "Band: enough for 4, your whole shelf for 9 or more; uses an opened skein; "
        "yarn here since 2020-02-03"
    )
    (cap,) = [line for line in said.splitlines() if line.startswith("Cap: ")]
    assert "contrast" in cap  # one colour is opened and the other is not
    assert "opened" not in cap


def test_an_idea_counts_what_the_yarns_shown_make_and_then_the_whole_shelf(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 100g/240m, navy, lot 1")
    for number, colour in enumerate(("rust", "cream", "teal"), start=2):
        nobody.does("add", f"Hedgebell DK, 50g/120m, {colour}, lot {number}, 12g left")
    nobody.does("design", "add", "Cap", "--stated", "A=60m", "--stated", "B=20m")
    nobody.does("design", "add", "Band", "--stated", "A=60m")

    heads = [line for line in nobody.does("ideas").out.splitlines() if ": enough for " in line]

    (cap,) = [line for line in heads if line.startswith("Cap")]
    assert ": enough for 1, your whole shelf for 3" in cap
    (band,) = [line for line in heads if line.startswith("Band")]
    assert ": enough for 3" in band
    assert "whole shelf" not in band


def test_at_most_three_ideas_are_said_and_all_where_all_are_asked_for(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 4 x 100g/240m, navy, lot 1")
    for number in range(5):
        nobody.does("design", "add", f"Band {number}", "--stated", f"A={20 + number}m")

    few, every = nobody.does("ideas").out, nobody.does("ideas", "--all").out

    assert few.count(": enough for ") == 3
    assert "Not shown: 2 ideas. To see all, add --all" in few
    assert every.count(": enough for ") == 5
    assert len(nobody.ask("ideas")["designs"]) == 5
