"""Yarn counts as cones carry them: tex, denier, metric, cotton, worsted."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.parsing import numbers
from stash.parsing.quantities import pair_at

#: Direct counts, and over how many metres they are in grams (ASTM D2260).
_DIRECT = {
    "tex": ("tex", 1000),
    "dtex": ("dtex", 10_000),
    "den": ("denier", 9000),
    "denier": ("denier", 9000),
}
#: Indirect counts, and to what weight they are counted.
_INDIRECT = {
    "nm": ("nm", "g"),
    **dict.fromkeys(("ne", "cc"), ("ne", "lb")),
    **dict.fromkeys(("nek", "nw"), ("worsted", "lb")),
}

#: A count inside a longer text (after `numbers.cleaned`).
PATTERN = (
    r"(?<![\w/.])(?:(?P<system>nm|nek|ne|nw|cc)\s*(?P<counts>[0-9]{1,3}(?:[.,][0-9]{1,2})?"
    r"(?:\s?/\s?[0-9]{1,3})?)(?!\s*(?:g|gr|kg|oz|lbs?|m|yds?)\b)"
    r"|(?P<before>[0-9]{1,3}\s?/\s?[0-9]{1,3})\s*(?P<after>nm|nek|ne|nw|cc)"
    rf"|(?P<direct>{numbers.PATTERN})\s*(?P<unit>dtex|tex|denier|den))(?![\w/])"
)
_COUNT = re.compile(PATTERN, re.IGNORECASE)


def yarn_count(text: str) -> PutUp:
    """What a count says of the finished yarn, as a pair: `Nm 2/28` is 1 g and 14 m.

    `2/28` and `28/2` both mean two strands of 28 (common practice), so the smaller one is the
    number of strands. Source of the systems: ASTM D2260, tables of conversion factors.
    """
    found = _COUNT.fullmatch(numbers.cleaned(text).strip())
    if not found:
        raise Unreadable(text, "no_yarn_count")
    if found["unit"]:
        unit, metres = _DIRECT[found["unit"].lower()]
        return _pair(pair_at(numbers.fraction(found["direct"]), unit, metres, "m"), text)
    count = _resultant(found["counts"] or found["before"])
    unit, weight = _INDIRECT[(found["system"] or found["after"]).lower()]
    return _pair(pair_at(count, unit, 1, weight), text)


def _resultant(counts: str) -> Fraction:
    """The count of the folded yarn: the single count divided by the strands."""
    parts = sorted(numbers.fraction(part) for part in re.split(r"\s?/\s?", counts))
    if len(parts) == 1:
        return parts[0]
    return parts[1] / parts[0] if parts[0] else Fraction(0)


def _pair(exact: tuple[Fraction, Fraction], text: str) -> PutUp:
    """A pair a thousand times as large, so that rounding to whole mg and um costs nothing."""
    mg, um = exact
    if mg <= 0 or um <= 0:
        raise Unreadable(text, "yarn_count_of_nothing")
    return PutUp(Mass(round(1000 * mg)), Length(round(1000 * um)))
