"""Sentences about yarn, its weighing, and how sure its length is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.mass import Mass
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.sentences.words import Words
from stash.stock.spread import Why
from stash.stock.yarn import Lot
from stash.trade.regain import RegainSet

#: What leaves a length open.
OPEN_BY: Mapping[Why, str] = {
    Why.BAND_LENGTH: "length on the band",
    Why.FULL_BALL: "weight of a full ball",
    Why.SCALE: "step of the scale",
    Why.TARE: "core or bag not weighed",
    Why.MOISTURE: "moisture",
    Why.ABOUT: "told roughly",
    Why.METRE: "the length weighed",
    Why.THICKNESS: "metres by the class alone",
}


def _more_than_full(skein: int, net: Mass, full: Mass, risen: Mass, closing: bool) -> str:
    bowl = f"{risen}".replace(" ", "")
    confirm = f"first stash weigh {skein} … --recount" if closing else "say --recount"
    return (
        f"skein {skein} would hold {net}, and a full one holds {full}: if something else "
        f"was on the scale say what that weighs, as --tare {bowl}; "
        f"if all of it is this yarn {confirm}"
    )


def _several_items(skein: int, items: Sequence[tuple[int, str]]) -> str:
    names = ", ".join(f"{number} ({name})" for number, name in items)
    return (
        f"skein {skein} is set aside for several items under way: {names}; "
        "say --for one of them, or --recount"
    )


def _moisture_of_room(
    dry: float, damp: float, humidity: tuple[float, float], agreed: float, rules: RegainSet
) -> str:
    return (
        f"it holds {dry:.0f} to {damp:.0f}% water at {humidity[0]:.0%} to {humidity[1]:.0%} "
        f"humidity, {agreed:.1f}% is agreed for trade ({rules})"
    )


def _lot_named(lot: Lot) -> str:
    return f"{lot.ref} ({lot.yarn} {colour_name(lot)})"


def _lot_in_full(lot: Lot) -> str:
    return f"{lot.ref} {lot.yarn}, {colour_name(lot)}, {dye_lot(lot)}"


SENTENCES: Mapping[str, Words] = {
    "lot_named": _lot_named,
    "lot_in_full": _lot_in_full,
    "tare_above_reading": "the tare of {tare} is more than the reading of {reading}",
    "whole_skein_weighs_nothing": (
        "skein {skein} is whole and weighs something: put it on the scale"
    ),
    "whole_skein_far_off": (
        "skein {skein} is whole at {held} in the books and weighs {weighs}, "
        "more than {percent} % apart: if it has been opened say --opened, "
        "if the books are wrong say --recount"
    ),
    "more_than_full": _more_than_full,
    "several_items_under_way": _several_items,
    # how sure a length is
    "usual_for_thickness": "{m_per_100g:.0f} m to 100 g is only what is usual for the class",
    "left_judged_by_eye": "what is left was judged by eye: weigh it",
    "length_about_right": "the length itself was given as about right",
    "lawfully_shorter": "a skein of {full} may be {short} short (FPackV); half of it is taken",
    "lawfully_lighter": "a ball of {full} may be {short} light (76/211/EEC); half of it is taken",
    "length_weighed": lambda length, mass, read_to, tape: (
        f"{length} weighed {mass.g:g} g, read to {read_to.g:g} g; "
        f"{tape:.0%} for laying it along a tape"
    ),
    "scale_step": "the scale shows {step} and nothing between",
    "tare_not_weighed": "about {about}; tell its weight, or 0g where there is none",
    "moisture_of_room": _moisture_of_room,
}
