"""A fabric as a maker types it: a knitted one by name, a crocheted one row by row."""

from __future__ import annotations

import re

from stash.errors import Ambiguous, Unreadable
from stash.requirements.fabric import Fabric, FabricRow, Loop
from stash.requirements.stitches import STITCHES, UK_TO_US
from stash.wording import numbers

_WAY_OUT = "write it like stockinette, garter, 2x2 rib, or 1 sc, 3 sl st blo"

#: More rows than any repeat has; keeps a slip of the finger from filling the memory.
_MOST_ROWS = 500

_KNITTED = {
    "stockinette": "stockinette",
    "stockinette stitch": "stockinette",
    "stocking stitch": "stockinette",
    "st st": "stockinette",
    "garter": "garter",
    "garter stitch": "garter",
    "1x1 rib": "1x1 rib",
    "k1p1": "1x1 rib",
    "k1 p1": "1x1 rib",
    "2x2 rib": "2x2 rib",
    "k2p2": "2x2 rib",
    "k2 p2": "2x2 rib",
}

#: Full names and short forms, as the abbreviation of the same terms.
_SHORT = {
    "us": {
        "slip stitch": "sl st",
        "slst": "sl st",
        "ss": "sl st",
        "single crochet": "sc",
        "half double crochet": "hdc",
        "half double": "hdc",
        "double crochet": "dc",
        "treble crochet": "tr",
        "treble": "tr",
    },
    "uk": {
        "slip stitch": "ss",
        "slst": "ss",
        "double crochet": "dc",
        "half treble": "htr",
        "half treble crochet": "htr",
        "treble": "tr",
        "treble crochet": "tr",
        "double treble": "dtr",
        "double treble crochet": "dtr",
    },
}

_ROW = re.compile(
    r"(?:(?P<count>[0-9]+)\s*x?\s*)?(?:rows?\s+(?:of\s+)?)?(?P<stitch>[a-z][a-z ]*?)"
    r"(?:\s+(?:rows?|rounds?))?"
    r"(?:\s+(?:(?P<mark>[bf])lo|(?:(?:in|through)\s+)?(?:the\s+)?(?P<loop>back|front)\s+loops?"
    r"(?:\s+only)?))?"
)


def fabric(text: str, terms: str = "us") -> Fabric:
    """The rows of one repeat.

    Read: `stockinette`, `2x2 rib`; `1 sc, 3 sl st blo`, `sc in back loop`, `2 rows of dc`. Names
    of crochet stitches are US ones unless `terms` is `uk`.
    """
    if terms not in _SHORT:
        raise Unreadable(terms, "whose crochet terms", "choose us or uk")
    plain = " ".join(numbers.cleaned(text).lower().replace("×", "x").split())
    if plain in ("rib", "ribbing"):
        raise Ambiguous(text, ("1x1 rib", "2x2 rib"))
    if plain in _KNITTED:
        return Fabric((FabricRow(STITCHES[_KNITTED[plain]]),))
    parts = re.split(r"\s*(?:[,;+]|\bthen\b|\band\b)\s*", plain)
    rows = tuple(row for part in parts for row in _rows(text, part, terms))
    if len(rows) > _MOST_ROWS:
        raise Unreadable(text, "a fabric", "give the rows of one repeat only")
    return Fabric(rows)


def _rows(text: str, part: str, terms: str) -> tuple[FabricRow, ...]:
    found = _ROW.fullmatch(part)
    if found is None:
        raise Unreadable(text, "a fabric", _WAY_OUT)
    count = int(found["count"] or 1)
    if not 0 < count <= _MOST_ROWS:
        raise Unreadable(text, "a fabric", "give the rows of one repeat only, at least 1 of each")
    loop = {None: Loop.BOTH, "b": Loop.BACK, "f": Loop.FRONT}[
        (found["mark"] or found["loop"] or " ")[0].strip() or None
    ]
    return (FabricRow(STITCHES[_us_name(text, found["stitch"], terms)], loop),) * count


def _us_name(text: str, name: str, terms: str) -> str:
    """A crochet stitch under its US abbreviation."""
    short = _SHORT[terms].get(name, name)
    known = UK_TO_US if terms == "uk" else {name: name for name in UK_TO_US.values()}
    if short in known:
        return known[short]
    if terms == "us" and short in UK_TO_US:
        raise Unreadable(text, "a fabric in US terms", f"{short!r} is a UK name, add --terms uk")
    if terms == "uk" and short in UK_TO_US.values():
        raise Unreadable(text, "a fabric in UK terms", f"{short!r} is a US name, use --terms us")
    if name in _KNITTED:
        raise Unreadable(text, "a fabric", "a knitted fabric is one name by itself")
    raise Unreadable(text, "a fabric", f"{name!r} is no stitch known here; {_WAY_OUT}")
