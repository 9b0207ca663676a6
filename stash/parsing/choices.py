"""A choice put into the words that were unclear, so that they can be read once more.

One rule for a terminal, where the readings are numbered, and for the page, where each is a button.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from stash.parsing.label.text import tidied


def place_of(text: str | None, typed: Mapping[str, Any]) -> tuple[str, int | None] | None:
    """Which word is unclear: its name, and where it stands among several of that name.

    None where it is none of these. `text` is the unclear part of it, None for a question about the
    whole of what was typed: that is the text of a label line, or else what was left out.
    """
    if text is None:
        if isinstance(typed.get("text"), list):
            return "text", 0
        text = ""  # what was left out is what is asked for
    places: list[tuple[str, int | None, str]] = []
    for name, value in typed.items():
        if isinstance(value, str):
            places.append((name, None, value))
        elif isinstance(value, list):
            places += [(name, at, one) for at, one in enumerate(value)]
    for fits in (_is, _holds):
        for name, at, value in places:
            if fits(value, text):
                return name, at
    return None


def _is(value: str, text: str) -> bool:
    return value.strip() == text.strip()


def _holds(value: str, text: str) -> bool:
    return bool(text) and (text in value or text in tidied(value))


def replaced(value: str, text: str, reading: str) -> str:
    """The words with the reading in the place of the unclear part."""
    if _is(value, text):
        return reading
    # fractions and odd spaces are written plainly in a question, so the words may be found only so
    value = value if text in value else tidied(value)
    # "12" is not meant in the middle of "112m", unless it stands nowhere by itself
    found = re.search(rf"(?<![\w.,/]){re.escape(text)}(?![\w/]|[.,]\d)", value)
    at = found.start() if found else value.index(text)
    return value[:at] + reading + value[at + len(text) :]
