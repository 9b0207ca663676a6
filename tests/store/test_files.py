"""Files written whole or not at all, never over what is there unasked, never over a stash."""

from __future__ import annotations

import os
import sys
import threading
from pathlib import Path

import pytest
from books import a_full_book
from commands import Maker, refused_in_one_line

from stash.errors import FileTrouble
from stash.store import files

PLAN = ("batch", "--want", "Hat=1", "--save")
TAG = ("tag", "1", "--print")

#: Every command that writes a file she names, up to where its name stands.
WRITES = {
    "csv": ("export",),
    "xlsx": ("export",),
    "json": ("export",),
    "plan": PLAN,
    "txt": TAG,
}
OVER = {kind: (*words, "--over") for kind, words in WRITES.items()}


@pytest.fixture
def finished(maker: Maker) -> Maker:
    """A hat that is done, so that there is something to print, and yarn for another."""
    maker.does("done", "1", "--as-planned")
    return maker


def left_beside(folder: Path) -> list[str]:
    return [one.name for one in folder.iterdir() if "part" in one.name or "put-back" in one.name]


@pytest.mark.parametrize("kind", WRITES)
def test_no_command_writes_over_a_file_unasked(finished: Maker, kind: str) -> None:
    target = finished.file.with_name(f"dear.{kind}")
    target.write_text("dear")

    refused_in_one_line(finished(*WRITES[kind], str(target)), 5, "exists", "--over")
    kept = target.read_text()
    finished.does(*WRITES[kind], str(target), "--over")

    assert kept == "dear"
    assert target.read_bytes() != b"dear"
    assert left_beside(target.parent) == []


@pytest.mark.parametrize("kind", WRITES)
@pytest.mark.parametrize("how", ["itself", "link", "second name", "by another way", "another one"])
def test_no_command_writes_over_a_stash_whatever_is_said(
    finished: Maker, tmp_path: Path, kind: str, how: str
) -> None:
    (tmp_path / "deep").mkdir()
    target = tmp_path / f"other.{kind}"
    match how:
        case "link":
            target.symlink_to(finished.file)
        case "second name":
            target.hardlink_to(finished.file)
        case "another one":
            target.write_bytes(finished.file.read_bytes())
        case "by another way":
            target = tmp_path / "deep" / ".." / f"shelf.{kind}"
            target.symlink_to(finished.file)
        case _:
            renamed = tmp_path / f"shelf.{kind}"
            finished.file.rename(renamed)
            target = renamed
    file = ("--file", str(target)) if how == "itself" else ()
    before = target.read_bytes()

    said = finished(*WRITES[kind], str(target), "--over", *file)

    refused_in_one_line(said, 5, "is a stash file", "name another")
    assert target.read_bytes() == before


@pytest.mark.parametrize("ending", ["-journal", "-wal", "-shm"])
def test_what_belongs_to_a_stash_is_not_written(tmp_path: Path, ending: str) -> None:
    book = a_full_book(tmp_path / "shelf.stash")

    with pytest.raises(FileTrouble) as refused:
        files.write_whole(Path(f"{book.path}{ending}"), b"x", over=True)

    assert (refused.value.kind, refused.value.facts) == (
        "belongs_to_a_stash",
        {"owner": "shelf.stash"},
    )
    files.write_whole(tmp_path / f"notes{ending}", b"x", over=False)


#: Python up to 3.12 finds the circle by itself.
_CIRCLE = "cannot_be_written" if sys.version_info < (3, 13) else "link_in_a_circle"


@pytest.mark.parametrize(
    ("make", "kind"),
    [
        (lambda path: path.mkdir(), "is_a_folder"),
        (lambda path: os.mkfifo(path), "no_ordinary_file"),
        (lambda path: path.symlink_to("/dev/null"), "no_ordinary_file"),
        (lambda path: path.symlink_to("/dev/full"), "no_ordinary_file"),
        (lambda path: path.symlink_to(path), _CIRCLE),
        (lambda path: path.symlink_to("nowhere/else.csv"), "no_folder_for_it"),
    ],
)
def test_what_is_no_ordinary_file_is_left_alone(tmp_path: Path, make: object, kind: str) -> None:
    make(tmp_path / "odd.csv")  # type: ignore[operator]

    with pytest.raises(FileTrouble) as refused:
        files.write_whole(tmp_path / "odd.csv", b"x", over=True)

    assert refused.value.kind == kind


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("a" * 300, "cannot_be_written"),
        ("nul\0.csv", "cannot_be_written"),
        ("no/such/folder.csv", "no_folder_for_it"),
    ],
)
def test_a_name_that_cannot_be_is_trouble(tmp_path: Path, name: str, kind: str) -> None:
    with pytest.raises(FileTrouble) as refused:
        files.write_whole(tmp_path / name, b"x", over=True)

    assert refused.value.kind == kind


def test_a_link_leads_to_what_it_points_at(tmp_path: Path) -> None:
    (tmp_path / "real.csv").write_text("old")
    (tmp_path / "link.csv").symlink_to("real.csv")

    files.write_whole(tmp_path / "link.csv", b"new", over=True)

    assert (tmp_path / "link.csv").is_symlink()
    assert (tmp_path / "real.csv").read_text() == "new"


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_what_breaks_off_leaves_what_was_there(tmp_path: Path, error: BaseException) -> None:
    target = tmp_path / "dear.csv"
    target.write_text("dear")

    def half(beside: Path) -> None:
        beside.write_text("ha")
        raise error

    with pytest.raises((FileTrouble, KeyboardInterrupt)):
        files.write_with(target, half, over=True)

    assert target.read_text() == "dear"
    assert left_beside(tmp_path) == []


def test_what_comes_there_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    target = tmp_path / "new.csv"

    def slow(beside: Path) -> None:
        beside.write_text("mine")
        target.write_text("somebody else's")

    with pytest.raises(FileTrouble) as refused:
        files.write_with(target, slow, over=False)

    assert refused.value.kind == "file_exists"
    assert target.read_text() == "somebody else's"


def test_of_many_at_once_one_writes_and_the_others_are_told(tmp_path: Path) -> None:
    told: list[object] = []

    def one(text: str) -> None:
        beside = tmp_path / f"{text}.done"
        beside.write_text(text)
        try:
            files._put_in_place(beside, tmp_path / "new.csv", over=False)
            told.append(text)
        except FileExistsError:
            pass

    threads = [threading.Thread(target=one, args=(str(n),)) for n in range(16)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert len(told) == 1
    assert (tmp_path / "new.csv").read_text() == told[0]


def test_who_may_read_it_stays_as_it_was(tmp_path: Path) -> None:
    target = tmp_path / "mine.csv"
    target.write_text("old")
    target.chmod(0o600)

    files.write_whole(target, b"new", over=True)

    assert target.stat().st_mode & 0o777 == 0o600
