"""How two lots share a role, in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import SC, cm, gauge, sideways_hat
from shelves import a_lot

from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.requirements.design.bands import Band, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.splitting import Split, Way, ways
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.estimate import need_of

#: Brim: rows 1 to 13; B: rows 22 to 27; the crown begins after row 47 of 70 (test_splitting.py).
HAT = Design(
    shape=Shape.ROUND_HAT, size=Size(cm(54), cm(26)), gauge=gauge(20, 27), fabric=SC, brim=cm(5),
    bands=(Band("B", Rows(6), cm(8)),), thickness_from=4, thickness_to=4,
)  # fmt: skip
MITTENS = Design(
    shape=Shape.MITTEN, size=Size(cm(20), cm(26)), gauge=gauge(20, 28), fabric=SC, thickness_from=4,
    thickness_to=4,
)  # fmt: skip

LOTS = tuple(a_lot(number, (100,)).lot for number in (3, 9))


def split(design: Design, way: Way, at: int = 0) -> Split:
    return ways(DesignContext(design), need_of(design).roles[0]).of(way)[at]


@pytest.mark.parametrize(
    ("found", "words", "main", "odd"),
    [
        (
            split(HAT, Way.BRIM),
            "L9 in the brim, rows 1-13; L3 for all the rest",
            "all the rest",
            "in the brim, rows 1-13",
        ),
        (
            split(HAT, Way.CHANGE, 2),
            "rows 1-13 from L3, from row 14 on L9: the change is under the fold",
            "rows 1-13",
            "from row 14 on",
        ),
        (
            split(HAT, Way.CHANGE, 1),
            "rows 1-21 from L3, from row 28 on L9: the change is next to B",
            "rows 1-21",
            "from row 28 on",
        ),
        (
            split(HAT, Way.ALTERNATE),
            "two rows of L3 and two of L9 in turn, both carried up the edge",
            "the first two rows of every four",
            "the second two rows of every four",
        ),
        (
            split(HAT, Way.ALTERNATE, 1),
            "rows 1-4 from L3, from row 5 on two rows of L3 and two of L9 in turn, "
            "both carried up the edge",
            "rows 1-4, from row 5 on the first two rows of every four",
            "from row 5 on the second two rows of every four",
        ),
        (
            split(replace(sideways_hat(), brim=cm(7)), Way.BRIM),
            "L9 in the brim, stitches 6-9 of each row; L3 for all the rest",
            "all the rest",
            "in the brim, stitches 6-9 of each row",
        ),
        (
            split(MITTENS, Way.BRIM),
            "L9 in the thumb, rows 73-89 of each; L3 for all the rest",
            "all the rest",
            "in the thumb, rows 73-89 of each",
        ),
    ],
)
def test_the_rows_of_each_lot_are_told(found: Split, words: str, main: str, odd: str) -> None:
    assert sentence(Note("two_lots", split=found, lots=LOTS)) == words
    rows = [sentence(Note("rows_for_lot", split=found, lot=lot)) for lot in (0, 1)]
    assert rows == [main, odd]


def test_without_rows_halves_are_told() -> None:
    (half,) = ways(None, need_of(HAT).roles[0]).alternate

    assert sentence(Note("two_lots", split=half, lots=LOTS)) == (
        "half from L3 and half from L9, two rows of each in turn, both carried up the edge"
    )
    assert sentence(Note("rows_for_lot", split=half, lot=1)) == "the second two rows of every four"
