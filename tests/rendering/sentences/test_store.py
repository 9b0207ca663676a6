"""The words of trouble with a file."""

from __future__ import annotations

from datetime import date

import pytest

from stash.errors import BadInput, Damaged, FileTrouble, NewerFile, NotAStash, Refusal, StashError
from stash.measures.mass import grams
from stash.rendering.sentences.say import sentence


@pytest.mark.parametrize(
    ("trouble", "words"),
    [
        (
            FileTrouble("shelf.stash", "busy"),
            "shelf.stash: another program is writing to it; try again in a moment",
        ),
        (
            FileTrouble("a.csv", "system_error", why="File name too long"),
            "a.csv: File name too long",
        ),
        (
            FileTrouble("a-wal", "belongs_to_a_stash", owner="a"),
            "a-wal: belongs to the stash file a; name another",
        ),
        (
            NotAStash("notes.txt"),
            ("notes.txt is not a stash file; name another with --file, or a new path to start one"),
        ),
        (
            NewerFile("shelf.stash", "9999"),
            (
                "shelf.stash was written by a newer stash (revision 9999); nothing "
                "was touched: update your stash"
            ),
        ),
        (
            FileTrouble("copy.stash", "copy_damaged", why=Damaged("elsewhere/copy.stash")),
            (
                "copy.stash: the copy is damaged, so nothing was restored (the file "
                "is damaged; go back to a copy with `stash restore`); try an older "
                "copy"
            ),
        ),
        (
            BadInput("table_lacks_column", table="lot", column="a {b}"),
            "table lot cannot be imported: it has no column 'a {b}'",
        ),
        (
            Refusal("skein_below_nothing_on", skein=3, held=-grams(2), day=date(2026, 5, 31)),
            (
                "skein 3 would be 2 g below nothing on 2026-05-31; choose a day "
                "after the yarn came, or less yarn"
            ),
        ),
    ],
)
def test_what_is_said_of_a_file(trouble: StashError, words: str) -> None:
    assert sentence(trouble) == words
