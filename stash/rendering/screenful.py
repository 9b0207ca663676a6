"""Answers that fit one screen of a person's terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from shutil import get_terminal_size

from stash.rendering import figures
from stash.rendering.wrapped import wrapped

#: So many lines are seen at once on the smallest usual terminal.
LINES = 24


def first_that_fits(texts: Iterable[Callable[[], str]]) -> str:
    """The first of these that a terminal shows at once, its lines broken as they will be.

    The last where none does. Into a pipe or a file goes the first as it is.
    """
    shown = ""
    for text in texts:
        shown = figures.settled(text)
        if not sys.stdout.isatty() or _lines(shown) <= LINES:
            break
    return shown


def _lines(text: str) -> int:
    return wrapped(text, get_terminal_size().columns).count("\n") + 1
