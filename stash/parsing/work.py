"""Hours of work and shares of a price, as people write them."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.parsing import numbers

_N = numbers.PATTERN
_TIME = re.compile(
    rf"(?:(?P<hours>{_N})\s*(?:h|hrs?|hours?))?\s*(?:(?P<minutes>{_N})\s*(?:mins?|minutes?|m))?"
    rf"|(?P<bare>{_N})",
    re.IGNORECASE,
)
_CLOCK = re.compile(r"(\d{1,3})\s*[:h]\s*([0-5]\d)", re.IGNORECASE)
#: More than one item takes (our choice; it keeps slips out).
_MOST_HOURS = 10_000


def hours(text: str) -> Fraction:
    """Hours of work: `3`, `3.5`, `3h 20min`, `3:20`, `45 min`."""
    plain = numbers.cleaned(text).strip()
    clock, time = _CLOCK.fullmatch(plain), _TIME.fullmatch(plain)
    if clock:
        found = Fraction(clock[1]) + Fraction(int(clock[2]), 60)
    elif plain and time:
        whole, minutes, bare = (numbers.fraction(part or "0") for part in time.groups())
        found = whole + minutes / 60 + bare
    else:
        raise Unreadable(text, "no_hours")
    if not 0 < found <= _MOST_HOURS:
        raise Unreadable(text, "hours_of_nothing")
    return found


def minutes(text: str) -> int:
    """The same to the minute."""
    return round(60 * hours(text))


def share(text: str) -> Fraction:
    """A share of a cost or price: `6.5%`, `6.5` or `0.065` are the same."""
    plain = numbers.cleaned(text).strip()
    try:
        found = numbers.fraction(plain.removesuffix("%"))
    except Unreadable:
        raise Unreadable(text, "no_share") from None
    if found == 1 and not plain.endswith("%"):
        raise Ambiguous(text, ("1%", "100%"))
    if plain.endswith("%") or found > 1:
        found /= 100
    if not 0 <= found < 1:
        raise Unreadable(text, "share_too_large")
    return found
