"""Care of textiles in words, in the order of ISO 3758: wash, bleach, dry, iron, professional care.

Each scale runs from what is hardest on the yarn to what spares it most. An item of several yarns
may be treated no harder than its most delicate part (a reading of ISO 3758, scope, and of 16 CFR
423.5: common practice). The degrees are from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum
from typing import TypeVar


class Wash(IntEnum):
    """How it may be washed."""

    MACHINE = 0
    GENTLE = 1
    HAND = 2
    NO = 3


class Bleach(IntEnum):
    """What may bleach it."""

    ANY = 0
    OXYGEN = 1
    NO = 2


class Dry(IntEnum):
    """How it may be dried; flat also means not tumbled."""

    TUMBLE = 0
    TUMBLE_LOW = 1
    NO_TUMBLE = 2
    FLAT = 3


class Iron(IntEnum):
    """How hot it may be ironed."""

    HOT = 0
    WARM = 1
    COOL = 2
    NO = 3


class Clean(IntEnum):
    """Whether it may be dry cleaned."""

    DRY = 0
    NO = 1


#: A hand wash where no degrees are said, and the coolest wash there is a sign for.
HAND_C, COOLEST_C = 40, 30
#: What holds for the whole as soon as one part asks for it, whatever the others say.
_FORBIDS = (Wash.NO, Bleach.NO, Dry.NO_TUMBLE, Dry.FLAT, Iron.NO, Clean.NO)

_S = TypeVar("_S", Wash, Bleach, Dry, Iron, Clean)


@dataclass(frozen=True, slots=True)
class Care:
    """What is known of the care of a yarn or an item; None is not known.

    `max_c` is how warm it may be washed, in degrees Celsius.
    """

    wash: Wash | None = None
    max_c: int | None = None
    bleach: Bleach | None = None
    dry: Dry | None = None
    iron: Iron | None = None
    clean: Clean | None = None


def most_delicate(parts: Sequence[Care]) -> Care:
    """The care that no part of an item is harmed by.

    Where one part says nothing, only a ban of another is sure: the silent one may bear less than
    all that is allowed elsewhere.
    """
    wash = _sparing([part.wash for part in parts])
    return Care(
        wash=wash,
        max_c=None if wash in (None, Wash.NO) else _coolest(parts),
        bleach=_sparing([part.bleach for part in parts]),
        dry=_sparing([part.dry for part in parts]),
        iron=_sparing([part.iron for part in parts]),
        clean=_sparing([part.clean for part in parts]),
    )


def _sparing(asked: Sequence[_S | None]) -> _S | None:
    known = [one for one in asked if one is not None]
    worst = max(known, default=None)
    # by identity: members of different scales are equal as numbers
    sure = len(known) == len(asked) or any(worst is ban for ban in _FORBIDS)
    return worst if sure else None


def _coolest(parts: Sequence[Care]) -> int | None:
    """The least degrees; not known where a part that may bear less does not say its own."""
    said = [HAND_C if p.max_c is None and p.wash is Wash.HAND else p.max_c for p in parts]
    known = [degrees for degrees in said if degrees is not None]
    least = min(known, default=None)
    return least if len(known) == len(said) or least == COOLEST_C else None
