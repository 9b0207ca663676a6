"""What on the shelf can become a piece."""

from __future__ import annotations

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys

MATCH = {
    "need": (dict,),
    "as_of": WORDS,
    "proposals": (list,),
    "near_misses": (list,),
    "looked_at": (int,),
}
PROPOSAL = {
    "rank": (int,),
    "key": WORDS,
    "cost": NUMBER,
    "roles": (dict,),
    "lightness_gap": (*NUMBER, NONE),
    "colour_difference": (*NUMBER, NONE),
    "reasons": (list,),
}
FILLED = {
    "lot_ref": WORDS,
    "yarn": WORDS,
    "colour": (str, NONE),
    "lot": (str, NONE),
    "free_m": NUMBER,
    "coverage": NUMBER,
    "chance": NUMBER,
    "left_m": NUMBER,
    "joins": (int,),
    "skeins": (list,),
}
TAKE = {
    "number": (int,),
    "lot_ref": WORDS,
    "place": (str, NONE),
    "strand": (int,),
    "take_m": NUMBER,
    "take_g": (*NUMBER, NONE),
}
NEAR_MISS = {
    "roles": (dict,),
    "why": WORDS,
    "way_out": WORDS,
    "short_m": (*NUMBER, NONE),
    "short_g": (*NUMBER, NONE),
    "short_rows": (int, NONE),
}
#: About 0.4 m of tails for a join (house rule); more than one join in none of these takes.
JOIN_M = 0.4


def test_an_answer_as_json_has_the_promised_keys(maker: Maker) -> None:
    found = maker.ask("match", "Hat")

    keeps_its_keys(found, MATCH)
    assert found["proposals"]
    assert found["near_misses"]
    for proposal in found["proposals"]:
        keeps_its_keys(proposal, PROPOSAL)
        for filled in proposal["roles"].values():
            keeps_its_keys(filled, FILLED)
            for take in filled["skeins"]:
                keeps_its_keys(take, TAKE)
    for miss in found["near_misses"]:
        keeps_its_keys(miss, NEAR_MISS)


def test_the_figures_of_a_proposal_hang_together(maker: Maker) -> None:
    found = maker.ask("match", "Hat")
    need = found["need"]["roles"]

    for proposal in found["proposals"]:
        for role, filled in proposal["roles"].items():
            taken = sum(take["take_m"] for take in filled["skeins"])
            asked = need[role]["set_aside_m"] + JOIN_M * filled["joins"]
            assert taken == pytest.approx(asked, abs=0.01)
            assert filled["coverage"] == pytest.approx(
                filled["free_m"] / need[role]["expected_m"], rel=1e-6
            )
            assert filled["left_m"] == pytest.approx(filled["free_m"] - taken, abs=0.01)


def test_proposals_come_strictly_by_cost(maker: Maker) -> None:
    proposals = maker.ask("match", "Hat", "--all")["proposals"]

    assert [p["rank"] for p in proposals] == list(range(1, len(proposals) + 1))
    assert [p["cost"] for p in proposals] == sorted(p["cost"] for p in proposals)


def test_the_same_question_gets_the_same_answer(maker: Maker) -> None:
    assert maker.does("match", "Hat", "--as", "json") == maker.does("match", "Hat", "--as", "json")


def test_only_so_many_are_looked_for(maker: Maker) -> None:
    everything = maker.ask("match", "Hat", "--all")["proposals"]

    assert maker.ask("match", "Hat", "--top", "2")["proposals"] == everything[:2]


def test_an_answer_as_csv_has_one_row_a_role(maker: Maker) -> None:
    rows = maker.does("match", "Hat", "--as", "csv").rows

    assert [(r["rank"], r["role"]) for r in rows[:2]] == [("1", "A"), ("1", "B")]


def test_yarn_without_a_length_is_a_near_miss_with_its_way_out(maker: Maker) -> None:
    misses = maker.ask("match", "--need", "A=30m", "--class", "DK", "--with", "A=L4")["near_misses"]

    assert [miss["roles"]["A"]["lot_ref"] for miss in misses] == ["L4"]
    assert "measure a metre" in misses[0]["way_out"]


def test_a_length_is_assumed_where_that_is_asked_for(maker: Maker) -> None:
    asked = ("match", "--need", "A=30m", "--class", "DK", "--with", "A=L4", "--assume")

    assert maker.ask(*asked)["proposals"][0]["roles"]["A"]["lot_ref"] == "L4"


def test_none_is_an_answer(maker: Maker) -> None:
    found = maker.ask("match", "--need", "A=9000m")

    assert found["proposals"] == []
    assert "Nothing on the shelf covers it" in maker.does("match", "--need", "A=9000m").out


@pytest.mark.parametrize("fixed", [("A=2", "B=4"), ("A=L1", "B=L2"), ("A=navy", "B=oatmeel")])
def test_every_role_fixed_asks_whether_there_is_enough(
    maker: Maker, fixed: tuple[str, str]
) -> None:
    words = [part for role in fixed for part in ("--with", role)]

    (proposal,) = maker.ask("match", "Hat", *words)["proposals"]

    assert proposal["key"] == "L1+L2"
    assert "Enough: yes." in maker.does("match", "Hat", *words).out


def test_not_enough_is_an_answer_too(maker: Maker) -> None:
    said = maker.does("match", "Hat", "--with", "A=4", "--with", "B=2")

    assert "Enough: no." in said.out
    assert "short by" in said.out


def test_a_margin_typed_says_on_the_side_what_chance_it_leaves(maker: Maker) -> None:
    said = maker.does("match", "Hat", "--margin", "2%", "--as", "json")

    assert "60%" in said.err  # 0.25 spreads of a normal distribution
    assert said.json["need"]["margin"] == 0.02


def test_contrast_keeps_out_what_lies_too_near(maker: Maker) -> None:
    bold = maker.ask("match", "Hat", "--contrast", "bold")["proposals"]

    assert bold
    assert all(proposal["lightness_gap"] >= 40 for proposal in bold)


def test_an_unset_class_takes_yarn_of_any_one_class(maker: Maker) -> None:
    keys = {p["key"] for p in maker.ask("match", "--need", "A=150m", "--all")["proposals"]}

    assert {"L1", "L3"} <= keys


def test_the_best_set_is_drawn_in_its_colours_where_a_terminal_can(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = ("--shape", "headband", "--around", "50cm", "--tall", "10cm", "--fabric", "1 sc")
    gauge = ("--gauge", "16 sts x 18 rows", "--class", "DK", "--band", "B 3cm middle")
    maker.does("piece", "add", "Band", *plan, *gauge)
    plain = maker.does("match", "Band").out
    for where in ("common", "matching"):
        monkeypatch.setattr(f"stash.cli.{where}.paints", lambda: True)
    drawn = maker.does("match", "Band").out

    assert "▓" not in plain
    assert "▓▓" in drawn  # what colours it is taken out again on the way to no terminal
    assert "(its front)" in drawn
