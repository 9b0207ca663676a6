"""Parts told by a word beside them; the words are common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest

from stash.measures.note import Note
from stash.parsing.label import read


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("bin 3, under bed", "bin 3, under bed"),
        ("shelf B", "shelf B"),
        ("in the blue box", "in the blue box"),
        ("top drawer", "top drawer"),
        ("place: attic", "attic"),
        ("behind the sofa", "behind the sofa"),
    ],
)
def test_where_it_is_kept(line: str, place: str) -> None:
    assert read(f"Fern, 50g, {line}").incoming.place == place


@pytest.mark.parametrize(
    "words", ["for Sam's hat - DO NOT USE", "reserved for a scarf", "keep for Mia's blanket"]
)
def test_yarn_meant_for_something_says_so_in_its_note(words: str) -> None:
    found = read(f"Fern, 50g, {words}")
    assert found.incoming.note == words
    assert found.notes == (Note("kept_for_something", words=words),)


def test_a_day_is_when_it_was_bought() -> None:
    assert read("Fern, bought 2024-01-12").incoming.bought == date(2024, 1, 12)
    assert read("Fern, 31/12/2023").incoming.bought == date(2023, 12, 31)


def test_a_season_is_only_a_note() -> None:
    found = read("Fern, spring '19??").incoming
    assert (found.bought, found.note) == (None, "spring '19??")


@pytest.mark.parametrize(
    ("line", "care"),
    [("superwash", "superwash"), ("Machine wash 30°C", "Machine wash 30°C"),
     ("hand wash, dry flat", "hand wash, dry flat"), ("do not tumble dry", "do not tumble dry"),
     ("wash at 40", "wash at 40")],
)  # fmt: skip
def test_care_words_are_kept(line: str, care: str) -> None:
    assert read(f"Fern, {line}, 50g").incoming.care == care


@pytest.mark.parametrize("words", ["hand dyed", "hand-dyed", "Kettle dyed", "hand painted"])
def test_dyed_by_hand_is_seen(words: str) -> None:
    assert read(f"Fern, {words}, 50g").incoming.hand_dyed


def test_a_note_is_read_by_nobody_else() -> None:
    found = read("Fern, 50g; note: 20 g for the hat, lot 9").incoming
    assert (found.note, found.lot) == ("20 g for the hat, lot 9", "")


def test_maker_name_and_owner_before_a_colon() -> None:
    found = read("maker: Old Mill, yarn: Fern 8, owner: the class, 50g").incoming
    assert (found.maker, found.name, found.owner) == ("Old Mill", "Fern 8", "the class")


def test_a_bar_code_is_no_amount() -> None:
    assert read("Fern, EAN 4001234567890, 50g").incoming.note == "EAN 4001234567890"
