"""The sentences of what cannot be booked, and of what is worth saying beside it."""

from __future__ import annotations

from datetime import date

import pytest

from stash.errors import InTheWay, NotEnoughYarn, NotFound, Refusal, StashError, Unreadable
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.stock.entry import Entry
from stash.stock.item import Item, ItemState
from stash.stock.movement import LEAVING

HAT = Item(1, ItemState.DONE, 1, "hat", "")
GIFT = Item(2, ItemState.PLANNED, None, "", "a gift")
OLD = Entry(3, date(2026, 1, 2), "2026-01-02T10:00:00+00:00", "use", "5 g of skein 1 used")
NEW = Entry(4, OLD.on, OLD.at_utc, "begin", Note("item_begun", item=1, name="hat"))
CHANGED = tuple(Note("skein_is_new", skein=number) for number in range(1, 6))


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (
            Unreadable("lent", "reason_yarn_leaves", reasons=LEAVING),
            "cannot read 'lent' as a reason: say --why given, sold, lost, spoilt or mistaken",
        ),
        (
            Refusal("no_such_proposal", which="4", last=2, blockers=()),
            "no set 4 today: the last is 2; `stash match` shows the sets you have",
        ),
        (
            Refusal("no_such_proposal", which="L1+L2", last=None, blockers=()),
            "no set L1+L2 today; `stash match` shows the sets you have",
        ),
        (
            NotEnoughYarn(7, grams(80), grams(43), Note("rest_set_aside", items=(HAT, GIFT))),
            "skein 7 has 43 g free, not 80 g; the rest is set aside for item 1 (hat) and "
            "2 (a gift); if it is for one of them, add --for 1, else `stash release 1`",
        ),
        (
            NotEnoughYarn(7, grams(80), grams(43), Note("rest_to_release", items=(HAT,))),
            "skein 7 has 43 g free, not 80 g; the rest is set aside for item 1 (hat); "
            "`stash release 1` frees it",
        ),
        (
            Refusal("row_of_which_item", row=20, items=(HAT, GIFT)),
            "row 20 of which item? Begun: 1 (hat) and 2 (a gift). Add --for 1 or --for 2",
        ),
        (
            Refusal("row_of_which_item", row=20, items=()),
            "row 20 of which item? None is begun: `stash begin 2`, or leave --row out",
        ),
        (
            Refusal("item_closed", item=HAT),
            "item 1 (hat) is done, so no more yarn can go into it",
        ),
        (
            Refusal("shelf_not_as_planned", changed=CHANGED),
            "the shelf has changed since this plan: skein 1 is new, skein 2 is new, "
            "skein 3 is new and 2 more; plan again with `stash batch`",
        ),
        (
            Refusal("plan_not_sound", why=Note("skein_lacks", skein=3, length=metres(12))),
            "this plan does not add up: skein 3 does not hold 12 m; plan again with `stash batch`",
        ),
        (
            Refusal("more_booked_of_role", role="A", booked=grams(50), weighed=grams(40)),
            "A: 50 g is used already, more than 40 g; weigh the balls (--left 17=43g), "
            "or cancel the use (`stash log`, `stash undo`)",
        ),
        (NotFound("yarn_in_place", "basket", ("box",)), "no yarn in 'basket'; try box"),
        (
            NotFound("count_under_way", "box"),
            "no open count of 'box'; begin one: `stash count \"box\" --tick 12,14-17`",
        ),
        (
            NotFound("skein_missing", "9", ("2", "3"), place="box"),
            "no missing skein in box numbered 9; try 2 or 3",
        ),
        (
            Refusal("lost_but_set_aside", skeins=(2, 3)),
            "skeins 2-3 are missing, but set aside: `stash release` the item first, "
            "or leave them out of --lost",
        ),
        (Refusal("loss_of_all", loss=1.2), "a loss of 120% leaves nothing; type 0% to 99%"),
        (
            InTheWay(2, (4, 3), Note("below_nothing", skeins=(1, 2))),
            "entry 2 cannot be undone: skeins 1-2 would hold less than nothing; "
            "undo 4, 3 first, newest first",
        ),
        (
            Refusal("entries_not_in_copy", file="a.stash", count=2, first=OLD, newest=NEW),
            "a.stash has 2 entries (3 to 4) the copy lacks (newest: item 1, hat, is begun); "
            "add --over to go back anyway, your present file is kept too",
        ),
        (
            Note("promise_short", skein=3, missing=grams(12), item=GIFT, role=""),
            "Short: skein 3 has 12 g less than is set aside for item 2 (a gift). "
            "What to buy: `stash short`; else `stash release 2`",
        ),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_it_is_said(said: Note | StashError, words: str) -> None:
    assert sentence(said) == words


def test_what_would_have_been_short_on_a_day_is_an_amount_above_nothing() -> None:
    why = Note("below_nothing_on", skein=3, held=grams(-12), day=date(2026, 1, 2))

    assert sentence(why) == "on 2026-01-02 skein 3 would have been 12 g short"
