"""Headings as people write them."""

from __future__ import annotations

import pytest

from stash.exchange.shapes import COLUMNS, MORE_COLUMNS, SYNONYMS, column_of, plain


@pytest.mark.parametrize("column", COLUMNS)
def test_our_own_columns_are_known_however_they_are_written(column: str) -> None:
    written = f"  {column.replace('_', '  ').upper()} "

    assert column_of(written) == column


@pytest.mark.parametrize(
    ("heading", "column"),
    [  # common practice, no source
        ("Color", "colour"),
        ("Dye Lot:", "lot"),
        ("QTY", "count"),
        ("weight class", "class"),
        ("Location", "place"),
        ("Price (EUR)", "paid"),
        ("fiber-content", "fibre"),
        ("#", "number"),
    ],
)
def test_plain_words_for_a_column_are_known(heading: str, column: str) -> None:
    assert column_of(heading) == column


@pytest.mark.parametrize("heading", ["", "weight", "mood", "colour of the label", "price each"])
def test_a_heading_that_could_mean_something_else_is_not_guessed(heading: str) -> None:
    assert column_of(heading) is None


def test_no_word_stands_for_two_columns() -> None:
    words = [plain(w) for c in (*COLUMNS, *MORE_COLUMNS) for w in (c, *SYNONYMS[c])]

    assert sorted(words) == sorted(set(words))
