"""Words completed by Tab, as the shell asks for them: a process of its own for each key press."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
from pathlib import Path
from unittest.mock import patch

import pytest
from commands import Maker

from stash.cli.complete import answer_tab

ROOT = Path(__file__).resolve().parents[2]
#: What the house allows a key press, Python's own start among it.
MOST_S = 0.1


@pytest.fixture(scope="module")
def script() -> str:
    from stash.cli.completing import script_for

    return script_for("bash")


@pytest.fixture(scope="module")
def words(script: str) -> str:
    """What a shell keeps of `stash completion`."""
    return script.partition("_stash_words='")[2].partition("'")[0]


def completed(
    capsys: pytest.CaptureFixture[str], words: str, *typed: str, shell: str = "zsh"
) -> list[str]:
    with patch.dict(os.environ, {"STASH_WORDS": words}):
        answer_tab(shell, [*typed])
    said = capsys.readouterr()
    assert said.err == ""
    return said.out.splitlines()


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        (("ma",), ["match"]),
        (("design", "s"), ["show"]),
        (("help", "ma"), ["match"]),
        (("match", "h"), ["Hat"]),
        (("match", "Hat", "--not-"), ["--not-colour", "--not-in"]),
        (("match", "--with", "A=L1"), ["A=L1"]),
        (("match", "--with=A=L1"), ["--with=A=L1"]),
        (("match", "--margin", "10%", "H"), ["Hat"]),
        (("design", "change", "H"), ["Hat"]),
        (("change", "1", "--place", "BL"), ["blue box"]),
        (("count", ""), ["blue box"]),
        (("count", "blue box", "--tick", "1,2"), ["1,2"]),
        (("aside", "Hat", "1", "--skeins", "B=4,5"), ["B=4,5"]),
        (("weigh", "9"), ["9"]),
        (("weigh", "9", ""), []),
        (("use", "9", "5g", "--for", ""), ["1"]),
        (("begin", ""), ["1"]),
        (("gone", "1", "--why", "s"), ["sold", "spoilt"]),
        (("shelf", "--as", ""), ["text", "json", "csv"]),
        (("match", "Hat", "--contrast", "s"), ["soft"]),
        (("need", "--shape", "s"), ["sideways-hat", "scarf", "square", "sock"]),
        (("settings", "con"), ["contrast", "contact"]),
        (("settings", "units", ""), ["metric", "us", "usual"]),
        (("settings", "colour-vision", "p"), ["protan"]),
        (("settings", "wage", ""), []),
        (("export", ""), []),
        (("frobnicate", ""), []),
    ],
)
def test_a_word_is_completed_by_what_may_stand_there(
    maker: Maker,
    capsys: pytest.CaptureFixture[str],
    words: str,
    typed: tuple[str, ...],
    found: list[str],
) -> None:
    assert completed(capsys, words, *typed) == found


def test_the_file_named_in_the_line_is_looked_at(
    nobody: Maker, stocked: Path, capsys: pytest.CaptureFixture[str], words: str
) -> None:
    assert completed(capsys, words, "match", "") == []
    assert completed(capsys, words, "match", "--file", str(stocked), "") == ["Hat"]


@pytest.mark.parametrize("broken", ["match", "match\t", "\t\t\t\t", "match\tX\t=\n"])
def test_words_of_another_version_complete_nothing(
    nobody: Maker, capsys: pytest.CaptureFixture[str], broken: str
) -> None:
    assert completed(capsys, broken, "match", "--a") in ([], ["--a"])


def asked_in_bash(file: Path, script: str, *typed: str) -> list[str]:
    """What bash itself gets for these words, the last of them being typed."""
    program = f'{script}\nCOMP_WORDS=("$@"); COMP_CWORD=$(($#-1)); _stash\n'
    program += "printf '%s\\n' \"${COMPREPLY[@]}\""
    bin_first = f"{Path(sys.executable).parent}:{os.environ['PATH']}"
    done = subprocess.run(
        ["bash", "-c", program, "bash", "stash", *typed],
        env={**os.environ, "STASH_FILE": str(file), "PATH": bin_first},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.stderr == ""
    return [line for line in done.stdout.split("\n") if line]


@pytest.mark.skipif(shutil.which("bash") is None, reason="needs bash")
@pytest.mark.parametrize(
    ("typed", "found"),
    [
        (("ma",), ["match"]),
        (("need", "Win"), ["Winter\\ hat"]),
        (("need", '"Win'), ["Winter hat"]),
        (("need", "Winter\\ h"), ["Winter\\ hat"]),
        (("match", "--with", "A", "=", "L2"), ["L2"]),
        (("change", "1", "--place", "b"), ["blue\\ box"]),
    ],
)
def test_bash_gets_words_as_they_must_be_typed(
    maker: Maker, script: str, typed: tuple[str, ...], found: list[str]
) -> None:
    maker.does("design", "add", "Winter hat", "--stated", "A=10m")

    assert asked_in_bash(maker.file, script, *typed) == found


def pressed(file: Path, words: str, *typed: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", "from stash.cli import run; run()", "--complete", "bash", *typed],
        env={"PYTHONPATH": str(ROOT), "STASH_FILE": str(file), "STASH_WORDS": words},
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def processor_s() -> float:
    """What the processes that ended so far have taken of the processor."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def test_a_key_press_is_answered_before_a_person_notices(maker: Maker, words: str) -> None:
    """By the processor's time, the least of five: other work on the machine does not count."""
    times = []
    for _ in range(5):
        begun = processor_s()
        assert pressed(maker.file, words, "match", "H").stdout == "Hat\n"
        times.append(processor_s() - begun)

    assert min(times) < MOST_S


@pytest.mark.parametrize("typed", [("match", "H"), ("weigh", ""), ("match", "--a"), ("m",)])
def test_a_key_press_loads_neither_the_command_library_nor_the_database_library(
    maker: Maker, words: str, typed: tuple[str, ...]
) -> None:
    look = "import sys; from stash.cli import run\ntry: run()\nfinally: print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", look, "--complete", "bash", *typed],
        env={"PYTHONPATH": str(ROOT), "STASH_FILE": str(maker.file), "STASH_WORDS": words},
        capture_output=True, text=True, check=False,
    )  # fmt: skip

    loaded = done.stdout.split()
    assert "stash.cli.complete" in loaded
    assert {"typer", "click", "sqlalchemy", "pint"} & set(loaded) == set()


@pytest.mark.parametrize("kind", ["missing", "damaged", "folder"])
def test_trouble_with_the_file_writes_nothing_on_the_screen(
    tmp_path: Path, words: str, kind: str
) -> None:
    file = tmp_path / "shelf.stash"
    if kind == "damaged":
        file.write_bytes(os.urandom(9000))
    elif kind == "folder":
        file.mkdir()

    done = pressed(file, words, "match", "H")

    assert (done.stdout, done.stderr) == ("", "")
