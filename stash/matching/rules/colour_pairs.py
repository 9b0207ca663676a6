"""What is worth noting of two lots' colours side by side; none of it keeps them apart.

Where one hue ends and the next begins, what counts as alike, and which colours are likely to bleed
are our choice; that strong darks, reds and indigo bleed is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import combinations

from stash.matching.lots.lot_view import LotView
from stash.matching.rules.contrast import TONAL_HUE_BELOW
from stash.measures.colour import Colour, Lab, ciede2000, hue_difference
from stash.measures.note import Note
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


class Hues(StrEnum):
    """How two hues lie to each other."""

    GREYS = "greys"
    GREY_AND_COLOUR = "grey_and_colour"
    CLOSE = "close"
    NEIGHBOURS = "neighbours"
    APART = "apart"
    OPPOSITE = "opposite"


def colour_notes(lots: Sequence[LotView], vision: Vision | None) -> Iterator[Note]:
    """Everything to note of lots side by side, pair by pair; none of it costs.

    A note says which `pair` it means where there is more than one.
    """
    for one, other in combinations(lots, 2):
        yield from _of_pair(_pair_notes(one, other, vision), one, other, len(lots))
    unsure = [lot.lot.lot for lot in lots if lot.shades and not lot.lot.lot.daylight]
    if len(lots) > 1 and unsure:
        yield Note("colours_by_name", lots=tuple(unsure), all=len(unsure) == len(lots))


def colour_warnings(lots: Sequence[LotView], vision: Vision | None) -> Iterator[Note]:
    """What may go wrong with lots side by side, pair by pair: look-alikes, bleeding, felting."""
    for one, other in combinations(lots, 2):
        if all_alike(one.shades, other.shades):
            yield Note("look_alike", lots=(one.lot.lot, other.lot.lot))
        yield from _of_pair(_pair_warnings(one, other, vision), one, other, len(lots))


def _of_pair(notes: Iterable[Note], one: LotView, other: LotView, lots: int) -> Iterator[Note]:
    pair = {"pair": (one.lot.lot, other.lot.lot)} if lots > 2 else {}
    return (Note(note.kind, **note.facts, **pair) for note in notes)


def all_alike(one: Sequence[Lab], other: Sequence[Lab]) -> bool:
    """Whether every colour of a lot looks like every one of the other's to any eyes."""
    return bool(one and other) and all(ciede2000(x, y) <= ALIKE_WITHIN for x in one for y in other)


def _pair_notes(one: LotView, other: LotView, vision: Vision | None) -> Iterator[Note]:
    if hues := hues_of(one.shades, other.shades):
        yield Note("hues", hues=hues)
    if repeats(one.shades, other.shades):
        several, single = (one, other) if len(one.shades) > 1 else (other, one)
        yield Note("repeats_colour", lot=single.lot.lot, of=several.lot.lot)
    yield from _pair_warnings(one, other, vision)


def _pair_warnings(one: LotView, other: LotView, vision: Vision | None) -> Iterator[Note]:
    if vision and look_alike(one, other, vision):
        yield Note("look_alike_to_you", vision=vision)
    for dark, light in ((one, other), (other, one)):
        if bleeds(dark.shades, light.shades):
            yield Note("may_bleed", lot=dark.lot.lot, into=light.lot.lot)
    if felting := _felting(one, other):
        yield Note("may_felt", lot=felting.lot.lot)


def _felting(one: LotView, other: LotView) -> LotView | None:
    """The one that felts, where the other is known not to."""
    first, second = (felts(lot.lot.lot.fibre, lot.lot.lot.care) for lot in (one, other))
    if first is None or second is None or first == second:
        return None
    return one if first else other


def hues_of(one: Sequence[Lab], other: Sequence[Lab]) -> Hues | None:
    """How two lots' hues lie to each other; None where their colours say different things."""
    found = {_hues(x, y) for x in one for y in other}
    return found.pop() if len(found) == 1 else None


def _hues(one: Lab, other: Lab) -> Hues:
    apart = hue_difference(one, other)
    if apart is None:
        return Hues.GREYS if one.hue is None and other.hue is None else Hues.GREY_AND_COLOUR
    if apart < TONAL_HUE_BELOW:
        return Hues.CLOSE
    if apart < NEIGHBOURS_BELOW:
        return Hues.NEIGHBOURS
    return Hues.OPPOSITE if apart >= OPPOSITE_FROM else Hues.APART


def repeats(one: Sequence[Lab], other: Sequence[Lab]) -> bool:
    """Whether a yarn of several colours has one of them in the other yarn too."""
    several = len(one) > 1 or len(other) > 1
    return several and any(ciede2000(x, y) <= REPEATS_WITHIN for x in one for y in other)


def nobody_tells_apart(difference: float | None) -> bool:
    """Whether colours so far apart (CIEDE2000) look alike to everybody; None is not known."""
    return difference is not None and difference <= ALIKE_WITHIN


def look_alike(one: LotView, other: LotView, vision: Vision) -> bool:
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
