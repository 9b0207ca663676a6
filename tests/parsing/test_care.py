"""Care words of bands (common practice, no source), as they are read."""

from __future__ import annotations

import pytest

from stash.parsing.care import care
from stash.trade.care import Bleach, Care, Clean, Dry, Iron, Wash


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("machine wash 30, do not bleach, dry flat",
         Care(Wash.MACHINE, 30, Bleach.NO, Dry.FLAT)),
        ("hand wash only", Care(Wash.HAND)),
        ("cool hand wash", Care(Wash.HAND, 30)),
        ("gentle machine wash cold", Care(Wash.GENTLE, 30)),
        ("machine washable", Care(Wash.MACHINE)),
        ("superwash", Care(Wash.MACHINE)),
        ("wash at 40 °C", Care(Wash.MACHINE, 40)),
        ("30°", Care(Wash.MACHINE, 30)),
        ("do not machine wash", Care(Wash.HAND)),
        ("do not wash", Care(Wash.NO)),
        ("dry clean only", Care(Wash.NO, clean=Clean.DRY)),
        ("hand wash or dry clean", Care(Wash.HAND, clean=Clean.DRY)),
        ("do not dry clean", Care(clean=Clean.NO)),
        ("non-chlorine bleach only", Care(bleach=Bleach.OXYGEN)),
        ("no tumble, no iron", Care(dry=Dry.NO_TUMBLE, iron=Iron.NO)),
        ("tumble dry low; cool iron", Care(dry=Dry.TUMBLE_LOW, iron=Iron.COOL)),
        ("Tumble-dry, iron warm", Care(dry=Dry.TUMBLE, iron=Iron.WARM)),
        ("lay flat to dry", Care(dry=Dry.FLAT)),
        ("superwash, hand wash", Care(Wash.HAND)),
        ("", Care()),
    ],
)  # fmt: skip
def test_words_of_a_band(typed: str, read: Care) -> None:
    assert care(typed) == (read, "")


def test_what_is_not_understood_is_handed_back() -> None:
    assert care("hand wash, love it well") == (Care(Wash.HAND), "love it well")


def test_washable_alone_does_not_say_how() -> None:
    assert care("washable")[0] == Care()
