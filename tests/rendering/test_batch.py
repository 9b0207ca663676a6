"""A planned batch as keys and as words."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
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
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.figures import Units
from stash.rendering.first_screen import MOST, Part, first_screen, whole
from stash.rendering.sentences.say import sentence
from stash.rendering.wrapped import wrapped
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


def test_value_is_in_whole_money_and_buying_is_what_is_to_buy() -> None:
    """Of four, 240 m in all, 400 m are there: all are made, and nothing is to buy."""
    found = batch_words.keys(a_batch(Aim.VALUE, Aim.BUYING, Aim.ITEMS), "EUR")

    assert [aim["aim"] for aim in found["aims"]] == ["value", "buying", "items"]
    assert [aim["value"] for aim in found["aims"]] == [98.0, 0.0, 4]
    assert (found["objective"], found["bound"], found["gap"]) == (98.0, 98.0, 0.0)


def test_what_is_to_buy_is_below_nothing() -> None:
    batch = planned(SHELF, [replace(HAT, at_most=9)], Terms((Aim.BUYING,)), QUIET)
    found = batch_words.keys(batch, "EUR")

    assert batch.items == 6
    assert found["objective"] == -180.0
    assert "Leaves 180 m to buy: no plan leaves less." in text(batch)


def test_the_gap_is_that_of_the_figures_given() -> None:
    """gap = (bound - objective) / max(|bound|, 1)."""
    batch = replace(a_batch(), attained=(Attained(Aim.VALUE, 9_800, 10_000),))

    assert batch_words.keys(batch, "EUR")["gap"] == pytest.approx(0.02)
    assert batch_words.keys(batch, "JPY")["gap"] == pytest.approx(0.02)
    assert "Brings in €98.00: at most 2.1% more is possible." in text(batch)


@pytest.mark.parametrize(
    ("attained", "said"),
    [
        (Attained(Aim.ITEMS, 7, 7), "Makes 7 items: no plan makes more."),
        (Attained(Aim.ITEMS, 0, 3), "Makes 0 items: at most 3 is possible."),
        (Attained(Aim.VALUE, 10_000, 10_000), "Brings in €100.00: no plan brings in more."),
        (Attained(Aim.VALUE, 9_999, 10_000), "Brings in €99.99: at most 0.1% more is possible."),
        (Attained(Aim.VALUE, 10_000, 10_200), "at most 2% more is possible."),
        (
            Attained(Aim.LEFTOVERS, 30_000_000, 40_000_000),
            "Uses up 30 m of part balls: at most 33.4% more is possible.",
        ),
        (Attained(Aim.LEFTOVERS, 30_000_000, 30_000_004), "part balls: no plan uses more."),
        (Attained(Aim.BUYING, 140_000_000, 150_000_000), "Leaves 100 m to buy: at most 10% less"),
    ],
)
def test_how_good_it_is_in_plain_words(attained: Attained, said: str) -> None:
    assert said in text(replace(a_batch(), attained=(attained,)))


def test_the_head_says_how_many_for_when_worth_what_in_which_time() -> None:
    batch = a_batch(minutes=480, by=date(2026, 12, 5))

    assert text(batch).splitlines()[0] == (
        "3 items to make, by 2026-12-05, worth €73.50, in 7 h 30 min of 8 h"
    )
    assert "Hat, woman" in text(batch)


def test_an_end_too_short_to_use_is_said() -> None:
    shelf = a_shelf(a_lot(1, (31,), opened=(0,)))

    batch = planned(shelf, [replace(HAT, at_most=1)], Terms((Aim.VALUE,)), QUIET)

    assert batch.skeins[0].left.m == pytest.approx(2.0)
    assert "2 m left" in text(batch)
    assert "too short" not in text(batch)
    less = planned(
        a_shelf(a_lot(1, (30.6,), opened=(0,))),
        [replace(HAT, at_most=1)],
        Terms((Aim.VALUE,)),
        QUIET,
    )
    assert "1 m left, too short to use" in text(less)


def test_what_falls_short_is_shown_with_the_smallest_change() -> None:
    batch = planned(SHELF, [replace(HAT, at_least=8, at_most=8)], Terms((Aim.VALUE,)), QUIET)

    said = text(batch)

    assert "Hat, woman: 2 missing; the next one needs" in said
    assert "Hat, woman needs more than L1, L2 can cover" in said
    assert "It all fits with 2 fewer of Hat, woman." in said


def test_a_mix_that_falls_short_is_named() -> None:
    batch = a_batch(mixes=(MixWanted(design="hat", size="woman", at_least=9),))

    assert "mix of hat woman: 5 missing" in text(batch)
    assert batch_words.keys(batch, "")["unmet_mixes"] == [{"mix": "hat woman", "count": 5}]


def test_nothing_at_all_is_said_so() -> None:
    batch = planned(a_shelf(a_lot(1, (5,))), [replace(HAT, at_least=0)], Terms((Aim.VALUE,)), QUIET)

    assert text(batch) == (
        "The shelf has too little yarn for any of these; `stash short` says what to buy\n\n"
        "Not made:\n  4 x Hat, woman: no yarn on the shelf suits A"
    )
    assert batch_words.rows(batch) == []


def test_where_the_hours_are_too_few_for_any_that_is_said() -> None:
    wanted = replace(HAT, at_least=0, minutes=540)
    batch = planned(SHELF, [wanted], Terms((Aim.VALUE,), minutes=480), QUIET)

    assert text(batch) == (
        "None fit in the 8 hours: the quickest takes 9 h\n\n"
        "Not made:\n  4 x Hat, woman: no time, the next one takes 1 h more than there is"
    )


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
        line.removeprefix("  no. 1: ")
        for line in text(batch).splitlines()
        if line.startswith("  no. 1: ")
    ]


#: The units a screen may be in.
UNITS = (Units(), Units("yd", "oz", "in"), Units("yd", "g", "in"))


@pytest.mark.parametrize("units", UNITS)
@given(lengths=st.lists(st.integers(5, 400), min_size=1, max_size=4), need=st.integers(9, 150))
def test_the_cuts_of_a_skein_and_what_is_left_add_up_as_shown(
    units: Units, lengths: list[int], need: int
) -> None:
    shelf = a_shelf(a_lot(1, [length + 0.37 for length in lengths]))
    hat = Wanted("Hat", a_need(A=need + 0.41, margin=0), Wish(), at_most=4)
    batch = planned(shelf, [hat], Terms((Aim.ITEMS,)), QUIET)
    figures.use(units)

    said = figures.settled(lambda: text(batch))

    rows = re.findall(r"skein \d+ .*?([\d.]+) (?:m|yd):(.*)", said)
    assert len(rows) == len(batch.skeins)
    for free, rest in rows:
        parts = re.findall(r"(?:(\d+) x )?([\d.]+) (?:m|yd)", rest)  # what is left among them
        assert sum(int(many or 1) * Decimal(each) for many, each in parts) == Decimal(free)


def a_long_batch() -> Batch:
    """Sixteen kinds of item, all with a note, from sixteen skeins."""
    batch = planned(
        a_shelf(*(a_lot(number, (35,)) for number in range(1, 17))),
        [replace(HAT, at_least=0, at_most=16)],
        Terms((Aim.VALUE,)),
        QUIET,
    )
    bleeds = Note("something_else")
    made = [replace(one, notes=(bleeds,)) for one in batch.made]
    return replace(batch, made=tuple(made))


def test_a_long_plan_fits_a_terminal_and_says_what_is_hidden() -> None:
    """24 lines at a terminal, the last of which waits for the next command."""
    batch = a_long_batch()
    shown = batch_words.text(batch, Page("EUR"), across=100).splitlines()

    hidden = len(batch.skeins) - sum("skein " in line for line in shown if line.startswith("  "))
    assert len(text(batch).splitlines()) > MOST
    assert len(shown) <= MOST
    assert shown[-1] == f"And {hidden} more skeins; add `--all` to see everything."
    assert "Brings in" in shown[-2]


@given(across=st.integers(40, 120), most=st.integers(12, 40))
def test_a_first_screen_is_never_higher_than_the_terminal(across: int, most: int) -> None:
    parts = [
        Part(["Twelve items to make"]),
        Part([f"  set {n} {'of navy and oatmeal ' * 4}" for n in range(12)], "set"),
        Part([f"  skein {n}" for n in range(20)], "skein", ["", "To cut:"]),
        Part(["No plan brings in more."], head=[""]),
    ]

    shown = wrapped(first_screen(parts, across, most), across).splitlines()

    assert len(shown) <= most
    assert shown[0] == "Twelve items to make"
    assert "No plan brings in more." in shown
    assert whole(parts).count("skein ") == 20


def test_what_fits_is_shown_whole_and_nothing_is_said_of_more() -> None:
    batch = a_batch()

    assert batch_words.text(batch, Page("EUR"), across=100) == text(batch)
