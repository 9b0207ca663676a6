"""Sentences about copies, whole files, and what is wrong inside a file."""

from __future__ import annotations

from collections.abc import Mapping

from stash.errors import FileTrouble, StashError
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering.figures import near
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.entry import Entry

#: So much of a row's name, and of what is wrong with it, says enough.
_KEY_SHOWN, _WHY_SHOWN = 40, 120


def _copy_damaged(why: Note | StashError | str) -> str:
    """The copy that was looked at lay in a folder of its own: its path would tell nothing."""
    from stash.rendering.sentences.say import sentence, worded

    words = worded(why.kind, why.facts) if isinstance(why, FileTrouble) else sentence(why)
    return f"the copy is damaged, so nothing was restored ({words}); try an older copy"


def _not_sound(finding: Note) -> str:
    return f"something in it is wrong, so nothing was imported: {sentence(finding)}"


def _entries_not_in_copy(file: str, count: int, first: Entry, newest: Entry) -> str:
    return (
        f"{file} has {_entries(count, first, newest)} the copy lacks (newest: "
        f"{sentence(newest.what)}); add --over to go back anyway, your present file is kept too"
    )


def _entries(count: int, first: Entry, newest: Entry) -> str:
    if count == 1:
        return f"1 entry ({newest.number})"
    return f"{count} entries ({first.number} to {newest.number})"


def _row_unreadable(table: str, key: object, error: str, why: Note | StashError | str) -> str:
    words = sentence(why)
    reason = f"{error}: {words}" if words else error
    shown = " ".join(reason.split())[:_WHY_SHOWN]
    return f"{table} {str(key)[:_KEY_SHOWN]} cannot be read ({shown})"


SENTENCES: Mapping[str, Words] = {
    "no_copy_there": "no copy there; check the name",
    "copy_is_the_file": "is your file itself; name a copy of it",
    "copy_damaged": _copy_damaged,
    "entries_not_in_copy": _entries_not_in_copy,
    "damaged_not_compared": (
        "{file} is damaged, so nobody can say what the copy lacks; "
        "add --over to go back anyway, the damaged file is kept too"
    ),
    "not_given_out_by_us": (
        "not a file `stash export` wrote, or from a newer stash than yours ({revision}): update it"
    ),
    "file_has_entries": (
        "{path} has entries already; import a whole file into a new one, with --file and a new name"
    ),
    "not_sound": _not_sound,
    "pages_damaged": "the file is damaged: {complaint}",
    "reference_lost": "table {table}, row {row} needs a row of {parent} that is missing",
    "guard_missing": "the safeguard {guard} is missing or altered; its rule may have been broken",
    "skein_was_below_nothing": lambda skein, held, day: (
        f"skein {skein} was {near(Mass(abs(held.mg)))} below nothing on {day}"
    ),
    "skein_does_not_add_up": ("skein {skein}: free and set aside do not add up to what it holds"),
    "promise_of_lost_skein": "skein {skein} is set aside, but its entry was cancelled",
    "promise_to_lost_item": ("item {item} was cancelled and still has yarn set aside"),
    "promise_to_closed_item": ("item {item} is {item.state} and still has yarn set aside"),
    "take_back_unbalanced": "entry {entry} cancels {wrong} and does not match it: {left} over",
    "sale_of_lost_item": "item {item} was cancelled and is still among the sales",
    "sales_out_of_turn": ("item {item} was sold twice, or returned without a sale"),
    "sold_and_not_done": "item {item} is sold but {item.state}, not done",
    "row_unreadable": _row_unreadable,
    "column_out_of_range": "{column} is {value}",
    "yarn_without_name": "it has no name",
    "plan_not_written_alike": "its plan has {key} as {value}",
    "endless_in_plan": "{value} in its plan",
    "size_without_sides": "none of its sides is known",
}
