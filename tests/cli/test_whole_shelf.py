"""What the whole shelf can become, as a maker or a script asks for it."""

from __future__ import annotations

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys

DESIGN = {
    "design": WORDS,
    "possible": (bool,),
    "in_a_row": (int,),
    "in_a_row_counted_to": (int,),
    "need": (dict,),
    "best": (dict, NONE),
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
        assert one["possible"] is bool(found["proposals"])
        assert one["need"] == found["need"]
        assert one["best"] == (found["proposals"][0] if found["proposals"] else None)
        assert one["near_miss"] is None or one["near_miss"] in found["near_misses"]


def test_what_it_says_is_set_aside_once_is_no_longer_there(planning: Maker) -> None:
    before = {one["design"]: one["in_a_row"] for one in planning.ask("ideas")["designs"]}
    planning.does("aside", "Hat", "1")
    after = {one["design"]: one["in_a_row"] for one in planning.ask("ideas")["designs"]}

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

    assert said.startswith("From 6 lots on the shelf, 1 of 3 kept designs can be made today")
    assert said.index("Hat: ") < said.index("Cowl: not yet") < said.index("Rug: not yet")
    assert "180 m of 310 m" in said
    assert "A: L3 is short by" in said
    assert "no yarn of class 7 here comes near it, and it takes A 560 m" in said
    assert "plum (L* " in said
    assert "180 m there, one more is 100 g / 180 m" in said
    best = planning.ask("match", "Hat")["proposals"][0]["key"]
    assert f'stash aside "Hat" {best}' in said


def test_more_lots_than_one_reads_are_left_to_all(nobody: Maker) -> None:
    for number in range(7):
        nobody.does("add", f"Loamy aran 100g/180m, plum, lot {number}")
    nobody.does("design", "add", "Cowl", "--stated", "A=280m", "--thickness", "4")

    assert "2 more lots; --all shows them" in nobody.does("ideas").out
    every = nobody.does("ideas", "--all").out
    assert "more lots" not in every
    assert every.count("one more is") == 7
    assert len(nobody.ask("ideas")["one_more"]) == 7


def test_csv_has_one_row_a_design(planning: Maker) -> None:
    rows = planning.does("ideas", "--as", "csv").rows

    assert [(r["design"], r["possible"]) for r in rows] == [
        ("Hat", "True"), ("Cowl", "False"), ("Rug", "False"),
    ]  # fmt: skip


def test_without_a_design_it_says_how_to_keep_one(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy")

    assert "stash design add" in nobody.does("ideas").out
    assert nobody.ask("ideas")["designs"] == []


def test_nothing_is_written_by_asking(planning: Maker) -> None:
    before = planning.file.read_bytes()
    planning.does("ideas")

    assert planning.file.read_bytes() == before
