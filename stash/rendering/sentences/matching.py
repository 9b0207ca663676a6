"""Sentences about the reasons of the matcher; those about near misses lie beside them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from stash.matching.answer.reason import Reason
from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast
from stash.matching.rules.colour_pairs import Hues
from stash.measures.length import Length
from stash.measures.rounding import two_figures
from stash.measures.vision import Vision
from stash.rendering.amounts import counted, dye_lot
from stash.rendering.figures import near
from stash.rendering.sentences.phrases import joined, thickness_words
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Condition, Lot


def lot_in_passing(lot: Lot) -> str:
    """A lot as one says it in passing: its colour, else its number."""
    return lot.colour or lot.ref


def _thickness_away(thickness: Thickness, steps: int) -> str:
    return f"{thickness_words(thickness)}, {counted(steps, 'step')} from the class asked for"


def _thickness_derived(thickness: Thickness) -> str:
    return f"{thickness_words(thickness)}, by its metres per 100 g"


def _length_assumed(thickness: Thickness) -> str:
    return f"length assumed from the usual one of {thickness_words(thickness)}: weigh it"


_CONDITIONS = {
    Condition.FADED: "faded: lay it beside a fresh end of it first",
    Condition.QUARANTINED: "quarantined: treat it before it meets other yarn",
    Condition.SMOKE: "smells of smoke: air or wash it first",
    Condition.PETS: "from a home with pets: wash it, or mind allergies",
}


def _in_condition(condition: Condition) -> str:
    return _CONDITIONS[condition]


def _newer(since: date) -> str:
    return f"newer than other yarn: here since {since.isoformat()}"


def _price(times_middle: float) -> str:
    return f"a metre costs {two_figures(times_middle):g} x the middle price here"


def _opens(count: int) -> str:
    return f"opens {counted(count, 'whole skein')}"


def _joins(count: int) -> str:
    return counted(count, "join")


def _useless_end(left: Length, skein: int) -> str:
    return f"leaves {near(left)} of skein {skein}, too short to use"


def _stays_free(left: Length) -> str:
    return f"{near(left)} of this lot stay free"


def _lightness_apart(gap: float, contrast: Contrast | None, colours: int) -> str:
    least = "" if colours == 2 else " at least"
    return f"{gap:.0f} apart in lightness{least}: {contrast or 'close'}"


def _thicknesses_differ(classes: Sequence[Thickness | None]) -> str:
    return " beside ".join(thickness_words(one) if one else "class not known" for one in classes)


HUES = {
    Hues.GREYS: "two greys",
    Hues.GREY_AND_COLOUR: "a grey beside a colour",
    Hues.CLOSE: "close in hue",
    Hues.NEIGHBOURS: "neighbouring hues",
    Hues.APART: "hues well apart",
    Hues.OPPOSITE: "opposite hues",
}


def _of_pair(words: Callable[..., str]) -> Callable[..., str]:
    """The words of a note on two lots; with their names where there are more than two."""

    def named(*, pair: Sequence[Lot] = (), **facts: object) -> str:
        names = f"{joined(map(lot_in_passing, pair))}: " if pair else ""
        return names + words(**facts)

    return named


def _hues(hues: Hues) -> str:
    return HUES[hues]


def _repeats(lot: Lot, of: Lot) -> str:
    return f"{lot_in_passing(lot)} repeats a colour of {lot_in_passing(of)}"


def _alike_to_you(vision: Vision) -> str:
    return f"would look alike to you ({vision}): go by name, not by eye"


def _may_bleed(lot: Lot, into: Lot) -> str:
    return (
        f"{lot_in_passing(lot)} may bleed into {lot_in_passing(into)}: wash a swatch of both first"
    )


def _may_felt(lot: Lot) -> str:
    return f"{lot_in_passing(lot)} may felt in a wash the other bears: wash both as wool"


def _look_alike(lots: Sequence[Lot]) -> str:
    return f"{joined(map(lot_in_passing, lots))} look alike"


def _by_name(lots: Sequence[Lot], all: bool) -> str:
    whose = "colours" if all else joined(map(lot_in_passing, lots))
    return f"{whose} by screen or name: compare in daylight"


def _lot_to_compare(lot: Lot) -> str:
    return f"{lot.ref}: {dye_lot(lot)}, compare in daylight"


def _of_one_lot(lot: Lot, reason: Reason) -> str:
    return f"{lot.ref}: {sentence(reason)}"


SENTENCES: Mapping[str, Words] = {
    "thickness_away": _thickness_away,
    "thickness_not_known": "class not known: make a swatch first",
    "thickness_derived": _thickness_derived,
    "colour_not_known": "colour not known: look in daylight",
    "length_assumed": _length_assumed,
    "in_condition": _in_condition,
    "bears_hot_wash": "its fibres bear a hot wash: check the band and your local rules",
    "owned_by": "belongs to {owner}",
    "newer_than_others": _newer,
    "price_not_known": "price not known, taken as the middle one",
    "price_of_a_metre": _price,
    "opens_no_skein": "no whole skein is opened",
    "opens_skeins": _opens,
    "opened_for_little": "skein {skein} would be opened for a sliver",
    "joins": _joins,
    "useless_end": _useless_end,
    "leaves_lone_skein": "leaves one whole skein by itself",
    "entered_together": "entered together, lot not known: compare in daylight",
    "stays_free": _stays_free,
    "used_up": "uses this lot up",
    "lightness_apart": _lightness_apart,
    "thicknesses_differ": _thicknesses_differ,
    "hues": _of_pair(_hues),
    "repeats_colour": _of_pair(_repeats),
    "look_alike_to_you": _of_pair(_alike_to_you),
    "may_bleed": _of_pair(_may_bleed),
    "may_felt": _of_pair(_may_felt),
    "look_alike": _look_alike,
    "colours_by_name": _by_name,
    "lot_to_compare": _lot_to_compare,
    "of_one_lot": _of_one_lot,
    "one_strand_only": (
        "{role} is worked with one strand: say how many are held together with --strands"
    ),
    "one_more_skein": "lots with one more skein",
}
