"""Every kind that is raised or noted anywhere has its words, and no words are left over."""

from __future__ import annotations

import ast
import inspect
import string
from collections.abc import Iterator
from pathlib import Path

import stash
from stash.rendering.sentences.say import _tables
from stash.rendering.sentences.unreadable import UNREADABLE
from stash.rendering.sentences.words import Words

ROOT = Path(stash.__file__).parent
#: At which place each takes its kind.
PLACE = {"Note": 0, "Reason": 0, "Fix": 0, "Refusal": 0, "BadInput": 0, "NotFound": 0}
PLACE |= {"refuse": 0, "Unreadable": 1, "FileTrouble": 1}


def calls() -> Iterator[tuple[str, str, set[str] | None]]:
    """What is made, its kind, and the names of its facts; None where they are not written out."""
    for module in ROOT.rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                place = PLACE.get(node.func.id, len(node.args))
                names = [word.arg for word in node.keywords]
                facts = None if None in names else {name for name in names if name}
                for kind in literals(node.args[place]) if place < len(node.args) else ():
                    yield node.func.id, kind, facts


def literals(node: ast.expr) -> Iterator[str]:
    """A text that is written out, or both of a choice."""
    if isinstance(node, ast.IfExp):
        yield from literals(node.body)
        yield from literals(node.orelse)
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value


def takes(words: Words, facts: set[str]) -> bool:
    """Whether the words can be filled with facts of these names."""
    if isinstance(words, str):
        fields = {field for _, field, _, _ in string.Formatter().parse(words) if field}
        return {field.partition(".")[0].partition("[")[0] for field in fields} <= facts
    try:
        inspect.signature(words).bind(**dict.fromkeys(facts))
    except TypeError:
        return False
    return True


def test_every_kind_has_its_words() -> None:
    tables = _tables()
    wanting = {
        kind
        for made, kind, _ in calls()
        if kind not in (UNREADABLE if made == "Unreadable" else tables)
        and made != "NotFound"  # which names itself where it has no noun
    }
    assert wanting == set()


def test_the_words_of_a_kind_take_the_facts_it_is_given() -> None:
    tables = _tables()
    wrong = set()
    for made, kind, facts in calls():
        if facts is None or made in ("Fix", "Reason", "NotFound"):
            continue  # these take what is no fact beside them
        parts = UNREADABLE[kind] if made == "Unreadable" else (tables[kind],)
        wrong |= {(kind, *sorted(facts)) for words in parts if not takes(words, facts)}
    assert wrong == set()


def test_no_words_are_left_over() -> None:
    """Each kind of a table is written out where something is raised, noted or chosen."""
    used = {
        node.value
        for module in ROOT.rglob("*.py")
        if "sentences" not in module.parts
        for node in ast.walk(ast.parse(module.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert {*_tables(), *UNREADABLE} - used == set()
