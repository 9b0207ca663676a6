"""The words of notes and refusals about yarn that comes in."""

from __future__ import annotations

import pytest
from shelves import a_lot

from stash.errors import Refusal, StashError, Undecided
from stash.measures.length import metres
from stash.measures.note import Note
from stash.rendering.amounts import dye_lot
from stash.rendering.sentences.say import sentence

NAVY = a_lot(3, (100,), colour="navy").lot
TEAL = a_lot(4, (100,), colour="teal").lot


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (
            Refusal("left_without_put_up", name="Fellside", left=metres(30)),
            (
                "Fellside: 30 m left, but how much does a full skein hold? Add it "
                "like 100g/200m, or weigh what is left"
            ),
        ),
        (
            Refusal("items_so_already", items=(1, 2, 3, 7)),
            "items 1-3, 7 had that already; nothing changed",
        ),
        (
            Refusal("items_so_already", items=(2,)),
            "item 2 had that already; nothing changed",
        ),
        (
            Refusal("so_already", what="skein 3"),
            "skein 3 had that already; nothing changed",
        ),
        (
            Note("joins_lot_unlike", lot=NAVY, different=("put-up", "thickness")),
            "added to L3, which keeps its own full skein and thickness",
        ),
        (
            Note("kept_as_two", name="Moor", other="Moor DK", lot=NAVY),
            (
                "is Moor the same yarn as Moor DK (L3)? They are kept apart; write "
                "one name for both if they are the same"
            ),
        ),
        (
            Note("kept_as_two", name="Moor", other="Moor DK", lot=None),
            (
                "is Moor the same yarn as Moor DK? They are kept apart; write one "
                "name for both if they are the same"
            ),
        ),
        (
            Note("have_already", skeins=1, lots=((NAVY, ()),)),
            f"you already have 1 skein of it: L3, {dye_lot(NAVY)}",
        ),
        (
            Note("have_already", skeins=3, lots=((NAVY, ("attic", "box")), (TEAL, ()))),
            f"you already have 3 skeins of it: L3, {dye_lot(NAVY)}, attic, box; "
            f"L4, {dye_lot(TEAL)}",
        ),
        (
            Undecided(
                Note("same_yarn_or_not", name="Moor", others=("Moor DK", "Moor Aran")),
                [
                    (Note("it_is_this_yarn", name="Moor DK"),
                     Note("typed_with_like", lot="L3", typed="Moor navy")),
                    (Note("it_is_another_yarn"), Note("typed_with_new", typed="Moor navy")),
                ],
            ),
            "is Moor the same yarn as Moor DK or Moor Aran?: it is Moor DK: --like L3 "
            '"Moor navy"; it is another yarn: --new "Moor navy"',
        ),
    ],
)  # fmt: skip
def test_what_is_said_of_new_yarn(said: Note | StashError, words: str) -> None:
    assert sentence(said) == words
