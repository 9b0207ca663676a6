"""How much a command asks of the file: one view or one entry, and each thing read once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from books import a_book, a_design, a_line, a_skein_story, aside, g
from sqlalchemy import event

from stash.actions import add, done, items, show, sold, use
from stash.actions import aside as aside_action
from stash.actions.book import Book
from stash.actions.match import NeedAsked, propose
from stash.actions.release import release
from stash.actions.weigh import ScaleReading, weigh
from stash.matching.question.wish import Fixed, Wish
from stash.measures.mass import grams
from stash.measures.money import Money


@dataclass
class Statements:
    """What was sent to SQLite, in order."""

    sent: list[str] = field(default_factory=list)

    @property
    def begun(self) -> int:
        """How many views and entries were opened."""
        return sum(statement.startswith("BEGIN") for statement in self.sent)

    @property
    def skeins_read(self) -> int:
        """How often skeins were read with what they hold."""
        return sum("held_mg" in statement for statement in self.sent)

    def of(self, asked: Callable[[], object]) -> int:
        """How many one command takes."""
        self.sent.clear()
        asked()
        return len(self.sent)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A hat to make, yarn for several in four lots, and an item under way."""
    made = a_book(tmp_path)
    lines = [
        a_line(count=4),
        a_line(colour="cream", lot="7", count=3),
        a_line(colour="rust", lot="9", place="attic"),
        a_line(colour="grey", lot="10", place="attic"),
    ]
    add.receive(made, lines)
    a_design(made, A=165, B=12)
    aside_action.aside_own_choice(made, "hat", {"A": [1], "B": [5]})
    aside_action.begin(made, ["1"])
    use.use(made, "1", g(10), item="1")
    return made


@pytest.fixture
def statements(book: Book) -> Iterator[Statements]:
    found = Statements()

    def sent(_1: object, _2: object, statement: str, *_: object) -> None:
        found.sent.append(statement)

    event.listen(book.file.engine, "before_cursor_execute", sent)
    yield found
    event.remove(book.file.engine, "before_cursor_execute", sent)


def test_matching_reads_the_shelf_once_whatever_is_named(
    book: Book, statements: Statements
) -> None:
    named = Wish(fixed={"A": Fixed(typed="L2"), "B": Fixed(typed="8, 9")})

    assert statements.of(lambda: propose(book, NeedAsked("hat"))) <= 7
    assert (statements.begun, statements.skeins_read) == (1, 1)
    assert statements.of(lambda: propose(book, NeedAsked("hat"), named)) <= 7
    assert (statements.begun, statements.skeins_read) == (1, 1)


@pytest.mark.parametrize("which", ["1", "L2+L4"])
def test_setting_aside_is_one_entry_that_reads_a_skein_once(
    book: Book, statements: Statements, which: str
) -> None:
    assert statements.of(lambda: aside_action.aside(book, "hat", which)) <= 17
    assert (statements.begun, statements.skeins_read) == (1, 1)


def test_a_weighing_reads_its_skein_before_and_after(book: Book, statements: Statements) -> None:
    asked = ScaleReading(grams(60), item="1")

    assert statements.of(lambda: weigh(book, "1", asked)) <= 16
    assert (statements.begun, statements.skeins_read) == (1, 2)


@pytest.mark.parametrize(("what", "most"), [("1", 14), ("navy", 14), ("hat", 22)])
def test_showing_opens_one_view(book: Book, statements: Statements, what: str, most: int) -> None:
    assert statements.of(lambda: show.story(book, what)) <= most
    assert statements.begun == 1


def test_showing_loads_its_own_entries_alone(book: Book, statements: Statements) -> None:
    shown = a_skein_story(book, "5")
    assert [entry.number for entry in shown.history.entries] == [3, 1], "came, and was set aside"

    statements.of(lambda: a_skein_story(book, "5"))
    (entries,) = [one for one in statements.sent if "taken_back_by" in one]
    assert "WHERE entry.number IN" in entries


@pytest.fixture
def hats(book: Book) -> list[str]:
    """Ten more hats with their yarn set aside, none begun."""
    add.receive(book, [a_line(colour="navy", lot="20", count=30)])
    first = 10  # the skeins 1 to 9 were there before
    return [str(aside(book, A=first + 3 * i, B=first + 3 * i + 2)) for i in range(10)]


def steps_of_items(book: Book, items: list[str]) -> dict[str, Callable[[], object]]:
    """What can be done with several items, in the order in which it can be."""
    planned = done.Known(as_planned=True)
    return {
        "begin": lambda: aside_action.begin(book, items),
        "done": lambda: done.done(book, dict.fromkeys(items, planned)),
        "sold": lambda: sold.sell(book, dict.fromkeys(items, sold.Price(Money(2800)))),
        "returned": lambda: sold.take_back(book, items),
    }


def test_an_item_more_to_begin_or_to_sell_is_one_question_more_at_most(
    book: Book, statements: Statements, hats: list[str]
) -> None:
    few, many = steps_of_items(book, hats[:2]), steps_of_items(book, hats[2:])
    more = {
        name: (statements.of(many[name]) - statements.of(few[name])) / (len(hats) - 4)
        for name in many
    }

    assert more["begin"] == 0
    assert more["sold"] == more["returned"] == 1
    assert more["done"] <= 26


def test_yarn_of_several_items_is_released_by_as_many_questions_as_of_one(
    book: Book, statements: Statements, hats: list[str]
) -> None:
    one = statements.of(lambda: release(book, hats[:1]))

    assert statements.of(lambda: release(book, hats[1:])) == one


def test_items_are_listed_by_as_many_questions_as_one(
    book: Book, statements: Statements, hats: list[str]
) -> None:
    aside_action.begin(book, hats[:2])
    few = statements.of(lambda: items.listed_items(book))
    aside_action.begin(book, hats[2:])

    assert statements.of(lambda: items.listed_items(book)) == few
