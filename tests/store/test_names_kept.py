"""What the shell can complete: read from the file as it is, and nothing where it cannot be read."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from commands import Maker

from stash.store.names_kept import names_kept

KINDS = ["DESIGN", "ITEM", "LOT", "PLACE", "SKEIN"]


def test_every_kind_of_name_is_read(maker: Maker) -> None:
    found = {kind: names_kept(maker.file, kind) for kind in KINDS}

    assert found == {
        "DESIGN": ["Hat"],
        "ITEM": ["1"],
        "LOT": ["L1", "L2", "L3", "L4", "L5", "L6"],
        "PLACE": ["blue box"],
        "SKEIN": ["1", "2", "3", "4", "5", "6", "7", "8", "9"],
    }


def test_what_is_gone_or_undone_is_not_offered(maker: Maker) -> None:
    maker.does("design", "add", "Cowl", "--stated", "A=10m")
    maker.does("undo", "--yes")
    maker.does("gone", "5", "--why", "lost")

    assert names_kept(maker.file, "DESIGN") == ["Hat"]
    assert "5" not in names_kept(maker.file, "SKEIN")
    assert "L3" not in names_kept(maker.file, "LOT")


def test_a_kind_without_names_has_none(maker: Maker) -> None:
    assert names_kept(maker.file, "LENGTH") == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_file_that_cannot_be_read_gives_no_names(tmp_path: Path, kind: str) -> None:
    missing = tmp_path / "missing.stash"
    damaged = tmp_path / "damaged.stash"
    damaged.write_bytes(b"SQLite format 3\x00" + b"\xff" * 5000)
    older = tmp_path / "older.stash"
    with closing(sqlite3.connect(older)) as db:
        db.execute("CREATE TABLE something_else (name TEXT)")

    assert [names_kept(path, kind) for path in (missing, damaged, older, tmp_path)] == [[]] * 4
    assert not missing.exists()


def test_a_locked_file_is_not_waited_for(maker: Maker) -> None:
    with closing(sqlite3.connect(maker.file, isolation_level=None)) as db:
        db.execute("BEGIN EXCLUSIVE")
        assert names_kept(maker.file, "DESIGN") == []


def test_reading_names_changes_nothing(maker: Maker) -> None:
    before = maker.file.read_bytes()

    for kind in KINDS:
        names_kept(maker.file, kind)

    assert maker.file.read_bytes() == before
    assert [path.name for path in maker.file.parent.iterdir()] == [maker.file.name]
