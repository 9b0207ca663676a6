"""Which file a command works on, and what it says of a file it cannot use."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from commands import Maker, refused_in_one_line

LOOK = ("shelf",)
BRING = ("add", "Skerry 50g/120m")


def test_a_file_named_stands_above_the_variable(maker: Maker, tmp_path: Path) -> None:
    other = Maker(tmp_path / "other.stash")
    maker.does(*BRING, "--file", str(other.file))

    assert other.entries() == 1
    assert len(maker.ask("shelf", "--file", str(other.file))) == 1
    assert len(maker.ask("shelf")) == 6


def test_without_either_the_file_lies_in_the_users_own_data(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    # XDG base directory specification: $XDG_DATA_HOME holds the user's own data
    monkeypatch.delenv("STASH_FILE")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    maker = Maker(tmp_path)

    maker.does(*BRING)

    assert len(list(tmp_path.rglob("shelf.stash"))) == 1
    assert len(maker.ask("shelf")) == 1


def test_a_file_is_begun_with_its_folder(tmp_path: Path) -> None:
    file = tmp_path / "new" / "folder" / "shelf.stash"

    Maker(file).does(*BRING, "--file", str(file))

    assert file.exists()


def test_an_empty_file_is_begun(nobody: Maker) -> None:
    nobody.file.touch()

    refused_in_one_line(nobody(*LOOK), 5, "stash add")
    nobody.does(*BRING)


@pytest.mark.parametrize("typed", [LOOK, BRING], ids=" ".join)
def test_a_file_of_another_kind_is_left_alone(nobody: Maker, typed: tuple[str, ...]) -> None:
    nobody.file.write_text("dear diary")

    refused_in_one_line(nobody(*typed), 5, "not a stash file", "--file")

    assert nobody.file.read_text() == "dear diary"


@pytest.mark.parametrize("typed", [LOOK, BRING], ids=" ".join)
def test_another_programs_books_are_left_alone(nobody: Maker, typed: tuple[str, ...]) -> None:
    with closing(sqlite3.connect(nobody.file)) as db:
        db.execute("CREATE TABLE diary (page TEXT)")
    before = nobody.file.read_bytes()

    refused_in_one_line(nobody(*typed), 5, "not a stash file")

    assert nobody.file.read_bytes() == before


@pytest.mark.parametrize("typed", [LOOK, BRING], ids=" ".join)
def test_a_newer_file_is_left_alone(maker: Maker, typed: tuple[str, ...]) -> None:
    with closing(sqlite3.connect(maker.file)) as db:
        db.execute("UPDATE alembic_version SET version_num = '9999'")
        db.commit()
    before = maker.file.read_bytes()

    refused_in_one_line(maker(*typed), 5, "a newer stash", "9999", "update your stash")

    assert maker.file.read_bytes() == before


@pytest.mark.parametrize("typed", [LOOK, BRING], ids=" ".join)
def test_a_damaged_file_is_told_in_one_line(maker: Maker, typed: tuple[str, ...]) -> None:
    with maker.file.open("r+b") as opened:
        opened.seek(4096)
        opened.write(os.urandom(30_000))

    refused_in_one_line(maker(*typed), 5, "damaged")


@pytest.mark.parametrize("typed", [LOOK, BRING], ids=" ".join)
def test_a_folder_is_no_file(nobody: Maker, typed: tuple[str, ...]) -> None:
    nobody.file.mkdir()

    refused_in_one_line(nobody(*typed), 5, "is a folder; name a file")


def test_a_name_that_is_too_long_is_told_in_one_line(nobody: Maker) -> None:
    refused_in_one_line(nobody("shelf", "--file", "n" * 300), 5, "too long")


def test_where_nothing_may_be_written_that_is_said(
    stocked: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with TemporaryDirectory() as folder:
        maker = Maker(Path(folder) / "shelf.stash").copy_of(stocked)
        monkeypatch.setenv("STASH_FILE", str(maker.file))
        maker.does("use", "2", "5g")  # all that the command needs is loaded from here on
        maker.file.chmod(0o444)
        Path(folder).chmod(0o555)
        with as_an_ordinary_user():
            refused_in_one_line(maker("use", "2", "5g"), 5, "permissions")
            assert maker("shelf").status == 0
        Path(folder).chmod(0o755)
        assert maker.entries() == 9


@contextmanager
def as_an_ordinary_user() -> Iterator[None]:
    """Whoever may write everywhere may not for a while."""
    before = os.geteuid()
    if before == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(before)
