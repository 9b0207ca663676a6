"""What is told of two lots' colours side by side, none of it a bar unless she asks for it.

Where one hue ends and the next begins, what counts as alike, and which colours are likely to bleed
are our choice; that strong darks, reds and indigo bleed is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from stash.matching.lots.lot_view import Seen
from stash.matching.rules.contrast import TONAL_HUE_BELOW
from stash.measures.colour import Colour, Lab, ciede2000, hue_difference
from stash.measures.vision import Vision, seen_as
from stash.trade.washing import felts

#: Angles of hue in CIE Lab: on a wheel of twelve a neighbour is up to two steps away, an opposite
#: lies within one step of the other side.
NEIGHBOURS_BELOW = 75.0
OPPOSITE_FROM = 150.0
#: As near as two lots of one colour may lie (CIEDE2000).
REPEATS_WITHIN = 10.0
ALIKE_WITHIN = 10.0
#: From here up a colour is very light, and takes on what another sheds.
VERY_LIGHT_FROM = 85.0


def told_beside(lots: Sequence[Seen], vision: Vision | None) -> Iterator[str]:
    """Everything there is to say of lots side by side, pair by pair; none of it costs.

    Pairs are named by their colours where there are more than one.
    """
    for one, other in combinations(lots, 2):
        names = f"{_name(one)} and {_name(other)}: " if len(lots) > 2 else ""
        yield from (names + words for words in _told(one, other, vision))
    unsure = [_name(lot) for lot in lots if lot.shades and not lot.lot.lot.daylight]
    if len(lots) > 1 and unsure:
        whose = "colours" if len(unsure) == len(lots) else " and ".join(unsure)
        yield f"{whose} by screen or name: compare in daylight"


def warned_beside(lots: Sequence[Seen], vision: Vision | None) -> Iterator[str]:
    """What may go wrong with lots side by side, pair by pair: look-alikes, bleeding, felting."""
    for one, other in combinations(lots, 2):
        if all_alike(one.shades, other.shades):
            yield f"{_name(one)} and {_name(other)} look alike"
        names = f"{_name(one)} and {_name(other)}: " if len(lots) > 2 else ""
        yield from (names + words for words in _warned(one, other, vision))


def all_alike(one: Sequence[Lab], other: Sequence[Lab]) -> bool:
    """Whether every colour of a lot looks like every one of the other's to any eyes."""
    return bool(one and other) and all(ciede2000(x, y) <= ALIKE_WITHIN for x in one for y in other)


def _told(one: Seen, other: Seen, vision: Vision | None) -> Iterator[str]:
    if hue := hue_words(one.shades, other.shades):
        yield hue
    if repeats(one.shades, other.shades):
        several, single = (one, other) if len(one.shades) > 1 else (other, one)
        yield f"{_name(single)} repeats a colour of {_name(several)}"
    yield from _warned(one, other, vision)


def _warned(one: Seen, other: Seen, vision: Vision | None) -> Iterator[str]:
    if vision and look_alike(one, other, vision):
        yield f"would look alike to you ({vision}): go by name, not by eye"
    for dark, light in ((one, other), (other, one)):
        if bleeds(dark.shades, light.shades):
            yield f"{_name(dark)} may bleed into {_name(light)}: wash a swatch of both first"
    if felting := _felts_beside(one, other):
        yield f"{_name(felting)} may felt in a wash the other bears: wash both as wool"


def _felts_beside(one: Seen, other: Seen) -> Seen | None:
    """The one that felts, where the other is known not to."""
    first, second = (felts(lot.lot.lot.fibre, lot.lot.lot.care) for lot in (one, other))
    if first is None or second is None or first == second:
        return None
    return one if first else other


def _name(seen: Seen) -> str:
    """A lot as one says it in passing."""
    lot = seen.lot.lot
    return lot.colour or lot.ref


def hue_words(one: Sequence[Lab], other: Sequence[Lab]) -> str:
    """How two lots' hues lie to each other; empty where their colours say different things."""
    found = {_hue_words(x, y) for x in one for y in other}
    return found.pop() if len(found) == 1 else ""


def _hue_words(one: Lab, other: Lab) -> str:
    apart = hue_difference(one, other)
    if apart is None:
        return "two greys" if one.hue is None and other.hue is None else "a grey beside a colour"
    if apart < TONAL_HUE_BELOW:
        return "close in hue"
    if apart < NEIGHBOURS_BELOW:
        return "neighbouring hues"
    return "opposite hues" if apart >= OPPOSITE_FROM else "hues well apart"


def repeats(one: Sequence[Lab], other: Sequence[Lab]) -> bool:
    """Whether a yarn of several colours has one of them in the other yarn too."""
    several = len(one) > 1 or len(other) > 1
    return several and any(ciede2000(x, y) <= REPEATS_WITHIN for x in one for y in other)


def look_alike(one: Seen, other: Seen, vision: Vision) -> bool:
    """Whether any colour of one lot looks like one of the other's to such eyes."""
    return colours_alike(one.lot.lot.colours, other.lot.lot.colours, vision)


def colours_alike(one: Sequence[Colour], other: Sequence[Colour], vision: Vision) -> bool:
    """Whether any of the first colours looks like any of the others to such eyes."""
    first, second = ([seen_as(colour, vision) for colour in each] for each in (one, other))
    return any(ciede2000(x, y) <= ALIKE_WITHIN for x in first for y in second)


def sheds(shades: Sequence[Lab]) -> bool:
    """Whether a lot's dye is likely to bleed: a strong dark, a strong red, or indigo."""
    return any(_sheds(shade) for shade in shades)


def _sheds(shade: Lab) -> bool:
    if shade.lightness <= 30:
        return True
    if shade.hue is None or shade.lightness > 55:
        return False
    red = (shade.hue >= 345 or shade.hue < 45) and shade.chroma >= 40
    indigo = 270 <= shade.hue <= 315 and shade.chroma >= 25 and shade.lightness <= 45
    return red or indigo


def very_light(shades: Sequence[Lab]) -> bool:
    """Whether any colour of a lot is so light that it shows what bleeds into it."""
    return any(shade.lightness >= VERY_LIGHT_FROM for shade in shades)


def bleeds(one: Sequence[Lab], other: Sequence[Lab]) -> bool:
    """Whether the first may bleed into the second."""
    return sheds(one) and very_light(other)
