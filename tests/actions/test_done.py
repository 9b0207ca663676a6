"""An item is done: what it used, what goes back, what it teaches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from books import a_book, a_design, a_line, add, aside, g, m, promises, refuses, skein

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    aside as aside_action,
)
from stash.actions import (
    check,
    designs,
    log,
    use,
    weigh,
)
from stash.actions import (
    done as done_action,
)
from stash.actions.book import Book
from stash.actions.done import Known
from stash.actions.finished import Finished
from stash.errors import StashError
from stash.measures.length import metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.requirements.yarn.need import Source
from stash.stock.item import ItemState
from stash.stock.item import Weighed as How
from stash.stock.yarn import LotState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Item 1, a hat of 80 m of A (skein 1) and 20 m of B (skein 2), both 100 g / 200 m."""
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(), a_line(colour="cream"), a_line(colour="red")])
    a_design(made, A=80, B=20)
    aside(made, A=1, B=2)
    aside_action.begin(made, ["1"])
    return made


def used(done: Finished) -> dict[str, Mass]:
    return {one.role: one.mass for one in done.used}


def source(book: Book) -> dict[str, Source]:
    return {role.role: role.source for role in designs.show(book, "hat").need.roles}


#: One item is drawn toward the pattern's figure by no more than this.
DRAWN = 0.06


def expected(book: Book) -> dict[str, float]:
    return {r.role: r.estimate.expected_m for r in designs.show(book, "hat").need.roles}


def test_balls_that_are_weighed_tell_the_colours_apart_and_teach_them(book: Book) -> None:
    done = done_action.done(book, {"1": Known(left={"1": grams(65), "2": grams(88)})})[0]

    assert used(done) == {"A": grams(35), "B": grams(12)}
    assert not any(one.estimated for one in done.used)
    assert expected(book) == pytest.approx({"A": 70, "B": 24}, rel=DRAWN)
    assert source(book) == {"A": Source.OWN_ITEMS, "B": Source.OWN_ITEMS}


def test_a_weighed_item_is_shared_by_expected_mass_and_marked_estimated(book: Book) -> None:
    done = done_action.done(book, {"1": Known(total=grams(60))})[0]

    assert used(done) == {"A": grams(48), "B": grams(12)}
    assert all(one.estimated for one in done.used)


def test_a_weighed_item_teaches_the_total_only(book: Book) -> None:
    done_action.done(book, {"1": Known(total=grams(60))})

    assert sum(expected(book).values()) == pytest.approx(120, rel=DRAWN)
    assert expected(book)["A"] == pytest.approx(4 * expected(book)["B"])


def test_only_what_is_not_yet_booked_is_shared(book: Book) -> None:
    weigh.weigh(book, "1", weigh.ScaleReading(grams(56)))
    done = done_action.done(book, {"1": Known(total=grams(60))})[0]

    assert sum(used(done).values(), NO_MASS) == grams(60)
    assert used(done)["A"] >= grams(44)
    assert skein(book, 1).held + skein(book, 2).held == grams(140)


def test_colours_that_were_weighed_stand_as_they_are(book: Book) -> None:
    done = done_action.done(book, {"1": Known(by_role={"A": grams(41), "B": grams(9)})})[0]

    assert used(done) == {"A": grams(41), "B": grams(9)}
    assert expected(book) == pytest.approx({"A": 82, "B": 18}, rel=DRAWN)


def test_as_planned_books_what_was_expected_and_teaches_nothing(book: Book) -> None:
    done = done_action.done(book, {"1": Known(as_planned=True)})[0]

    assert used(done) == {"A": grams(40), "B": grams(10)}
    assert source(book) == {"A": Source.STATED, "B": Source.STATED}


@pytest.mark.parametrize(
    "known",
    [
        Known(left={"1": grams(65)}),
        Known(total=grams(45)),
        Known(by_role={"A": grams(30), "B": grams(9)}),
        Known(as_planned=True),
    ],
)
def test_what_is_still_promised_is_released(book: Book, known: Known) -> None:
    done = done_action.done(book, {"1": known})[0]

    assert promises(book, 1) == promises(book, 2) == []
    assert done.released
    assert done.item.state is ItemState.DONE
    assert log.log(book)[0].number == done.entry
    assert check.check(book) == []


@pytest.mark.parametrize("known", [Known(), Known(total=grams(60), as_planned=True)])
def test_it_is_said_in_one_way(book: Book, known: Known) -> None:
    with refuses("used_in_one_way"):
        done_action.done(book, {"1": known})


