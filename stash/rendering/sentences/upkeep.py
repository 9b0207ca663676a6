"""Sentences about copies, whole files, and what is wrong inside a file."""

from __future__ import annotations

from collections.abc import Mapping

from stash.errors import FileTrouble, StashError
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.entry import Entry

#: So much of a row's name, and of what is wrong with it, says enough.
_KEY_SHOWN, _WHY_SHOWN = 40, 120


def _copy_damaged(why: Note | StashError | str) -> str:
    """The copy that was looked at lay in a folder of its own: its path would tell nothing."""
    from stash.rendering.sentences.say import sentence, worded

    words = worded(why.kind, why.facts) if isinstance(why, FileTrouble) else sentence(why)
    return f"the copy is damaged, nothing was put back ({words})"


def _not_sound(finding: Note) -> str:
    return f"it is not sound, nothing was taken in: {sentence(finding)}"


def _entries_not_in_copy(file: str, count: int, first: Entry, newest: Entry) -> str:
    return (
        f"{file} holds entries that the copy does not have, {count} of them from "
        f"{first.number} to {newest.number} (newest: {sentence(newest.what)}); "
        "say --over to go back all the same, a copy of what is there now is kept beside it"
    )


def _row_unreadable(table: str, key: object, error: str, why: Note | StashError | str) -> str:
    words = sentence(why)
    reason = f"{error}: {words}" if words else error
    shown = " ".join(reason.split())[:_WHY_SHOWN]
    return f"{table} {str(key)[:_KEY_SHOWN]} cannot be read ({shown})"


SENTENCES: Mapping[str, Words] = {
    "no_copy_there": "there is no copy there",
    "copy_is_the_file": "is the file itself, not a copy of it; name a copy",
    "copy_damaged": _copy_damaged,
    "entries_not_in_copy": _entries_not_in_copy,
    "damaged_not_compared": (
        "{file} is damaged, so its entries cannot be compared with the copy's; "
        "say --over to go back all the same, what is there now is kept beside it"
    ),
    "not_given_out_by_us": (
        "this version takes in what `stash export` gave out up to revision {revision}"
    ),
    "file_has_entries": (
        "{path} holds entries already; take a whole file into an empty one, "
        "with --file and a new name"
    ),
    "not_sound": _not_sound,
    "pages_damaged": "the file is damaged: {complaint}",
    "reference_lost": "table {table}, row {row} refers to a row of {parent} that is not there",
    "guard_missing": "{guard} is missing or altered; the rule it holds may have been broken",
    "skein_was_below_nothing": "skein {skein} held {held} on {day}, less than nothing",
    "skein_does_not_add_up": ("skein {skein}: set aside and free do not add up to what is held"),
    "promise_of_lost_skein": "skein {skein} is promised but was taken back",
    "promise_to_lost_item": ("item {item} was taken back and still has yarn set aside"),
    "promise_to_closed_item": ("item {item} is {item.state} and still has yarn set aside"),
    "take_back_unbalanced": "entry {entry} takes back {wrong} and leaves {left} over",
    "sale_of_lost_item": "item {item} was taken back and is still in the sales",
    "sales_out_of_turn": ("item {item} was sold twice, or returned without being sold"),
    "sold_and_not_done": "item {item} is sold and {item.state}",
    "row_unreadable": _row_unreadable,
    "column_out_of_range": "{column} is {value}",
    "yarn_without_name": "it has no name",
    "plan_not_written_alike": "{key} of its plan is {value}",
    "endless_in_plan": "{value} in its plan",
    "size_without_sides": "no side of it is known",
}
