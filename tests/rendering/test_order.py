"""Orders as they are read: how they are doing, what they lack, what a take would leave short."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from stash.matching.answer.proposal import NearMiss
from stash.measures.length import metres
from stash.measures.note import Note
from stash.planning.model.batch import Unfilled
from stash.rendering.order import asked_for, lacks, late_words, short_words, state_words
from stash.rendering.sentences.say import sentence
from stash.stock.order import Order
from stash.stock.yarn import Lot, Yarn

DAY = date(2026, 12, 12)
ORDER = Order(2, "blue", 1, "Winter hat", DAY, count=3, size="woman", colours={"A": "blue"})
LOT = Lot(1, Yarn(1, "", "Fellside"), "navy", "")
NOTHING = Unfilled(2, 1, None, (), 0)


def test_what_is_asked_for_is_named_with_size_and_colours() -> None:
    assert asked_for(ORDER) == "Winter hat, woman, A blue"
    assert asked_for(replace(ORDER, size="", colours={})) == "Winter hat"


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({}, "open"),
        ({"items": (4,)}, "open, 1 of 3 filled"),
        ({"items": (4,), "by": date(2026, 12, 1)}, "late, 1 of 3 filled"),
        ({"items": (4, 5, 6)}, "filled"),
        ({"dropped": True}, "dropped"),
    ],
)
def test_the_state_says_how_many_have_an_item(facts: dict[str, object], words: str) -> None:
    assert state_words(replace(ORDER, **facts), DAY) == words  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("lack", "words"),
    [
        (replace(NOTHING, minutes=90), "1 h 30 min more than the plan has"),
        (replace(NOTHING, empty=("A", "B")), "no yarn left that will do for A and B"),
        (NOTHING, "what is left does not go together, or a limit of the plan keeps it back"),
        (
            replace(NOTHING, near=NearMiss((), (Note("one_lot_in_two_roles"),), ())),
            sentence(Note("one_lot_in_two_roles")),
        ),
    ],
    ids=["hours", "no yarn", "limit", "near"],
)
def test_what_the_next_one_lacks_is_one_line(lack: Unfilled, words: str) -> None:
    assert words in lacks(lack)


def test_what_earlier_orders_are_to_have_is_not_called_promised() -> None:
    facts = {"role": "A", "lot": LOT, "short": metres(12)}
    facts |= {"has": metres(100), "needs": metres(112)}
    facts |= {"short_g": None, "short_rows": None}
    short = Note("lot_short", **facts, promised=metres(40))

    said = lacks(replace(NOTHING, near=NearMiss((), (short,), ())))

    assert "40 m" in sentence(short)
    assert said == sentence(Note("lot_short", **facts))


def test_an_order_that_several_takes_leave_short_is_said_once() -> None:
    first, second = (replace(ORDER, number=number) for number in (3, 2))
    short = {"L1+L2": [replace(NOTHING, order=3), NOTHING], "L4": [NOTHING], "L5": []}

    said = short_words([first, second], short)

    assert [line.split(", short")[0] for line in said] == [
        "L1+L2, L4 would leave order 2 (blue), for 2026-12-12",
        "L1+L2 would leave order 3 (blue), for 2026-12-12",
    ]
    assert short_words([second], {"": [NOTHING]})[0].startswith("this leaves order 2 (blue)")


def test_a_late_order_is_said_with_its_day() -> None:
    assert late_words([ORDER], DAY) == []
    assert late_words([ORDER], date(2026, 12, 14)) == [
        "order 2 (blue) is late: it was for 2026-12-12, 2 days ago"
    ]
    assert late_words([replace(ORDER, dropped=True)], date(2026, 12, 14)) == []
