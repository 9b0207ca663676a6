"""The batch as a maker types it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

BATCH = {
    "as_of": WORDS,
    "made": (list,),
    "unmet": (list,),
    "objective": NUMBER,
    "bound": NUMBER,
    "gap": NUMBER,
    "skeins": (list,),
    "clash": (dict, NONE),
    "finished": (bool,),
}
PLAN = """
[[want]]
design = "Hat"
at_least = 1
at_most = 3
value = 20
hours = 2

[[want]]
design = "Scarf"
at_least = 1
at_most = 2
value = 30
hours = 4

[limits]
hours = 8
"""


@pytest.fixture
def seller(maker: Maker) -> Maker:
    """The stocked shelf, with the yarn of item 1 given back and a second design."""
    maker.does("release", "1")
    maker.does("design", "add", "Scarf", "--stated", "A=150m", "--thickness", "DK")
    return maker


def plan_file(folder: Path, text: str = PLAN) -> str:
    path = folder / "market.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_plan_as_json_keeps_its_keys(seller: Maker, tmp_path: Path) -> None:
    found = seller.ask("batch", plan_file(tmp_path))

    keeps_its_keys(found, BATCH)
    for made in found["made"]:
        keeps_its_keys(made, {"design": WORDS, "count": (int,), "roles": (dict,)})
    for skein in found["skeins"]:
        keeps_its_keys(skein, {"number": (int,), "cuts": (list,), "left_m": NUMBER})
        for cut in skein["cuts"]:
            keeps_its_keys(cut, {"design": WORDS, "role": WORDS, "take_m": NUMBER})
    assert found["gap"] == (found["bound"] - found["objective"]) / max(abs(found["bound"]), 1)
    assert found["aims"] == [
        {
            "aim": "value",
            "value": found["objective"],
            "bound": found["bound"],
            "gap": found["gap"],
        }
    ]
    worth = {"Hat": 20, "Scarf": 30}
    assert found["objective"] == sum(worth[m["design"]] * m["count"] for m in found["made"])


def test_what_is_cut_of_each_skein_is_what_it_has(seller: Maker, tmp_path: Path) -> None:
    found = seller.ask("batch", plan_file(tmp_path))

    for skein in found["skeins"]:
        free_m = seller.skein(skein["number"])["free_m"]
        assert sum(c["take_m"] for c in skein["cuts"]) + skein["left_m"] == pytest.approx(
            free_m, abs=1e-5
        )


def test_a_plan_for_reading_says_what_where_and_how_good(seller: Maker, tmp_path: Path) -> None:
    said = seller.does("batch", plan_file(tmp_path)).out

    assert "to make" in said
    assert "Hat" in said
    assert "To cut, skein by skein:" in said
    assert "blue box" in said
    assert "no plan brings in more" in said


#: The keys of the contract, with those that each element of a list has.
CONTRACT = {
    "as_of": None,
    "made": {"design", "count", "roles", "items"},
    "unmet": {"design", "count", "short"},
    "objective": None,
    "bound": None,
    "gap": None,
    "aims": {"aim", "value", "bound", "gap"},
    "skeins": {"number", "cuts", "left_m"},
}


def test_scripts_find_every_key_of_the_contract(seller: Maker) -> None:
    found = seller.ask("batch", "--want", "Hat=40", "--want", "Scarf=1")

    assert CONTRACT.keys() <= found.keys()
    for name, promised in CONTRACT.items():
        for one in found[name] if promised else ():
            assert promised <= one.keys(), name
    cuts = [cut for skein in found["skeins"] for cut in skein["cuts"]]
    assert all({"design", "role", "take_m"} <= cut.keys() for cut in cuts)
    assert found["made"]
    assert found["unmet"]
    assert cuts


def test_at_a_terminal_a_plan_fits_24_lines_unless_all_is_asked_for(
    seller: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    seller.does("add", "Fell Wool DK 30 x 50g/120m, rust, lot 5")
    ask = ("batch", "--want", "Hat=0-40")
    piped = seller.does(*ask).out
    monkeypatch.setattr("stash.cli.batching._across", lambda: 80)

    shown = seller.does(*ask).out.splitlines()

    assert len(shown) < 24 < len(piped.splitlines())
    assert "`--all`" in shown[-1]
    assert seller.does(*ask, "--all").out == piped


def test_the_common_case_in_options(seller: Maker) -> None:
    found = seller.ask("batch", "--want", "Hat=1-2 at 20 in 2h", "--hours", "2.5")

    assert [made["count"] for made in found["made"]] == [1]
    assert (found["aim"], found["objective"], found["hours"]) == ("value", 20.0, 2.0)


def test_each_cut_is_a_row_of_csv(seller: Maker) -> None:
    rows = seller.does("batch", "--want", "Hat=1", "--as", "csv").rows

    assert {row["design"] for row in rows} == {"Hat"}
    assert {row["role"] for row in rows} == {"A", "B"}


def test_saved_and_booked_in_one_entry(seller: Maker, tmp_path: Path) -> None:
    kept = str(tmp_path / "plan.json")
    seller.does("batch", plan_file(tmp_path), "--save", kept)
    before = seller.entries()

    said = seller.does("batch", "--aside", kept)

    assert seller.entries() == before + 1
    assert "Set aside for" in said.out
    assert seller.does("check").out.startswith("All good")
    refused_in_one_line(seller("batch", "--aside", kept), 4, "has changed since", "plan again")


def test_what_to_pick_for_a_batch_is_listed_by_place(seller: Maker, tmp_path: Path) -> None:
    kept = str(tmp_path / "plan.json")
    seller.does("batch", "--want", "Hat=2", "--save", kept)

    booked = seller.ask("batch", "--aside", kept)

    items = [one["item"] for one in booked["items"]]
    told = {skein["role"] for place in booked["places"] for skein in place["skeins"]}
    assert len(items) == 2
    assert {role.rpartition(" ")[2] for role in told} == {str(number) for number in items}


def test_hours_are_read_as_elsewhere_and_those_she_has_set_are_taken(seller: Maker) -> None:
    def made(*words: str) -> int:
        return sum(one["count"] for one in seller.ask("batch", *words)["made"])

    assert made("--want", "Hat=0-3 in 2h 30min", "--hours", "5") == 2
    seller.does("settings", "hours Hat", "3h 20min")
    assert made("--want", "Hat=0-3", "--hours", "6h 40min") == 2
    assert made("--want", "Hat=0-3", "--hours", "6h 30min") == 1


def test_a_booked_item_goes_its_way(seller: Maker, tmp_path: Path) -> None:
    kept = str(tmp_path / "plan.json")
    seller.does("batch", "--want", "Hat=1", "--save", kept)
    seller.does("batch", "--aside", kept)

    seller.does("begin", "Hat")
    seller.does("done", "Hat", "--as-planned")

    assert seller.does("check").status == 0


def test_what_cannot_be_met_says_which_wants_clash_and_the_smallest_change(seller: Maker) -> None:
    said = seller.does("batch", "--want", "Hat=2 in 2h", "--want", "Scarf=1 in 4h", "--hours", "7")

    assert "1 missing; the next one needs" in said.out
    assert "Hat and Scarf cannot share the hours" in said.out
    assert "It all fits with 1 fewer of" in said.out
    assert "or with 1 h more" in said.out


def test_unmet_wants_are_there_for_scripts(seller: Maker) -> None:
    found = seller.ask("batch", "--want", "Hat=40")

    (unmet,) = found["unmet"]
    made = sum(one["count"] for one in found["made"])
    assert unmet["count"] == 40 - made
    assert unmet["short"]["yarn_m"]
    assert found["clash"]["give_up"] == unmet["count"]


def test_another_size_is_planned_for_itself(seller: Maker, tmp_path: Path) -> None:
    shaped = ("--shape", "round hat", "--around", "54cm", "--tall", "22cm")
    worked = ("--gauge", "17 sts x 13 rows", "--fabric", "1 hdc", "--thickness", "DK")
    seller.does("design", "add", "Cap", *shaped, *worked)
    text = "[[want]]\npiece='Cap'\nsize='child 4 years'\nat_least=1\nat_most=1\n"

    found = seller.ask("batch", plan_file(tmp_path, text))

    (made,) = found["made"]
    assert (made["design"], made["size"]) == ("Cap", "child 4 years")


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("--want", "Hat=x"), 2, "DESIGN=6"),
        ((), 2, "--want"),
        (("--want", "Shawl=1"), 3, "stash design add"),
        (("--want", "Hat=1", "--aim", "fame"), 2, "choose value"),
        (("--want", "Hat=1", "--hours", "many"), 2, "--hours"),
        (("--want", "Hat=1", "--keep-out", "L99"), 3, "L99"),
        (("--want", "Hat", "--aim", "buying"), 4, "at_most"),
        (("--want", "Hat=1", "--by", "2001-01-01"), 2, "day to come"),
        (("nowhere.toml",), 5, "nowhere.toml"),
        (("--aside", "nowhere.json"), 5, "nowhere.json"),
        (("--want", "Hat=1", "--aside", "plan.json"), 2, "leave out"),
        (("--want", "Hat=1", "--save", "no/such/folder/plan.json"), 5, "make the folder first"),
    ],
)
def test_bad_input_is_one_line_with_a_way_out(
    seller: Maker, words: tuple[str, ...], status: int, said: str
) -> None:
    refused_in_one_line(seller("batch", *words), status, said)


def test_a_plan_that_cannot_be_read_is_refused_line_by_line(seller: Maker, tmp_path: Path) -> None:
    text = PLAN.replace("at_most = 3", "at_most = 'three'").replace("hours = 8", "hours = 'few'")

    refused_in_one_line(
        seller("batch", plan_file(tmp_path, text)),
        2,
        "market.toml: line 5: at_most",
        "line 17: hours",
    )


def test_out_of_time_it_answers_with_the_best_so_far(seller: Maker) -> None:
    said = seller.does("batch", "--want", "Hat=0-9", "--seconds", "0.000001", "--as", "json")

    assert said.json["finished"] is False
    assert said.json["bound"] >= said.json["objective"]
    assert "best plan so far" in said.err


def test_ctrl_c_answers_with_the_best_so_far(seller: Maker) -> None:
    """A process of its own, sent SIGINT as soon as it says it is planning."""
    code = (
        "import os, signal, stash.planning.optimiser.search as s\n"
        "first = s.first_plan\n"
        "def pressed(*of):\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    return first(*of)\n"
        "s.first_plan = pressed\n"
        "from stash.cli import run; run()"
    )
    words = ["batch", "--want", "Hat=0-9", "--as", "json", "--file", str(seller.file)]
    done = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=False
    )

    assert done.returncode == 0
    assert '"finished": false' in done.stdout
    assert "best plan so far" in done.stderr


@pytest.mark.parametrize(
    ("figure", "margin", "hats"),
    [
        (("--weighed", "A=60.4g"), "0%", 3),
        (("--weighed", "A=60.4g"), "15%", 2),
        (("--stated", "A=230yd"), "0%", 2),
        (("--stated", "A=360yd"), "0%", 1),
    ],
    ids=["own", "own with a margin", "chart, low", "chart, high"],
)
def test_how_many_hats_by_own_history_and_by_a_chart(
    nobody: Maker, figure: tuple[str, str], margin: str, hats: int
) -> None:
    """A maker's account, public thread: 182 g of 100 g / 273 yd; own hats took 165 yd (60.4 g), a
    chart says 230 to 360: three at the expected amount, two with 15 %, one or two by the chart."""
    nobody.does("add", "Fell Wool 100g/273yd, 1 full skein plus 82 g of another, navy, lot 7")
    nobody.does("design", "add", "Cap", *figure, "--full", "100g/273yd", "--thickness", "3")

    made = nobody.ask("batch", "--want", "Cap=10", "--margin", margin)["made"]

    assert sum(one["count"] for one in made) == hats


def test_a_batch_is_planned_and_set_aside_in_one_command(seller: Maker, tmp_path: Path) -> None:
    before = seller.entries()
    said = seller.ask("batch", plan_file(tmp_path), "--aside-now")

    assert seller.entries() == before + 1
    assert said["entry"] == before + 1
    planned = [item["design"] for item in said["items"]]
    assert set(planned) <= {"Hat", "Scarf"}
    number = said["items"][0]["item"]
    assert seller.ask("show", "item", str(number))["state"] == "planned"
    seller.does("undo")
    assert "Set aside for" in seller.does("batch", plan_file(tmp_path), "--aside-now").out


def test_nothing_is_set_aside_where_nothing_can_be_made(seller: Maker) -> None:
    seller.does("design", "add", "Sail", "--stated", "A=9000m", "--thickness", "DK")
    before = seller.entries()

    refused_in_one_line(seller("batch", "--want", "Sail=1", "--aside-now"), 2, "--aside-now")
    refused_in_one_line(seller("batch", "--aside", "x.json", "--aside-now"), 2, "leave out")
    assert seller.entries() == before


def test_a_limit_by_colour_is_read_from_the_line_and_the_file(
    seller: Maker, tmp_path: Path
) -> None:
    typed = seller.ask("batch", "--want", "Hat=6", "--per-colour", "1")
    path = tmp_path / "market.toml"
    path.write_text(
        '[[want]]\ndesign = "Hat"\nat_most = 6\n[limits]\nper_colour = 1\n', encoding="utf-8"
    )

    assert [m["count"] for m in seller.ask("batch", str(path))["made"]] == [
        m["count"] for m in typed["made"]
    ]
    refused_in_one_line(seller("batch", "--want", "Hat=6", "--per-colour", "few"), 2, "few")
