"""Questions at a terminal: a person's keys on a real pseudo-terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker, at_a_terminal


def held(file: Path) -> str:
    """What the shelf shows."""
    done = subprocess.run(
        [sys.executable, "-c", "from stash.cli import run; run()", "shelf"],
        env={**os.environ, "STASH_FILE": str(file)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.stdout


@pytest.mark.parametrize(("key", "shown"), [("1", "4 whole"), ("2", "worsted (4)"), ("3", "no. 4")])
def test_the_reading_that_is_chosen_is_the_one_that_comes_in(
    tmp_path: Path, key: str, shown: str
) -> None:
    file = tmp_path / "shelf.stash"
    status, screen = at_a_terminal(file, key, "add", "Fern, 50g, 4")

    assert status == 0, screen
    assert "1  4 skeins" in screen
    assert shown.replace("4 whole", "1-4 whole") in held(file)


def test_enter_alone_writes_nothing(tmp_path: Path) -> None:
    file = tmp_path / "shelf.stash"
    status, screen = at_a_terminal(file, "-", "add", "Fern, 50g, 4")

    assert status == 2
    assert "type the one you mean" in screen
    assert not file.exists()


def test_one_line_may_be_asked_about_twice(tmp_path: Path) -> None:
    file = tmp_path / "shelf.stash"
    status, screen = at_a_terminal(file, "112", "add", "Fern, 50g, 4, $3")

    assert status == 0, screen
    assert screen.count("which one") == 3  # how many, of which currency, and for how many
    assert "1-4 whole" in held(file)


def test_which_of_two_yarns_is_asked_and_done(tmp_path: Path) -> None:
    file = tmp_path / "shelf.stash"
    at_a_terminal(file, "", "add", "Fern DK, 50g/120m, navy, lot 7")
    status, screen = at_a_terminal(file, "1", "add", "Fern, navy, lot 7, 50g")

    assert status == 0, screen
    assert "1-2 whole" in held(file)


def test_which_of_several_shapes_and_ages_is_asked_one_after_the_other(tmp_path: Path) -> None:
    hat = ("--shape", "hat", "--size", "toddler", "--fabric", "1 hdc", "--thickness", "DK")
    status, screen = at_a_terminal(tmp_path / "shelf.stash", "22", "need", *hat)

    assert status == 0, screen
    assert "2  round hat" in screen
    assert "Fits a child of 2 years" in screen


def test_which_of_several_designs_is_asked(tmp_path: Path) -> None:
    file = tmp_path / "shelf.stash"
    for name, size in (("Big", "woman"), ("Wee", "2T")):
        plan = ("--shape", "beanie", "--size", size, "--fabric", "1 hdc", "--thickness", "DK")
        at_a_terminal(file, "", "design", "add", name, *plan)
    status, screen = at_a_terminal(file, "2", "need", "beanie")

    assert status == 0, screen
    assert "2  Wee" in screen
    assert "Fits a child of 2 years" in screen


@pytest.mark.parametrize(("key", "entries"), [("y", 9), ("n", 8), ("-", 8)])
def test_undo_at_a_terminal_shows_the_entry_and_asks_no_being_the_default(
    maker: Maker, key: str, entries: int
) -> None:
    status, screen = at_a_terminal(maker.file, key, "undo", asked="Undo this?")

    assert status == 0, screen
    assert "Entry 8, " in screen
    assert "[y/N]" in screen
    assert maker.entries() == entries


def test_undo_at_a_terminal_asks_nothing_with_yes(maker: Maker) -> None:
    status, screen = at_a_terminal(maker.file, "", "undo", "--yes", asked="Undo this?")

    assert status == 0, screen
    assert "Undo this?" not in screen
    assert maker.entries() == 9
