"""The batch planned on her shelf, kept, and booked whole or not at all."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from books import a_book, a_design, add, g, promises, refuses, rows, skein

from stash.actions import batch, designs, find, log, use
from stash.actions.batch import BatchAsked, PlannedBatch, plan_batch
from stash.actions.batch_aside import aside_batch
from stash.actions.book import Book
from stash.exchange.saved_plan import plan_written, saved_plan_from
from stash.measures.length import Length
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.measures.note import Note
from stash.parsing.design.design import DesignWords, design
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Terms
from stash.planning.model.problem import Aim
from stash.planning.model.saved import Saved
from stash.requirements.fit.grading import Run, SizeAsked
from stash.stock.item import NOT_ASKED, AskedFor
from stash.store import item_rows

TERMS = Terms((Aim.ITEMS,))
HAT = WantAsked("hat", at_least=2, at_most=2)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Three balls of navy and one of cream, and a hat of 60 m and 20 m."""
    made = a_book(tmp_path)
    add(made, count=3)
    add(made, colour="cream", lot="7")
    a_design(made, A=60, B=20)
    return made


def planned(book: Book, *wants: WantAsked, **facts: object) -> PlannedBatch:
    return plan_batch(book, BatchAsked(wants or (HAT,), TERMS, **facts))  # type: ignore[arg-type]


def test_a_plan_is_booked_in_one_entry_with_the_amounts_it_says(book: Book) -> None:
    saved = planned(book).saved

    made = aside_batch(book, saved)

    booked = {(p.item, p.role): p.length for number in range(1, 5) for p in promises(book, number)}
    first = made.items[0][0] - 1
    cut = {(first + c.item, c.role): c.length for c in saved.cuts}
    assert booked == cut
    assert [name for _, name in made.items] == ["hat", "hat"]
    assert {entry for (entry, *_) in rows(book)["promise"]} != set()


def test_taken_back_everything_is_as_it_was(book: Book) -> None:
    before = [skein(book, n) for n in range(1, 5)]
    made = aside_batch(book, planned(book).saved)

    log.undo(book, made.entry)

    assert [skein(book, n) for n in range(1, 5)] == before


def test_a_shelf_that_has_changed_is_refused_with_what_changed(book: Book) -> None:
    saved = planned(book).saved
    use.gone(book, "2", g(30), use.Kind.GIVEN)
    before = rows(book)

    less = Note("free_not_as_planned", skein=2, free=grams(70), was=grams(100))
    with refuses("shelf_not_as_planned", changed=(less,)):
        aside_batch(book, saved)

    assert rows(book) == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda book: add(book, colour="teal"), Note("skein_is_new", skein=5)),
        (lambda book: use.gone(book, "4", None, use.Kind.SOLD), Note("skein_not_free", skein=4)),
        (
            lambda book: designs.change_design(
                book, "hat", replace(designs.her_designs(book).plan("hat"), strands=2)
            ),
            Note("design_put_right", design="hat"),
        ),
    ],
)
def test_every_change_is_told(book: Book, change: object, said: Note) -> None:
    saved = planned(book).saved
    change(book)  # type: ignore[operator]

    with refuses("shelf_not_as_planned", changed=(said,)):
        aside_batch(book, saved)


def test_a_plan_that_was_booked_is_not_booked_again(book: Book) -> None:
    saved = planned(book).saved
    aside_batch(book, saved)

    with refuses("shelf_not_as_planned"):
        aside_batch(book, saved)


def tampered(saved: Saved) -> list[Saved]:
    """What somebody might write into the file."""
    (first, *others) = saved.cuts
    more = replace(first, length=Length(500_000_000))
    return [
        replace(saved, cuts=(more, *others)),
        replace(saved, cuts=tuple(others)),
        replace(saved, cuts=(replace(first, length=Length(1_000_000)), *others)),
        replace(saved, cuts=(replace(first, role="D"), *others)),
        replace(saved, items={}, cuts=()),
        replace(saved, cuts=(replace(first, skein=99), *others)),
    ]


@pytest.mark.parametrize("which", range(6))
def test_a_file_somebody_wrote_in_is_refused_and_nothing_is_written(book: Book, which: int) -> None:
    wrong = tampered(planned(book).saved)[which]
    before = rows(book)

    with refuses("plan_not_sound"):
        aside_batch(book, wrong)

    assert rows(book) == before


