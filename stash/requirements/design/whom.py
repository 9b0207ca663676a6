"""Whom an item is for: as it is said, by whom it fits, or by its size where that is enough."""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import StrEnum

from stash.measures.length import Length
from stash.requirements.design.shapes import HATS, Shape, Size
from stash.requirements.design.sizing import MadeToFit


class Whom(StrEnum):
    """Whom it is for, as far as cautions go; a baby is under two."""

    BABY = "baby"
    CHILD = "child"
    ADULT = "adult"


_BABIES = ("newborn", "baby", "infant")
_CHILDREN = ("toddler", "child", "girl", "boy", "teen", "kid")
_GROWN_UPS = ("woman", "man", "adult", "lady", "ladies", "men", "women")
_MONTHS = re.compile(r"\b([0-9]+)\s*(?:months?|m\b)")
_YEARS = re.compile(r"\b([0-9]+)\s*(?:years?|y\b)")
#: A baby is under two.
BABY_MONTHS = 24

#: Below the first it is a baby's, below the second a child's. Hats and headbands: a head of one
#: year and one that one woman in twenty is under (WHO 2007; ANSUR II 2012), both 5 % off for ease.
#: Hands around: one woman in twenty is under 17.2 cm (ANSUR II, its scatter from memory); a baby's
#: mitten is some 10 to 13 cm around (common practice, no source).
_HEAD = (Length(430_000), Length(505_000))
_AROUND: Mapping[Shape, tuple[Length, Length]] = {
    **dict.fromkeys((*HATS, Shape.HEADBAND), _HEAD),
    Shape.MITTEN: (Length(140_000), Length(172_000)),
}
#: A sock goes by its foot: of one year some 12 cm, and one woman in twenty is under 22 cm (from
#: memory).
_FOOT = (Length(130_000), Length(220_000))


def by_fit(fits: MadeToFit | str) -> Whom | None:
    """By whom its size was made for; None where that was a body that was measured.

    Of a size that is only known by its name, by that: `newborn girl`, `child of 18 months`,
    `woman`.
    """
    if isinstance(fits, str):
        return _by_name(fits)
    if fits.person is None:
        return None
    months = fits.person.months
    if months is None:
        return Whom.ADULT
    return Whom.BABY if months < BABY_MONTHS else Whom.CHILD


def _by_name(size: str) -> Whom | None:
    words = size.lower()
    if words.startswith(_BABIES):
        return Whom.BABY
    if words.startswith(_CHILDREN):
        return Whom.BABY if _months(words) < BABY_MONTHS else Whom.CHILD
    return Whom.ADULT if words.startswith(_GROWN_UPS) else None


def _months(words: str) -> int:
    """The age in words of a child; of one without an age, as old as no baby is."""
    if months := _MONTHS.search(words):
        return int(months[1])
    years = _YEARS.search(words)
    return 12 * int(years[1]) if years else BABY_MONTHS


def by_size(shape: Shape | None, size: Size | None) -> Whom | None:
    """By how large it is; None where size says nothing, as of blankets and scarves."""
    if shape is None or size is None:
        return None
    if shape is Shape.SOCK:
        return _within(size.along, _FOOT) if size.along else None
    return _within(size.across, _AROUND[shape]) if shape in _AROUND else None


def _within(side: Length, bounds: tuple[Length, Length]) -> Whom:
    baby, child = bounds
    if side < baby:
        return Whom.BABY
    return Whom.CHILD if side < child else Whom.ADULT
