"""A planned batch as keys and as words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from shelves import a_lot, a_need, a_shelf
from workshops import QUIET

from stash.matching.question.wish import Wish
from stash.measures.colour import Colour
from stash.measures.note import Note
from stash.planning.model.attained import Attained
from stash.planning.model.batch import Batch, MixWanted, Terms, Wanted
from stash.planning.model.problem import Aim
from stash.planning.plan_batch import planned
from stash.rendering import batch as batch_words
from stash.rendering.amounts import Page
from stash.rendering.sentences.say import sentence
from stash.requirements.design.cautions import CHILD

SHELF = a_shelf(a_lot(1, (100, 40), opened=(1,)), a_lot(2, (60,)))
HAT = Wanted(
    "Hat", a_need(A=60, margin=0), Wish(), "woman", at_least=1, at_most=4, coins=2450, minutes=150
)


def a_batch(*aims: Aim, **facts: object) -> Batch:
    terms = Terms(aims or (Aim.VALUE,), **facts)  # type: ignore[arg-type]
    return planned(SHELF, [HAT], terms, QUIET)


def text(batch: Batch) -> str:
    return batch_words.text(batch, Page("EUR"))


def test_value_is_told_in_whole_money_and_buying_as_what_is_to_buy() -> None:
    """Of four, 240 m in all, 400 m are there: all are made, and nothing is to buy."""
    found = batch_words.keys(a_batch(Aim.VALUE, Aim.BUYING, Aim.ITEMS), "EUR")

    assert [aim["aim"] for aim in found["aims"]] == ["value", "buying", "items"]
    assert [aim["objective"] for aim in found["aims"]] == [98.0, 0.0, 4]
    assert (found["objective"], found["bound"], found["gap"]) == (98.0, 98.0, 0.0)


def test_what_is_to_buy_is_below_nothing() -> None:
    batch = planned(SHELF, [replace(HAT, at_most=9)], Terms((Aim.BUYING,)), QUIET)
    found = batch_words.keys(batch, "EUR")

    assert batch.items == 6
    assert found["objective"] == -180.0
    assert "least to buy for the rest, 180 m" in text(batch)


def test_the_gap_is_that_of_what_is_told() -> None:
    """gap = (bound - objective) / max(|bound|, 1)."""
    batch = replace(a_batch(), attained=(Attained(Aim.VALUE, 9_800, 10_000),))

    assert batch_words.keys(batch, "EUR")["gap"] == pytest.approx(0.02)
    assert batch_words.keys(batch, "JPY")["gap"] == pytest.approx(0.02)
    assert "proved, at most 2.0 % better is possible" in text(batch)


@pytest.mark.parametrize(
    ("attained", "said"),
    [
        (Attained(Aim.ITEMS, 7, 7), "most items, 7: proved, no plan does better"),
        (Attained(Aim.VALUE, 9_999, 10_000), "most value, €99.99: proved, at most 0.1 % better"),
        (
            Attained(Aim.LEFTOVERS, 30_000_000, 40_000_000),
            "part balls used up, 30 m: proved, at most 25.0 %",
        ),
    ],
)
def test_how_good_it_is_in_plain_words(attained: Attained, said: str) -> None:
    assert said in text(replace(a_batch(), attained=(attained,)))


def test_the_head_says_how_many_for_when_worth_what_in_which_time() -> None:
    batch = a_batch(minutes=480, by=date(2026, 12, 5))

    assert text(batch).splitlines()[0] == (
        "3 items to make, by 2026-12-05, worth €73.50, in 7.5 h of 8 h"
    )
    assert "Hat, woman" in text(batch)


def test_an_end_too_short_to_use_is_said() -> None:
    shelf = a_shelf(a_lot(1, (31,), opened=(0,)))

    batch = planned(shelf, [replace(HAT, at_most=1)], Terms((Aim.VALUE,)), QUIET)

    assert batch.skeins[0].left.m == pytest.approx(2.0)
    assert "2 m stay" in text(batch)
    less = planned(
        a_shelf(a_lot(1, (30.6,), opened=(0,))),
        [replace(HAT, at_most=1)],
        Terms((Aim.VALUE,)),
        QUIET,
    )
    assert "1.2 m left, too short to use" in text(less)


def test_what_falls_short_is_told_with_the_smallest_give() -> None:
    batch = planned(SHELF, [replace(HAT, at_least=8, at_most=8)], Terms((Aim.VALUE,)), QUIET)

    said = text(batch)

    assert "Hat, woman: 2 too few; the next one lacks" in said
    assert "Hat, woman asks too much over L1 and L2" in said or "asks too much over L1, L2" in said
    assert "smallest give: ask for 2 fewer of Hat, woman" in said


def test_a_mix_that_falls_short_is_told_by_its_name() -> None:
    batch = a_batch(mixes=(MixWanted(design="hat", size="woman", at_least=9),))

    assert "mix of hat woman: 5 too few" in text(batch)
    assert batch_words.keys(batch, "")["unmet_mixes"] == [{"mix": "hat woman", "count": 5}]


def test_nothing_at_all_is_said_so() -> None:
    batch = planned(a_shelf(a_lot(1, (5,))), [replace(HAT, at_least=0)], Terms((Aim.VALUE,)), QUIET)

    assert text(batch).startswith("Nothing of this can be made from the shelf")
    assert batch_words.rows(batch) == []


def test_childrens_items_have_their_caution() -> None:
    need = replace(HAT.need, notes=(Note("something_else"), CHILD))
    batch = planned(SHELF, [replace(HAT, need=need)], Terms((Aim.VALUE,)), QUIET)

    assert text(batch).endswith(sentence(CHILD))
    assert batch_words.keys(batch, "EUR")["notes"] == [sentence(CHILD)]
    assert batch_words.keys(a_batch(), "EUR")["notes"] == []


def test_a_row_for_each_cut() -> None:
    batch = a_batch()

    rows = batch_words.rows(batch)

    assert len(rows) == sum(len(skein.cuts) for skein in batch.skeins)
    assert {(row["design"], row["size"]) for row in rows} == {("Hat", "woman")}


@pytest.mark.parametrize(
    ("colours", "words"),
    [
        (("#1b2440", "#1d2745"), "look alike"),
        (("#1b2440", "#f5f0e0"), "may bleed into"),
        (("#808080", "#30a050"), None),
    ],
)
def test_what_may_go_wrong_side_by_side_is_a_note_of_the_set(
    colours: tuple[str, str], words: str | None
) -> None:
    """Navy with navy; a strong dark beside cream (common practice, no source); grey with green."""
    lots = [a_lot(n + 1, (100,), colours=(Colour(colour),)) for n, colour in enumerate(colours)]
    hat = Wanted("Hat", a_need(A=60, B=20, margin=0), Wish(), at_most=1)
    batch = planned(a_shelf(*lots), [hat], Terms((Aim.ITEMS,)), QUIET)

    (made,) = batch_words.keys(batch, "EUR")["made"]

    assert [words in note for note in made["notes"]] == ([True] if words else [])
    assert made["lightness_gap"] is not None
    assert [*made["notes"]] == [
        line.removeprefix("  item 1: ")
        for line in text(batch).splitlines()
        if line.startswith("  item 1: ")
    ]
