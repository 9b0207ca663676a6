"""What a shelf can be narrowed by, each choice with its word, its picture and how many lots."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass
from typing import Any

from stash.rendering.drawing.swatch import Left, Shown
from stash.rendering.her_words import named_thickness
from stash.rendering.yarn_card import LEFT_WORDS, Swatch
from stash.stock.holding import SkeinState
from stash.stock.yarn import Dyed, Lot

#: A sample of a yarn beside a word, in pixels.
_CHIP = Shown(28, 18)


@dataclass(frozen=True, slots=True)
class Option:
    """One choice: its value as an address has it, its word, how many lots have it.

    `sign` is the name of a sign, `chip` a sample as SVG; either may be empty.
    """

    choice: Hashable
    value: str
    words: str
    count: int
    sign: str = ""
    chip: str = ""


def options(
    group: str,
    counts: Mapping[Hashable, int],
    samples: Mapping[Hashable, Lot],
    swatch: Swatch,
    *,
    grey: bool = False,
) -> list[Option]:
    """The choices of a group in the order a maker would look for them; not known comes last."""
    words, order = _GROUPS[group]
    found = []
    for choice in sorted(counts, key=lambda one: (one is None, order(one))):
        sample = samples.get(choice) if group == "dyed" else None
        shown = Shown(_CHIP.width, _CHIP.height, grey, again=f"-{choice}")
        found.append(
            Option(
                choice,
                "" if choice is None else str(choice),
                "not known" if choice is None else words(choice),
                counts[choice],
                words(choice).removesuffix("s") if group == "left" and choice else "",
                swatch(sample, Left.CHIP, shown) if sample else "",
            )
        )
    return found


_GROUPS: Mapping[str, tuple[Callable[[Any], str], Callable[[Any], Any]]] = {
    "thickness": (lambda number: named_thickness(number, number), lambda number: number or 0),
    "left": (lambda state: f"{LEFT_WORDS[state]}s", lambda state: [*SkeinState].index(state)),
    "dyed": (str, lambda dyed: dyed and [*Dyed].index(dyed)),
    "place": (str, lambda place: (place or "").casefold()),
}
