"""Care as a tag says it."""

from __future__ import annotations

from stash.rendering.care import care_words
from stash.trade.care import Bleach, Care, Clean, Iron, Wash


def test_the_order_is_that_of_iso_3758() -> None:
    """ISO 3758: washing, bleaching, drying, ironing, professional care."""
    words = care_words(Care(Wash.HAND, 40, Bleach.NO, None, Iron.COOL, Clean.NO))

    assert list(words.items()) == [
        ("washing", "hand wash, at 40 °C at most"),
        ("bleaching", "do not bleach"),
        ("drying", None),
        ("ironing", "iron cool"),
        ("professional care", "do not dry clean"),
    ]
