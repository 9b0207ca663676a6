"""Quick entry: the same again, what is known already, many lines at once."""

from __future__ import annotations

import io
from unittest.mock import patch

import pytest
from commands import Maker, Said, refused_in_one_line

FIRST = "Greycairn DK, 2 x 100g/230m, navy, lot 4821, 75% wool 25% nylon"


@pytest.fixture
def keeper(nobody: Maker) -> Maker:
    """A shelf with two skeins of one yarn in a box."""
    nobody.does("add", FIRST, "--place", "blue box")
    return nobody


def lot(maker: Maker, ref: str) -> dict[str, object]:
    found: dict[str, object] = next(x for x in maker.ask("shelf") if x["lot_ref"] == ref)
    return found


def test_the_same_again_in_another_colour_takes_all_but_colour_and_lot(keeper: Maker) -> None:
    keeper.does("add", "--like", "L1", "rust, lot 77", "--count", "12")

    old, new = lot(keeper, "L1"), lot(keeper, "L2")
    same = ("yarn", "class", "fibre")
    assert [new[key] for key in same] == [old[key] for key in same]
    assert (new["colour"], new["lot"], new["held_m"]) == ("rust", "77", 12 * 230)


def test_a_word_that_is_no_colour_of_ours_is_the_colour_all_the_same(keeper: Maker) -> None:
    keeper.does("add", "--like", "navy", "gloaming")

    assert lot(keeper, "L2")["colour"] == "gloaming"
    assert lot(keeper, "L2")["lot_state"] == "unknown"


def test_the_very_same_again_joins_its_record(keeper: Maker) -> None:
    keeper.does("add", "--like", "1", "--count", "2")

    assert [s["number"] for s in lot(keeper, "L1")["skeins"]] == [1, 2, 3, 4]


def test_what_the_line_leaves_out_comes_from_yarn_that_is_known(keeper: Maker) -> None:
    said = keeper.does("add", "greycairn rust lot 9")

    assert "from what you have of greycairn" in said.out
    assert lot(keeper, "L2")["held_m"] == 230
    assert lot(keeper, "L2")["fibre"] == lot(keeper, "L1")["fibre"]


def test_records_that_disagree_fill_nothing_in(keeper: Maker) -> None:
    keeper.does("add", "Greycairn 50g/110m teal")

    refused_in_one_line(keeper("add", "Greycairn rust lot 9"), 4, "neither weight nor length")


def test_the_like_on_the_shelf_is_pointed_out(keeper: Maker) -> None:
    assert (
        "2 skeins of it already: L1, lot 4821, blue box"
        in keeper.does("add", "Greycairn navy lot 9").out
    )


def test_a_name_that_is_nearly_known_is_asked_about_and_kept(keeper: Maker) -> None:
    said = keeper.does("add", "Greycarn 50g/110m teal")

    assert "is that Greycairn?" in said.out
    assert lot(keeper, "L2")["yarn"] == "Greycarn"


def typed_in(maker: Maker, lines: str) -> Said:
    with patch("sys.stdin", io.StringIO(lines)):
        return maker("add", "-")


def test_many_lines_are_one_entry(keeper: Maker) -> None:
    typed_in(keeper, "Farlow 50g/120m red\n\nFarlow blue lot 3, 2 x 50g/120m\n")

    assert keeper.entries() == 2
    assert [x["lot_ref"] for x in keeper.ask("shelf", "farlow")] == ["L2", "L3"]


def test_one_line_that_cannot_be_read_keeps_all_out(keeper: Maker) -> None:
    said = typed_in(keeper, "Farlow 50g/120m red\n42\n")

    assert said.status == 2
    assert "line 2: " in said.err
    assert keeper.entries() == 1
