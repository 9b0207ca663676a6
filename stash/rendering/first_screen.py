"""The first screen of an answer: what is most useful of it, and a line for what is hidden."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from shutil import get_terminal_size

from stash.rendering import figures
from stash.rendering.amounts import counted
from stash.rendering.wrapped import wrapped

#: As tall as a terminal is at least.
LINES = 24
#: Its last line waits for the next command.
MOST = LINES - 1


def is_shown() -> bool:
    """Whether a person looks at a terminal; what goes into a pipe or a file is whole."""
    return sys.stdout.isatty()


def height(lines: Sequence[str], across: int | None = None) -> int:
    """How many lines of her terminal these take, broken to its width."""
    across = across or get_terminal_size().columns
    return sum(1 + wrapped(line, across).count("\n") for text in lines for line in text.split("\n"))


def first_that_fits(texts: Iterable[Callable[[], str]]) -> str:
    """The first of these that a terminal shows at once, its lines broken as they will be.

    The last where none does. Into a pipe or a file goes the first as it is.
    """
    shown = ""
    for text in texts:
        shown = figures.settled(text)
        if not is_shown() or height([shown]) < MOST:  # a line beside it may say what was taken
            break
    return shown


@dataclass(frozen=True, slots=True)
class Part:
    """Lines of an answer, under a heading that is shown with them alone.

    `thing` is what one line is called where some are hidden; "" where all have to be shown.
    """

    lines: Sequence[str]
    thing: str = ""
    head: Sequence[str] = ()

    def __iter__(self) -> Iterator[str]:
        if self.lines:
            yield from self.head
            yield from self.lines


def whole(parts: Sequence[Part]) -> str:
    """All of it."""
    return "\n".join(_lines(parts))


def first_screen(parts: Sequence[Part], across: int, most: int = MOST) -> str:
    """What fits a terminal so many places wide; earlier parts have their lines first."""
    if height(_lines(parts), across) <= most:
        return whole(parts)
    fixed = [part for part in parts if not part.thing]
    room = most - height([*_lines(fixed), _hidden([(p, len(p.lines)) for p in parts])], across)
    shown: list[Part] = []
    for part in parts:
        shown.append(_cut(part, room, across) if part.thing else part)
        room -= height([*shown[-1]], across) if part.thing else 0
    missing = [
        (part, len(part.lines) - len(kept.lines)) for part, kept in zip(parts, shown, strict=True)
    ]
    return f"{whole(shown)}\n{_hidden(missing)}"


def _hidden(missing: Sequence[tuple[Part, int]]) -> str:
    """How much is hidden of what, and how to see it."""
    counts = [
        counted(count, f"more {part.thing}") for part, count in missing if part.thing and count
    ]
    return f"And {', '.join(counts)}; add `--all` to see everything."


def _cut(part: Part, room: int, across: int) -> Part:
    """As many of its first lines as there is room for, under its heading."""
    count = len(part.lines)
    while count and height([*part.head, *part.lines[:count]], across) > room:
        count -= 1
    return replace(part, lines=part.lines[:count])


def _lines(parts: Sequence[Part]) -> list[str]:
    return [line for part in parts for line in part]