def test_yarn_kept_out_is_not_taken(book: Book) -> None:
    found = planned(book, kept_out=("1", "L2")).batch

    numbers = {skein.number for skein in found.skeins}
    assert found.unmet
    assert numbers.isdisjoint({1, 4})


def a_shaped_hat(book: Book, **words: object) -> None:
    usual: dict[str, object] = {
        "name": "cap",
        "shape": "round hat",
        "around": "54cm",
        "tall": "21cm",
        "gauge": "17 sts x 13 rows",
        "fabric": "1 hdc",
        "thickness": "4",
    }
    designs.add_design(book, design(DesignWords(**{**usual, **words})))  # type: ignore[arg-type]


def at_size(words: str, metres: int) -> WantAsked:
    sides = {"around": Length(metres * 10_000), "tall": Length(200_000)}
    run = Run((SizeAsked(words, sides=sides),))
    return WantAsked("cap", run, words, at_least=1, at_most=1)


def test_another_size_needs_what_it_needs_and_is_kept_as_a_design_of_its_own(book: Book) -> None:
    a_shaped_hat(book)
    found = planned(book, at_size("small", 45), at_size("large", 60))
    small, large = (sum(r.set_aside_m for r in w.need.roles) for w in found.batch.wants)

    made = aside_batch(book, found.saved)

    assert small < large
    assert [name for _, name in made.items] == ["cap, small", "cap, large"]
    kept = {name: designs.show(book, name).need for name in ("cap, small", "cap, large")}
    assert kept["cap, small"].roles[0].set_aside_m == pytest.approx(small)
    log.undo(book, made.entry)
    assert designs.names(book) == ["cap", "hat"]


def test_a_figure_that_told_of_another_size_is_brought_to_this_one(book: Book) -> None:
    a_shaped_hat(book, stated=("A=100m",))
    found = planned(book, at_size("small", 45))

    aside_batch(book, found.saved)

    need = found.batch.wants[0].need.roles[0].estimate.expected_m
    assert need < 100
    kept = designs.show(book, "cap, small").need.roles[0].estimate.expected_m
    assert kept == pytest.approx(need, abs=1e-5)


def test_a_design_that_is_not_kept_is_told_how_to_get_a_need(book: Book) -> None:
    with refuses("design_for_batch", asked="scarf"):
        planned(book, WantAsked("scarf"))


def test_without_any_design_too(tmp_path: Path) -> None:
    with refuses("design_for_batch", nearest=()):
        planned(a_book(tmp_path), HAT)


def test_least_buying_asks_how_many_at_most(book: Book) -> None:
    asked = BatchAsked((WantAsked("hat"),), replace(TERMS, aims=(Aim.BUYING,)))

    with refuses("buying_without_end", design="hat"):
        plan_batch(book, asked)


def test_what_is_free_then_is_kept_with_the_plan(book: Book) -> None:
    saved = planned(book).saved

    assert saved.free == dict.fromkeys(range(1, 5), grams(100))
    with book.reading() as db:
        assert find.design(db, "hat").name == saved.wants[0].design
    assert batch.free_now([]) == {}


def test_a_designs_own_size_makes_no_second_design(book: Book) -> None:
    a_shaped_hat(book)
    kept = designs.her_designs(book).plan("cap")
    assert kept.size is not None
    own = dict(zip(kept.build.words, kept.size.sides, strict=False))
    want = WantAsked("cap", Run((SizeAsked("own", sides=own),)), "own", at_least=1, at_most=1)

    made = aside_batch(book, planned(book, want).saved)

    assert [name for _, name in made.items] == ["cap"]
    assert designs.names(book) == ["cap", "hat"]


def test_what_was_asked_for_an_item_stays_with_it(book: Book) -> None:
    hat = replace(HAT, at_least=1, at_most=1, coins=2800, minutes=150)
    saved = planned(book, hat).saved

    made = aside_batch(book, saved_plan_from("b.json", plan_written(saved).encode()))

    with book.reading() as db:
        (item,) = item_rows.items(db, [made.items[0][0]])
    assert item.asked == AskedFor(Money(2800), 150)


def test_what_was_not_asked_is_not_known(book: Book) -> None:
    made = aside_batch(book, planned(book).saved)

    with book.reading() as db:
        (item,) = item_rows.items(db, [made.items[0][0]])
    assert item.asked == NOT_ASKED
