"""Hours and shares as they are typed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.errors import BadInput
from stash.parsing.work import hours, share
from stash.rendering.work import show_hours, show_share


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [("3", 180), ("3.5", 210), ("3h 20min", 200), ("3:20", 200), ("3h20", 200), ("45 min", 45),
     ("1 1/2 hours", 90), ("2 h", 120), ("½ h", 30)],
)  # fmt: skip
def test_hours(typed: str, minutes: int) -> None:
    assert hours(typed) == Fraction(minutes, 60)
    assert hours(show_hours(hours(typed))) == hours(typed)


@pytest.mark.parametrize("typed", ["", "0", "a while", "3:75", "-2", "99999"])
def test_what_is_no_time_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        hours(typed)


@pytest.mark.parametrize(("typed", "of_100"), [("6.5%", 6.5), ("6.5", 6.5), ("0.065", 6.5)])
def test_a_share(typed: str, of_100: float) -> None:
    assert float(share(typed) * 100) == of_100
    assert show_share(share(typed)) == "6.5%"


@pytest.mark.parametrize("typed", ["1", "100%", "120", "-3%", "some"])
def test_what_is_no_share_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        share(typed)
