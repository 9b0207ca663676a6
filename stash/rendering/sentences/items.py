"""Sentences about several items in one entry, and about lists that they come in."""

from __future__ import annotations

from collections.abc import Mapping

from stash.errors import StashError
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
    "sold_in_two_rows": "item {item} is sold in two rows; leave one of them out",
    "ball_twice": "ball {ball} of item {item} is in two rows; leave one of them out",
}
