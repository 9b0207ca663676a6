"""The movement of the shelf over a span: against the shelf itself, and what it tells besides."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from books import a_book, a_design, a_line, add, aside, g, skein

from stash.actions import add as add_action
from stash.actions import clock, done, log, split, unravel, use, weigh
from stash.actions.book import Book
from stash.actions.log_sum import By, log_sum
from stash.measures.length import NO_LENGTH, metres
from stash.measures.mass import NO_MASS, grams
from stash.measures.money import Money
from stash.stock.movement import Kind
from stash.stock.turnover import NOTHING, Way
from stash.stock.yarn import LotState


def ago(days: int) -> date:
    return clock.today() - timedelta(days=days)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    made = a_book(tmp_path)
    lines = [
        a_line(count=2, paid=Money(2000)),
        a_line(name="Ottermeade", full_mass=grams(50), full_length=None),
    ]
    add_action.receive(made, lines, on=ago(30))
    return made


def on_the_shelf(book: Book) -> object:
    held = [skein(book, number) for number in (1, 2, 3)]
    return sum((s.held for s in held), NO_MASS), sum(
        (s.held_length or NO_LENGTH for s in held), NO_LENGTH
    )


def test_the_closing_of_a_day_is_what_the_shelf_held_on_it(book: Book) -> None:
    use.use(book, "1", g(40), on=ago(20))
    then = on_the_shelf(book)
    use.gone(book, "2", g(30), Kind.SOLD, on=ago(10))
    closing = log_sum(book, last=ago(11)).whole.closing

    assert (closing.mass, closing.length) == then
    now = log_sum(book, ago(10)).whole
    assert (now.closing.mass, now.closing.length) == on_the_shelf(book)
    assert now.opening == closing


def test_weighing_a_whole_skein_is_a_line_of_its_own(book: Book) -> None:
    weigh.weigh(book, "1", weigh.ScaleReading(grams(96)))
    moved = log_sum(book, ago(0)).whole

    assert moved.of(Way.RESTATED).mass == grams(-4)
    assert moved.of(Way.RESTATED).length == NO_LENGTH
    assert moved.opening.length == moved.closing.length


def test_winding_off_changes_no_figure(book: Book) -> None:
    use.use(book, "1", g(40))
    before = log_sum(book).whole
    split.split(book, "1", g(33))
    after = log_sum(book).whole

    assert after.closing == before.closing
    assert after.of(Way.OUT) == before.of(Way.OUT)
    assert not after.of(Way.WOUND_OFF).mass


def test_what_was_paid_for_yarn_used_already_stays_with_the_skein(book: Book) -> None:
    """100 g at 1000 coins: 33 g of it cost 330, whatever became of the rest."""
    use.use(book, "1", g(60))
    split.split(book, "1", g(33))
    lot = log_sum(book, by=By.LOT).groups[0].turnover

    assert [m.cost for (way, _), m in lot.moved.items() if way is Way.OUT] == [Money(-600)]
    assert lot.of(Way.IN).cost == Money(2000)


def test_an_unravelled_item_gives_back_what_its_yarn_cost(book: Book) -> None:
    a_design(book, A=60)
    made = str(aside(book, A=1))
    done.done(book, {made: done.Known(left={"1": grams(60)})})
    unravel.unravel(book, [made], back=1)
    found = log_sum(book, by=By.YARN).groups[0].turnover

    assert found.moved[Way.IN, Kind.UNRAVELLED] == -found.moved[Way.OUT, Kind.USED]
    assert found.closing.cost == Money(2000)
    assert found.closing.all_priced


def test_an_entry_taken_back_after_the_span_is_left_out_and_named(book: Book) -> None:
    use.use(book, "1", g(40), on=ago(20))
    log.undo(book)
    last_year = log_sum(book, ago(30), ago(10))

    assert last_year.whole.of(Way.OUT) == NOTHING
    assert [entry.number for entry in last_year.left_out] == [2]
    assert log_sum(book, ago(30)).left_out == ()


def test_yarn_that_came_by_mistake_never_came(book: Book) -> None:
    add(book, colour="rust")
    log.undo(book)

    assert log_sum(book).whole.moved.keys() == {(Way.IN, Kind.ARRIVED)}
    assert log_sum(book).whole.closing.mass == grams(250)


def test_skeins_without_pair_price_or_weight_are_named(book: Book) -> None:
    line = a_line(name="Skerry", lot="", lot_state=LotState.UNKNOWN, full_mass=None,
                  full_length=metres(300))  # fmt: skip
    add_action.receive(book, [line])
    found = log_sum(book)

    assert (found.unmeasured, found.unpriced, found.unweighed) == ((3,), (3, 4), (4,))
    assert not found.whole.closing.all_measured
    assert log_sum(book, last=ago(1)).unweighed == ()


@pytest.mark.parametrize("by", [None, *By])
def test_the_lots_are_the_same_however_it_is_divided(book: Book, by: By | None) -> None:
    found = log_sum(book, by=by)
    assert found.lots == log_sum(book).lots
    assert sum((one.closing for one in found.lots), NOTHING) == found.whole.closing
    of_groups = [one for group in found.groups for one in group.lots]
    assert of_groups == (list(found.lots) if by else [])


def test_groups_are_the_parts_of_the_whole_in_order(book: Book) -> None:
    use.use(book, "1", g(40))
    by_yarn, by_lot = log_sum(book, by=By.YARN), log_sum(book, by=By.LOT)

    assert [group.name for group in by_yarn.groups] == ["Fellside", "Ottermeade"]
    assert [group.name.facts["lot"].ref for group in by_lot.groups] == ["L1", "L2"]
    for found in (by_yarn, by_lot):
        parts = [group.turnover.closing for group in found.groups]
        assert sum(parts, NOTHING) == found.whole.closing
    assert log_sum(book).groups == ()
