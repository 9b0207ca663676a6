"""Setting yarn aside, beginning an item and finishing it."""

from __future__ import annotations

import re

import pytest
from commands import Maker, refused_in_one_line


def free_g(maker: Maker, number: int) -> float:
    free: float = maker.skein(number)["free_g"]
    return free


def test_the_list_to_pick_names_skein_place_and_amount(maker: Maker) -> None:
    told = maker.does("aside", "Hat", "1").out

    assert "Set aside for item 2 (Hat)  (entry 9)" in told
    assert "blue box" in told
    assert "skein 4  B  " in told


def test_a_key_and_a_rank_lead_to_the_same_yarn(maker: Maker) -> None:
    first = maker.ask("match", "Hat")["proposals"][0]
    maker.does("aside", "Hat", first["key"])
    by_key = maker.ask("shelf", "--aside")[-2:]
    maker.does("undo")
    maker.does("aside", "Hat", "1")

    assert [
        (x["role"], x["skein"], x["set_aside_m"]) for x in maker.ask("shelf", "--aside")[-2:]
    ] == [(x["role"], x["skein"], x["set_aside_m"]) for x in by_key]


def test_her_own_choice_is_set_aside(maker: Maker) -> None:
    maker.does("aside", "Hat", "--skeins", "A=2-3", "--skeins", "B=#4")

    mine = [(x["role"], x["skein"]) for x in maker.ask("shelf", "--aside") if x["item"] == 2]

    assert mine == [("A", 2), ("B", 4)]


@pytest.mark.parametrize(
    ("amount", "grams"), [("10g", 10), ("24 m", 10), ("1/2 oz", 14.175), ("2x5g", 10)]
)
def test_yarn_is_held_aside_without_a_design(maker: Maker, amount: str, grams: float) -> None:
    maker.does("aside", "--note", "for the class", "--skein", "2", amount)

    (held,) = [x for x in maker.ask("shelf", "--aside") if x["note"] == "for the class"]

    assert held["design"] is None
    assert held["set_aside_g"] == pytest.approx(grams, abs=0.0011)  # whole milligrams, upwards


def test_without_an_amount_all_that_is_free_is_held(maker: Maker) -> None:
    maker.does("aside", "--note", "for the class", "--skein", "1")

    assert free_g(maker, 1) == 0


def test_what_is_released_is_free_again(maker: Maker) -> None:
    maker.does("release", "hat")

    assert free_g(maker, 1) == 50
    assert maker.ask("shelf", "--aside") == []
    refused_in_one_line(maker("release", "1"), 4, "nothing is set aside")


def test_one_colour_is_released_and_the_others_stay_aside(maker: Maker) -> None:
    told = maker.does("release", "hat", "--colour", "b").out

    assert told.startswith("No longer set aside for item 1 (Hat): ")
    assert "of skein 4" in told
    assert [(x["role"], x["skein"]) for x in maker.ask("shelf", "--aside")] == [("A", 1)]
    assert maker.ask("log")[0]["words"] == (
        "item 1, Hat, no longer has yarn set aside for colour B"
    )
    maker.does("undo", "--yes")
    assert [x["role"] for x in maker.ask("shelf", "--aside")] == ["A", "B"]
    assert maker.ask("check") == {"ok": True, "findings": []}


def test_a_colour_without_yarn_set_aside_is_refused_with_those_that_have_some(
    maker: Maker,
) -> None:
    before = maker.entries()
    refused_in_one_line(maker("release", "hat", "--colour", "C"), 4, "colour C of item 1", "A, B")
    maker.does("release", "hat", "--colour", "A")
    refused_in_one_line(maker("release", "hat", "--colour", "A"), 4, "only for B")
    assert maker.entries() == before + 1


def test_an_item_is_begun_once(maker: Maker) -> None:
    maker.does("begin", "hat")

    assert maker.ask("show", "item", "1")["state"] == "begun"
    refused_in_one_line(maker("begin", "hat"), 4, "already")


def test_a_name_with_two_open_items_is_refused_with_their_numbers(maker: Maker) -> None:
    maker.does("aside", "Hat", "1")

    refused_in_one_line(maker("begin", "hat"), 2, "1 (Hat)", "2 (Hat)")


