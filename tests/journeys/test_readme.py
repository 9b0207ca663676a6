"""The sessions in the README, each typed in order on a fresh file."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from commands import Maker

README = Path(__file__).resolve().parents[2] / "README.md"


def sessions() -> list[list[tuple[list[str], str]]]:
    """Each command of each session with what the README says it answers."""
    blocks = [rest.split("```")[1] for rest in README.read_text().split("<!-- session -->")[1:]]
    return [
        [
            (shlex.split(typed), answer)
            for typed, answer in (
                step.split("\n", 1)
                for step in re.split(r"^\$ stash ", block, flags=re.MULTILINE)[1:]
            )
        ]
        for block in blocks
    ]


def plain(text: str) -> list[str]:
    """Lines without their spacing; a day is a day."""
    spaced = re.sub(r"\d{4}-\d{2}-\d{2}", "DAY", text)
    return [" ".join(line.split()) for line in spaced.splitlines() if line.strip()]


@pytest.mark.parametrize("steps", sessions(), ids=["metric", "us"])
def test_a_session_answers_as_the_readme_says(
    nobody: Maker, steps: list[tuple[list[str], str]]
) -> None:
    for typed, answer in steps:
        assert plain(nobody.does(*typed).out) == plain(answer), typed
    assert len(steps) > 3


def test_no_cell_of_a_table_is_wider_than_a_line() -> None:
    rows = [line for line in README.read_text().splitlines() if line.startswith("|")]
    assert [row for row in rows if len(row) > 100] == []
