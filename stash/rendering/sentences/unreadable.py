"""What a text that cannot be read was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from stash.rendering.sentences.words import Words


def _choose(choices: Sequence[str], **_: Any) -> str:
    return f"choose {', '.join(choices)}"


def _choose_in_order(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or several in their order"


def _choose_or_none(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or none; else use --note"


def _choose_or_gap(choices: Sequence[str]) -> str:
    return f"{_choose(choices)}, or a gap in lightness up to 100, as 30 or 20-40"


def _in_units(units: Sequence[str]) -> str:
    return f"give it in {' or '.join(units)}"


def _one_by_one(option: str, parts: Sequence[str]) -> str:
    apart = (f"{option} '{part}'" if " " in part else f"{option} {part}" for part in parts)
    return f"name one role at a time, as in {' '.join(apart)}"


def _way_of_two_lots(ways: Sequence[str]) -> str:
    return f"end it with {', '.join(ways)}, as in L3/L9-brim"


_PAIR = "the weight and length of a full skein"
_AMOUNT = "an amount of yarn"
_MONEY = "an amount of money"

#: Numbers, amounts, money and days.
_VALUES: Mapping[str, tuple[Words, Words]] = {
    "no_number": ("a number", "write it like 1.5 or 1 1/2"),
    "no_whole_number": ("a whole number", "give one from 0 to {most}"),
    "no_amount": (_AMOUNT, "write a number and a unit, like 43g or 180yd"),
    "amount_too_large": (_AMOUNT, "the figure is too large"),
    "counted_below_one": (_AMOUNT, "a count begins at 1"),
    "several_amounts": ("one amount", "give one figure with its unit"),
    "amount_of_nothing": ("an amount", "give more than nothing"),
    "no_weight": ("a weight", _in_units),
    "no_length": ("a length", _in_units),
    "no_pair": (_PAIR, "write it like 100g/200m or 3.5oz/220yd"),
    "pair_of_nothing": (_PAIR, "write it like 100g/200m, both above 0"),
    "no_density": ("a length per weight", "write it like 4.6 yd/g or 1200 ypp"),
    "no_yarn_count": ("a yarn count", "write it like Nm 2/28, Ne 10/2 or 250 tex"),
    "yarn_count_of_nothing": ("a yarn count", "a count is above nothing"),
    "no_money": (_MONEY, "write it like 3.20"),
    "too_much_money": (_MONEY, "the figure is too large"),
    "too_many_decimals": (_MONEY, "at most {places} digits after the point"),
    "sign_taken_by_the_shell": (
        _MONEY,
        "was there a $ before it? write '$2{figure}' in single quotes, or like 2{figure} USD; "
        "less than one is 0{figure}",
    ),
    "other_currency": (
        "an amount in {currency}",
        "this file keeps its money in {currency}; write what it came to as 3.20 {currency}",
    ),
    "no_day": ("a day", "write year, month and day, like 2024-01-12"),
    "no_hours": ("hours of work", "write them like 3.5, 3h 20min or 3:20"),
    "hours_of_nothing": ("hours of work", "give more than nothing"),
    "no_share": ("a share", "write it like 6.5%"),
    "share_too_large": ("a share", "give 0% to 99%"),
}

#: Facts of a yarn, settings, and what narrows the shelf.
_FACTS: Mapping[str, tuple[Words, Words]] = {
    "no_colour_value": ("a colour", "write #rrggbb, or several as #aabbcc/#ddeeff"),
    "no_thickness_thickness": (
        "a thickness class",
        "write 0 to 7, or a name such as DK or worsted",
    ),
    "no_colour_family": ("a family of colours", _choose),
    "no_condition": ("a condition", _choose_or_none),
    "no_contrast": ("a contrast", _choose_or_gap),
    "no_fineness": ("metres per 100 g", "write them from and to, as 200-260, or as 15%"),
    "not_a_choice": ("one of these", _choose),
    "no_humidity": ("a humidity", "write it like 50%, or 40% to 60%"),
    "no_line_for_a_tag": ("a line for a tag", "write up to {most} letters in one line"),
    "no_currency": ("a currency", "give its three letters, as EUR or GBP (ISO 4217)"),
    "no_wash": ("a wash", _choose),
    "condition_takes_part": (
        "a condition to let in",
        "only quarantined yarn is kept out; the others take part, at a cost",
    ),
    "no_colour_of_a_role": (
        "a colour for a role",
        "write a role and its colours, as in {option} A=blue",
    ),
    "several_roles": ("what one role takes", _one_by_one),
    "several_roles_of_colours": ("colours of one role", _one_by_one),
    "no_two_lots": (
        "two lots for a role",
        "write A=brim, A=change or A=alternate, A alone for whichever works; "
        "A=unknown lets a lot that is not known be the odd one",
    ),
}

#: Yarn at hand or to buy, balls that are weighed, and plans of a batch.
_WORK: Mapping[str, tuple[Words, Words]] = {
    "no_yarn_at_hand": ("yarn at hand", "write it like A=150m, A=80m+120m, B=43g or B=12"),
    "nothing_at_hand": ("yarn at hand", "give more than nothing"),
    "offer_without_length": (
        "a yarn to buy",
        "give how long a skein is, as in 'Fell Wool 50g/120m 4.50'",
    ),
    "need_of_nothing": ("a need", "give more than nothing"),
    "need_of_unknown_yarn": (
        "a need",
        "say of what yarn, with --put-up 100g/180m or --thickness",
    ),
    "no_weighings": (
        "weighings",
        "write them like 0:98g 20:81g 40:63g, the rows worked and what the ball weighs",
    ),
    "weighings_counted_both_ways": (
        "weighings",
        "count them all in rows, or all in stitches as 0st:98g",
    ),
    "no_count_of_rows_worked": ("the rows worked", "write a number, as in 36"),
    "no_count_of_rows_left": ("the rows left", "write a number, as in 36"),
    "no_count_of_work_left": ("what is still to work", "write a number, as in 36"),
    "no_rows_by_skein": ("the rows worked", "write skein and row, as in 1=50,4=20"),
    "no_growing_rows": (
        "growing rows",
        "write the stitches of the first row and how many more each has, as in 80 +2",
    ),
    "no_want": ("a want", "write it like 'DESIGN=6', or 'DESIGN=2-6 at 24 in 2.5h'"),
    "no_aim": ("an aim", _choose_in_order),
    "no_count_of_items": ("a count", "give a whole number up to {most}"),
    "no_whole_percent": ("a share", "write whole percent, like 20%"),
    "no_iso_day": ("a day", "write it like 2026-12-05"),
    "day_gone_by": ("a day to come", "today is {today}"),
    "two_lots_of_role": ("two lots for a role", _way_of_two_lots),
    "several_choices": ("one choice", "give each of them a want of its own"),
}

UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    **_VALUES,
    **_FACTS,
    **_WORK,
}
