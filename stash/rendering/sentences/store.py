"""Sentences about the stash file."""

from __future__ import annotations

from collections.abc import Mapping

from stash.measures.mass import Mass
from stash.rendering.figures import near
from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {
    "busy": "another program is writing to it; try again in a moment",
    "taken_away": "another program moved it just now; try again",
    "read_only": "the file is read-only; check its permissions",
    "disk_full": "the disk is full; nothing was saved",
    "cannot_be_used": "cannot be opened ({why}); name another with --file",
    "cannot_be_copied": "cannot be copied ({why}); check the folder",
    "cannot_be_made": "cannot be made here ({why}); name another place",
    "cannot_be_written": "cannot be written ({why}); name another place",
    "system_error": "{why}",
    "old_sqlite": "SQLite 3.37 or newer is needed, this is {version}; install a newer Python",
    "folder_not_a_stash": "is a folder; name a file in it, like shelf.stash",
    "no_stash_yet": "no stash there yet; start one with `stash add` or `stash import`",
    "upgrade_loses_references": (
        "the upgrade would lose something, so nothing was changed; keep this file and report it"
    ),
    "file_exists": "that file exists; name another, or add --over to replace it",
    "link_in_a_circle": "is a link that leads back to itself; name another",
    "is_a_folder": "is a folder; name a file in it",
    "no_folder_for_it": "has no folder yet; make the folder first",
    "no_ordinary_file": "is not an ordinary file; name another",
    "belongs_to_a_stash": "belongs to the stash file {owner}; name another",
    "is_a_stash": "is a stash file, which is never overwritten; name another",
    "table_not_taken_in": "table {table} cannot be imported: {why}",
    "no_such_table": "{table!r} is not a table of that version of stash",
    "table_lacks_column": "table {table} cannot be imported: it has no column {column!r}",
    "skein_below_nothing_on": lambda skein, held, day: (
        f"skein {skein} would be {near(Mass(abs(held.mg)))} below nothing on {day}; "
        "choose a day after the yarn came, or less yarn"
    ),
}
