"""A picture of a design in characters that survive without colour."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from stash.requirements.design.picture import OUTSIDE, picture
from stash.requirements.yarn.need import Need

#: How each role is shown: by its weight on the page, so that no colour is needed.
MARKS = {"A": "░", "B": "█", "C": "▒", "D": "▓"}
#: Heavier ones where they are coloured, so that the colour is seen.
COLOURED_MARKS = {"A": "▓", "B": "█", "C": "▒", "D": "░"}
PLAIN_MARKS = {"A": ".", "B": "#", "C": "+", "D": "o"}


@dataclass(frozen=True, slots=True)
class Look:
    """What to call each role, else its letter; its mark; how marks are coloured, if they are.

    `most_lines`: no picture is taller.
    """

    names: Mapping[str, str] = field(default_factory=dict)
    paint: Callable[[str, str], str] = lambda role, marks: marks
    marks: Mapping[str, str] = field(default_factory=lambda: MARKS)
    most_lines: int = 12


def drawing(need: Need, encoding: str, look: Look | None = None) -> list[str]:
    """A design drawn to scale, and under it what each mark stands for; nothing where no rows are.

    An encoding without block characters gets plain ones.
    """
    if need.laid is None:
        return []
    look = look or Look()
    drawn = picture(*need.laid, look.most_lines)
    marks = {**(look.marks if _can(encoding) else PLAIN_MARKS), OUTSIDE: OUTSIDE}
    lines = ["".join(look.paint(role, marks[role]) for role in row.rstrip()) for row in drawn.lines]
    legend = [f"{look.paint(r, 2 * marks[r])} {look.names.get(r, r)}" for r in drawn.roles]
    said = {
        "its front": drawn.half,
        "on its side, its beginning at the left": drawn.lying,
        "fewer stripes drawn than it has": drawn.fewer,
    }
    how = "; ".join(words for words, so in said.items() if so)
    return [*lines, "  ".join(legend) + (f" ({how})" if how else "")]


def _can(encoding: str) -> bool:
    try:
        "".join(MARKS.values()).encode(encoding)
    except (LookupError, UnicodeEncodeError):
        return False
    return True
