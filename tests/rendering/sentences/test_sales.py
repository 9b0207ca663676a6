"""The sentences of sales, of what went without a buyer, and of the year."""

from __future__ import annotations

import pytest

from stash.actions.gone_item import UNSOLD_WAYS
from stash.errors import BadInput, Refusal, StashError, Unreadable
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.stock.item import Item, ItemState

HAT = Item(3, ItemState.DONE, 1, "Winter hat", "")
BEGUN = Item(4, ItemState.BEGUN, 1, "Winter hat", "")


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (Note("item_gone", item=3, name="Winter hat", why="given"),
         "item 3, Winter hat, was given away"),
        (Note("item_gone", item=3, name="Winter hat", why="lost"), "item 3, Winter hat, is lost"),
        (Refusal("item_is_gone", item=HAT, how="given"),
         "item 3 (Winter hat) was given away; `stash returned 3` if it is back"),
        (Refusal("only_done_is_gone", item=BEGUN),
         "item 4 (Winter hat) is begun, not done; `stash unravel 4` or `stash release 4` frees "
         "its yarn"),
        (Unreadable("spoilt", "reason_item_leaves", reasons=UNSOLD_WAYS, sold=False, item="2"),
         "cannot read 'spoilt' as a way an item goes: write given or lost"),
        (Unreadable("sold", "reason_item_leaves", reasons=UNSOLD_WAYS, sold=True, item="2"),
         "cannot read 'sold' as a way an item goes: say what the buyer paid, as in "
         "`stash sold 2 --for 28`"),
        (Refusal("price_of_unsold_yarn", why="lost"),
         "only yarn that was sold has a price: leave --for and --fee out, or say --why sold"),
        (BadInput("price_of_unsold_item", item="3"),
         "for an item with a buyer, type `stash sold 3 --for 28`"),
        (BadInput("no_year", typed="26"), "'26' is not a year; type it like 2026"),
        (Refusal("year_not_come", year=2099),
         "2099 has not begun; pick this year or an earlier one"),
        (BadInput("year_is_a_workbook", file="y.csv"),
         "y.csv: the year is a workbook, so end the name in .xlsx"),
        (BadInput("no_such_period", by="day"),
         "sales cannot be grouped by 'day'; choose month, week or all"),
        (BadInput("no_such_list", typed="wishes"),
         "there is no list 'wishes'; choose --list prices or --list packing"),
        (Refusal("not_hers_any_more", item=HAT),
         "item 3 (Winter hat) is sold or gone; `stash show item 3` says how"),
    ],
)  # fmt: skip
def test_each_says_what_is_and_what_to_do(said: Note | StashError, words: str) -> None:
    assert sentence(said) == words
