"""What a sentence may be in a table."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

#: A text with names of facts in braces, or a function of the facts by name.
Words = str | Callable[..., str]


@dataclass(frozen=True, slots=True)
class FixWords:
    """A fix in words: `typed` as a sentence for a terminal, with what to type where there is such.

    `pressed` for a button of the page: what is done, then its figures.
    """

    typed: Words
    pressed: Callable[..., tuple[str, str]]
