"""One design over a run of sizes, as a maker or a script asks for it."""

from __future__ import annotations

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

from stash.rendering.sentences.say import sentence
from stash.requirements.design.cautions import CHILD

HAT = (
    "--shape", "round hat", "--around", "54cm", "--tall", "22cm", "--fabric", "1 hdc",
    "--gauge", "17 sts x 13 rows", "--full", "100g/230m", "--band", "B 4cm bottom",
)  # fmt: skip
RUN = ("--sizes", "child 4 years, 58cm x 24cm", "--brims", "none, 6cm", "--bands", "B 2cm, B 4cm")
ROW = {
    "size": WORDS,
    "brim_cm": (*NUMBER, NONE),
    "bands": (list, NONE),
    "around_cm": NUMBER,
    "tall_cm": NUMBER,
    "source": WORDS,
    "roles": (dict,),
}
ROLE = {
    "expected_m": NUMBER,
    "spread_m": NUMBER,
    "set_aside_m": NUMBER,
    "set_aside_g": (*NUMBER, NONE),
    "printed_m": (int,),
    "printed_yd": (int,),
    "printed_g": (int, NONE),
    "skeins": (int, NONE),
}


def test_a_graded_design_as_json_has_its_keys(nobody: Maker) -> None:
    table = nobody.ask("grade", *HAT, *RUN)

    assert table["roles"] == ["A", "B"]
    assert table["findings"] == []
    assert [(row["size"], row["brim_cm"], row["bands"]) for row in table["rows"]][:2] == [
        ("child 4 years", 0.0, ["B 2 cm bottom"]),
        ("child 4 years", 0.0, ["B 4 cm bottom"]),
    ]
    for row in table["rows"]:
        keeps_its_keys(row, ROW)
        for role in row["roles"].values():
            keeps_its_keys(role, ROLE)
    assert not nobody.file.exists()


def test_a_row_says_what_need_says_at_that_size(nobody: Maker) -> None:
    at_size = (*HAT[:3], "58cm", *HAT[4:5], "24cm", *HAT[6:])

    row = nobody.ask("grade", *HAT, "--sizes", "58cm x 24cm")["rows"][0]

    need = nobody.ask("need", *at_size)["roles"]
    for role in ("A", "B"):
        assert row["roles"][role]["set_aside_m"] == need[role]["set_aside_m"]


def test_amounts_are_rounded_as_a_pattern_prints_them(nobody: Maker) -> None:
    for row in nobody.ask("grade", *HAT, *RUN)["rows"]:
        for role in row["roles"].values():
            step = 5 if role["set_aside_m"] <= 100 else 10
            assert role["printed_m"] % step == 0
            assert 0 <= role["printed_m"] - role["set_aside_m"] < step
            assert 0 <= role["printed_g"] - role["set_aside_g"] < 1
            assert 0 <= 230 * role["skeins"] - role["set_aside_m"] < 230


def test_a_kept_design_is_graded_by_what_is_known_of_it(nobody: Maker) -> None:
    nobody.does("design", "add", "Winter hat", *HAT, "--weighed", "A=60g,B=16g")

    rows = nobody.ask("grade", "Winter hat", "--sizes", "54cm x 22cm, 60cm x 22cm")["rows"]

    assert [row["source"] for row in rows] == ["own items", "own items"]
    small, large = (row["roles"]["A"]["expected_m"] for row in rows)
    assert small == pytest.approx(60 * 2.3, rel=0.03)  # as weighed, at 230 m to 100 g
    assert 1.05 < large / small < 60 / 54 + 0.01


def test_a_size_that_cannot_be_made_is_said_beside_the_others(nobody: Maker) -> None:
    said = nobody.does("grade", *HAT, "--sizes", "woman", "--bands", "B 40cm, B 4cm", "--as", "csv")

    assert [row["bands"] for row in said.rows] == ["B 4 cm bottom"]
    assert said.err.startswith("not made: woman, B 40cm: ")
    assert said.err.count("\n") == 1


def test_csv_has_one_row_a_size_and_option(nobody: Maker) -> None:
    rows = nobody.does("grade", *HAT, "--sizes", "woman", "--bands", "none, B 4cm", "--as", "csv")

    assert [bool(row["B_set_aside_m"]) for row in rows.rows] == [False, True]
    assert all(row["A_skeins"] == "1" for row in rows.rows)


@pytest.mark.parametrize("yards", [False, True])
def test_the_table_is_no_wider_than_a_terminal(nobody: Maker, yards: bool) -> None:
    sock = ("--shape", "sock", "--around", "20cm", "--tall", "16.5cm", "--long", "25.5cm")
    more = ("--gauge", "30 sts x 42 rows", "--fabric", "stockinette", "--full", "50g/210m")
    nobody.does("add", "Fell Wool DK, 50g/120m, navy", "--place", "box")
    nobody.does("settings", "units", "us" if yards else "metres")
    sizes = "20.5cm x 16.5cm x 25.5cm, 22cm x 18cm x 27.5cm"

    said = nobody.does(
        "grade", *sock, *more, "--sizes", sizes, "--bands", "B 2.5cm top + C 3cm 9cm"
    )

    assert max(len(line) for line in said.out.splitlines()) <= 100
    assert ("yd" in said.out) is yards


def test_the_caution_for_a_child_is_kept(nobody: Maker) -> None:
    sizes = ("--sizes", "woman, newborn", "--extra", "pompom A 6cm")

    assert sentence(CHILD) in nobody.does("grade", *HAT, *sizes).out


@pytest.mark.parametrize(
    ("typed", "status", "word"),
    [
        ((*HAT,), 2, "--sizes"),
        ((*HAT, "--sizes", "womn"), 2, "did you mean woman"),
        ((*HAT, "--sizes", "woman", "--brims", "six"), 2, "'six'"),
        ((*HAT, "--sizes", "woman", "--bands", "wide"), 2, "B 2cm bottom"),
        ((*HAT, "--sizes", "woman", "--bands", "B 40cm"), 4, "does not fit"),
        (("--sizes", "woman"), 4, "--shape"),
        (("Nothing", "--sizes", "woman"), 5, "no stash there"),
        (("Hat", *HAT, "--sizes", "woman"), 2, "not both"),
    ],
)
def test_a_mistake_is_one_line_with_a_way_out(
    nobody: Maker, typed: tuple[str, ...], status: int, word: str
) -> None:
    refused_in_one_line(nobody("grade", *typed), status, word)
