"""What is typed of an order: its colours by role, its day."""

from __future__ import annotations

from datetime import date

import pytest

from stash.errors import Ambiguous, StashError, Unreadable
from stash.parsing.order import day_to_come, order_colours

TODAY = date(2026, 11, 26)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        (["A=blue"], {"A": "blue"}),
        (["a = Navy", "B=teal,rust"], {"A": "navy", "B": "teal, rust"}),
        (["A=gray"], {"A": "grey"}),
        (["none"], {}),
    ],
)
def test_colours_are_kept_by_role_in_plain_words(typed: list[str], kept: dict[str, str]) -> None:
    assert order_colours(typed) == kept


@pytest.mark.parametrize("typed", [["blue"], ["A="], ["A=blue,B=teal"]])
def test_a_colour_needs_its_role_one_an_option(typed: list[str]) -> None:
    with pytest.raises(StashError):
        order_colours(typed)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-12-12", date(2026, 12, 12)),
        ("12 Dec 2026", date(2026, 12, 12)),
        ("Dec 12, 2026", date(2026, 12, 12)),
        ("13/12/2026", date(2026, 12, 13)),
        ("31/1/27", date(2027, 1, 31)),
        ("today", TODAY),
        ("tomorrow", date(2026, 11, 27)),
    ],
)
def test_a_day_may_be_to_come(typed: str, day: date) -> None:
    assert day_to_come(typed, TODAY) == day


def test_a_day_that_could_be_two_is_asked_about() -> None:
    with pytest.raises(Ambiguous):
        day_to_come("5/6/27", TODAY)


@pytest.mark.parametrize("typed", ["someday", "2026-13-40", "Friday fortnight"])
def test_what_is_no_day_is_said_so(typed: str) -> None:
    with pytest.raises(Unreadable):
        day_to_come(typed, TODAY)
