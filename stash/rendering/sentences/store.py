"""Sentences about the stash file."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {
    "busy": "another program is writing to it; try again in a moment",
    "taken_away": "another program took it away just now; try again",
    "read_only": "the file may not be written to; check its permissions",
    "disk_full": "the disk is full; nothing was booked",
    "cannot_be_used": "cannot be used ({why})",
    "cannot_be_copied": "cannot be copied ({why})",
    "cannot_be_made": "cannot be made ({why})",
    "cannot_be_written": "cannot be written ({why})",
    "system_error": "{why}",
    "old_sqlite": "SQLite 3.37 or newer is needed, here is {version}",
    "folder_not_a_stash": "is a folder; name a file in it, as in shelf.stash",
    "no_stash_yet": "no stash there yet; begin one with `stash add` or `stash import`",
    "upgrade_loses_references": "the upgrade would lose references; nothing was changed",
    "file_exists": "there is a file already; name another, or say --over",
    "link_in_a_circle": "cannot be written: its link leads in a circle",
    "is_a_folder": "is a folder; name a file in it",
    "no_folder_for_it": "cannot be written: its folder is not there; make it first",
    "no_ordinary_file": "is no ordinary file; name another",
    "belongs_to_a_stash": "belongs to the stash file {owner}; name another",
    "is_a_stash": "is a stash file, and nothing is written over one; name another",
    "table_not_taken_in": "table {table} cannot be taken in: {why}",
    "no_such_table": "{table!r} is no table of a stash file of its version",
    "table_lacks_column": "table {table} cannot be taken in: it has no column {column!r}",
    "skein_below_nothing_on": (
        "skein {skein} would have held {held} on {day}: date it after the yarn came, or book less"
    ),
}
