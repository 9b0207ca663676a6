"""What is said of a command that cannot be done."""

from __future__ import annotations

import ast
import re
from datetime import date
from pathlib import Path

import pytest

from stash.errors import BadInput, FileTrouble, StashError
from stash.rendering.sentences.commands import SENTENCES
from stash.rendering.sentences.say import sentence

STASH = Path(__file__).resolve().parents[3] / "stash"
CLI, WEB = STASH / "cli", STASH / "web"


@pytest.mark.parametrize(
    ("error", "line"),
    [
        (
            BadInput("no_whole_number", option="--count", value=0, most=10_000),
            "--count 0: use a whole number from 1 to 10000",
        ),
        (
            BadInput("from_after_to", begins=date(2026, 3, 2), ends=date(2026, 3, 1)),
            (
                "--from 2026-03-02 is after --to 2026-03-01; put the earlier day "
                "first"
            ),
        ),
        (
            BadInput("cannot_tell_apart", by="box", ways=("yarn", "lot")),
            "cannot sum by 'box'; choose yarn or lot",
        ),
        (
            BadInput("cannot_sort", by="box", orders=("name", "free", "thickness")),
            "cannot sort by 'box'; choose name, free, thickness",
        ),
        (
            FileTrouble(Path("~nobody/a"), "no_such_user"),
            "~nobody/a: no such user; type the whole path",
        ),
        (FileTrouble(Path("a"), "system_trouble", why="disk full"), "a: disk full"),
        (BadInput("no_lost_numbers", typed="{}"), (
            "cannot read '{}' after --lost; write numbers, as in 42,44, or "
            "all-missing"
        )),
    ],
)  # fmt: skip
def test_the_line_of_a_kind(error: StashError, line: str) -> None:
    assert sentence(error) == line


def test_every_line_is_of_a_kind_that_some_command_or_page_refuses() -> None:
    kinds = {
        node.value
        for path in (*CLI.glob("*.py"), *WEB.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        if re.fullmatch("[a-z]+(_[a-z]+)+", node.value)
    }

    assert SENTENCES.keys() - kinds == set()


def test_a_command_refuses_by_a_kind_that_is_known() -> None:
    refused = {
        node.args[0].value
        for path in CLI.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "refuse"
        if isinstance(node.args[0], ast.Constant) and " " not in str(node.args[0].value)
    }

    assert refused
    assert refused <= SENTENCES.keys()
