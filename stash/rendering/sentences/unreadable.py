"""What a text that cannot be read was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import either
from stash.rendering.sentences.words import Words


def _choose(choices: Sequence[str], **_: Any) -> str:
    return f"choose {hers(either(choices))}"


def _choose_in_order(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or several in order"


def _choose_or_none(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or none; else use --note"


def _choose_or_unknown(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or unknown"


def _to_the_whole(percent: Fraction) -> str:
    says = f"its shares come to {float(percent):g}%, not 100%"
    rest = f"{float(100 - percent):g}% {hers('other fibre')}"
    return f"{says}; check the label" + (f", or add {rest!r}" if percent < 100 else "")


def _choose_or_gap(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or a gap in lightness of 0 to 100, as 30 or 20-40"


def _in_units(units: Sequence[str]) -> str:
    return f"add the unit, {' or '.join(units)}"


def _one_by_one(option: str, parts: Sequence[str]) -> str:
    apart = (
        f"{hers(option)} '{part}'" if " " in part else f"{hers(option)} {part}" for part in parts
    )
    return f"{hers('name one colour at a time, as in')} {' '.join(apart)}"


def _way_of_two_lots(ways: Sequence[str]) -> str:
    return f"end it with {', '.join(ways)}, as in L3/L9-brim"


_PAIR = "the weight and length of a full skein"
_AMOUNT = "an amount of yarn"
_MONEY = "an amount of money"

#: Numbers, amounts, money and days.
_VALUES: Mapping[str, tuple[Words, Words]] = {
    "no_number": ("a number", "write it like 1.5 or 1 1/2"),
    "no_whole_number": ("a whole number", "use 0 to {most}"),
    "no_amount": (_AMOUNT, "write a number and a unit, like 43g or 180yd"),
    "amount_too_large": (_AMOUNT, "that is far too much; check the number"),
    "counted_below_one": (_AMOUNT, "count from 1 up"),
    "several_amounts": ("one amount", "write one number with its unit"),
    "amount_of_nothing": ("an amount", "write more than 0"),
    "no_weight": ("a weight", _in_units),
    "no_length": ("a length", _in_units),
    "no_pair": (_PAIR, "write it like 100g/200m or 3.5oz/220yd"),
    "pair_of_nothing": (_PAIR, "write it like 100g/200m, both above 0"),
    "no_density": ("a length per weight", "write it like 4.6 yd/g or 1200 ypp"),
    "no_yarn_count": ("a yarn count", "write it like Nm 2/28, Ne 10/2 or 250 tex"),
    "yarn_count_of_nothing": ("a yarn count", "write more than 0"),
    "no_money": (_MONEY, "write it like 3.20"),
    "too_much_money": (_MONEY, "that is far too much; check the number"),
    "too_many_decimals": (_MONEY, "use at most {places} digits after the point"),
    "sign_taken_by_the_shell": (
        _MONEY,
        "was there a $ sign? Put it in single quotes, '$2{figure}', or write 2{figure} USD; "
        "for less than one write 0{figure}",
    ),
    "other_currency": (
        "an amount in {currency}",
        "your money is in {currency}; write what it cost you as 3.20 {currency}",
    ),
    "no_day": ("a day", "write year, month and day, like 2024-01-12"),
    "no_hours": ("hours of work", "write them like 3.5, 3h 20min or 3:20"),
    "hours_of_nothing": ("hours of work", "write more than 0"),
    "no_share": ("a percentage", "write it like 6.5%"),
    "share_too_large": ("a percentage", "use 0% to 99%"),
}

#: Facts of a yarn, settings, and what narrows the shelf.
_FACTS: Mapping[str, tuple[Words, Words]] = {
    "no_colour_value": ("a colour", "write #rrggbb, or several as #aabbcc/#ddeeff"),
    "no_thickness_thickness": (
        "a thickness",
        "write a name like DK or worsted, or 0 to 7",
    ),
    "blend_not_whole": ("a whole blend", _to_the_whole),
    "no_colour_family": ("a colour family", _choose),
    "no_dyed": ("a way of dyeing", _choose_or_unknown),
    "no_surface": ("a surface", _choose_or_unknown),
    "no_condition": ("a condition", _choose_or_none),
    "no_contrast": ("a contrast", _choose_or_gap),
    "no_fineness": ("metres per 100 g", "write them from and to, as 200-260, or as 15%"),
    "not_a_choice": ("", _choose),
    "no_humidity": ("a humidity", "write it like 50%, or 40% to 60%"),
    "no_line_for_a_tag": ("a line for a tag", "keep it to one line of up to {most} letters"),
    "no_currency": ("a currency", "use its three letters, as EUR or GBP"),
    "no_wash": ("a wash", _choose),
    "condition_takes_part": (
        "a condition to allow",
        "only quarantined yarn is left out; the rest is used, but ranked lower",
    ),
    "no_colour_of_a_role": (
        "a colour for A, B …",
        "write the letter and the colour, as in {option} A=blue",
    ),
    "several_roles": ("one colour of the design", _one_by_one),
    "several_roles_of_colours": ("one colour of the design", _one_by_one),
    "no_two_lots": (
        "two lots for one colour",
        "write A=brim, A=change or A=alternate, or A alone for whichever works; "
        "A=unknown allows a yarn whose lot is not known",
    ),
}

#: Yarn at hand or to buy, balls that are weighed, and plans of a batch.
_WORK: Mapping[str, tuple[Words, Words]] = {
    "no_yarn_at_hand": ("the yarn you have", "write it like A=150m, A=80m+120m, B=43g or B=12"),
    "nothing_at_hand": ("the yarn you have", "write more than 0"),
    "offer_without_length": (
        "a yarn to buy",
        "say how long a skein is, as in 'Fell Wool 50g/120m 4.50'",
    ),
    "need_of_nothing": ("a need", "write more than 0"),
    "need_of_unknown_yarn": (
        "a need",
        "of which yarn? Add --full 100g/180m or --thickness",
    ),
    "no_weighings": (
        "weighings",
        "write rows and weight, like 0:98g 20:81g 40:63g",
    ),
    "weighings_counted_both_ways": (
        "weighings",
        "count all of them in rows, or all in stitches as 0st:98g",
    ),
    "no_count_of_rows_worked": ("the rows worked", "write a number, as in 36"),
    "no_count_of_rows_left": ("the rows left", "write a number, as in 36"),
    "no_count_of_work_left": ("what is left to work", "write a number, as in 36"),
    "no_rows_by_skein": ("the rows worked", "write skein and row, as in 1=50,4=20"),
    "no_growing_rows": (
        "growing rows",
        "write the stitches of the first row and how many more each row has, as in 80 +2",
    ),
    "no_want": ("a want", "write it like 'DESIGN=6', or 'DESIGN=2-6 at 24 in 2.5h'"),
    "no_aim": ("an aim", _choose_in_order),
    "no_count_of_items": ("a count", "use a whole number up to {most}"),
    "no_count_of_different": (
        "how many sets of yarns differ",
        "use a whole number from 1 to {most}, or leave it out",
    ),
    "no_whole_percent": ("a percentage", "use whole percent, like 20%"),
    "no_iso_day": ("a day", "write it like 2026-12-05"),
    "day_gone_by": ("a day to come", "it is over; today is {today}"),
    "two_lots_of_role": ("two lots for one colour", _way_of_two_lots),
    "several_choices": ("one choice", "write one want for each of them"),
}

UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    **_VALUES,
    **_FACTS,
    **_WORK,
}
