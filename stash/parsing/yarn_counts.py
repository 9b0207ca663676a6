"""Yarn counts as cones carry them: tex, denier, metric, cotton, worsted."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.length import YARD_UM, Length
from stash.measures.mass import POUND_MG, Mass
from stash.measures.put_up import PutUp
from stash.parsing import numbers

#: Direct counts: grams in so many metres (ASTM D2260).
_GRAMS_IN_M = {"tex": 1000, "dtex": 10_000, "den": 9000, "denier": 9000}
#: Indirect counts: hanks of so many yards to the pound (ASTM D2260).
_HANK_YARDS = {"ne": 840, "cc": 840, "nek": 560, "nw": 560}

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
        raise Unreadable(text, "a yarn count", "write it like Nm 2/28, Ne 10/2 or 250 tex")
    if found["unit"]:
        grams = numbers.fraction(found["direct"])
        return _pair(grams * 1000, Fraction(_GRAMS_IN_M[found["unit"].lower()] * 1_000_000), text)
    count = _resultant(found["counts"] or found["before"])
    system = (found["system"] or found["after"]).lower()
    if system == "nm":
        return _pair(Fraction(1000), count * 1_000_000, text)
    return _pair(POUND_MG, count * _HANK_YARDS[system] * YARD_UM, text)


def _resultant(counts: str) -> Fraction:
    """The count of the folded yarn: the single count divided by the strands."""
    parts = sorted(numbers.fraction(part) for part in re.split(r"\s?/\s?", counts))
    if len(parts) == 1:
        return parts[0]
    return parts[1] / parts[0] if parts[0] else Fraction(0)


def _pair(mg: Fraction, um: Fraction, text: str) -> PutUp:
    """A pair a thousand times as large, so that rounding to whole mg and um costs nothing."""
    if mg <= 0 or um <= 0:
        raise Unreadable(text, "a yarn count", "a count is above nothing")
    return PutUp(Mass(round(1000 * mg)), Length(round(1000 * um)))
