"""What on the shelf can become a design."""

from __future__ import annotations

import re
from types import SimpleNamespace

import commands
import pytest
from commands import NONE, NUMBER, WORDS, Maker, Terminal, keeps_its_keys, refused_in_one_line

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
    "reasons": (list,),
    "skeins": (list,),
}
#: Of a reason or a fix; its facts stand beside these.
SAID = {"kind": WORDS, "words": WORDS}
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
    "fixes": (list,),
    "short_m": (*NUMBER, NONE),
    "short_g": (*NUMBER, NONE),
    "short_rows": (int, NONE),
    "holds_expected": (bool,),
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
            for reason in filled["reasons"]:
                keeps_its_keys(reason, SAID)
        for reason in proposal["reasons"]:
            keeps_its_keys(reason, SAID)
    for miss in found["near_misses"]:
        keeps_its_keys(miss, NEAR_MISS)
        for fix in miss["fixes"]:
            keeps_its_keys(fix, SAID)


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
    misses = maker.ask("match", "--need", "A=30m", "--thickness", "DK", "--with", "A=L4")[
        "near_misses"
    ]

    assert [miss["roles"]["A"]["lot_ref"] for miss in misses] == ["L4"]
    assert "weigh a length you measured" in misses[0]["fixes"][0]["words"]


def test_a_length_is_assumed_where_that_is_asked_for(maker: Maker) -> None:
    asked = ("match", "--need", "A=30m", "--thickness", "DK", "--with", "A=L4", "--assume")

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
    assert " short" in said.out


CAP = (
    "--shape", "round hat", "--around", "54cm", "--tall", "23cm", "--gauge", "17 sts x 13 rows",
    "--fabric", "1 hdc", "--thickness", "DK",
)  # fmt: skip
NAMED = ("match", "Cap", "--with", "A=L1", "--with", "B=L2")


def test_a_band_told_as_a_way_out_is_one_that_fits_when_it_is_planned(maker: Maker) -> None:
    """40 g of B, 96 m, are too little for 12 cm of it: 15 rows of 13 to 4 in, 11.7 cm."""
    maker.does("design", "add", "Cap", *CAP, "--band", "B 12cm bottom")
    said = maker.does(*NAMED).out
    assert "Enough: no." in said
    told = re.search(r"or: make the band [0-9.]+ cm \(([0-9]+) rows\) instead of 11.7 cm", said)
    assert told

    for rows, enough in ((int(told[1]), True), (int(told[1]) + 1, False)):
        maker.does("design", "change", "Cap", "--band", f"B {rows} rows bottom")
        assert ("Enough: yes." in maker.does(*NAMED).out) is enough


def test_a_few_ways_out_are_told_and_all_of_them_where_that_is_asked_for(maker: Maker) -> None:
    larger = ("--around", "58cm", "--tall", "31cm")
    maker.does("design", "add", "Cap", *CAP, *larger, "--band", "B 2cm bottom")
    short = ("match", "Cap", "--with", "A=L5", "--with", "B=L1")
    (miss,) = maker.ask(*short)["near_misses"]

    few, everything = (maker.does(*short, *words).out for words in ((), ("--all",)))

    fixes = [fix["words"] for fix in miss["fixes"]]
    shown = [fix for fix in fixes if f"or: {fix}\n" in few]
    assert [fix for fix in fixes if f"or: {fix}\n" in everything] == fixes
    assert shown == [*fixes[:3], *(fix for fix in fixes[3:] if fix.startswith("buy "))]
    assert len(fixes) > few.count("or: ")
    assert "More with --all: more fixes." in few


def test_sizes_in_ways_out_are_in_her_units(maker: Maker) -> None:
    maker.does("design", "add", "Cap", *CAP, "--band", "B 12cm bottom")
    maker.does("settings", "units", "us")

    # 15 rows of 13 to 4 in are 4.615 in, to an eighth 4 5/8
    assert "rows) instead of 4 5/8 in (15)" in maker.does(*NAMED).out


def test_a_margin_typed_says_on_the_side_what_chance_it_leaves(maker: Maker) -> None:
    said = maker.does("match", "Hat", "--margin", "2%", "--as", "json")

    assert "60%" in said.err  # 0.25 spreads of a normal distribution
    assert said.json["need"]["margin"] == 0.02


