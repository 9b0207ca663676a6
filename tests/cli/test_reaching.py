"""What so much yarn makes of a design, as a maker or a script asks for it."""

from __future__ import annotations

import re

import pytest
from commands import NONE, NUMBER, Maker, keeps_its_keys, refused_in_one_line

HAT = (
    "--shape", "round hat", "--around", "54cm", "--tall", "22cm", "--fabric", "1 hdc",
    "--gauge", "17 sts x 13 rows", "--thickness", "DK", "--full", "50g/120m",
    "--band", "B 4cm bottom",
)  # fmt: skip
MADE = {"around_cm": NUMBER, "tall_cm": NUMBER, "stitches": (int, NONE), "rows": (int, NONE)}
ROLE = {
    "have_m": NUMBER,
    "whole_rows": (int, NONE),
    "whole_stripes": (int, NONE),
    "reaches_row": (int, NONE),
    "change_after_rows": (list,),
}


def test_what_is_reached_as_json_has_its_keys_and_fits(nobody: Maker) -> None:
    found = nobody.ask("reach", *HAT, "--have", "A=100m", "--have", "B=20yd")

    assert found["enough"] is False
    assert found["short_m"].keys() == {"A", "B"}
    assert found["roles"]["B"]["have_m"] == pytest.approx(20 * 0.9144)
    keeps_its_keys(found["planned"], MADE)
    whole = found["sizes"][0]
    assert whole["by"] == "all sides"
    keeps_its_keys(whole["made"], MADE)
    for role, asked in whole["made"]["set_aside_m"].items():
        assert asked <= found["roles"][role]["have_m"]
    (band,) = found["bands"]
    assert band["widest_rows"] == round(band["widest_cm"] / 10.16 * 13)
    assert 0 < band["widest_cm"] < 4
    for role in found["roles"].values():
        keeps_its_keys(role, ROLE)
    assert not nobody.file.exists()


def test_grams_are_metres_by_the_designs_own_put_up(nobody: Maker) -> None:
    found = nobody.ask("reach", *HAT, "--have", "A=2x50g", "--have", "B=43g")

    assert found["roles"]["A"]["have_m"] == pytest.approx(240)
    assert found["roles"]["B"]["have_m"] == pytest.approx(43 * 2.4)
    assert found["enough"] is True


def test_a_skein_on_the_shelf_is_what_is_free_of_it(maker: Maker) -> None:
    """Skeins 1 and 4 hold 120 m and 40 g of 50 g / 120 m, less what is set aside of them."""
    free = [maker.skein(number)["free_m"] for number in (1, 4)]

    found = maker.ask("reach", *HAT, "--have", "A=1+2", "--have", "B=4")

    assert found["roles"]["A"]["have_m"] == pytest.approx(free[0] + 120 - 0.4)
    assert found["roles"]["B"]["have_m"] == pytest.approx(free[1])
    assert 0 < free[1] < 96


def test_two_lots_are_changed_after_a_whole_row(nobody: Maker) -> None:
    roles = nobody.ask("reach", *HAT, "--have", "A=60m+100m")["roles"]
    said = nobody.does("reach", *HAT, "--have", "A=60m+100m").out

    (row,) = roles["A"]["change_after_rows"]
    assert 0 < row < roles["A"]["of_rows"]
    assert f"A: change to lot 2 after row {row}" in said


def test_rows_done_ask_how_far_the_rest_goes(nobody: Maker) -> None:
    said = nobody.does("reach", *HAT, "--have", "A=30m", "--rows-done", "10").out
    left = nobody.ask("reach", *HAT, "--have", "A=30m", "--rows-done", "10")

    row = left["roles"]["A"]["reaches_row"]
    assert left["rows_done"] == 10
    assert 10 < row < 28
    assert f"lasts {row - 10} more rows, to row {row} of 28" in said
    enough = nobody.does("reach", *HAT, "--have", "A=200m", "--rows-done", "10").out
    assert "lasts to the last row" in enough


def test_the_answer_for_reading_is_short_and_narrow(nobody: Maker) -> None:
    said = nobody.does("reach", *HAT, "--have", "A=100m", "--have", "B=30m").out

    assert said.startswith("round hat: not enough as planned, A is ")
    assert max(len(line) for line in said.splitlines()) <= 100
    assert "then no more B" in said
    assert "band B " in said
    assert "enough as planned" in nobody.does("reach", *HAT, "--have", "A=900m").out


def test_csv_has_one_row_a_way_of_growing(nobody: Maker) -> None:
    rows = nobody.does("reach", *HAT, "--have", "A=0.5m", "--as", "csv").rows

    assert [(row["by"], row["around_cm"]) for row in rows] == [("all sides", ""), ("tall", "")]


