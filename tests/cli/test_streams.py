"""Outputs that are full or closed: one line that says what became of the command, no traceback."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

ADD = ("add", "Fell Wool DK 50g/120m, rust, lot 3")

pytestmark = pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")


def redirected(where: str, *words: str, file: Path | str) -> subprocess.CompletedProcess[str]:
    """A process of its own with its streams redirected as a shell does it."""
    program = "from stash.cli import run; run()"
    return subprocess.run(
        ["sh", "-c", f'exec "$0" -c "{program}" "$@" {where}', sys.executable, *words],
        env={"PYTHONPATH": str(Path(__file__).resolve().parents[2]), "STASH_FILE": str(file)},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.parametrize("where", [">/dev/full", ">&-", "1</dev/null", "<&- >&-"])
@pytest.mark.parametrize(
    "words",
    [ADD, ("use", "2", "5g"), ("weigh", "1", "38g", "--for", "hat"),
     ("gone", "7", "--why", "given"), ("settings", "units", "us"), ("undo",),
     ("done", "hat", "--as-planned")],
    ids=lambda words: words[0],
)  # fmt: skip
def test_an_entry_that_is_booked_is_said_to_be(
    maker: Maker, where: str, words: tuple[str, ...]
) -> None:
    before = maker.entries()

    said = redirected(where, *words, file=maker.file)

    assert maker.entries() == before + 1
    assert said.returncode == 5
    assert said.stderr.startswith(f"stash: entry {before + 1} is saved, but the answer could not")
    assert said.stderr.count("\n") == 1


@pytest.mark.parametrize("where", [">/dev/full", ">&-", "1</dev/null", ">&- <&-"])
@pytest.mark.parametrize(
    "words",
    [("shelf",), ("shelf", "--as", "json"), ("log", "--as", "csv"), ("match", "Hat"), ("check",),
     ("need", "Hat"), ("--help",), ("weigh", "--help"), (), ("batch", "--want", "Hat=1")],
    ids=" ".join,
)  # fmt: skip
def test_an_answer_that_cannot_be_written_is_one_line(
    maker: Maker, where: str, words: tuple[str, ...]
) -> None:
    said = redirected(where, *words, file=maker.file)

    assert said.returncode == 5
    assert said.stderr.startswith("stash: the answer could not be written (")
    assert said.stderr.count("\n") == 1


@pytest.mark.parametrize("where", ["2>/dev/full", "2>&-", "2>&- <&-"])
def test_where_nobody_can_be_told_the_status_says_it(maker: Maker, where: str) -> None:
    assert redirected(where, "show", "99", file=maker.file).returncode == 3
    assert redirected(where, "frobnicate", file=maker.file).returncode == 2
    assert redirected(where, "shelf", file=maker.file).stdout.endswith("as far as known\n")
    assert redirected(where, "match", "Hat", file=maker.file).returncode == 0


@pytest.mark.parametrize("where", [">&- 2>&-", ">&- 2>&- <&-", ">/dev/full 2>/dev/full", "<&-"])
def test_the_file_is_never_opened_as_an_output(maker: Maker, where: str) -> None:
    """With 0, 1 or 2 closed a file that is opened takes that number, and prints go into it."""
    before = maker.entries()

    redirected(where, *ADD, file=maker.file)

    assert maker.entries() == before + 1
    assert maker.does("check").out.startswith("All good")


def test_lines_are_read_from_a_closed_input_as_none(maker: Maker) -> None:
    said = redirected("<&-", "add", "-", file=maker.file)

    assert said.returncode == 2
    assert said.stderr.count("\n") == 1


@pytest.mark.parametrize(
    "name", ["~nobody-of-that-name/x", "~nobody-of-that-name", "~nobody-x/../y"]
)
def test_a_folder_of_nobody_is_one_line(name: str) -> None:
    for words in (("shelf",), ADD, ("restore", "x.stash"), ("settings",)):
        said = redirected("", *words, file=name)

        assert said.returncode == 5
        assert said.stderr == f"stash: {name}: no such user; type the whole path\n"


def test_a_command_stopped_after_its_entry_says_that_it_is_booked(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("stash.rendering.weigh.text", stopped)
    before = maker.entries()

    said = maker("weigh", "1", "38g", "--for", "hat")

    refused_in_one_line(said, 130, f"stopped, but entry {before + 1} is saved already")
    assert maker.entries() == before + 1
