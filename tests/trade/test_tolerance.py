"""The lawful shortfall of one pack, against the printed bands and worked rows."""

from __future__ import annotations

import pytest

from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.trade.tolerance import tolerable_length_shortfall, tolerable_shortfall

#: Directive 76/211/EEC, Annex I 2.4; percentages rounded up to 0.1 g as FPackV s. 9(3) prints.
WEIGHTS = [
    (25, 2.3),
    (50, 4.5),
    (75, 4.5),
    (100, 4.5),
    (125, 5.7),
    (150, 6.8),
    (200, 9.0),
    (250, 9.0),
    (400, 12.0),
    (500, 15.0),
    (1000, 15.0),
    (2000, 30.0),
]


@pytest.mark.parametrize(("nominal", "shortfall"), WEIGHTS)
def test_a_pack_may_fall_short_by_its_band(nominal: int, shortfall: float) -> None:
    assert tolerable_shortfall(grams(nominal)) == Mass(round(shortfall * 1000))


@pytest.mark.parametrize(("nominal", "least"), [(200, 196), (100, 96), (90, Length(86_400_000))])
def test_a_skein_may_be_shorter_by_its_length(nominal: int, least: int | Length) -> None:
    """FPackV 2020 section 28: 2 % of the labelled length, 4 % at 100 m or less."""
    length = metres(nominal)
    expected = metres(least) if isinstance(least, int) else least
    assert length - tolerable_length_shortfall(length) == expected
