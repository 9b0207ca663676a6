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
    "only_done_is_sold": "article {article} is {article.state}; only what is done can be sold",
    "fee_above_price": ("the fee is more than the price; give what was kept of it with --fee"),
    "article_not_sold": "article {article} is not sold, so it cannot come back",
    "fee_back_above_fee": ("more of the fee came back than was paid; see `stash show article`"),
    "article_is_sold": (
        "article {article} is sold; `stash returned {article.number}` if it came back"
    ),
    "dated_before_last_step": ("article {article} was {step} on {day}; date this {day} or later"),
    "cost_of_unravelled": "article {article} is unravelled: its yarn is back on the shelf",
    "cost_of_nothing_used": (
        "article {article} has used no yarn yet; ask for what the next one costs by its piece, "
        'as in `stash cost "{article.piece}"`'
    ),
    "gifts_lower_all": (
        "by {method} a gift lowers what all yarn of its name costs; "
        "leave --gifts-at out, or say --method specific"
    ),
    "nothing_covers_piece": (
        "nothing on the shelf covers {piece!r}, so there is no yarn to reckon with; "
        '`stash match "{piece}"` tells what almost does'
    ),
    "span_backwards": "the span begins on {first}, after {last}; give the earlier day first",
    "method_chosen_already": (
        "the valuation of {year} was chosen in entry {entry}: one method a year; "
        "choose again next year, or `stash undo {entry}` if it was a slip"
    ),
    "tag_of_nothing_made": ("article {article} is {article.state}; a tag is for what is made"),
    "tag_of_nothing_used": ("article {article} has used no yarn yet, so there is nothing to tell"),
}
