"""A sheet booked: what comes with the rows, what is remembered, and how fast it goes."""

from __future__ import annotations

import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest
from books import a_book, add

from stash.actions import history, looking, prefer
from stash.actions.book import Book
from stash.actions.looking import Filters
from stash.errors import BadSheet, Refusal, Unreadable
from stash.exchange import booking
from stash.exchange.take_in import Sheet, read_sheet
from stash.wording.headings import Known, asked, remembered

TODAY = date(2025, 3, 1)
SHEETS = Path(__file__).parents[2] / "fixtures" / "sheets"
GARN = b"Garn;Farbe;Lauf\nDunmarle;grau;125 m\n"


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_book(tmp_path)


def kept(book: Book) -> dict[str, str]:
    return remembered(prefer.settings(book).kept or {})


def read(book: Book, data: bytes, maps: Sequence[str] = ()) -> Sheet:
    return read_sheet("a.csv", data, TODAY, "", Known(asked([*maps]), kept(book)))


def take_in(book: Book, data: bytes, maps: Sequence[str] = ()) -> int:
    return booking.book_sheet(book, read(book, data, maps), data).entry


def test_all_or_nothing_unless_good_rows_are_asked_for(book: Book) -> None:
    data = b"yarn;put up\nDunmarle;50g\nTansel;50\n"
    sheet = read(book, data)

    with pytest.raises(BadSheet):
        booking.refuse_unless_good(sheet, good_rows=False)
    booking.refuse_unless_good(sheet, good_rows=True)
    with pytest.raises(Unreadable, match="no row"):
        booking.refuse_unless_good(read(book, b"yarn;put up\nTansel;50\n"), good_rows=True)


def test_the_same_bytes_are_refused_until_they_are_taken_back(book: Book) -> None:
    data = b"yarn;put up\nDunmarle;50g\n"
    entry = take_in(book, data)

    with pytest.raises(Refusal, match=f"entry {entry}; say --again"):
        booking.refuse_if_taken_in_before(book, "a.csv", data)
    booking.refuse_if_taken_in_before(book, "a.csv", data + b"\n")
    history.undo(book)
    booking.refuse_if_taken_in_before(book, "a.csv", data)


def test_what_was_said_of_headings_is_remembered_in_the_entry_of_the_import(book: Book) -> None:
    take_in(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    assert kept(book) == {"garn": "yarn", "farbe": "colour", "lauf": "length m"}
    assert [lot.lot.colour for lot in looking.shelf(book, Filters())] == ["grau"]
    take_in(book, GARN.replace(b"125 m", b"225"))
    assert len(history.log(book)) == 2
    history.undo(book)
    history.undo(book)
    assert kept(book) == {}


def test_what_is_said_later_of_a_heading_replaces_what_was_said(book: Book) -> None:
    take_in(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    take_in(book, GARN + b"\n", ["Farbe="])

    assert kept(book)["farbe"] == "ignored"
    assert {lot.lot.colour for lot in looking.shelf(book, Filters())} == {"", "grau"}


def test_looking_remembers_nothing(book: Book) -> None:
    read(book, GARN, ["Garn=yarn", "Farbe=colour", "Lauf=length m"])

    assert kept(book) == {}


def test_yards_are_a_habit_only_where_she_said_nothing(book: Book) -> None:
    prefer.prefer(book, "units", "metres")
    take_in(book, b"yarn;yardage\nDunmarle;137\n")

    assert prefer.settings(book).units == "metres"


def test_a_copy_is_made_before_a_sheet_comes_into_a_file_that_holds_something(book: Book) -> None:
    take_in(book, b"yarn;put up\nDunmarle;50g\n")
    assert list(book.path.parent.iterdir()) == [book.path]

    take_in(book, b"yarn;put up\nTansel;50g\n")

    assert len(list(book.path.parent.iterdir())) == 2


def test_numbers_that_are_taken_keep_the_whole_sheet_out(book: Book) -> None:
    add(book)
    data = b"number;yarn;put up\n7;Dunmarle;50g\n1;Tansel;50g\n"

    with pytest.raises(Refusal, match="number 1 is in use"):
        take_in(book, data)

    assert len(looking.shelf(book, Filters())) == 1


def test_numbered_lots_meet_their_records_and_unknown_ones_do_not(book: Book) -> None:
    data = b"yarn;lot;put up\nDunmarle;7;50g\nDunmarle;;50g\nDunmarle;7;50g\nDunmarle;;50g\n"
    take_in(book, data)
    take_in(book, data + b"\n")

    shelf = looking.shelf(book, Filters())
    assert sorted((lot.lot.lot, len(lot.skeins)) for lot in shelf) == [("", 1)] * 4 + [("7", 4)]


def test_a_sheet_kept_by_hand_comes_in_as_it_was_meant(book: Book) -> None:
    # added up by hand: 3 + 2 whole skeins of 50 g and 1 3/4 oz (an ounce is 28.349523125 g, NIST
    # Handbook 44), 50 g + 66.667 g + 42.5 g + 80 yd of 100 g/225 m (32.512 g), 50 g, 1200 g
    data = (SHEETS / "kept_by_hand.csv").read_bytes()
    sheet = read(book, data)
    booking.refuse_unless_good(sheet, good_rows=False)
    take_in(book, data)

    shelf = looking.shelf(book, Filters())
    assert sum(len(lot.skeins) for lot in shelf) == 11
    by_hand = 150 + 2 * 49.612 + 50 + 66.667 + 42.5 + 32.512 + 50 + 1200
    assert sum(lot.held.mg for lot in shelf) == pytest.approx(by_hand * 1000, abs=2)
    assert prefer.settings(book).currency == "EUR"


def test_a_long_sheet_is_read_and_booked_fast(book: Book) -> None:
    # the goal is 5,000 rows a second, nearly each a lot of its own; a fifth leaves room for a
    # busy machine
    body = "".join(
        f"Dunmarle {i % 40};{i % 3000};{50 + i % 2 * 50} g / {100 + i % 200} m;{i % 60}\n"
        for i in range(4000)
    )
    data = ("yarn;lot;put up;place\n" + body).encode()

    begun = time.perf_counter()
    sheet = read(book, data)
    booking.book_sheet(book, sheet, data)
    rate = 4000 / (time.perf_counter() - begun)

    assert len(sheet.rows) == 4000
    assert rate > 1000
