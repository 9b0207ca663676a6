"""Asking where words may mean two things: the readings numbered, Enter alone writing nothing."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar

import typer

from stash.cli.common import note

if TYPE_CHECKING:
    from stash.errors import Ambiguous, Undecided

_T = TypeVar("_T")
#: More questions than this about one line are a sign that it should be typed again.
_MOST = 6


def somebody_is_there() -> bool:
    """Whether a question would be seen and could be answered."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def until_decided(typed: str, act: Callable[[str], _T]) -> _T:
    """What comes of some words; where they may mean more than one thing, she is asked.

    `act` is called again with the words she chose in the place of the unclear ones. Where nobody
    can answer, and where she presses Enter alone, the question itself is the refusal.
    """
    from stash.errors import Ambiguous, Undecided

    for _ in range(_MOST):
        try:
            return act(typed)
        except (Ambiguous, Undecided) as question:
            if not somebody_is_there():
                raise
            typed = _chosen(question, typed)
    return act(typed)


def _chosen(question: Ambiguous | Undecided, typed: str) -> str:
    """The words with her choice in them; what stands in no word of hers is not asked here."""
    from stash.errors import Ambiguous
    from stash.parsing.label.text import tidied
    from stash.rendering.sentences.say import sentence

    if not isinstance(question, Ambiguous):
        ways = [sentence(words) for words, _ in question.ways]
        choice = _number(sentence(question.what), ways, question)
        return sentence(question.ways[choice][1])
    # fractions and odd spaces are written plainly in a question, so the words may be found only so
    line = typed if question.text in typed else tidied(typed)
    if question.text not in line:
        raise question
    choice = _number(
        f"{question.text!r} can mean:",
        [*map(sentence, question.shown or question.readings)],
        question,
    )
    return line.replace(question.text, question.readings[choice], 1)


def _number(what: str, choices: list[str], question: Exception) -> int:
    note(what)
    for number, words in enumerate(choices, start=1):
        note(f"  {number}  {words}")
    while True:
        try:
            typed = typer.prompt(
                "which one (Enter: none)", default="", show_default=False, err=True
            )
        except typer.Abort:
            raise question from None
        if not typed.strip():
            raise question
        if typed.strip().isdigit() and 1 <= int(typed) <= len(choices):
            return int(typed) - 1
        note(f"type a number from 1 to {len(choices)}, or Enter alone to leave it")
