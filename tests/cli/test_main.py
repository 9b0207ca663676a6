"""Every command is there, and the README tells of it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker

from stash.cli.command_list import COMMANDS

README = (Path(__file__).resolve().parents[2] / "README.md").read_text()


def test_every_command_is_told_of_in_the_readme() -> None:
    assert [name for name in COMMANDS if f"stash {name}" not in README] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(nobody: Maker, name: str) -> None:
    assert f"Usage: stash {name}" in nobody.does(name, "--help").out


@pytest.mark.parametrize("typed", [(), ("design",)])
def test_without_a_command_the_help_is_shown(nobody: Maker, typed: tuple[str, ...]) -> None:
    said = nobody(*typed)

    assert (said.status, said.err) == (2, "")
    assert "Usage: stash " in said.out


def test_the_package_is_run_like_the_command(nobody: Maker) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "stash", "--help"],
        env={"PYTHONPATH": str(Path(__file__).resolve().parents[2])},
        capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert (done.returncode, done.stdout) == (0, nobody.does("--help").out)
