"""Care as a tag says it."""

from __future__ import annotations

from stash.rendering.care import care_words
from stash.trade.care import Bleach, Care, Clean, Iron, Wash


def test_the_order_is_that_of_iso_3758() -> None:
    """ISO 3758: washing, bleaching, drying, ironing, professional care."""
    words = care_words(Care(Wash.HAND, 40, Bleach.NO, None, Iron.COOL, Clean.NO))

    assert list(words.items()) == [
        ("washing", "hand wash at up to 40 °C"),
        ("bleaching", "do not bleach"),
        ("drying", None),
        ("ironing", "cool iron"),
        ("professional care", "do not dry clean"),
    ]


def test_in_the_us_the_water_is_in_fahrenheit() -> None:
    """0 and 100 degrees Celsius are 32 and 212 Fahrenheit (NIST SP 811, B.8)."""
    words = care_words(Care(Wash.MACHINE, 30), fahrenheit=True)

    assert words["washing"] == "machine wash at up to 86 °F"
