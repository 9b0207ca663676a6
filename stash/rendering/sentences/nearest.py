"""The nearest real choice to a word that means nothing here."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

#: Less alike than this (of 1) is no help to somebody who mistyped another.
_HELPFUL = 0.6


def nearest(typed: str, choices: Sequence[str]) -> str:
    """The choice most like what was typed, "" where none is."""
    plain = {choice.casefold(): choice for choice in choices}
    near = get_close_matches(typed.strip().casefold(), plain, n=1, cutoff=_HELPFUL)
    return plain[near[0]] if near else ""


def likely(typed: str, choices: Sequence[str]) -> str:
    """`; did you mean blue?`, or nothing."""
    near = nearest(typed, choices)
    return f"; did you mean {near}?" if near else ""
