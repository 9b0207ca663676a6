"""Sentences about what a label line says and what was made of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction

from stash.measures.colour import Colour
from stash.measures.length import Length
from stash.measures.mass import OUNCE_MG, Mass
from stash.measures.money import Money
from stash.measures.written import show, show_money
from stash.rendering.figures import near
from stash.rendering.her_words import hers, named_thickness
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Condition
from stash.trade.hooks import hook_label

Amount = Mass | Length


def _amount(field: str, amount: Amount, unit: str, about: bool) -> str:
    """In the unit it was typed in."""
    return f"{field} {'about ' if about else ''}{show(amount, unit)}"


def _count(count: int, opened: Sequence[Amount], about: bool) -> str:
    if not opened:
        return f"count {count}"
    rough = "about " if about else ""
    parts = ", ".join(f"{rough}{near(part)}" for part in opened)
    return f"count {count}, with {parts} left of the opened"


def _ounces(mass: Mass, likely_g: int) -> str:
    ounces = f"{float(mass.mg / OUNCE_MG):.3g} oz"
    return f"{ounces} may be a rounded {likely_g} g; kept as typed"


def _gross(gross: Mass, tool: str) -> str:
    what = f"the {tool}" if tool else "what it was weighed in"
    return f"{near(gross)} includes {what}; weigh that and add it, as --tare 12g"


def _colour_value(colour: Colour) -> str:
    return f"{hers('colour value')} {colour.hex}"


def _paid(paid: Money, currency: str) -> str:
    return f"paid {show_money(paid, currency)} in all"


def _bought(day: date) -> str:
    return f"bought {day.isoformat()}"


def _condition(condition: Condition, words: str) -> str:
    return f"condition {condition} ({words})"


def _percent(percent: Fraction) -> str:
    return f"the blend adds up to {float(percent):g}%; check the label"


#: What was read in a line, field by field.
_READ: Mapping[str, Words] = {
    "read_name": "name {name}",
    "read_maker": "maker {maker}",
    "read_colour": "colour {colour}",
    "read_colour_value": _colour_value,
    "read_colour_number": "colour number {number}",
    "read_lot": "lot {lot}",
    "read_no_lot": "no dye lot claimed",
    "read_doubtful_lot": "lot {lot}, unclear",
    "read_weight": lambda amount, unit, about: _amount("weight", amount, unit, about),
    "read_length": lambda amount, unit, about: _amount("length", amount, unit, about),
    "read_weight_by_fineness": lambda amount: f"weight {near(amount)}, from length per weight",
    "read_length_by_fineness": lambda amount: f"length {near(amount)}, from length per weight",
    "read_measured_pair": "measured by you",
    "read_thickness": lambda classes: f"thickness {named_thickness(*classes)}",
    "read_fibre": "fibre {fibre}",
    "read_strange_fibre": "fibre {fibre}",
    "read_count": _count,
    "read_left": lambda amount, about: f"left {'about ' if about else ''}{near(amount)}",
    "read_tare": lambda tare: f"tare {near(tare)}",
    "read_paid": _paid,
    "read_place": "place {place}",
    "read_owner": "owner {owner}",
    "read_bought": _bought,
    "read_condition": _condition,
    "read_care": "care {care}",
    "read_hand_dyed": "hand-dyed",
    "read_dyed": "dyed {dyed}",
    "read_surface": "surface {surface}",
    "read_kept": "{field} {words}",
    "read_note": "noted {words}",
}


#: What somebody should look at.
_DOUBTS: Mapping[str, Words] = {
    "doubtful_lot": ("the lot {lot!r} is unclear: it counts as not known until you read the label"),
    "two_colours": (
        "two colours, {colours[0]} {numbers[0]} and {colours[1]} {numbers[1]}: check the label"
    ),
    "uncertain_colour": "the colour {colour!r} is a guess: check it in daylight",
    "unknown_fibre": "{fibre!r} is not a fibre we know: kept in the note",
    "odd_blend": _percent,
    "fibre_without_shares": "fibre {fibre}, without percentages: a sale tag needs them",
    "thickness_said_twice": "the label gives two thicknesses: both are kept",
    "thickness_in_name_differs": (
        lambda classes: (
            f"the name says {named_thickness(*classes)}; the label's own thickness is kept"
        )
    ),
    "thickness_unlike_fineness": (
        lambda classes: f"by its weight and length it would be {named_thickness(*classes)}"
    ),
    "number_taken_for_thickness": "#{digit} is read as the thickness; the colour has a name",
    "only_thought": "part of this is a guess: check the yarn",
    "kept_for_something": "{words!r} is only a note; `stash aside` sets yarn aside",
    "rough_gauge": "a gauge over one inch is rough: measure over 4 in or 10 cm",
    "odd_hook": lambda label, mm: f"{label} is usually {hook_label(mm)}; kept as written",
    "fineness_without_amount": "that says how thick it is, not how much: add a weight",
    "rounded_ounces": _ounces,
    "gross_weight": _gross,
    "guessed_share": "{words!r} is an estimate: weigh it to be sure",
    "uncounted_bit": "the bit extra is not counted: weigh it and add it on its own",
    "weight_of_a_pack": lambda pack, each: (
        f"{near(pack)} is read as the whole pack: {near(each)} each"
    ),
}

#: Doubts that change no answer: scripts may read them, a person is not told each time.
QUIET = frozenset({"rounded_ounces", "fibre_without_shares"})

SENTENCES: Mapping[str, Words] = {**_READ, **_DOUBTS}
