"""Days as people write them; one that could be two days is refused with both."""

from __future__ import annotations

import re
from datetime import date, timedelta

from stash.errors import Ambiguous, Refusal, Unreadable

_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january", "feb february", "mar march", "apr april", "may", "jun june",
            "jul july", "aug august", "sep sept september", "oct october", "nov november",
            "dec december",
        ),
        start=1,
    )
    for name in names.split()
}  # fmt: skip
_YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_YEAR_LAST = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})")
_DAY_NAMED = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[\s-]+([a-z]+)\.?,?[\s-]+(\d{4})")
_MONTH_NAMED = re.compile(r"([a-z]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
_MIDNIGHT = re.compile(r"[t ]00:00(?::00(?:\.0+)?)?$")


def day(text: str, today: date) -> date:
    """The day somebody means: `2024-01-12`, `12 Jan 2024`, `today`, `yesterday`.

    Days to come are refused, and so is `12/1/24`, which is another day in another country.
    """
    meant = _read(text, today)
    if meant > today:
        raise Refusal("day_to_come", text=text.strip(), today=today)
    return meant


def any_day(text: str, today: date) -> date:
    """The same for a day that may be to come; of two digits a year is one of this century."""
    found = _YEAR_LAST.fullmatch(" ".join(text.lower().split()))
    if found and len(found[3]) == 2:
        text = text.strip()[:-2] + f"{today.year // 100}{found[3]}"
    return _read(text, today)


def _read(text: str, today: date) -> date:
    plain = _MIDNIGHT.sub("", " ".join(text.lower().split()))
    if plain in ("today", "yesterday"):
        return today - timedelta(days=plain == "yesterday")
    if found := _YEAR_FIRST.fullmatch(plain):
        return _made(text, int(found[1]), int(found[2]), int(found[3]))
    if found := _DAY_NAMED.fullmatch(plain):
        return _made(text, int(found[3]), _MONTHS.get(found[2], 0), int(found[1]))
    if found := _MONTH_NAMED.fullmatch(plain):
        return _made(text, int(found[3]), _MONTHS.get(found[1], 0), int(found[2]))
    if found := _YEAR_LAST.fullmatch(plain):
        return _either_way(text, found, today)
    raise Unreadable(text, "no_day")


def _either_way(text: str, found: re.Match[str], today: date) -> date:
    """The one day both orders can mean, or the refusal that names two."""
    first, second, year = (int(part) for part in found.groups())
    if year < 100:
        year += 2000 if 2000 + year <= today.year else 1900
    days = [
        date_or_none
        for month, of_month in ((first, second), (second, first))
        if (date_or_none := _possible(year, month, of_month))
    ]
    if not days:
        raise Unreadable(text, "no_day")
    if days[0] != days[-1]:
        raise Ambiguous(text.strip(), [str(d) for d in days])
    return days[0]


def _possible(year: int, month: int, of_month: int) -> date | None:
    try:
        return date(year, month, of_month)
    except ValueError:
        return None


def _made(text: str, year: int, month: int, of_month: int) -> date:
    meant = _possible(year, month, of_month)
    if meant is None:
        raise Unreadable(text, "no_day")
    return meant