def test_a_ball_not_weighed_is_pointed_out(book: Book) -> None:
    done = done_action.done(book, {"1": Known(left={"1": grams(65)})})[0]

    assert done.notes == (Note("taken_as_untouched", skein=2),)


def test_every_gram_counts_when_balls_are_weighed(book: Book) -> None:
    done = done_action.done(book, {"1": Known(left={"1": Mass(99_600)})})[0]

    assert used(done) == {"A": Mass(400)}


def test_a_whole_ball_that_was_not_touched_stays_whole(book: Book) -> None:
    done_action.done(book, {"1": Known(left={"1": grams(60), "2": grams(100)})})

    assert not skein(book, 2).opened


def test_a_ball_that_was_never_weighed_cannot_tell(book: Book) -> None:
    add(book, full_mass=None, lot="", lot_state=LotState.UNKNOWN)
    aside(book, A=4, B=3)

    with refuses("skein_never_weighed", skein=4):
        done_action.done(book, {"2": Known(left={"4": grams(40)})})


def test_less_than_was_booked_is_refused(book: Book) -> None:
    use.use(book, "1", g(50), item="1")

    with refuses("more_booked_of_item", booked=grams(50), weighed=grams(40)):
        done_action.done(book, {"1": Known(total=grams(40))})
    with refuses("more_booked_of_role", booked=grams(50), role="A"):
        done_action.done(book, {"1": Known(by_role={"A": grams(40)})})


def test_a_step_of_the_scale_less_is_no_quarrel(book: Book) -> None:
    use.use(book, "1", g(50), item="1")

    assert done_action.done(book, {"1": Known(by_role={"A": grams(49)})})[0].item.how is How.ROLES


def test_more_than_its_skeins_hold_is_refused(book: Book) -> None:
    with refuses("more_than_skeins_hold", role="A"):
        done_action.done(book, {"1": Known(by_role={"A": grams(101)})})


def test_a_role_it_does_not_have_is_not_found(book: Book) -> None:
    with refuses("role", nearest=("A", "B")):
        done_action.done(book, {"1": Known(by_role={"C": grams(5)})})


def test_colours_can_be_weighed_where_no_length_is_known(book: Book) -> None:
    add(book, full_length=None, lot="", lot_state=LotState.UNKNOWN)
    from stash.matching.question.wish import Wish

    made = aside_action.aside(book, "hat", "L4+L3", Wish(assume=True)).item.number
    with refuses("no_put_up_for_role"):
        done_action.done(book, {str(made): Known(as_planned=True)})

    done = done_action.done(book, {str(made): Known(by_role={"A": grams(30), "B": grams(8)})})[0]
    assert used(done) == {"A": grams(30), "B": grams(8)}


def test_it_is_done_once(book: Book) -> None:
    done_action.done(book, {"1": Known(as_planned=True)})

    with pytest.raises(StashError):
        done_action.done(book, {"1": Known(as_planned=True)})


def test_what_was_taken_back_is_neither_shown_nor_taught(book: Book) -> None:
    done_action.done(book, {"1": Known(total=grams(60))})
    log.undo(book)
    assert source(book) == {"A": Source.STATED, "B": Source.STATED}

    done = done_action.done(book, {"1": Known(left={"1": grams(65), "2": grams(88)})})[0]
    assert not any(one.estimated for one in done.used)
    assert used(done) == {"A": grams(35), "B": grams(12)}


def test_yarn_of_a_skein_not_set_aside_teaches_the_total_and_no_new_colour(book: Book) -> None:
    use.use(book, "3", g(10), item="1")
    done_action.done(book, {"1": Known(left={"1": grams(65), "2": grams(88)})})

    assert {*expected(book)} == {"A", "B"}
    assert sum(expected(book).values()) == pytest.approx(2 * (35 + 12 + 10), rel=DRAWN)


def test_own_items_do_not_teach_other_designs(book: Book) -> None:
    a_design(book, "scarf", A=300)
    done_action.done(book, {"1": Known(total=grams(60))})

    assert designs.show(book, "scarf").need.roles[0].source is Source.STATED


