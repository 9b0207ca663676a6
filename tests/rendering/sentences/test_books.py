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
            "there is no proposal 4 on the shelf as it is now: the last is 2; "
            "ask `stash match` again",
        ),
        (
            Refusal("no_such_proposal", which="L1+L2", last=None, blockers=()),
            "there is no proposal L1+L2 on the shelf as it is now; ask `stash match` again",
        ),
        (
            NotEnoughYarn(7, grams(80), grams(43), Note("rest_set_aside", items=(HAT, GIFT))),
            "skein 7: 80 g asked for, 43 g free; the rest is set aside for item 1 (hat), "
            "2 (a gift); say --for it, or `stash release` it",
        ),
        (
            Refusal("item_closed", item=HAT),
            "item 1 (hat) is done; nothing more can be used for it",
        ),
        (
            Refusal("shelf_not_as_planned", changed=CHANGED),
            "the shelf is not as it was when this was planned: skein 1 is new, skein 2 is new, "
            "skein 3 is new and 2 more; plan again with `stash batch`",
        ),
        (
            Refusal("plan_not_sound", why=Note("skein_lacks", skein=3, length=metres(12))),
            "this plan does not hold together: skein 3 does not hold 12 m; "
            "plan again with `stash batch`",
        ),
        (
            Refusal("more_booked_of_role", role="A", booked=grams(50), weighed=grams(40)),
            "role A: 50 g is booked as used already, more than 40 g; "
            "weigh the balls instead with --left, or take the use back with `stash undo`",
        ),
        (NotFound("yarn_in_place", "basket", ("box",)), "no yarn in 'basket'; nearest: box"),
        (NotFound("count_under_way", "box"), "no count under way of 'box'"),
        (
            NotFound("skein_missing", "9", ("2", "3"), place="box"),
            "no skein missing in box, '9'; nearest: 2, 3",
        ),
        (
            Refusal("lost_but_set_aside", skeins=(2, 3)),
            "skein 2, 3 is set aside and was not found; "
            "release it first, or leave it out of --lost",
        ),
        (Refusal("loss_of_all", loss=1.2), "a loss of 120% leaves nothing; give 0 to 99 %"),
        (
            InTheWay(2, (4, 3), Note("below_nothing", skeins=(1, 2))),
            "entry 2 cannot be taken back: skein 1, 2 would hold less than nothing; "
            "take back 4, 3 first, newest first",
        ),
        (
            Refusal("entries_not_in_copy", file="a.stash", count=2, first=OLD, newest=NEW),
            "a.stash holds entries that the copy does not have, 2 of them from 3 to 4 "
            "(newest: item 1 (hat) begun); say --over to go back all the same, "
            "a copy of what is there now is kept beside it",
        ),
        (
            Note("promise_short", skein=3, missing=grams(12), item=GIFT, role=""),
            "short: skein 3 now lacks 12 g of what is set aside for item 2 (a gift), "
            "role none; fill up from the same lot with `stash match`, or `stash release 2`",
        ),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_it_is_said(said: Note | StashError, words: str) -> None:
    assert sentence(said) == words
