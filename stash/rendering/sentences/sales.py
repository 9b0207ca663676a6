"""Sentences about sales and the year: what went, what it brought, and what is asked wrongly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words

_HOW = {"given": "given away", "lost": "lost"}


def _item_is_gone(item: object, how: str) -> str:
    number = str(item).partition(" ")[0]
    return f"item {item} was {_HOW[how]}; `stash returned {number}` if it is back"


def _sold_command(item: str) -> str:
    """How her own item is sold; a name of several words goes between signs."""
    named = f'"{item}"' if " " in item else item
    return f"`stash sold {named} --for 28`"


def _ways(reasons: Sequence[str], sold: bool, item: str) -> str:
    if sold:
        return f"say what the buyer paid, as in {_sold_command(item)}"
    return f"write {' or '.join(reasons)}"


#: What cannot be made of what was typed.
REFUSED: Mapping[str, Words] = {
    "price_of_unsold_item": lambda item: f"for an item with a buyer, type {_sold_command(item)}",
    "fee_without_price": "--fee goes with what the buyer paid: add --for 6.00",
    "no_item_named": "say which item: `stash gone item 3 --why given`",
    "no_year": "{typed!r} is not a year; type it like 2026",
    "year_is_a_workbook": "{file}: the year is a workbook, so end the name in .xlsx",
    "no_plan_to_set_aside": (
        "nothing can be made, so nothing is set aside; the same without --aside-now says why"
    ),
    "plan_forgotten": "that plan is not kept any more; look for it again",
    "no_plan_file": "choose the file of a plan first",
    "no_such_list": "there is no list {typed!r}; choose --list prices or --list packing",
    "box_of_prices": "--box goes with --list packing",
    "list_of_numbers": "cannot read {typed!r} as items: write numbers, as in 1,4-12",
    "no_such_period": "sales cannot be grouped by {by!r}; choose month, week or all",
}
SENTENCES: Mapping[str, Words] = {
    "item_is_gone": _item_is_gone,
    "only_done_is_gone": (
        "item {item} is {item.state}, not done; `stash unravel {item.number}` or "
        "`stash release {item.number}` frees its yarn"
    ),
    "price_of_unsold_yarn": "only yarn that was sold has a price: leave --for and --fee out, "
    "or say --why sold",
    "year_not_come": "{year} has not begun; pick this year or an earlier one",
    "not_finished_yet": "item {item} is {item.state}; only what is done is listed",
    "not_hers_any_more": "item {item} is sold or gone; `stash show item {item.number}` says how",
}
UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "reason_item_leaves": ("a way an item goes", _ways),
}
