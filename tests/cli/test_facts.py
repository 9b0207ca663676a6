"""Facts of a lot, and the shelf narrowed and sorted by them."""

from __future__ import annotations

from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line


def refs(maker: Maker, *words: str) -> list[str]:
    return [lot["lot_ref"] for lot in maker.ask("shelf", *words)]


def test_a_condition_is_noted_found_and_cleared(maker: Maker) -> None:
    maker.does("change", "L2", "--condition", "smoke", "--condition", "faded")
    everything = set(refs(maker))

    assert refs(maker, "--condition", "smoke") == ["L2"]
    assert set(refs(maker, "--condition", "none")) == everything - {"L2"}
    assert "faded, smoke" in maker.does("shelf").out
    maker.does("change", "L2", "--condition", "none")
    assert refs(maker, "--condition", "smoke") == []


def test_a_look_in_daylight_is_remembered(maker: Maker) -> None:
    maker.does("change", "L1", "--daylight")

    assert refs(maker, "--daylight") == ["L1"]
    maker.does("undo")
    assert refs(maker, "--daylight") == []


def test_postage_is_spread_by_what_was_paid_to_the_last_coin(maker: Maker) -> None:
    maker.does("change", "L1", "--paid", "10.00")
    maker.does("change", "L1", "--postage", "2.00")

    paid = [maker.skein(number)["paid_coins"] for number in (1, 2, 3)]
    assert sum(paid) == 1200
    assert max(paid) - min(paid) <= 2


def test_the_day_of_purchase_is_put_right(maker: Maker) -> None:
    maker.does("change", "1", "--bought", "2026-03-01")

    assert maker.skein(1)["bought"] == "2026-03-01"


def test_lone_skeins_are_found(maker: Maker) -> None:
    """L3, L4 and L6 are one whole skein each; L2 is one opened ball."""
    assert refs(maker, "--lone", "--sort", "age") == ["L3", "L4", "L6"]


@pytest.mark.parametrize(
    ("order", "first"), [("free", "L6"), ("thickness", "L1"), ("age", "L1"), ("colour", "L2")]
)
def test_the_shelf_is_sorted_as_asked(maker: Maker, order: str, first: str) -> None:
    found = refs(maker, "--sort", order)

    assert found[0] == first
    assert sorted(found) == [f"L{n}" for n in range(1, 7)]


def test_a_family_of_colours_is_found(maker: Maker) -> None:
    assert refs(maker, "--family", "blue") == ["L1"]


@pytest.mark.parametrize(
    "words",
    [
        ("change", "L1", "--condition", "haunted"),
        ("shelf", "--family", "mauvish"),
        ("shelf", "--sort", "smell"),
    ],
    ids=" ".join,
)
def test_unknown_words_are_answered_with_those_there_are(
    maker: Maker, words: tuple[str, ...]
) -> None:
    refused_in_one_line(maker(*words), 2, "choose")


def test_facts_of_a_lot_survive_a_sheet(maker: Maker, tmp_path: Path) -> None:
    maker.does("change", "L1", "--condition", "pets", "--daylight")
    sheet = str(tmp_path / "out.csv")
    maker.does("export", sheet)
    elsewhere = Maker(tmp_path / "elsewhere.stash")
    elsewhere.does("import", sheet, "--file", str(elsewhere.file))

    facts = ("conditions", "daylight")
    there = elsewhere.ask("shelf", "--sort", "age", "--file", str(elsewhere.file))
    here = maker.ask("shelf", "--sort", "age")
    assert [[lot[f] for f in facts] for lot in there] == [[lot[f] for f in facts] for lot in here]


def test_what_is_not_known_is_named_once(nobody: Maker) -> None:
    nobody.does("add", "Silverlark 50g, plum, lot 3")

    said = nobody.does("show", "1").out

    assert "  thickness: not known\n" in said
