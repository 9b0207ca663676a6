"""A sheet booked: what comes with the rows, what is remembered, and how fast it goes."""

from __future__ import annotations

import threading
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path

import pytest
from books import a_book, a_line, add, g

from stash.actions import add as add_action
from stash.actions import change, check, log, use, value
from stash.actions import shelf as shelf_action
from stash.actions.book import Book, open_book
from stash.actions.settings import change_setting, read_settings
from stash.actions.shelf import Filters
from stash.errors import BadSheet, Refusal, Unreadable
from stash.exchange import booking
from stash.exchange.take_in import Sheet, read_sheet
from stash.measures.note import Note
from stash.parsing.headings import KnownHeadings, mapped, remembered

TODAY = date(2025, 3, 1)
SHEETS = Path(__file__).parents[2] / "fixtures" / "sheets"
GARN = b"Garn;Farbe;Lauf\nDunmarle;grau;125 m\n"


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_book(tmp_path)


def kept(book: Book) -> dict[str, str]:
    return remembered(read_settings(book).kept or {})


def read(book: Book, data: bytes, maps: Sequence[str] = ()) -> Sheet:
    return read_sheet("a.csv", data, TODAY, "", KnownHeadings(mapped([*maps]), kept(book)))


def take_in(book: Book, data: bytes, maps: Sequence[str] = ()) -> int:
    return booking.book_sheet(book, read(book, data, maps), data).entry


def test_all_or_nothing_unless_good_rows_are_asked_for(book: Book) -> None:
    data = b"yarn;put up\nDunmarle;50g\nTansel;50\n"
    sheet = read(book, data)

    with pytest.raises(BadSheet):
        booking.refuse_unless_good(sheet, good_rows=False)
    booking.refuse_unless_good(sheet, good_rows=True)
    with pytest.raises(Unreadable, match="sheet_without_rows"):
        booking.refuse_unless_good(read(book, b"yarn;put up\nTansel;50\n"), good_rows=True)


def test_the_same_bytes_are_refused_until_they_are_taken_back(book: Book) -> None:
    data = b"yarn;put up\nDunmarle;50g\n"
    entry = take_in(book, data)

    with pytest.raises(Refusal, match=f"taken_in_already.*entry={entry}"):
        booking.refuse_if_taken_in_before(book, "a.csv", data)
    booking.refuse_if_taken_in_before(book, "a.csv", data + b"\n")
    log.undo(book)
    booking.refuse_if_taken_in_before(book, "a.csv", data)


