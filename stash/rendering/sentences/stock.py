"""Sentences about yarn, its weighing, and how sure its length is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from stash.measures.length import Length
from stash.measures.mass import Mass, grams
from stash.measures.written import MASS_UNITS
from stash.rendering import figures
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.figures import near, of_metres
from stash.rendering.sentences.words import Words
from stash.stock.spread import Why
from stash.stock.yarn import Lot
from stash.trade.regain import RegainSet

#: What makes a length uncertain.
OPEN_BY: Mapping[Why, str] = {
    Why.BAND_LENGTH: "length on the band",
    Why.FULL_BALL: "weight of a full skein",
    Why.SCALE: "step of the scale",
    Why.TARE: "core or bag not weighed",
    Why.MOISTURE: "damp in the yarn",
    Why.ABOUT: "a rough figure",
    Why.METRE: "the length you weighed",
    Why.THICKNESS: "length guessed from thickness",
}


def _more_than_full(skein: int, net: Mass, full: Mass, risen: Mass, closing: bool) -> str:
    bowl = f"{near(risen)}".replace(" ", "")
    confirm = f"first `stash weigh {skein} … --recount`" if closing else "add --recount"
    return (
        f"skein {skein} would hold {near(net)}, but a full one holds {near(full)}. Something else "
        f"on the scale? Add its weight, as --tare {bowl}. All of it this yarn? Then {confirm}"
    )


def _several_items(skein: int, items: Sequence[tuple[int, str]]) -> str:
    names = ", ".join(f"{number} ({name})" for number, name in items)
    return (
        f"skein {skein} is set aside for several items you have begun: {names}; "
        "add --for with one of them, or --recount"
    )


def _aside(
    mass: Mass, length: Length | None, item: int, design: str, note: str, *, now: str
) -> str:
    """`42 m, 17.5 g set aside for item 7, Winter hat`; by its note where it has no design."""
    weight = figures.up(mass)
    much = f"{weight} {now}" if length is None else f"{figures.up(length)}, {weight} {now}"
    return f"{much}: {note}" if note else f"{much} for item {item}{f', {design}' if design else ''}"


def _moisture_of_room(
    dry: float, damp: float, humidity: tuple[float, float], agreed: float, rules: RegainSet
) -> str:
    return (
        f"it holds {dry:.0f} to {damp:.0f}% water in a room at {humidity[0]:.0%} to "
        f"{humidity[1]:.0%} humidity; the trade counts {agreed:.1f}% ({rules} rules)"
    )


def _lot_named(lot: Lot, places: Sequence[str] = ()) -> str:
    where = f", in {' and '.join(places)}" if places else ""
    return f"{lot.ref} ({lot.yarn} {colour_name(lot)}{where})"


def _lot_in_full(lot: Lot) -> str:
    return f"{lot.ref} {lot.yarn}, {colour_name(lot)}, {dye_lot(lot)}"


def _fine(mass: Mass) -> str:
    """A small weight as a scale shows it: finer than the amounts of the screen."""
    unit = figures.screen().units.weight
    return f"{float(mass.mg / MASS_UNITS[unit]):.3g} {unit}"


SENTENCES: Mapping[str, Words] = {
    # what became of a skein
    "yarn_set_aside": partial(_aside, now="set aside"),
    "yarn_released": partial(_aside, now="no longer set aside"),
    "lot_named": _lot_named,
    "lot_in_full": _lot_in_full,
    "tare_above_reading": lambda tare, reading: (
        f"the tare ({near(tare)}) is more than the scale shows ({near(reading)}); check both"
    ),
    "whole_skein_weighs_nothing": (
        "skein {skein} is whole, so it weighs something; weigh it again"
    ),
    "whole_skein_far_off": lambda skein, held, weighs, percent: (
        f"skein {skein} should weigh {near(held)}, being whole, but weighs {near(weighs)} (over "
        f"{percent}% off). Have you opened it? Add --opened. Was its weight wrong? Add --recount"
    ),
    "more_than_full": _more_than_full,
    "left_above_full": (
        "skein {skein} would hold {left}, but a full one holds {full}. More skeins of it? "
        "`stash add --like {skein}`. A larger one? Give its full size too, as in "
        "`stash change {skein} --full 200g/460m`"
    ),
    "several_items_under_way": _several_items,
    # how sure a length is
    "usual_for_thickness": lambda m_per_100g: (
        f"{near(of_metres(m_per_100g))} to {near(grams(100))} is only the usual figure"
    ),
    "left_judged_by_eye": "what is left was judged by eye; weigh it",
    "length_about_right": "the length itself was typed as about right",
    "lawfully_shorter": lambda full, short: (
        f"a band that says {near(full)} may lawfully be {near(short)} short; half of that counts"
    ),
    "lawfully_lighter": lambda full, short: (
        f"a skein of {near(full)} may lawfully be {near(short)} light; half of that counts"
    ),
    "length_weighed": lambda length, mass, read_to, tape: (
        f"{near(length)} weighed {_fine(mass)}, read to {_fine(read_to)}; "
        f"{tape:.0%} more for laying it along a tape"
    ),
    "scale_step": lambda step: f"your scale shows steps of {_fine(step)}",
    "tare_not_weighed": lambda about: (
        f"about {_fine(about)}; weigh it, or say --tare 0g if there is none"
    ),
    "moisture_of_room": _moisture_of_room,
}