@pytest.mark.parametrize(
    ("typed", "status", "word"),
    [
        ((), 2, "--have A=150m"),
        (("--have", "A=much"), 2, "'much'"),
        (("--have", "A=0m"), 2, "more than 0"),
        (("--have", "A=5m+"), 2, "the yarn you have"),
        (("--have", "C=5m"), 3, "try A or B"),
        (("--have", "A=999"), 3, "999"),
        (("--have", "A=1+1"), 4, "twice"),
        (("--have", "A=6"), 4, "--full"),
        (("--have", "A=5m", "--rows-done", "99"), 4, "28 rows"),
        (("--have", "A=5m", "--rows-done", "-1"), 4, "28 rows"),
    ],
)
def test_a_mistake_is_one_line_with_a_way_out(
    maker: Maker, typed: tuple[str, ...], status: int, word: str
) -> None:
    refused_in_one_line(maker("reach", *HAT, *typed), status, word)


def test_grams_of_yarn_that_is_not_known_are_refused(nobody: Maker) -> None:
    stated = ("--shape", "scarf", "--wide", "20cm", "--long", "1m", "--stated", "A=100m")

    refused_in_one_line(nobody("reach", *stated, "--have", "A=50g"), 4, "--full or --thickness")
    refused_in_one_line(
        nobody("reach", *stated, "--have", "A=50m", "--rows-done", "3"), 4, "--fabric"
    )


def test_one_ball_and_what_it_can_become(maker: Maker) -> None:
    """Skein 4 holds 40 g of 50 g / 120 m, 96 m; 20 m and a margin of 10 % are set aside of it."""
    said = maker.ask("ideas", "4")

    uses = {(use["design"], use["role"]): use for use in said["designs"]}
    assert said["free_m"] == pytest.approx(96 - 20 * 1.1024, abs=0.01)
    assert uses["Hat", "B"]["enough"]
    assert not uses["Hat", "A"]["enough"]
    assert uses["Hat", "A"]["short_m"] == pytest.approx(
        uses["Hat", "A"]["set_aside_m"] - said["free_m"]
    )
    assert [use["enough"] for use in said["designs"]] == [True, False]


def test_a_ball_that_is_too_little_says_how_large_it_gets(maker: Maker) -> None:
    plan = ("--shape", "scarf", "--wide", "20cm", "--long", "150cm", "--gauge", "20 sts x 28 rows")
    maker.does("design", "add", "Scarf", *plan, "--fabric", "stockinette", "--thickness", "DK")

    (scarf,) = [use for use in maker.ask("ideas", "4")["designs"] if use["design"] == "Scarf"]
    made = scarf["sizes"][0]["made"]
    assert made["set_aside_m"]["A"] <= 96 < scarf["set_aside_m"]
    assert made["long_cm"] / made["wide_cm"] == pytest.approx(7.5, rel=0.05)
    assert "up to" in maker.does("ideas", "4").out


def test_a_ball_of_another_thickness_comes_last_and_says_so(maker: Maker) -> None:
    maker.does("design", "add", "Cowl", "--stated", "A=30m", "--thickness", "6")

    *_, last, take = maker.does("ideas", "4").out.splitlines()
    assert last.split()[0] == "Cowl"
    assert last.endswith("for super chunky (6)")
    assert take == 'To make one: `stash match "Hat" --with B=4`'


def test_a_ball_without_a_length_or_without_designs(maker: Maker, nobody: Maker) -> None:
    refused_in_one_line(maker("ideas", "6"), 4, "--full")
    refused_in_one_line(maker("ideas", "77"), 3)


def test_with_no_design_kept_it_says_how_to_keep_one(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy")

    assert "stash design add" in nobody.does("ideas", "1").out


UNITS = [("units", "metric"), ("units", "us"), ("length", "yd")]


@pytest.mark.parametrize(("setting", "value"), UNITS)
@pytest.mark.parametrize(("a", "b"), [("100.4m", "30.7m"), ("250yd", "17.3m"), ("161.6m", "70m")])
def test_what_is_short_and_what_is_left_follow_from_what_is_shown(
    nobody: Maker, setting: str, value: str, a: str, b: str
) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy")
    nobody.does("settings", setting, value)

    verdict, *lines = nobody.does("reach", *HAT, "--have", f"A={a}", "--have", f"B={b}").out.split(
        "\n"
    )

    for line in lines[:2]:
        role, have, need = re.match(r"  ([AB]) +(\d+) \w+, needs (\d+)", line).groups()  # type: ignore[union-attr]
        if left := re.search(r"(\d+) \w+ left", line):
            assert int(left[1]) == int(have) - int(need)
            assert f"{role} is" not in verdict
        else:
            short = re.search(rf"{role} is (\d+) \w+ short", verdict)
            assert short
            assert int(short[1]) == int(need) - int(have)


@pytest.mark.parametrize(("setting", "value"), UNITS)
def test_the_figures_of_ideas_add_up(maker: Maker, setting: str, value: str) -> None:
    maker.does("settings", setting, value)

    said = maker.does("ideas").out
    rows = re.findall(r"takes (\d+) \w+, (\d+) \w+ left +(L\d+)", said)
    assert len(rows) == 2
    for takes, left, lot in rows:
        free = re.search(r": (\d+) \w+ free", maker.does("ideas", lot).out)
        assert free
        assert int(free[1]) == int(takes) + int(left)
