"""Every kind that is raised or noted anywhere has its words."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import stash
from stash.rendering.sentences.say import _tables

ROOT = Path(stash.__file__).parent
#: At which place each takes its kind.
PLACE = {"Note": 0, "Reason": 0, "Fix": 0, "Refusal": 0, "BadInput": 0, "FileTrouble": 1}


def kinds() -> Iterator[str]:
    """Each kind that is written out where a note or an error is made."""
    for module in ROOT.rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                continue
            place = PLACE.get(node.func.id, len(node.args))
            kind = node.args[place] if place < len(node.args) else None
            if isinstance(kind, ast.Constant) and isinstance(kind.value, str):
                yield kind.value


def test_every_kind_has_its_words() -> None:
    assert {kind for kind in kinds() if " " not in kind} - {*_tables()} == set()
