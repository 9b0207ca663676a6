"""Lines broken to the width of a terminal, the rest of each under its beginning."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stash.rendering.columns import width

#: How far the rest of a line stands in from its beginning, where it has no columns.
HANG = 3
#: Narrower than this nothing can be read; such a terminal breaks lines as it likes.
LEAST = 40
#: What stays together: a number and its unit, a name and its number, and any other word.
_UNITS = r"(?:m|yd|g|oz|cm|in|%|rows?|skeins?|times)\b"
_WORD = re.compile(rf" *(?:\(?\d[\d.,/]* (?={_UNITS})|lot |no\. | / (?=\d)|[^ ])+")
_COLUMN = re.compile(r"(?<=[^ ])  +")


def wrapped(text: str, across: int) -> str:
    """The text with no line wider than so many places, where its words allow that."""
    if across < LEAST:
        return text
    return "\n".join(part for line in text.split("\n") for part in _broken(line, across))


def _broken(line: str, across: int) -> Iterator[str]:
    if width(line) <= across:
        yield line
        return
    hang = " " * _hang(line, across)
    held = ""
    for word in _WORD.findall(line):
        if held.strip() and width(held) + width(word) > across:
            yield held
            held = hang + word.lstrip(" ")
        else:
            held += word
    yield held


def _hang(line: str, across: int) -> int:
    """Where the rest of a line begins: under its last column, if that leaves room for it."""
    columns = [width(line[: found.end()]) for found in _COLUMN.finditer(line)]
    if columns and columns[-1] <= across // 2:
        return columns[-1]
    return len(line) - len(line.lstrip(" ")) + HANG
