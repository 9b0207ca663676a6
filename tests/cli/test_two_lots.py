"""Two lots in one role, typed and read."""

from __future__ import annotations

import pytest
from commands import Maker, refused_in_one_line

LOTS = (
    "Fell Wool DK 50g/120m, navy, lot 11, 41g left",  # 1, L1
    "Fell Wool DK 50g/120m, navy, lot 12, 16g left",  # 2, L2
    "Hedgebell DK 50g/120m, oatmeal, lot 9, 11g left",  # 3, L3
)
CAP = (
    "design", "add", "Cap", "--shape", "round hat", "--around", "40cm", "--tall", "20cm", "--brim",
    "4cm", "--gauge", "16 sts x 20 rows", "--fabric", "sc", "--band", "B 2cm 6cm",
    "--thickness", "3",
)  # fmt: skip


@pytest.fixture
def cap(nobody: Maker) -> Maker:
    for line in LOTS:
        nobody.does("add", line, "--place", "tin")
    nobody.does(*CAP)
    return nobody


def test_the_rows_are_told_and_the_key_books_both(cap: Maker) -> None:
    told = cap.does("match", "Cap", "--two-lots", "A").out
    picked = cap.does("aside", "Cap", "L1/L2-brim+L3").out

    assert "1  L1/L2-brim+L3" in told
    assert "lot 11 and lot 12" in told
    assert "L2 in the brim, rows 1-8; L1 for all the rest" in told
    assert "skein 2  A, in the brim, rows 1-8" in picked
    assert "skein 1  A, all the rest" in picked
    assert "All good" in cap.does("check").out


def test_json_names_both_lots_and_their_rows(cap: Maker) -> None:
    roles = cap.ask("match", "Cap", "--two-lots", "A=brim")["proposals"][0]["roles"]

    assert roles["A"]["lot_ref"] == "L1"
    assert roles["A"]["other_lots"] == ["L2"]
    assert roles["A"]["strategy"] == "brim"
    assert roles["A"]["rows"][0] == {"from": 1, "to": 8, "lot_ref": "L2"}
    assert {s["number"]: s["lot_ref"] for s in roles["A"]["skeins"]} == {1: "L1", 2: "L2"}
    assert not {"other_lots", "strategy", "rows"} & roles["B"].keys()


def test_a_sheet_has_the_key(cap: Maker) -> None:
    rows = cap.does("match", "Cap", "--two-lots", "A", "--as", "csv").rows

    assert [(r["role"], r["key"], r["skeins"]) for r in rows] == [
        ("A", "L1/L2-brim+L3", "1/2"), ("B", "L1/L2-brim+L3", "3"),
    ]  # fmt: skip


def test_a_short_lot_says_how_to_ask(cap: Maker) -> None:
    told = cap.does("match", "Cap").out

    assert "use L2 of the same colour too, in the brim: --two-lots A=brim" in told


def test_her_weight_counts(cap: Maker) -> None:
    usual = cap.ask("match", "Cap", "--two-lots", "A")["proposals"][0]["cost"]
    cap.does("settings", "ranking two lots", "5")
    dearer = cap.ask("match", "Cap", "--two-lots", "A")["proposals"][0]["cost"]

    assert dearer == pytest.approx(usual + 3)


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("match", "Cap", "--two-lots", "A=stripes"), 2, "write A=brim"),
        (("match", "Cap", "--two-lots", "C"), 3, "no colour 'C' here; try A or B"),
        (("match", "Cap", "--two-lots", "B=brim"), 4, "--two-lots B=alternate"),
        (("match", "--need", "A=50m", "--two-lots", "A=change"), 4, "--two-lots A=alternate"),
        (("aside", "Cap", "L1/L2-fold+L3"), 2, "L3/L9-brim"),
        (("aside", "Cap", "L2/L1-brim+L3"), 4, "stash match"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(
    cap: Maker, words: tuple[str, ...], status: int, said: str
) -> None:
    refused_in_one_line(cap(*words), status, said)
