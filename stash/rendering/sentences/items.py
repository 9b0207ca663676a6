"""Sentences about several items in one entry, and about lists that they come in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from stash.errors import StashError
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words


def _one_of_several(item: str, why: StashError, saves: bool) -> str:
    """The reason often names its item already."""
    said = sentence(why)
    named = said if f"item {item} " in f"{said} " else f"item {item}: {said}"
    return f"{named}; {'nothing was saved for any of them' if saves else 'or leave it out'}"


def _bad_rows(name: str, count: int) -> str:
    rows, them = ("1 row needs", "it") if count == 1 else (f"{count} rows need", "them")
    return f"{name}: {rows} another look, so nothing was saved; fix {them} and try again"


def _design_in_use(design: str, numbers: Sequence[int]) -> str:
    from stash.rendering.amounts import numbers as listed

    items = "item" if len(numbers) == 1 else "items"
    return f"{design} has {items} {listed(numbers)} open; finish or release first"


def _next_weigh(roles: Sequence[str]) -> str:
    *others, last = [role for role in roles if role] or [""]
    named = f"{', '.join(others)} and {last}" if others else last
    balls = "part balls" if others else "part ball"
    return f"weigh the {balls} of {named}" if named else f"weigh the {balls}"


def _next_gone(how: str, on: date) -> str:
    return f"{'given away' if how == 'given' else how} on {on}"


#: What was to be read, and what to write instead.
UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_list_of_columns": (
        "a list",
        lambda columns: f"no row names its columns; head them {', '.join(columns)}",
    ),
}

SENTENCES: Mapping[str, Words] = {
    # what comes next for an item
    "next_set_aside": "set yarn aside for it",
    "next_begin": "begin it",
    "next_weigh": _next_weigh,
    "next_finish": "finish: weigh what is left",
    "next_sell": "sell it",
    "next_gone": _next_gone,
    "next_release": "use its yarn, or `stash release {item.number}`",
    # where a command about several of them is
    "at_item": "item {item}, {at} of {of}",
    "at_row": "row {at} of {of}",
    # what cannot be put right
    "left_of_a_skein": "{lot} is a lot; say what is left of a skein by its number",
    "left_of_unweighed": "skein {skein} was never weighed; `stash weigh {skein} 43g` weighs it",
    "paid_for_one_lot": "what was paid is for one lot, or for skeins; name them one at a time",
    "yarn_needs_name": "a yarn needs a name; its maker can be left empty",
    "design_in_use": _design_in_use,
    # lists, and several items in one entry
    "one_of_several": _one_of_several,
    "bad_rows": _bad_rows,
    "list_without_rows": "{name} has no rows below its headings; add one row for each",
    "cell_missing": "{column} is missing; fill it in",
    "sold_in_two_rows": "item {item} is sold in two rows; leave one of them out",
    "ball_twice": "ball {ball} of item {item} is in two rows; leave one of them out",
}
