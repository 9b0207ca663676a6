"""`stash weigh` alone: a person's keys on a real terminal, from ball to ball."""

from __future__ import annotations

import os
import pty
import select
import signal
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

#: What stands before each answer.
ASKED = " > "
_LIMIT_S = 60
#: The end of input and Ctrl-C, and how long nothing is heard before either is typed once more.
END, STOP, _QUIET_S = "\x04", "\x03", 2


def at_the_scale(file: Path, answers: Sequence[str]) -> tuple[int, str]:
    """`stash weigh` with a terminal of its own, which Ctrl-C and Ctrl-D reach: status, screen."""
    pid, above = pty.fork()
    if pid == 0:
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # a suite in the background ignores it
        os.environ.update(STASH_FILE=str(file), NO_COLOR="1")
        os.execv(
            sys.executable,
            [sys.executable, "-c", "from stash.cli import run; run()", "weigh"],
        )
    screen, typed, end = "", 0, time.monotonic() + _LIMIT_S
    while time.monotonic() < end:
        if not select.select([above], [], [], _QUIET_S)[0]:
            if typed and answers[typed - 1] in (END, STOP):  # lost where nobody was reading yet
                os.write(above, answers[typed - 1].encode())
            continue
        try:
            screen += os.read(above, 4096).decode()
        except OSError:  # the other side is closed
            break
        if screen.count(ASKED) > typed and typed < len(answers):
            os.write(above, answers[typed].encode())
            typed += 1
    else:
        os.kill(pid, signal.SIGKILL)
    os.close(above)
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), screen


@pytest.fixture
def maker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Maker:
    """Item 1 is begun, of the part ball 1 and the whole skein 3; item 2 is only planned."""
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))
    maker = Maker(tmp_path / "shelf.stash")
    maker.does("add", "Fell Wool DK, 2 x 100g/240m, navy, lot 1")
    maker.does("add", "Fell Wool DK, 2 x 100g/240m, oatmeal, lot 2")
    maker.does("design", "add", "Hat", "--stated", "A=120m", "--stated", "B=24m")
    maker.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=3")
    maker.does("aside", "Hat", "--skeins", "A=2", "--skeins", "B=4")
    maker.does("begin", "1")
    maker.does("weigh", "1", "80g", "--opened")
    return maker


def held(maker: Maker) -> list[float]:
    return [maker.skein(number)["held_g"] for number in range(1, 5)]


def test_every_ball_that_is_worked_from_is_asked_for_and_saved_as_one_entry(maker: Maker) -> None:
    before = maker.entries()
    status, screen = at_the_scale(maker.file, ["60g\n", "20\n", "95g\n", "\n"])

    assert status == 0, screen
    assert "1 of 2" in screen
    assert "skein 4" not in screen
    assert held(maker) == [60, 100, 95, 100]
    assert maker.entries() == before + 1
    assert maker.ask("items", "--open")[0]["next"] == "finish: weigh what is left"
    maker.does("undo", "--yes")
    assert held(maker) == [80, 100, 100, 100]
    assert maker.does("check").status == 0


def test_empty_keeps_a_ball_as_it_is(maker: Maker) -> None:
    status, screen = at_the_scale(maker.file, ["\n", "95g\n", "\n"])
    assert status == 0, screen
    assert held(maker) == [80, 100, 95, 100]


@pytest.mark.parametrize("end", ["q\n", END])
def test_q_and_the_end_of_input_save_what_was_given(maker: Maker, end: str) -> None:
    before = maker.entries()
    status, screen = at_the_scale(maker.file, ["60g\n", "\n", end])
    assert status == 0, screen
    assert held(maker) == [60, 100, 100, 100]
    assert maker.entries() == before + 1


def test_ctrl_c_saves_nothing_and_says_so(maker: Maker) -> None:
    before = maker.entries()
    status, screen = at_the_scale(maker.file, ["60g\n", "20\n", STOP])
    assert status == 130
    assert "nothing" in screen.splitlines()[-1]
    assert maker.entries() == before
    assert held(maker) == [80, 100, 100, 100]


def test_a_slip_is_asked_again_at_once(maker: Maker) -> None:
    status, screen = at_the_scale(maker.file, ["sixty\n", "600g\n", "60g\n", "x\n", "q\n"])
    assert status == 0, screen
    assert held(maker) == [60, 100, 100, 100]


def test_nothing_given_writes_nothing(maker: Maker) -> None:
    before = maker.entries()
    status, screen = at_the_scale(maker.file, ["q\n"])
    assert status == 0, screen
    assert "nothing was saved" in screen
    assert maker.entries() == before


def test_without_a_terminal_it_says_what_to_type(maker: Maker) -> None:
    refused_in_one_line(maker("weigh"), 2, "12 43g")
