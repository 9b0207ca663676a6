"""Asking where words may mean two things: the readings numbered, Enter alone writing nothing.

One place for every command: what it refuses as unclear is asked at a terminal, and the command is
begun again with her choice in the place of the unclear word. Nobody to answer, or no choice: the
question itself is the refusal.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

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


def agreed(question: str) -> bool:
    """Whether she says yes; Enter alone is no, and so is leaving."""
    try:
        return typer.confirm(question, default=False, err=True)
    except typer.Abort:
        return False


def until_decided(typed: dict[str, Any], act: Callable[[], _T]) -> _T:
    """What comes of a command, `typed` being its words by name, which a choice is written into."""
    from stash.errors import Ambiguous, Undecided

    for _ in range(_MOST):
        try:
            return act()
        except (Ambiguous, Undecided) as question:
            if not somebody_is_there() or _has_booked():
                raise
            _decide(question, typed)
    return act()


def _has_booked() -> bool:
    """A command that has written something already is not begun again."""
    from stash.actions.book import booked

    return booked() is not None


def _decide(question: Ambiguous | Undecided, typed: dict[str, Any]) -> None:
    """Her choice written into the words; the question raised again where it is about none."""
    from stash.errors import Ambiguous
    from stash.parsing.choices import place_of, replaced
    from stash.rendering.sentences.say import sentence

    text = question.text if isinstance(question, Ambiguous) else None
    if isinstance(typed.get("text"), list):  # a label line may come as words
        typed["text"] = [" ".join(typed["text"])]
    place = place_of(text, typed)
    if place is None:
        raise question
    name, at = place
    was = typed[name]
    if isinstance(question, Ambiguous):
        head = f"{text!r} can mean:" if text else "Which one?"
        choice = _number(head, [*map(sentence, question.shown or question.readings)], question)
        now = replaced(was if at is None else was[at], question.text, question.readings[choice])
    else:
        ways = [sentence(words) for words, _ in question.ways]
        choice = _number(sentence(question.what), ways, question)
        now = sentence(question.ways[choice][1])
    typed[name] = now if at is None else [*was[:at], now, *was[at + 1 :]]


def _number(what: str, choices: list[str], question: Exception) -> int:
    note(what)
    for number, words in enumerate(choices, start=1):
        note(f"  {number}  {words}")
    while True:
        try:
            typed = typer.prompt(
                "which one? (Enter: none)", default="", show_default=False, err=True
            )
        except typer.Abort:
            raise question from None
        if not typed.strip():
            raise question
        if typed.strip().isdigit() and 1 <= int(typed) <= len(choices):
            return int(typed) - 1
        note(f"type a number from 1 to {len(choices)}, or press Enter for none")
