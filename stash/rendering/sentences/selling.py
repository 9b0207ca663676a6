"""Sentences about money: what things cost, what is sold, and what a tag says."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words
from stash.stock.item import Item, ItemState


def _only_done_is_sold(item: Item) -> str:
    line = f"item {item} is {item.state}; only finished items can be sold"
    if item.state is ItemState.UNRAVELLED:
        return line
    return f"{line}: `stash done {item.number}` first"


SENTENCES: Mapping[str, Words] = {
    "other_currency_kept": "your prices are in {known}; type this one in {known} too",
    "prices_kept_in_currency": (
        "you already have prices in {known}, so the currency stays {known}; "
        "for another, start a new file with --file"
    ),
    "other_digits_kept": (
        "you already have prices with two digits after the point, and {currency} has {digits}; "
        "for {currency}, start a new file with --file"
    ),
    "only_done_is_sold": _only_done_is_sold,
    "fee_above_price": "the fee is more than the price; --fee is only the part that was kept of it",
    "item_not_sold": "item {item} is not sold, so it cannot come back",
    "fee_back_above_fee": "that is more than the fee you paid; see `stash show item`",
    "item_is_sold": "item {item} is sold; `stash returned {item.number}` if it came back",
    "dated_before_last_step": "item {item} was {step} on {day}; use that day or later",
    "cost_of_unravelled": (
        "item {item} is unravelled and its yarn is back on the shelf; "
        'for the next one: `stash cost "{item.design}"`'
    ),
    "cost_of_nothing_used": (
        "item {item} has used no yarn yet; "
        'for what the next one would cost: `stash cost "{item.design}"`'
    ),
    "gifts_lower_all": (
        "with {method}, a gift lowers the cost of all yarn of its name; "
        "leave out --gifts-at, or add --method specific"
    ),
    "nothing_covers_design": (
        'no yarn on the shelf covers {design!r}; `stash match "{design}"` shows what almost does'
    ),
    "span_backwards": "{first} is after {last}; put the earlier day first",
    "method_chosen_already": (
        "you chose how {year} is valued in entry {entry}, and a year keeps one way; "
        "choose again next year, or cancel that with `stash undo {entry}`"
    ),
    "tag_of_nothing_made": "item {item} is {item.state}; tags are for items begun or done",
    "tag_of_nothing_used": (
        "item {item} has used no yarn yet, so its fibres are not known; "
        "finish it with `stash done {item.number}`"
    ),
}