def test_what_was_said_of_headings_is_remembered_in_the_entry_of_the_import(book: Book) -> None:
    take_in(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    assert kept(book) == {"garn": "yarn", "farbe": "colour", "lauf": "length m"}
    assert [lot.lot.colour for lot in shelf_action.shelf(book, Filters()).lots] == ["grau"]
    take_in(book, GARN.replace(b"125 m", b"225"))
    assert len(log.log(book)) == 2
    log.undo(book)
    log.undo(book)
    assert kept(book) == {}


def test_what_is_said_later_of_a_heading_replaces_what_was_said(book: Book) -> None:
    take_in(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    take_in(book, GARN + b"\n", ["Farbe="])

    assert kept(book)["farbe"] == "ignored"
    assert {lot.lot.colour for lot in shelf_action.shelf(book, Filters()).lots} == {"", "grau"}


def test_looking_remembers_nothing(book: Book) -> None:
    read(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    assert kept(book) == {}


def test_yards_are_a_habit_only_where_she_said_nothing(book: Book) -> None:
    change_setting(book, "units", "metric")
    take_in(book, b"yarn;yardage\nDunmarle;137\n")

    assert read_settings(book).length == "m"


def test_a_copy_is_made_before_a_sheet_comes_into_a_file_that_holds_something(book: Book) -> None:
    take_in(book, b"yarn;put up\nDunmarle;50g\n")
    assert list(book.path.parent.iterdir()) == [book.path]

    take_in(book, b"yarn;put up\nTansel;50g\n")

    assert len(list(book.path.parent.iterdir())) == 2


def test_numbers_that_are_taken_keep_the_whole_sheet_out(book: Book) -> None:
    add(book)
    data = b"number;yarn;put up\n7;Dunmarle;50g\n1;Tansel;50g\n"

    with pytest.raises(Refusal, match="skein_number_in_use"):
        take_in(book, data)

    assert len(shelf_action.shelf(book, Filters()).lots) == 1


def test_numbered_lots_meet_their_records_and_unknown_ones_do_not(book: Book) -> None:
    data = b"yarn;lot;put up\nDunmarle;7;50g\nDunmarle;;50g\nDunmarle;7;50g\nDunmarle;;50g\n"
    take_in(book, data)
    take_in(book, data + b"\n")

    shelf = shelf_action.shelf(book, Filters()).lots
    assert sorted((lot.lot.lot, len(lot.skeins)) for lot in shelf) == [("", 1)] * 4 + [("7", 4)]


def test_a_sheet_kept_by_hand_comes_in_as_it_was_meant(book: Book) -> None:
    # added up by hand: 3 + 2 whole skeins of 50 g and 1 3/4 oz (an ounce is 28.349523125 g, NIST
    # Handbook 44), 50 g + 66.667 g + 42.5 g + 80 yd of 100 g/225 m (32.512 g), 50 g, 1200 g
    data = (SHEETS / "kept_by_hand.csv").read_bytes()
    sheet = read(book, data)
    booking.refuse_unless_good(sheet, good_rows=False)
    take_in(book, data)

    shelf = shelf_action.shelf(book, Filters()).lots
    assert sum(len(lot.skeins) for lot in shelf) == 11
    by_hand = 150 + 2 * 49.612 + 50 + 66.667 + 42.5 + 32.512 + 50 + 1200
    assert sum(lot.held.mg for lot in shelf) == pytest.approx(by_hand * 1000, abs=2)
    assert read_settings(book).currency == "EUR"


def test_a_long_sheet_is_read_and_booked_fast(book: Book) -> None:
    # the goal is 5,000 rows a second, nearly each a lot of its own; a fifth leaves room for a
    # busy machine
    body = "".join(
        f"Dunmarle {i % 40};{i % 3000};{50 + i % 2 * 50} g / {100 + i % 200} m;{i % 60}\n"
        for i in range(4000)
    )
    data = ("yarn;lot;put up;place\n" + body).encode()

    begun = time.process_time()
    sheet = read(book, data)
    booking.book_sheet(book, sheet, data)
    rate = 4000 / (time.process_time() - begun)

    assert len(sheet.rows) == 4000
    assert rate > 1000


SHEET = (
    b"yarn;put up;skeins;paid;bought\nDunmarle;50g/125m;2;9.90;2024-03-04\nTansel;100g/200m;1;8;\n"
)


def closing(book: Book, on: date, first: date | None = None) -> tuple[int, int, int]:
    """Opening, bought and closing of a span at cost, in coins; from the first of its year."""
    found = value.value(book, on, first).valuation
    return found.opening.stock.cost.coins, found.bought.cost.coins, found.closing.stock.cost.coins


def test_yarn_arrives_on_the_day_it_was_bought(book: Book) -> None:
    booking.book_sheet(book, read(book, SHEET), SHEET, on=TODAY)

    assert closing(book, date(2024, 3, 3)) == (0, 0, 0)
    assert closing(book, date(2024, 12, 31)) == (0, 990, 990)
    assert closing(book, TODAY) == (990, 800, 1790)
    assert check.check(book) == []


def test_yarn_bought_before_may_be_used_on_a_day_before_the_sheet_came(book: Book) -> None:
    booking.book_sheet(book, read(book, SHEET), SHEET, on=TODAY)

    use.use(book, "1", g(10), on=date(2024, 5, 1))
    with pytest.raises(Refusal, match="skein_below_nothing_on"):
        use.use(book, "1", g(10), on=date(2024, 3, 3))
    with pytest.raises(Refusal, match="skein_below_nothing_on"):
        use.use(book, "3", g(10), on=date(2024, 5, 1))


def test_a_day_of_purchase_after_the_entry_moves_no_arrival_behind_a_use(book: Book) -> None:
    number = add_action.receive(book, [a_line()], on=date(2024, 3, 4)).arrived[0].skeins[0]
    use.use(book, str(number), g(10), on=date(2024, 4, 1))

    change.change(book, [str(number)], change.Changes(bought=date(2024, 6, 1)))

    assert check.check(book) == []


def test_opening_stock_was_there_on_the_morning_of_its_day(book: Book) -> None:
    opening = date(2024, 6, 1)
    booking.book_sheet(book, read(book, SHEET), SHEET, opening=opening)

    assert closing(book, TODAY, opening) == (1790, 0, 1790)
    assert closing(book, date(2024, 5, 30))[2] == 0
    what = log.log(book)[0].what
    assert isinstance(what, Note)
    assert what.facts["opening_of"] == "2024-06-01"


def test_what_was_bought_since_is_no_opening_stock(book: Book) -> None:
    with pytest.raises(Refusal, match="bought_since"):
        booking.book_sheet(book, read(book, SHEET), SHEET, opening=date(2024, 3, 4))
    assert log.log(book) == []


def test_two_imports_of_one_sheet_at_the_same_moment_take_it_in_once(book: Book) -> None:
    sheet, gate = read(book, SHEET), threading.Barrier(4)

    def take() -> str:
        own = open_book(book.path)
        gate.wait()
        try:
            booking.book_sheet(own, sheet, SHEET, on=TODAY)
        except Refusal as refused:
            return str(refused)
        return ""

    with ThreadPoolExecutor(4) as pool:
        said = [one.result() for one in [pool.submit(take) for _ in range(4)]]

    assert sorted(map(bool, said)) == [False, True, True, True]
    assert all("taken_in_already" in text for text in said if text)
    assert sum(len(lot.skeins) for lot in shelf_action.shelf(book, Filters()).lots) == 3


def test_again_takes_the_same_sheet_in_twice(book: Book) -> None:
    for again in (False, True):
        booking.book_sheet(book, read(book, SHEET), SHEET, on=TODAY, again=again)

    assert sum(len(lot.skeins) for lot in shelf_action.shelf(book, Filters()).lots) == 6
