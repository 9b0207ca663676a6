"""Every command is there, and the README tells of it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from commands import Maker

README = (Path(__file__).resolve().parents[2] / "README.md").read_text()


def commands_in(help_text: str) -> list[str]:
    """The names listed under the last heading of a help text."""
    listed = help_text.split("Commands:\n")[1]
    return re.findall(r"^ {2}([a-z]+)(?: |$)", listed, re.MULTILINE)


def test_every_command_is_told_of_in_the_readme(nobody: Maker) -> None:
    names = commands_in(nobody.does("--help").out)

    assert len(names) >= 21
    assert [name for name in names if f"stash {name}" not in README] == []


def test_every_command_explains_itself(nobody: Maker) -> None:
    for name in commands_in(nobody.does("--help").out):
        assert f"Usage: stash {name}" in nobody.does(name, "--help").out


@pytest.mark.parametrize("typed", [(), ("design",)])
def test_without_a_command_the_help_is_shown(nobody: Maker, typed: tuple[str, ...]) -> None:
    said = nobody(*typed)

    assert (said.status, said.err) == (2, "")
    assert "Commands:" in said.out
