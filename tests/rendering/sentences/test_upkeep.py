"""The words of what a check finds."""

from __future__ import annotations

from stash.errors import Ambiguous
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence


def unreadable(**facts: object) -> str:
    return sentence(Note("row_unreadable", table="lot", key=3, **facts))


def test_a_row_that_cannot_be_read_is_named_with_the_kind_of_error() -> None:
    own = Note("column_out_of_range", column="full_mg", value=0)
    ours = Ambiguous("1/2", ("1-2", "2-1"))

    assert unreadable(error="ValueError", why=own) == (
        "lot 3 cannot be read (ValueError: full_mg is 0)"
    )
    assert unreadable(error="Ambiguous", why=ours) == (
        "lot 3 cannot be read (Ambiguous: '1/2' could be 1-2 or 2-1; type the one you mean)"
    )
    assert unreadable(error="RecursionError", why="") == "lot 3 cannot be read (RecursionError)"


def test_what_is_wrong_with_a_row_is_one_line_and_not_endless() -> None:
    shown = unreadable(error="ValueError", why="a\nb " * 100)

    assert len(shown) == len("lot 3 cannot be read ()") + 120
    assert "\n" not in shown


def test_a_finding_of_a_whole_file_is_said_within_the_refusal() -> None:
    finding = Note("reference_lost", table="lot", row=3, parent="yarn")

    assert sentence(Note("not_sound", finding=finding)) == (
        "something in it is wrong, so nothing was imported: table lot, row 3 "
        "needs a row of yarn that is missing"
    )
