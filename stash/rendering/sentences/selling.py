"""Sentences about money: what things cost, what is sold, and what a tag says."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {
    "other_currency_kept": "this file keeps its money in {known}; give the price in {known}",
    "prices_kept_in_currency": (
        "prices are kept in {known} already, so the currency stays {known}; "
        "begin a new file for another, with --file"
    ),
    "other_digits_kept": (
        "prices are kept already, with two digits after the point, and {currency} has {digits}; "
        "begin a new file for {currency}, with --file"
    ),
    "only_done_is_sold": "item {item} is {item.state}; only what is done can be sold",
    "fee_above_price": ("the fee is more than the price; give what was kept of it with --fee"),
    "item_not_sold": "item {item} is not sold, so it cannot come back",
    "fee_back_above_fee": ("more of the fee came back than was paid; see `stash show item`"),
    "item_is_sold": ("item {item} is sold; `stash returned {item.number}` if it came back"),
    "dated_before_last_step": ("item {item} was {step} on {day}; date this {day} or later"),
    "cost_of_unravelled": "item {item} is unravelled: its yarn is back on the shelf",
    "cost_of_nothing_used": (
        "item {item} has used no yarn yet; ask for what the next one costs by its design, "
        'as in `stash cost "{item.design}"`'
    ),
    "gifts_lower_all": (
        "by {method} a gift lowers what all yarn of its name costs; "
        "leave --gifts-at out, or say --method specific"
    ),
    "nothing_covers_design": (
        "nothing on the shelf covers {design!r}, so there is no yarn to reckon with; "
        '`stash match "{design}"` tells what almost does'
    ),
    "span_backwards": "the span begins on {first}, after {last}; give the earlier day first",
    "method_chosen_already": (
        "the valuation of {year} was chosen in entry {entry}: one method a year; "
        "choose again next year, or `stash undo {entry}` if it was a slip"
    ),
    "tag_of_nothing_made": ("item {item} is {item.state}; a tag is for what is made"),
    "tag_of_nothing_used": ("item {item} has used no yarn yet, so there is nothing to tell"),
}
