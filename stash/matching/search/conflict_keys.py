"""What two lots can conflict over, by single values, so that many lots are left out at once.

A value is coarse where it must be (a step of lightness, a sector of hue). Two lots with values that
conflict never fit; two without must still be compared by the rules themselves.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from stash.matching.lots.lot_view import LotView
from stash.matching.question.wish import Contrast, Wash, Wished
from stash.matching.rules.colour_pairs import sheds, very_light
from stash.matching.rules.contrast import TONAL_HUE_BELOW, Gaps, gap_asked, gaps_among
from stash.matching.rules.fits import PairRules, Thicknesses, steps_between, thicknesses_of
from stash.measures.colour import Lab
from stash.trade.washing import felts

#: One value of a key; lots of one value are treated alike.
ConflictValue = Any


@dataclass(frozen=True, slots=True)
class ConflictKey:
    """A side of a lot that can conflict with the same side of others.

    `values` gives the lot's values, at least one, by the lot alone; keys of one name give the same
    ones. `conflicts` says whether no lot with the one value fits a lot with the other, either way
    round. `few` is false where there are too many values to sort lots into classes by; `of_colour`
    where it counts between two colours of a design only, not between strands of one.
    """

    name: str
    values: Callable[[LotView], Sequence[ConflictValue]]
    conflicts: Callable[[ConflictValue, ConflictValue], bool]
    few: bool = True
    of_colour: bool = False


def class_of(lot: LotView, keys: Sequence[ConflictKey]) -> tuple[ConflictValue, ...]:
    """The lot's first value of each of these keys."""
    return tuple(key.values(lot)[0] for key in keys)


def conflict_keys(rules: PairRules) -> tuple[ConflictKey, ...]:
    """What two lots can conflict over under these rules."""
    found = [ConflictKey("thickness", _class_values, partial(_too_far, tolerance=rules.tolerance))]
    if rules.contrast is not Contrast.ANY:
        found.append(_lightness(rules.contrast, rules.lots))
    if rules.contrast is Contrast.TONAL:
        found.append(ConflictKey("hue", _hue_values, never_one_hue, few=False, of_colour=True))
    if rules.wash is Wash.TOGETHER:
        found.append(ConflictKey("felting", _felting_values, operator.ne))
    if rules.no_bleeding:
        found.append(ConflictKey("bleeding", _bleeding_values, _would_bleed))
    return tuple(found)


def _class_values(lot: LotView) -> Sequence[Thicknesses]:
    return (thicknesses_of(lot),)


def _too_far(one: Thicknesses, other: Thicknesses, tolerance: int) -> bool:
    return steps_between(one, other) > tolerance


def _lightness(wished: Wished, lots: int) -> ConflictKey:
    step, gaps = step_for(wished), gaps_among(wished, lots)
    return ConflictKey(
        f"lightness/{step}",
        lambda lot: lightness_steps(lot.shades, step),
        partial(never_apart, step=step, gaps=gaps),
        of_colour=True,
    )


def _hue_values(lot: LotView) -> Sequence[int | None]:
    return hue_sectors(lot.shades)


def _felting_values(lot: LotView) -> Sequence[bool | None]:
    return (felts(lot.lot.lot.fibre, lot.lot.lot.care),)


def _bleeding_values(lot: LotView) -> Sequence[tuple[bool, bool]]:
    return ((sheds(lot.shades), very_light(lot.shades)),)


def _would_bleed(one: tuple[bool, bool], other: tuple[bool, bool]) -> bool:
    return (one[0] and other[1]) or (other[0] and one[1])


#: Colours are sorted into steps of so much L* and sectors of so many degrees, so that all colours
#: of a step or a sector can be left out at once.
STEP, FINE_STEP = 2.0, 1.0
SECTOR = 5.0
_SECTORS = round(360 / SECTOR)


def step_for(wished: Wished) -> float:
    """How large a step of lightness should be: a gap with two ends is a narrow one."""
    return STEP if gap_asked(wished).most is None else FINE_STEP


def lightness_steps(shades: Sequence[Lab], step: float) -> Sequence[int | None]:
    """The step of lightness of each colour; None for a lot without a known colour."""
    return [int(shade.lightness // step) for shade in shades] or _NOT_KNOWN


def hue_sectors(shades: Sequence[Lab]) -> Sequence[int | None]:
    """The sector of hue of each colour; None for a grey."""
    sectors = [None if (hue := shade.hue) is None else int(hue // SECTOR) for shade in shades]
    return sectors or _NOT_KNOWN


_NOT_KNOWN = (None,)


def never_apart(one: int | None, other: int | None, step: float, gaps: Gaps) -> bool:
    """Whether no colours of these steps of lightness have one of the gaps between them."""
    if one is None or other is None:
        return True
    steps = abs(one - other)
    nearest, farthest = (steps - 1) * step, (steps + 1) * step
    # not by `all`, which takes twice as long and is asked of every two values
    for least, most in gaps:  # noqa: SIM110
        if least <= farthest and nearest <= most:
            return False
    return True


def never_one_hue(one: int | None, other: int | None) -> bool:
    """Whether no colour of the one sector is of one hue with one of the other."""
    if one is None or other is None:
        return one is not other
    steps = abs(one - other)
    return (min(steps, _SECTORS - steps) - 1) * SECTOR >= TONAL_HUE_BELOW