def test_contrast_keeps_out_what_lies_too_near(maker: Maker) -> None:
    bold = maker.ask("match", "Hat", "--contrast", "bold")["proposals"]

    assert bold
    assert all(proposal["lightness_gap"] >= 40 for proposal in bold)


def test_an_unset_thickness_takes_yarn_of_any_one_thickness(maker: Maker) -> None:
    keys = {p["key"] for p in maker.ask("match", "--need", "A=150m", "--all")["proposals"]}

    assert {"L1", "L3"} <= keys


def test_the_best_set_is_drawn_in_its_colours_where_a_terminal_can(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = ("--shape", "headband", "--around", "50cm", "--tall", "10cm", "--fabric", "1 sc")
    gauge = ("--gauge", "16 sts x 18 rows", "--thickness", "DK", "--band", "B 3cm middle")
    maker.does("design", "add", "Band", *plan, *gauge)
    plain = maker.does("match", "Band", "--all").out
    for where in ("rendering.paint", "rendering.match"):
        monkeypatch.setattr(f"stash.{where}.paints", lambda: True)
    drawn = maker.does("match", "Band", "--all").out

    assert "▓" not in plain
    assert "▓▓" in drawn  # what colours it is taken out again on the way to no terminal
    assert "(its front)" in drawn


def keys(maker: Maker, *words: str) -> set[str]:
    return {p["key"] for p in maker.ask("match", "Hat", "--all", *words)["proposals"]}


def test_a_gap_by_numbers_narrows_the_answer(maker: Maker) -> None:
    found = maker.ask("match", "Hat", "--contrast", "20-70", "--all")["proposals"]

    assert found
    assert all(20 <= proposal["lightness_gap"] <= 70 for proposal in found)


def test_each_limit_narrows_the_answer(maker: Maker) -> None:
    everything = keys(maker)

    for words in (
        ("--colour", "A=navy"),
        ("--not-colour", "A=blue"),
        ("--per-100g", "225-235"),
        ("--without", "silk"),
        ("--owner", "mine"),
        ("--wash", "together"),
        ("--no-bleeding",),
    ):
        assert keys(maker, *words) <= everything, words
    assert all(key.startswith("L1+") for key in keys(maker, "--colour", "A=navy"))
    assert not any(key.startswith("L1+") for key in keys(maker, "--not-colour", "A=blue"))


def test_quarantined_yarn_is_asked_for_by_name(maker: Maker) -> None:
    maker.does("change", "L1", "--condition", "quarantined")

    assert not any("L1" in key.split("+") for key in keys(maker))
    assert any("L1" in key.split("+") for key in keys(maker, "--also", "quarantined"))
    told = maker("aside", "Hat", "L1+L2")
    refused_in_one_line(told, 4, "quarantined")
    maker.does("aside", "Hat", "L1+L2", "--also", "quarantined")


def test_a_rank_counts_in_the_same_question(maker: Maker) -> None:
    first = maker.ask("match", "Hat", "--not-colour", "A=blue")["proposals"][0]

    maker.does("aside", "Hat", "1", "--not-colour", "A=blue")

    taken = [take["number"] for filled in first["roles"].values() for take in filled["skeins"]]
    newest = max(line["item"] for line in maker.ask("shelf", "--aside"))
    lines = [line for line in maker.ask("shelf", "--aside") if line["item"] == newest]
    assert sorted(line["skein"] for line in lines) == sorted(taken)


@pytest.mark.parametrize(
    ("words", "status", "told"),
    [
        (("--contrast", "140"), 2, "a gap in lightness"),
        (("--wash", "warm"), 2, "choose any, together or hot"),
        (("--colour", "navy"), 2, "--colour A=blue"),
        (("--per-100g", "fine"), 2, "200-260"),
        (("--also", "faded"), 2, "quarantined"),
        (("--without", "woll"), 3, "wool"),
        (("--owner", "nobody"), 3, "owner"),
        (("--not-in", "nowhere"), 3, "place"),
        (("--colour", "D=blue"), 3, "no colour 'D'"),
    ],
)
def test_a_limit_that_cannot_be_read_says_how(
    maker: Maker, words: tuple[str, str], status: int, told: str
) -> None:
    refused_in_one_line(maker("match", "Hat", *words), status, told)


def test_names_and_lightness_stand_beside_every_swatch(maker: Maker) -> None:
    """Navy by the plain colour table: L* of #1d2544 is 15.4 (standard formula)."""
    assert "navy (very dark)" in maker.does("match", "Hat").out
    assert "navy (very dark, 15)" in maker.does("match", "Hat", "--all").out
    assert "navy (very dark)" in maker.does("aside", "Hat", "L1+L2").out


def test_lightness_and_colours_are_there_for_scripts(maker: Maker) -> None:
    role = maker.ask("match", "Hat", "--with", "A=L1")["proposals"][0]["roles"]["A"]

    assert role["colours_hex"] == ["#1d2544"]
    assert role["lightness"] == [pytest.approx(15.4, abs=0.1)]


def test_what_would_look_alike_to_her_is_said_when_she_asked_for_it(maker: Maker) -> None:
    """A brown and an olive that deutan eyes confuse, by the published simulation."""
    maker.does("add", "Heathwick DK, 2 x 100g/230m, brown, lot 9, DK", "--hex", "#8a5a2a")
    maker.does("add", "Heathwick DK, 2 x 100g/230m, olive, lot 10, DK", "--hex", "#5c6b2a")
    fixed = ("match", "Hat", "--with", "A=brown", "--with", "B=olive")

    assert "look alike" not in maker.does(*fixed).out
    maker.does("settings", "colour vision", "deutan")
    assert "may look alike to you (deutan)" in maker.does(*fixed).out


# Maker's account, public thread: about 8 g of each colour makes it; the same weight in all, with
# one ball of 2 g, does not. Seven colours there, four of them here.
@pytest.mark.parametrize(
    ("balls", "enough"), [((8, 8, 8, 8), "Enough: yes."), ((10, 10, 10, 2), "Enough: no.")]
)
def test_enough_is_counted_by_colour_and_not_in_total(
    nobody: Maker, balls: tuple[int, ...], enough: str
) -> None:
    for number, (colour, held) in enumerate(
        zip(("navy", "rust", "teal", "plum"), balls, strict=False), start=1
    ):
        nobody.does("add", f"Fern DK 100g/200m, {colour}, lot {number}, {held}g left")
    words = [f"{role}=16m" for role in "ABCD"]
    fixed = [f"{role}=L{n}" for n, role in enumerate("ABCD", start=1)]

    said = nobody.does(
        "match", "--margin", "0%",
        *(part for word in words for part in ("--need", word)),
        *(part for word in fixed for part in ("--with", word)),
    )  # fmt: skip

    assert enough in said.out


def test_a_pair_tells_scripts_its_hue_and_whom_it_looks_alike_to(maker: Maker) -> None:
    """The brown and the olive of the test above; whatever her own setting is."""
    maker.does("add", "Heathwick DK, 2 x 100g/230m, brown, lot 9, DK", "--hex", "#8a5a2a")
    maker.does("add", "Heathwick DK, 2 x 100g/230m, olive, lot 10, DK", "--hex", "#5c6b2a")
    fixed = ("match", "Hat", "--with", "A=brown", "--with", "B=olive")

    (proposal,) = maker.ask(*fixed)["proposals"]

    (pair,) = proposal["pairs"]
    assert pair["roles"] == ["A", "B"]
    assert "deutan" in pair["look_alike_to"]
    assert pair["lightness_gap"] == proposal["lightness_gap"]
    assert pair["hue"] in [reason["words"] for reason in proposal["reasons"]]


def test_a_near_miss_shows_how_much_of_it_is_there(maker: Maker) -> None:
    """Oatmeal has 96 m, of which 20 m and a margin are set aside already; a hat asks for 110 m."""
    said = maker.does("match", "Hat", "--with", "A=4", "--with", "B=L1").out

    assert "A  ■■■■■■■···  L2  oatmeal (light)" in said
    assert "B  ■■■■■■■■■■  L1  navy (very dark)" in said
    has, short = map(int, re.findall(r"has (\d+) m, (\d+) m short", said)[0])
    assert f"A about 100 m (± 8), set aside {has + short} m" in said


def test_what_a_lot_holds_is_not_told_where_it_is_not_what_is_short(maker: Maker) -> None:
    """Plum, one of two skeins: the lot has 360 m, the skein named 180 m."""
    maker.does("add", "Loamy aran 100g/180m, plum, lot 4")
    said = maker.does("match", "--need", "A=250m", "--with", "A=5").out

    assert " short" in said
    assert "360 m" not in said


def test_long_lines_are_broken_for_a_terminal_and_whole_in_a_pipe(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    piped = maker.does("match", "Hat", "--all").out
    monkeypatch.setenv("COLUMNS", "60")
    assert maker.does("match", "Hat", "--all").out == piped

    monkeypatch.setattr(commands, "io", SimpleNamespace(StringIO=Terminal))
    shown = maker.does("match", "Hat", "--all").out

    assert max(map(len, piped.splitlines())) > 60
    assert max(map(len, shown.splitlines())) <= 60
    assert shown.split() == piped.split()


@pytest.mark.parametrize("across", ["60", "80", "120"])
@pytest.mark.parametrize(
    "words",
    [
        ("Hat",),
        ("Hat", "--contrast", "any"),
        ("Hat", "--with", "A=4", "--with", "B=L1"),
        ("--need", "A=9000m"),
        ("--need", "A=60m", "--need", "B=20m", "--need", "C=10m"),
    ],
)
def test_an_answer_fits_a_screen(
    maker: Maker, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], across: str
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("COLUMNS", across)
    monkeypatch.setattr(commands, "io", SimpleNamespace(StringIO=Terminal))

    shown = maker.does("match", *words).out.splitlines()

    assert len(shown) <= 24
    assert shown[0]


def test_a_screen_has_three_sets_and_two_that_almost_fit(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("COLUMNS", "80")
    for colour in ("rust", "gold", "mint"):
        maker.does("add", f"Fell Wool DK, 2 x 100g/230m, {colour}, lot 9")
        maker.does("add", f"Fell Wool DK, 1 x 50g/115m, {colour}, lot 3")
    monkeypatch.setattr(commands, "io", SimpleNamespace(StringIO=Terminal))

    wide = ("--need", "A=150m", "--need", "B=20m", "--thickness", "DK")
    shown = maker.does("match", *wide).out

    assert len(re.findall(r"^\d+  L\d+\+L\d+  ", shown, re.M)) == 3
    assert len(re.findall(r"^      or: ", shown, re.M)) == 2
    assert re.search(r"^More with --all: \d+ sets, \d+ almost-fits", shown, re.M)
    assert re.search(r"■.*take \d+ m of skein \d+.*, \d+ m left", shown)


def test_a_clearer_contrast_is_suggested_once_where_none_was_asked_for(maker: Maker) -> None:
    suggestion = "--contrast clear"

    assert maker.does("match", "Hat", "--contrast", "any").out.count(suggestion) == 1
    assert suggestion not in maker.does("match", "Hat", "--contrast", "soft").out
    assert suggestion not in maker.does("match", "--need", "A=60m").out


def test_what_is_left_is_what_is_free_less_what_is_taken(maker: Maker) -> None:
    """Free is shown rounded down and each take up; the rest is what then remains."""
    asked = ("match", "--need", "A=60.3m", "--with", "A=L1", "--margin", "0%")
    free_m = maker.ask(*asked)["proposals"][0]["roles"]["A"]["free_m"]
    said = maker.does(*asked).out
    takes = re.search(r"take (.*), (\d+) m left", said)
    assert takes

    taken = sum(map(int, re.findall(r"(\d+) m of skein", takes[1])))
    assert taken + int(takes[2]) == int(free_m)


#: A pattern's figure, and the balls that come to exactly that.
HELD_EXACTLY = [
    ("190yd", "1 x 80g/190yd"),
    ("190yd", "2 x 50g/95yd"),
    ("402m", "2 x 100g/201m"),
    ("1250 yd", "5 x 100g/250yd"),
    ("51yd", "1 x 25g/51yd"),
]


@pytest.mark.parametrize(("stated", "balls"), HELD_EXACTLY)
def test_who_holds_what_the_leaflet_asks_for_is_never_told_a_plain_no(
    nobody: Maker, stated: str, balls: str
) -> None:
    nobody.does("add", f"Fell Wool, {balls}, navy, lot 1")
    nobody.does("design", "add", "Leaf", "--stated", f"A={stated}")
    (miss,) = nobody.ask("match", "Leaf")["near_misses"]
    said = nobody.does("match", "Leaf", "--with", "A=L1").out

    assert miss["holds_expected"]
    assert "but for the whole margin it is" in said
    assert "Enough for the figure you gave" in said
    assert "Enough: no" not in said


@pytest.mark.parametrize(("stated", "balls"), HELD_EXACTLY)
def test_what_the_leaflet_asks_for_can_be_set_aside(nobody: Maker, stated: str, balls: str) -> None:
    """By the way out that is told first: without a margin, or by its skeins."""
    nobody.does("add", f"Fell Wool, {balls}, navy, lot 1")
    nobody.does("design", "add", "Leaf", "--stated", f"A={stated}")
    (miss,) = nobody.ask("match", "Leaf")["near_misses"]
    by_skeins = re.search(r"--skeins \S+", miss["fixes"][0]["words"])
    words = by_skeins[0].split() if by_skeins else ["L1", "--margin", "0%"]

    nobody.does("aside", "Leaf", *words)

    assert nobody.ask("shelf")[0]["free_m"] == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize("count", [1, 2, 3, 7])
def test_whole_skeins_of_the_leaflet_are_enough(nobody: Maker, count: int) -> None:
    nobody.does("add", f"Fell Wool, {count} x 50g/120m, navy, lot 1")
    leaflet = ("--stated", f"A={count} skeins", "--full", "50g/120m")
    nobody.does("design", "add", "Leaf", *leaflet)

    assert "Enough: yes." in nobody.does("match", "Leaf", "--with", "A=L1").out


def test_who_has_less_than_the_leaflet_asks_for_is_told_no(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool, 1 x 80g/180yd, navy, lot 1")

    said = nobody.does("match", "--need", "A=190yd", "--with", "A=L1").out

    assert "Enough: no." in said


def test_ranks_left_out_of_a_list_are_said_and_each_rank_is_the_set_printed_under_it(
    maker: Maker,
) -> None:
    for colour in ("rust", "gold", "mint", "teal"):
        maker.does("add", f"Fell Wool DK, 2 x 100g/230m, {colour}, lot 9")
    proposals = {p["rank"]: p for p in maker.ask("match", "Hat")["proposals"]}
    keys = {rank: one["key"] for rank, one in proposals.items()}

    shown = maker.does("match", "Hat").out
    printed = re.findall(r"^(\d+)  (L\d+\+L\d+)", shown, re.M)
    left_out = re.findall(r"^(\d+)(?:-(\d+))?  (?:one more set|more sets) with ", shown, re.M)
    ranks = {int(rank) for rank, _ in printed}
    ranks |= {n for a, z in left_out for n in range(int(a), int(z or a) + 1)}

    assert left_out
    assert ranks == set(range(1, max(ranks) + 1))  # a pipe gets them all, none skipped in silence
    assert len(keys) == max(ranks) or f"More with --all: {len(keys) - max(ranks)} set" in shown
    assert {int(rank): key for rank, key in printed}.items() <= keys.items()
    for rank, _ in printed:
        maker.does("aside", "Hat", rank)
        taken = [
            take["number"]
            for filled in proposals[int(rank)]["roles"].values()
            for take in filled["skeins"]
        ]
        aside = maker.ask("shelf", "--aside")
        item = max(line["item"] for line in aside)
        assert sorted(line["skein"] for line in aside if line["item"] == item) == sorted(taken)
        maker.does("undo", "--yes")


def test_yarn_set_aside_for_others_is_named_only_where_it_shows_as_some(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 100g/240m, navy, lot 1")
    nobody.does("aside", "--note", "a sample", "--skein", "1", "0.1g")
    little = nobody.does("match", "--need", "A=900m").out
    nobody.does("aside", "--note", "a class", "--skein", "1", "10g")
    some = nobody.does("match", "--need", "A=900m").out

    assert "short" in little
    assert "more is set aside" not in little
    assert "24 m more is set aside for other items" in some
