"""Bands and stripes as a maker types them."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.length import Length
from stash.parsing import numbers, quantities
from stash.requirements.design.bands import Band, Extent, Place, Rows, Stitches, Stripes

_N = numbers.PATTERN
#: A unit is any word that does not say where the band lies.
_UNIT = r"(?:(?!(?:top|middle|bottom|left|right|upright|up|at|the|from|of)\b)[a-z]+|\")"
_LENGTH = rf"{_N}\s*{_UNIT}"
_SHARE = rf"(?:{_N}\s*%|[0-9]{{1,2}}/[0-9]{{1,2}}(?!\s*{_UNIT})|half|an?\s+(?:third|quarter))"

_BAND = re.compile(
    rf"(?P<role>[a-d])[\s:=]\s*(?:(?P<share>{_SHARE})\s+of\s+(?:the\s+)?)?"
    rf"(?P<extent>{_SHARE}|{_LENGTH})(?P<upright>[\s,]+upright)?"
    rf"(?:[\s,]+(?:at\s+)?(?:the\s+)?(?P<place>top|middle|bottom|left|right|{_LENGTH})"
    r"(?:\s+(?:up|in|from\s+the\s+(?:bottom|left)))?)?"
)
_RUN = re.compile(rf"(?P<role>[a-d])[\s:=]\s*(?P<extent>{_SHARE}|{_LENGTH})")
_STRIPES = re.compile(
    rf"(?P<runs>.*?)(?P<upright>[\s,]+upright)?"
    rf"(?:[\s,]+from\s+(?P<start>{_LENGTH})\s+to\s+(?P<end>{_LENGTH}))?"
)
_PLACES = {"left": Place.BOTTOM, "right": Place.TOP}
_SHARES = {
    "half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4),
}  # fmt: skip
_COUNTED: dict[str, type[Stitches] | type[Rows]] = {
    **dict.fromkeys(("st", "sts", "stitch", "stitches"), Stitches),
    **dict.fromkeys(("row", "rows", "round", "rounds", "rnd", "rnds"), Rows),
}


def band(text: str) -> Band:
    """A stretch of one role; with no place given it sits at the bottom, upright at the left.

    Read: `B 2cm bottom`, `B 5 sts`, `C 4 rows middle`, `B 3cm 5cm` (its height, then its distance
    from the bottom), `B 1/3 top`, `B 4cm upright left`, `B 30% of 6cm middle` (mixed: a share of
    the stitches).
    """
    found = _BAND.fullmatch(numbers.cleaned(text).strip().lower())
    if found is None:
        raise Unreadable(text, "no_band")
    place, upright = found["place"] or "", bool(found["upright"])
    if (upright and place in ("top", "bottom")) or (not upright and place in _PLACES):
        raise Unreadable(text, "band_out_of_place")
    return Band(
        found["role"].upper(),
        _extent(text, found["extent"]),
        _place(place),
        upright,
        _share(text, found["share"]) if found["share"] else None,
    )


def stripes(text: str) -> Stripes:
    """Runs of colour that repeat: `A 4 rows, B 2 rows`, `A 2cm, B 1cm from 3cm to 15cm`.

    `upright` behind the runs turns them.
    """
    found = _STRIPES.fullmatch(numbers.cleaned(text).strip().lower())
    parts = re.split(r"\s*[,;]\s*(?=[a-d][\s:=])", found["runs"].strip()) if found else []
    runs = [_RUN.fullmatch(part.strip()) for part in parts]
    if found is None or len(runs) < 2 or not all(runs):
        raise Unreadable(text, "no_stripes")
    repeat = tuple((run["role"].upper(), _extent(text, run["extent"])) for run in runs if run)
    start, end = (quantities.length(found[n]) if found[n] else None for n in ("start", "end"))
    return Stripes(repeat, start, end, bool(found["upright"]))


def _place(words: str) -> Place | Length:
    if words in _PLACES:
        return _PLACES[words]
    if words in set(Place):
        return Place(words)
    return quantities.length(words) if words else Place.BOTTOM


def _extent(text: str, words: str) -> Extent:
    if re.fullmatch(_SHARE, words):
        return _share(text, words)
    number = re.match(_N, words)
    unit = words[number.end() :].strip() if number else ""
    if unit not in _COUNTED:
        length = quantities.length(words)
        if not length:
            raise Unreadable(text, "band_of_no_height")
        return length
    count = numbers.fraction(words[: -len(unit)])
    if count < 1 or count.denominator != 1:
        raise Unreadable(text, "band_of_part_stitches")
    return _COUNTED[unit](int(count))


def _share(text: str, words: str) -> Fraction:
    last = words.split()[-1]
    share = _SHARES.get(last) or numbers.fraction(words.removesuffix("%").strip())
    share = share / 100 if words.endswith("%") else share
    if not 0 < share < 1:
        raise Unreadable(text, "band_of_too_large_a_share")
    return share
