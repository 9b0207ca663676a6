"""Sentences about several items in one entry, and about lists that they come in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.errors import StashError
from stash.measures.mass import Mass
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words


def _one_of_several(item: str, why: StashError) -> str:
    """The reason often names its item already."""
    said = sentence(why)
    named = said if f"item {item} " in f"{said} " else f"item {item}: {said}"
    return f"{named}; nothing was written for any of them"


def _bad_rows(name: str, count: int) -> str:
    rows = "1 row needs" if count == 1 else f"{count} rows need"
    return f"{name}: {rows} another look, so nothing was written; correct it and read it again"


def _several(done: str) -> Words:
    def words(numbers: Sequence[int], **facts: Mass | str) -> str:
        from stash.rendering import amounts

        return f"items {amounts.numbers(numbers)} {done.format(**facts)}"

    return words


#: What was to be read, and what to write instead.
UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_list_of_columns": (
        "a list",
        lambda columns: f"no row names its columns; head them {', '.join(columns)}",
    ),
}

SENTENCES: Mapping[str, Words] = {
    "one_of_several": _one_of_several,
    "bad_rows": _bad_rows,
    "list_without_rows": "{name} has no rows below its headings; add one row for each",
    "cell_missing": "{column} is missing; fill it in",
    "ball_twice": "ball {ball} of item {item} is in two rows; leave one of them out",
    "items_released": _several("released"),
    "items_begun": _several("begun"),
    "items_done": _several("done, {mass} used ({how})"),
    "items_unravelled": _several("unravelled, {mass} back on the shelf"),
    "items_sold": _several("sold"),
    "items_returned": _several("returned"),
    # what goes with one item alone, and what goes with a list
    "for_one_item": "{option} is of one item; leave it out, or name one item alone",
    "list_says_all": "--from FILE says all of it: leave out {option}",
    "costs_of_items": "several costs are of items, by number: 3 or 1-12; ask for a design alone",
}
