"""How far the colours of two lots stand apart, and whether that is what was wished for.

A wish of bold or clear means at least that gap in lightness, 40 or 25 in L*; soft means 12 to 25.
Tonal means one hue in two depths: 3 to 12 apart in L* and under 30 degrees apart in hue; two greys
go by lightness alone, and a grey beside a colour is not tonal. All are our choice. By numbers it is
at least, and at most, so far apart. A variegated yarn must stand apart with every one of its
colours.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import combinations

from stash.matching.question.wish import Contrast, Gap, Wished
from stash.measures.colour import Lab, ciede2000, hue_difference, lightness_gap

#: The least and the most gap in L* that each wish asks for, both included.
_GAPS = {
    Contrast.BOLD: Gap(40.0),
    Contrast.CLEAR: Gap(25.0),
    Contrast.SOFT: Gap(12.0, 25.0),
    Contrast.TONAL: Gap(3.0, 12.0),
    Contrast.ANY: Gap(0.0),
}
TONAL_HUE_BELOW = 30.0


def gap_asked(wished: Wished) -> Gap:
    """The gap in lightness that a wish asks for."""
    return wished if isinstance(wished, Gap) else _GAPS[wished]


def stands_apart(one: Sequence[Lab], other: Sequence[Lab], wished: Wished) -> bool:
    """Whether every colour of one lot stands to every colour of the other as wished.

    A lot without a known colour suits *any* alone.
    """
    if wished is Contrast.ANY:
        return True
    if not one or not other:
        return False
    asked = gap_asked(wished)
    least, most = asked.least, asked.most
    if any(abs(x.lightness - y.lightness) < least for x in one for y in other):
        return False
    if most is not None and any(lightness_gap(x, y) > most for x in one for y in other):
        return False
    return wished is not Contrast.TONAL or all(_one_hue(x, y) for x in one for y in other)


def _one_hue(one: Lab, other: Lab) -> bool:
    apart = hue_difference(one, other)
    if apart is None:
        return one.hue is None and other.hue is None
    return apart < TONAL_HUE_BELOW


def least_gap(lots: Sequence[Sequence[Lab]]) -> float | None:
    """The least lightness gap between any two lots, over all their colours; None if not known."""
    return min((lightness_gap(x, y) for x, y in _pairs(lots)), default=None)


def least_difference(lots: Sequence[Sequence[Lab]]) -> float | None:
    """The least CIEDE2000 difference between any two lots, over all their colours."""
    return min((ciede2000(x, y) for x, y in _pairs(lots)), default=None)


def _pairs(lots: Sequence[Sequence[Lab]]) -> list[tuple[Lab, Lab]]:
    """Every colour of a lot with every colour of a later one; none where a lot has no colour."""
    if not all(lots):
        return []
    return [
        (x, y) for i, one in enumerate(lots) for other in lots[i + 1 :] for x in one for y in other
    ]


def contrast_of(lots: Sequence[Sequence[Lab]]) -> Contrast | None:
    """The strongest contrast that every two of these lots answer; None where they answer none."""
    named = (one for one in Contrast if one is not Contrast.ANY)
    pairs = [*combinations(lots, 2)]
    return next((one for one in named if all(stands_apart(*pair, one) for pair in pairs)), None)


#: More than a sum of floats can be off by.
_SLACK = 1e-6


#: Spans of lightness, each from and to.
Gaps = tuple[tuple[float, float], ...]


@cache
def gaps_among(wished: Wished, lots: int) -> Gaps:
    """The gaps, from and to, that two of so many lots can have where all stand apart as wished.

    In order of lightness every two neighbours are the least gap apart, and the outermost no more
    than the most. That leaves two lots with so many steps between them no more than what the other
    steps leave over: of three lots 10 to 20 apart two are either 10 apart or 20.
    """
    asked, steps = gap_asked(wished), lots - 1
    most = 100.0 if asked.most is None else min(asked.most, 100.0)
    between = (
        (step * asked.least - _SLACK, most - (steps - step) * asked.least + _SLACK)
        for step in range(1, lots)
    )
    return tuple((least, most) for least, most in between if least <= most)


def leaves_room(one: Sequence[Lab], other: Sequence[Lab], wished: Wished, lots: int) -> bool:
    """Whether two of so many lots can stand so: by all the gaps between their colours."""
    gaps = gaps_among(wished, lots)
    apart = [lightness_gap(x, y) for x in one for y in other]
    return all(any(least <= gap <= most for least, most in gaps) for gap in apart)
