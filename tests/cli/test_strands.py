"""Strands of different yarns held together, typed and read."""

from __future__ import annotations

import pytest
from commands import Maker, refused_in_one_line

LINES = (
    "Fell Wool DK 50g/120m, charcoal, lot 11, #303030",  # 1, L1
    "Hedgebell DK 50g/120m, navy, lot 9, #202050",  # 2, L2
    "Fell Wool DK 50g/120m, cream, lot 3, #f5f0e0",  # 3, L3
)


@pytest.fixture
def marl(nobody: Maker) -> Maker:
    for line in LINES:
        nobody.does("add", line, "--place", "tin")
    nobody.does(
        "design", "add", "Marl", "--stated", "A=160m", "--stated", "B=20m", "--strands", "2"
    )
    return nobody


def test_two_yarns_make_one_colour(marl: Maker) -> None:
    ask = ("Marl", "--margin", "0%", "--contrast", "bold")

    (first, *_) = marl.ask("match", *ask, "--strands-apart", "A", "--with", "B=L3")["proposals"]

    assert {role: one["lot_ref"] for role, one in first["roles"].items()} == {
        "A1": "L1", "A2": "L2", "B": "L3",
    }  # fmt: skip


def test_the_books_know_them_as_strands_of_one_role(marl: Maker) -> None:
    ask = ("--margin", "0%", "--strands-apart", "A")
    made = marl.ask("aside", "Marl", "L1+L2+L3", *ask)
    marl.does("begin", "Marl")
    marl.does("done", "Marl", "--as-planned")

    assert [(one["role"], one["skeins"], one["ends"]) for one in made["roles"]] == [
        ("A", [1, 2], 2), ("B", [3], 2),
    ]  # fmt: skip
    assert "All good" in marl.does("check").out


def test_each_set_is_told_once_and_how_to_book_it(marl: Maker) -> None:
    ask = ("match", "Marl", "--margin", "0%", "--strands-apart", "A")

    assert [one["key"] for one in marl.ask(*ask)["proposals"]] == [
        "L1+L2+L3", "L1+L3+L2", "L2+L3+L1",
    ]  # fmt: skip
    assert "L1+L2+L3 --strands-apart A" in marl.does(*ask).out
    tied = marl.ask(*ask, "--with", "A1=L3")["proposals"]
    assert [one["key"] for one in tied] == ["L3+L1+L2", "L3+L2+L1"]


def test_typed_lengths_may_be_over_two_strands(marl: Maker) -> None:
    need = ("match", "--need", "A=160m", "--strands", "2", "--margin", "0%")

    assert marl.ask(*need)["proposals"] == []
    (first, *_) = marl.ask(*need, "--strands-apart", "A", "--with", "A2=L3")["proposals"]
    assert first["roles"]["A2"]["lot_ref"] == "L3"
    assert "A1 with" not in marl.does(*need, "--strands-apart", "A").out


def test_what_is_typed_wrong_is_told_in_one_line(marl: Maker) -> None:
    refused_in_one_line(marl("match", "Marl", "--strands-apart", "navy"), 2, "name a colour")
    refused_in_one_line(marl("match", "Marl", "--strands-apart", "C"), 3, "C")
    refused_in_one_line(marl("match", "--need", "A=20m", "--strands-apart", "A"), 4, "one strand")
    refused_in_one_line(marl("match", "Marl", "--strands", "2"), 2, "leave out")
