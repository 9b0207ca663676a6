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
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Condition
from stash.trade.hooks import hook_label
from stash.trade.thickness import plain_name

Amount = Mass | Length


def _amount(field: str, amount: Amount, unit: str, about: bool) -> str:
    """In the unit it was typed in, and in grams or metres where that is another."""
    words = f"{field} {'about ' if about else ''}{show(amount, unit)}"
    return words if unit in ("g", "m") else f"{words} ({amount})"


def _count(count: int, opened: Sequence[Amount], about: bool) -> str:
    if not opened:
        return f"count {count}"
    rough = "about " if about else ""
    return f"count {count}, of these opened: {', '.join(f'{rough}{part}' for part in opened)}"


def _ounces(mass: Mass, likely_g: int) -> str:
    ounces = f"{float(mass.mg / OUNCE_MG):.3g} oz"
    return f"{ounces} is often a rounded {likely_g} g; kept as typed"


def _gross(gross: Mass, tool: str) -> str:
    what = f"the {tool}" if tool else "what it stood in"
    return f"{gross} includes {what}: weigh that and give it with --tare"


def _colour_value(colour: Colour) -> str:
    return f"colour value {colour.hex}"


def _paid(paid: Money, currency: str) -> str:
    return f"paid {show_money(paid, currency)} for the line"


def _bought(day: date) -> str:
    return f"bought {day.isoformat()}"


def _condition(condition: Condition, words: str) -> str:
    return f"condition {condition} ({words})"


def _percent(percent: Fraction) -> str:
    return f"blend sums to {float(percent):g} %"


#: What was read in a line, field by field.
_READ: Mapping[str, Words] = {
    "read_name": "name {name}",
    "read_maker": "maker {maker}",
    "read_colour": "colour {colour}",
    "read_colour_value": _colour_value,
    "read_colour_number": "colour number {number}",
    "read_lot": "lot {lot}",
    "read_no_lot": "lot none claimed",
    "read_doubtful_lot": "lot {lot}, so not known",
    "read_weight": lambda amount, unit, about: _amount("weight", amount, unit, about),
    "read_length": lambda amount, unit, about: _amount("length", amount, unit, about),
    "read_weight_by_fineness": "weight {amount}, from the fineness",
    "read_length_by_fineness": "length {amount}, from the fineness",
    "read_measured_pair": "pair measured",
    "read_thickness": lambda classes: f"class {plain_name(*classes)}",
    "read_fibre": "fibre {fibre}",
    "read_strange_fibre": "fibre {fibre}",
    "read_count": _count,
    "read_left": lambda amount, about: f"left {'about ' if about else ''}{amount}",
    "read_tare": "tare {tare}",
    "read_paid": _paid,
    "read_place": "place {place}",
    "read_owner": "owner {owner}",
    "read_bought": _bought,
    "read_condition": _condition,
    "read_care": "care {care}",
    "read_hand_dyed": "dyed by hand",
    "read_kept": "{field} {words}",
    "read_note": "kept as a note {words}",
}


#: What somebody should look at.
_DOUBTS: Mapping[str, Words] = {
    "doubtful_lot": ("{lot!r} is no lot to go by: it counts as unknown until you read the label"),
    "two_colours": (
        "two colours, {colours[0]} {numbers[0]} and {colours[1]} {numbers[1]}: look at the label"
    ),
    "uncertain_colour": "the colour {colour!r} is not certain: look in daylight",
    "unknown_fibre": "{fibre!r} is no fibre known here: kept as written, in the note",
    "odd_blend": _percent,
    "fibre_without_shares": "fibre read from the words alone ({fibre}); no shares given",
    "thickness_said_twice": "the class is said twice and differs: both are kept",
    "thickness_in_name_differs": (
        lambda classes: f"the name says {plain_name(*classes)}; what stands beside it is taken"
    ),
    "thickness_unlike_fineness": (
        lambda classes: f"such a weight and length are usually {plain_name(*classes)}"
    ),
    "number_taken_for_thickness": "#{digit} is taken for the class, because the colour is named",
    "only_thought": "something of it is only thought so: look at the yarn",
    "kept_for_something": "{words!r} is kept as a note; `stash aside` sets the yarn aside",
    "rough_gauge": "a gauge over one inch is rough: measure over 10 cm",
    "odd_hook": lambda label, mm: f"{label} is usually {hook_label(mm)}; kept as written",
    "fineness_without_amount": "a fineness says nothing of how much there is: give a weight",
    "rounded_ounces": _ounces,
    "gross_weight": _gross,
    "guessed_share": "{words!r} is a guess: weigh it to be sure",
    "uncounted_bit": "the bit beside the whole skeins is not counted: weigh it, add it by itself",
    "weight_of_a_pack": "{pack} is taken for the whole pack: {each} each",
}

SENTENCES: Mapping[str, Words] = {**_READ, **_DOUBTS}
