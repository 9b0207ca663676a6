"""Days as typed; the plain form is ISO 8601."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, Refusal, Unreadable
from stash.parsing.days import day

TODAY = date(2025, 6, 1)


@pytest.mark.parametrize(
    "text",
    ["2024-01-12", "2024/1/12", "12 Jan 2024", "12th January 2024", "Jan 12, 2024",
     "2024-01-12 00:00:00", " 2024-01-12 "],
)  # fmt: skip
def test_a_plain_day_is_read(text: str) -> None:
    assert day(text, TODAY) == date(2024, 1, 12)


def test_today_and_yesterday_are_understood() -> None:
    assert day("today", TODAY) == TODAY
    assert day("Yesterday", TODAY) == date(2025, 5, 31)


@pytest.mark.parametrize("text", ["12/1/24", "12.1.2024", "12-01-24"])
def test_day_or_month_first_is_asked_about(text: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        day(text, TODAY)
    assert set(asked.value.readings) == {"2024-12-01", "2024-01-12"}


def test_a_day_that_only_one_order_allows_is_read() -> None:
    assert day("13/1/2024", TODAY) == day("1/13/2024", TODAY) == date(2024, 1, 13)
    assert day("3/3/24", TODAY) == date(2024, 3, 3)


@pytest.mark.parametrize("text", ["2025-06-02", "2 June 2025", "31/12/2025"])
def test_a_day_to_come_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        day(text, TODAY)
    assert refused.value.kind == "day_to_come"
    assert refused.value.facts["today"] == TODAY


@pytest.mark.parametrize("text", ["", "spring '19??", "2024-02-30", "32/13/24", "12 foo 2024"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        day(text, TODAY)
    assert refused.value.kind == "no_day"


@given(st.dates(min_value=date(1000, 1, 1), max_value=TODAY))
def test_every_iso_day_reads_back(when: date) -> None:
    assert day(when.isoformat(), TODAY) == when
