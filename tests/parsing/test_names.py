"""Nearly right names; likeness is an edit distance, so the cases are plain slips of the hand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.parsing.names import best_matches, likeness, nearest

SHELF = ["Harbour Soft navy", "Fern Sock teal", "Harbour Soft teal", "Old Barn grey"]


def test_a_slip_finds_the_name_that_was_meant() -> None:
    assert nearest("Harbuor Soft", ["Fern Sock", "Harbour Soft", "Old Barn"])[0] == "Harbour Soft"


def test_nothing_alike_finds_nothing() -> None:
    assert nearest("zzzz", SHELF) == []


def test_no_more_names_than_asked_for() -> None:
    assert len(nearest("Harbour", [f"Harbour {n}" for n in range(9)], limit=3)) == 3


def test_equal_names_come_in_the_order_of_the_alphabet() -> None:
    assert nearest("fern x", ["fern c", "fern a", "fern b"]) == ["fern a", "fern b", "fern c"]


def test_every_word_must_be_there_in_any_order() -> None:
    assert best_matches("teal harbour", SHELF) == [2]


def test_the_beginning_of_a_word_is_enough() -> None:
    assert best_matches("harb", SHELF) == [0, 2]


def test_a_whole_word_comes_before_a_beginning() -> None:
    assert best_matches("fern", ["Ferndale", "Fern"]) == [1, 0]


def test_misspelt_words_count_only_where_nothing_fits_exactly() -> None:
    assert best_matches("harbor tael", SHELF, cutoff=70) == [2]
    assert best_matches("teal", [*SHELF, "tael"]) == [1, 2]


def test_no_words_pass_everything() -> None:
    assert best_matches("  ", SHELF) == [0, 1, 2, 3]


@given(st.lists(st.text(max_size=12), max_size=6), st.text(max_size=12))
def test_each_text_comes_once_at_most(texts: list[str], words: str) -> None:
    found = best_matches(words, texts)
    assert len(found) == len(set(found))
    assert set(found) <= set(range(len(texts)))


def test_likeness_is_whole_for_the_same_words_in_any_order_and_case() -> None:
    # RapidFuzz's own documentation: a token sort ratio ignores the order of the words
    assert dict(likeness("Lot Dye", ["dye lot", "mood"]))["dye lot"] == 100
    assert dict(likeness("Lot Dye", ["dye lot", "mood"]))["mood"] < 50
