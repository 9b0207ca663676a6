"""What is said of how far yarn goes."""

from __future__ import annotations

import pytest

from stash.errors import Refusal
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.requirements.design.shapes import Shape


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (
            Refusal("sides_missing", sides=("around", "tall")),
            "--around and --tall are missing: add them to the design",
        ),
        (
            Refusal(
                "measured_by_other_sides",
                shape=Shape.ROUND_HAT,
                side="wide",
                sides=("around", "tall"),
            ),
            "a round hat has no side wide: it is measured with --around and --tall",
        ),
        (
            Refusal("no_such_role", role="C", roles=("A", "B")),
            "this design has no C: its colours are A, B",
        ),
        (
            Refusal("rows_shrink_away", first=80.0, lost=4.0, last=20),
            "rows of 80 stitches that lose 4 each end at row 20: give fewer rows",
        ),
        (
            Refusal("ball_heavier", before=20.0, after=40.0),
            "the ball is heavier after row 40 than after row 20: "
            "leave out weighings of another ball",
        ),
    ],
)
def test_what_cannot_be_answered_is_said(error: Refusal, said: str) -> None:
    assert sentence(error) == said


def test_a_change_of_lot_says_what_hides_it() -> None:
    assert sentence(Note("beside_colours", roles=("B", "C"))) == "next to B and C"
    assert sentence(Note("where_part_begins", part="thumb")) == "where the thumb begins"
