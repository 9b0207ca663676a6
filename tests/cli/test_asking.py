"""Questions at a terminal: a person's keys on a real pseudo-terminal."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
import time
from pathlib import Path

import pytest

_LIMIT_S = 60


def at_a_terminal(file: Path, keys: str, *words: str) -> tuple[int, str]:
    """A command with a terminal on every side, and keys typed when it asks: status and screen."""
    above, below = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-c", "from stash.cli import run; run()", *words],
        stdin=below, stdout=below, stderr=below, close_fds=True,
        env={**os.environ, "STASH_FILE": str(file), "NO_COLOR": "1"},
    )  # fmt: skip
    os.close(below)
    screen, typed, end = "", 0, time.monotonic() + _LIMIT_S
    while time.monotonic() < end:
        ready, _, _ = select.select([above], [], [], 0.2)
        if ready:
            try:
                screen += os.read(above, 4096).decode()
            except OSError:  # the other side is closed
                break
        if screen.count("which one") > typed and typed < len(keys):
            os.write(above, f"{keys[typed]}\n".encode() if keys[typed] != "-" else b"\n")
            typed += 1
    os.close(above)
    return process.wait(timeout=_LIMIT_S), screen


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
    assert "can mean several things" in screen
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
