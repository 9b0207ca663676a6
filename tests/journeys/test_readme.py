"""The session in the README, typed in order on a fresh file."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

from commands import Maker

README = Path(__file__).resolve().parents[2] / "README.md"


def session() -> list[tuple[list[str], str]]:
    """Each command of the session with what the README says it answers."""
    block = README.read_text().split("<!-- session -->")[1].split("```")[1]
    steps = re.split(r"^\$ stash ", block, flags=re.MULTILINE)[1:]
    lines = [step.split("\n", 1) for step in steps]
    return [(shlex.split(typed), answer) for typed, answer in lines]


def plain(text: str) -> list[str]:
    """Lines without their spacing; a day is a day."""
    spaced = re.sub(r"\d{4}-\d{2}-\d{2}", "DAY", text)
    return [" ".join(line.split()) for line in spaced.splitlines() if line.strip()]


def test_the_session_answers_as_the_readme_says(nobody: Maker) -> None:
    steps = session()

    for typed, answer in steps:
        assert plain(nobody.does(*typed).out) == plain(answer), typed
    assert len(steps) > 8
