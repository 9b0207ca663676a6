"""No word stands on a screen that a maker would not use: every literal of the border is read."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

STASH = Path(__file__).resolve().parents[2] / "stash"
BORDER = sorted(
    file
    for folder in ("rendering", "cli", "exchange")
    for file in (STASH / folder).rglob("*.py")
    if file.name != "command_list.py"  # words that people type, of other days among them
)
#: Words of other days or of the inside of the program, and of translation.
NEVER = re.compile(
    r"\b(reckon\w*|told|is held against|mend|put right|taken back|take back|given out|taken in|"
    r"at hand|on the hook|passed over|sliver|the books|put-ups?|articles?|fineness|regain|"
    r"so much of|what there is|is so already|from now on|way out|near miss(es)?)\b|\bL\* ?\d"
)


def said(file: Path) -> Iterator[tuple[int, str]]:
    """Every literal that is no docstring, with its line."""
    tree = ast.parse(file.read_text("utf-8"))
    held = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in held:
            yield node.lineno, node.value


@pytest.mark.parametrize("folder", ["rendering", "cli", "exchange"])
def test_no_literal_of_the_border_has_a_word_a_maker_would_not_use(folder: str) -> None:
    found = [
        f"{file.relative_to(STASH)}:{line}: {text[:80]}"
        for file in BORDER
        if file.relative_to(STASH).parts[0] == folder
        for line, text in said(file)
        if text.count(" ") > 1 and NEVER.search(text)
    ]
    assert found == []
