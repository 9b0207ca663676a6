"""How far the length of what lies on the shelf may be off, before her own weighings say better.

To begin with (common practice, no source; half of what the packing rule of FPackV 2020, annex 4
tolerates): a whole skein 1 % of its length, 2 % where the full skein measures 100 m or less; a part
ball, measured by its mass, another 2.2 %.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from stash.measures.length import Length, metres
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein

WHOLE_SPREAD, SHORT_SKEIN_SPREAD, PART_SPREAD = 0.01, 0.02, 0.022
SHORT_SKEIN = metres(100)


def relative_spread(put_up: PutUp, opened: bool) -> float:
    """One standard deviation of a skein's length, as a share of it."""
    whole = SHORT_SKEIN_SPREAD if put_up.length <= SHORT_SKEIN else WHOLE_SPREAD
    return math.hypot(whole, PART_SPREAD) if opened else whole


def spread_m(skeins: Iterable[HeldSkein]) -> float | None:
    """The spread of what some skeins hold together, in metres; None where no length is known.

    They vary each by itself.
    """
    known = [
        _own_m(skein.held_length, skein.pair.put_up, skein.opened)
        for skein in skeins
        if skein.held_length is not None and skein.pair.put_up is not None
    ]
    return math.hypot(*known) if known else None


def _own_m(length: Length, put_up: PutUp, opened: bool) -> float:
    return length.m * relative_spread(put_up, opened)
