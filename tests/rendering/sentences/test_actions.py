"""The words of notes and refusals about designs, money and how long yarn lasts."""

from __future__ import annotations

import pytest

from stash.actions.sharing import from_key
from stash.errors import BadInput, Refusal, StashError, Unreadable
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.stock.item import Item, ItemState

HAT = Item(2, ItemState.PLANNED, 1, "hat", "")


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (
            Refusal("rows_of_role_not_known", role="A", can_alternate=True),
            "the rows of A are not known, so there is no brim and no row to change at: use "
            "--two-lots A=alternate, or add --fabric and --gauge to the design",
        ),
        (
            Refusal("no_row_for_two_lots", role="B", can_alternate=False),
            "no row of B hides a change of lots: use one lot",
        ),
        (
            BadInput("row_of_weighing_not_known", skeins=(3,), row=40.0),
            "at which row was skein 3 last weighed? Add --rows-done 3=40, or weigh again with "
            "the row: `stash weigh 3 63g --row 40`",
        ),
        (
            BadInput("row_of_weighing_not_known", skeins=(3, 5), row=12.5),
            "at which row were skein 3 and skein 5 last weighed? Add --rows-done 3=12.5,5=12.5, "
            "or weigh again with the row: `stash weigh 3 63g --row 12.5`",
        ),
        (
            Note("rows_left_by_plan", left=24.0, rows=60),
            "24 of the 60 rows of its design are left",
        ),
        (
            Note("uneven_rows_left_by_plan", left=24.5, rows=60, first=12, last=90),
            "24.5 of the 60 rows of its design are left; it begins with 12 stitches and ends "
            "with 90. Worked the other way round? Add --rows-left and --stitches",
        ),
        (
            Refusal("strand_never_weighed", skein=5, beside=3, item=HAT),
            "skein 5 is worked together with skein 3 and was never weighed: "
            "weigh it too, as in `stash weigh 5 63g --for 2 --row 40`",
        ),
        (
            Refusal("tag_of_nothing_made", item=HAT),
            "item 2 (hat) is planned; tags are for items begun or done",
        ),
        (
            Refusal("nothing_covers_design", design="winter hat"),
            "no yarn on the shelf covers 'winter hat'; "
            '`stash match "winter hat"` shows what almost does',
        ),
        (
            Refusal("other_digits_kept", currency="JPY", digits=0),
            "you already have prices with two digits after the point, and JPY has 0; "
            "for JPY, start a new file with --file",
        ),
        (
            Refusal("size_not_made", design="hat", size="56 cm", why="it has no crown"),
            "hat, 56 cm: it has no crown",
        ),
    ],
)
def test_what_is_said_of_designs(said: Note | StashError, words: str) -> None:
    assert sentence(said) == words


def test_a_way_of_two_lots_that_is_none_is_answered_with_those_there_are() -> None:
    with pytest.raises(Unreadable) as refused:
        from_key("L3/L9-stripes")

    assert sentence(refused.value) == (
        "cannot read 'L3/L9-stripes' as two lots for one colour: "
        "end it with brim, change, alternate, as in L3/L9-brim"
    )
