"""Sentences about the reasons of the matcher; those about near misses lie beside them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from stash.matching.answer.reason import Reason
from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast
from stash.matching.rules.colour_pairs import Hues
from stash.matching.rules.contrast import gap_asked
from stash.measures.length import Length
from stash.measures.rounding import two_figures
from stash.measures.vision import Vision
from stash.rendering.amounts import counted, dye_lot
from stash.rendering.figures import down
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import joined, thickness_words
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Condition, Lot


def lot_in_passing(lot: Lot) -> str:
    """A lot as one says it in passing: its colour, else its number."""
    return lot.colour or lot.ref


def _thickness_away(thickness: Thickness, steps: int) -> str:
    return f"{thickness_words(thickness)}, {counted(steps, 'step')} from what you asked for"


def _thickness_derived(thickness: Thickness) -> str:
    return f"{thickness_words(thickness)}, going by its weight and length"


def _length_assumed(thickness: Thickness) -> str:
    return f"length assumed, as usual for {thickness_words(thickness)}: measure it first"


#: A gap in lightness that is seen at a glance, as the wish for a soft contrast has it.
SOFT_FROM = gap_asked(Contrast.SOFT).least

_CONDITIONS = {
    Condition.FADED: "faded: compare it with a fresh end first",
    Condition.QUARANTINED: "quarantined: treat it before it meets other yarn",
    Condition.SMOKE: "smells of smoke: air or wash it first",
    Condition.PETS: "from a home with pets: wash it first, and mind allergies",
}


def _in_condition(condition: Condition) -> str:
    return _CONDITIONS[condition]


def _newer(since: date) -> str:
    return f"newer than other yarn, here since {since.isoformat()}"


def _price(times_middle: float) -> str:
    return f"{two_figures(times_middle):g} times your middle price for its length"


def _opens(count: int) -> str:
    return f"opens {counted(count, 'new skein')}"


def _opens_none(count: int) -> str:
    return "uses an opened skein" if count == 1 else f"uses {count} opened skeins"


def _joins(count: int) -> str:
    return counted(count, "join")


def _useless_end(left: Length, skein: int) -> str:
    return f"leaves {down(left)} on skein {skein}, too short to use"


def _stays_free(left: Length) -> str:
    return f"{down(left)} left"


def _lightness_apart(gap: float, contrast: Contrast | None, colours: int) -> str:
    if contrast is not None:
        return f"{contrast} contrast"
    if gap >= SOFT_FROM:
        return "at least soft contrast"
    return "close in lightness" if colours == 2 else "two of them close in lightness"


def _thicknesses_differ(classes: Sequence[Thickness | None]) -> str:
    return " with ".join(thickness_words(one) if one else "thickness not known" for one in classes)


HUES = {
    Hues.GREYS: "two greys",
    Hues.GREY_AND_COLOUR: "a grey with a colour",
    Hues.CLOSE: "close in colour",
    Hues.NEIGHBOURS: "colours close to each other",
    Hues.APART: "colours well apart",
    Hues.OPPOSITE: "opposite colours",
}


def _of_pair(words: Callable[..., str]) -> Callable[..., str]:
    """The words of a note on two lots; with their names where there are more than two."""

    def named(*, pair: Sequence[Lot] = (), **facts: object) -> str:
        names = f"{joined(map(lot_in_passing, pair))}: " if pair else ""
        return names + words(**facts)

    return named


def _hues(hues: Hues) -> str:
    return hers(HUES[hues])


def _repeats(lot: Lot, of: Lot) -> str:
    return f"{lot_in_passing(lot)} {hers('repeats a colour of')} {lot_in_passing(of)}"


def _alike_to_you(vision: Vision) -> str:
    return f"may look alike to you ({vision}): go by name, not by eye"


def _may_bleed(lot: Lot, into: Lot) -> str:
    return f"{lot_in_passing(lot)} may bleed into {lot_in_passing(into)}: wash a swatch first"


def _may_felt(lot: Lot) -> str:
    return f"{lot_in_passing(lot)} may felt where the other is washed: wash both as wool"


def _look_alike(lots: Sequence[Lot]) -> str:
    return f"{joined(map(lot_in_passing, lots))} look alike"


#: Said once of an answer, whichever of its colours nobody has seen in daylight.
COMPARE_IN_DAYLIGHT = "Colours here come from names or a screen; compare the yarn in daylight."


def _by_name(lots: Sequence[Lot], all: bool) -> str:
    if all:
        return hers(COMPARE_IN_DAYLIGHT)
    names = joined(map(lot_in_passing, lots))
    return f"{names} known by name or screen only: compare in daylight"


def _lot_to_compare(lot: Lot) -> str:
    return f"{lot.ref}: {dye_lot(lot)}, compare in daylight"


def _of_one_lot(lot: Lot, reason: Reason) -> str:
    return f"{lot.ref}: {sentence(reason)}"


SENTENCES: Mapping[str, Words] = {
    "thickness_away": _thickness_away,
    "thickness_not_known": "thickness not known: make a swatch first",
    "thickness_derived": _thickness_derived,
    "colour_not_known": "colour not known: check it yourself in daylight",
    "length_assumed": _length_assumed,
    "in_condition": _in_condition,
    "bears_hot_wash": "its fibres take a hot wash: check the band and your local rules",
    "owned_by": "belongs to {owner}",
    "newer_than_others": _newer,
    "price_not_known": "price not known",
    "price_of_a_metre": _price,
    "opens_no_skein": _opens_none,
    "opens_skeins": _opens,
    "opened_for_little": "opens skein {skein} for very little",
    "joins": _joins,
    "useless_end": _useless_end,
    "leaves_lone_skein": "leaves one whole skein on its own",
    "entered_together": "added together, lot not known: compare in daylight",
    "stays_free": _stays_free,
    "used_up": "uses it all up",
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
        "{role} is worked with one strand; if you hold several together, say how many: --strands 2"
    ),
    "one_more_skein": "lots with one more skein",
}
