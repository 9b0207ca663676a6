"""Gauge is kept as counted and turned into sizes exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.measures.length import Length
from stash.requirements.design.gauge import Gauge


def test_stitches_over_four_inches_are_exact() -> None:
    assert Gauge(Fraction(14), Fraction(22)).stitch_um == Fraction(101_600, 14)


def test_ten_centimetres_are_not_four_inches() -> None:
    """22 stitches to 10 cm are 22.352 to 4 in (101.6 mm)."""
    metric = Gauge(Fraction(22), Fraction(30), Length(100_000))

    assert 101_600 / metric.stitch_um == Fraction("22.352")


def test_a_gauge_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="empty"):
        Gauge(Fraction(0), Fraction(22))