@pytest.mark.parametrize(
    ("before", "kind", "net"),
    [
        (
            lambda book: weigh.weigh(book, "2", weigh.ScaleReading(grams(80), "1")),
            "last_weighed",
            grams(80),
        ),
        (
            lambda book: weigh.weigh(book, "2", weigh.ScaleReading(grams(80), "1", row=9)),
            "last_weighed",
            grams(80),
        ),
        (
            lambda book: weigh.weigh(book, "2", weigh.ScaleReading(grams(100))),
            "last_weighed",
            grams(100),
        ),
        (
            lambda book: weigh.weigh(book, "2", weigh.ScaleReading(grams(93))),
            "last_weighed",
            grams(93),
        ),
        (lambda book: use.use(book, "2", g(12), item="1"), "taken_as_booked", None),
        (lambda book: use.use(book, "2", m(12), item="1"), "taken_as_booked", None),
        (lambda book: None, "taken_as_untouched", None),
    ],
)
def test_a_ball_weighed_or_used_in_between_is_not_called_untouched(
    book: Book, before: Callable[[Book], object], kind: str, net: Mass | None
) -> None:
    before(book)

    done = done_action.done(book, {"1": Known(left={"1": grams(65)})})[0]

    assert [(note.kind, note.facts["skein"]) for note in done.notes] == [(kind, 2)]
    assert done.notes[0].facts.get("net") == net


def test_a_weighing_taken_back_was_none(book: Book) -> None:
    weigh.weigh(book, "2", weigh.ScaleReading(grams(80), "1"))
    log.undo(book)

    done = done_action.done(book, {"1": Known(left={"1": grams(65)})})[0]

    assert done.notes == (Note("taken_as_untouched", skein=2),)


def test_a_ball_whose_promise_is_used_up_is_pointed_out_too(book: Book) -> None:
    """Skein 2 gave all that was set aside of it, and more of it may have gone since."""
    weigh.weigh(book, "2", weigh.ScaleReading(grams(10), "1"))

    done = done_action.done(book, {"1": Known(left={"1": grams(65)})})[0]

    assert done.notes == (Note("last_weighed", skein=2, net=grams(10), entry=5),)


def test_a_ball_used_up_needs_no_weighing(book: Book) -> None:
    weigh.weigh(book, "2", weigh.ScaleReading(grams(0), "1"))

    assert done_action.done(book, {"1": Known(left={"1": grams(65)})})[0].notes == ()


def test_grams_after_an_own_item_are_of_the_yarn_it_was_weighed_in(book: Book) -> None:
    """The hat names no put-up; class 4 usually holds other metres than these 200 m to 100 g."""
    done_action.done(book, {"1": Known(left={"1": grams(60), "2": grams(90)})})

    for role in designs.show(book, "hat").need.roles:
        assert role.expected_g == pytest.approx(role.estimate.expected_m / 2)
        assert role.set_aside_g == pytest.approx(role.set_aside_m / 2)


@pytest.mark.parametrize(
    "known", [Known(total=grams(50)), Known(by_role={"A": grams(40), "B": grams(10)})]
)
def test_grams_of_her_yarn_whichever_way_it_was_weighed(book: Book, known: Known) -> None:
    done_action.done(book, {"1": known})

    roles = designs.show(book, "hat").need.roles
    assert [role.m_per_100g for role in roles] == pytest.approx([200, 200])


def test_grams_are_of_each_colours_own_yarn_and_of_the_newest_item(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    fine, thick = metres(250), metres(160)
    lines = [a_line(), a_line(colour="cream", full_length=fine), a_line(lot="2", full_length=thick)]
    add_action.receive(book, lines)
    a_design(book, A=80, B=20)
    aside(book, A=1, B=2)
    done_action.done(book, {"1": Known(left={"1": grams(60), "2": grams(90)})})
    first = {r.role: r.m_per_100g for r in designs.show(book, "hat").need.roles}
    aside(book, A=3, B=2)
    done_action.done(book, {"2": Known(left={"3": grams(50), "2": grams(81)})})

    second = {r.role: r.m_per_100g for r in designs.show(book, "hat").need.roles}

    assert first == pytest.approx({"A": 200, "B": 250})
    assert second == pytest.approx({"A": 160, "B": 250})


def test_a_put_up_that_is_named_gives_the_grams(book: Book) -> None:
    plan = designs.her_designs(book).plan("hat")
    designs.change_design(book, "hat", replace(plan, put_up=PutUp(grams(50), metres(120))))
    done_action.done(book, {"1": Known(left={"1": grams(60), "2": grams(90)})})

    assert {r.m_per_100g for r in designs.show(book, "hat").need.roles} == {240}


def test_as_planned_teaches_nothing_and_leaves_the_usual_yarn(book: Book) -> None:
    before = [role.m_per_100g for role in designs.show(book, "hat").need.roles]
    done_action.done(book, {"1": Known(as_planned=True)})

    assert [role.m_per_100g for role in designs.show(book, "hat").need.roles] == before