@pytest.mark.parametrize(
    ("how", "used", "teaches"),
    [
        # by what is left: 50 - 12 and 40 - 31 grams
        (("--left", "1=12g", "--left", "4=31g"), {1: 38, 4: 9}, True),
        (("--weighed", "A=38g,B=9g"), {1: 38, 4: 9}, True),
        # 48 g shared by what was expected, 100 m to 20 m of yarns of one pair: five to one
        (("--weighed", "48g"), {1: 40, 4: 8}, True),
        # expected 100 m and 20 m of 50 g / 120 m
        (("--as-planned",), {1: 41.667, 4: 8.333}, False),
    ],
    ids=["left", "by colour", "in all", "as planned"],
)
def test_a_finished_item_books_what_it_used_and_gives_back_the_rest(
    maker: Maker, how: tuple[str, ...], used: dict[int, float], teaches: bool
) -> None:
    before = {1: 50, 4: 40}
    maker.does("begin", "hat")
    maker.does("done", "hat", *how)

    for number, grams in used.items():
        skein = maker.skein(number)
        assert skein["held_g"] == pytest.approx(before[number] - grams, abs=0.01)
        assert (skein["set_aside_g"], skein["set_aside_for"]) == (0, [])
    assert maker.ask("show", "item", "1")["state"] == "done"
    assert (maker.ask("need", "hat")["source"] == "own items") is teaches
    assert maker.ask("check") == {"ok": True, "findings": []}


def test_a_ball_that_weighs_more_than_before_is_refused(maker: Maker) -> None:
    before = maker.file.read_bytes()

    said = maker("done", "hat", "--left", "1=70g", "--left", "4=31g")

    assert said.status in (2, 4)
    assert said.err.startswith("stash: ")
    assert maker.file.read_bytes() == before


def test_an_item_that_is_done_takes_no_more_yarn(maker: Maker) -> None:
    maker.does("done", "hat", "--as-planned")

    refused_in_one_line(maker("use", "2", "5g", "--for", "1"), 4, "done")
    refused_in_one_line(maker("done", "1", "--as-planned"), 4, "done")


def test_the_list_to_pick_is_there_for_scripts(maker: Maker) -> None:
    best = maker.ask("match", "Hat")["proposals"][0]

    made = maker.ask("aside", "Hat", "1")

    told = [one for place in made["places"] for one in place["skeins"]]
    assert (made["item"], made["design"], made["note"]) == (2, "Hat", None)
    assert [place["place"] for place in made["places"]] == ["blue box"]
    for role, filled in best["roles"].items():
        ours = [one for one in told if one["role"] == role]
        assert {one["number"] for one in ours} == {take["number"] for take in filled["skeins"]}
        assert sum(one["take_m"] for one in ours) == pytest.approx(
            sum(take["take_m"] for take in filled["skeins"])
        )
        (worked,) = [one for one in made["roles"] if one["role"] == role]
        assert worked["joins"] == filled["joins"]


def test_what_is_to_pick_is_what_the_books_hold_aside(maker: Maker) -> None:
    rows = maker.does("aside", "Hat", "--skeins", "A=2,3", "--skeins", "B=4", "--as", "csv").rows
    booked = [x for x in maker.ask("shelf", "--aside") if x["item"] == 2]

    assert {(int(r["number"]), r["role"], float(r["take_g"])) for r in rows} == {
        (x["skein"], x["role"], x["set_aside_g"]) for x in booked
    }


def test_a_walk_along_the_shelf_goes_place_by_place(maker: Maker) -> None:
    maker.does("change", "1", "--place", "crate 10")
    maker.does("change", "4", "--place", "crate 9")
    maker.does("release", "Hat")
    lines = maker.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=4").out.splitlines()

    assert lines[1] == "To pick:"
    assert lines.index("crate 9") < lines.index("crate 10")
    assert "[ ] skein 4" in lines[lines.index("crate 9") + 1]


def test_yarn_held_under_a_note_has_a_list_too(maker: Maker) -> None:
    made = maker.ask("aside", "--note", "for the class", "--skein", "2", "10g")

    assert (made["design"], made["note"]) == (None, "for the class")
    assert made["places"][0]["skeins"][0]["take_g"] == 10


def test_what_a_finished_item_used_adds_up_and_the_next_one_learns_from_it(maker: Maker) -> None:
    said = maker.does("done", "hat", "--left", "1=20.4g", "--left", "4=31.7g").out

    total = re.search(r"is done: ([\d.]+) g used", said)
    used = [float(one) for one in re.findall(r"^  [AB]  .* used +([\d.]+) g", said, re.M)]
    assert total is not None
    assert len(used) == 2
    assert sum(used) == pytest.approx(float(total[1]))
    assert "no longer set aside: " in said
    assert "the next Hat will be estimated from this one, colour by colour" in said


def test_an_item_done_as_planned_teaches_nothing(maker: Maker) -> None:
    said = maker.does("done", "hat", "--as-planned").out

    assert "not weighed, so the next Hat learns nothing from it" in said
