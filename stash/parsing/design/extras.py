"""Extras as they are typed: pompoms, tassels, fringe, cords, chains, flaps and edgings."""

from __future__ import annotations

import re

from stash.errors import Unreadable
from stash.parsing import numbers, quantities
from stash.requirements.design.extras import LENGTHS, Extra, Kind

_N = numbers.PATTERN
_LENGTH = rf"{_N}\s*(?:[a-z]+|\")"
_TIMES = r"\s*[x×*]\s*"
_EXTRA = re.compile(
    rf"(?P<kind>{'|'.join(Kind)})(?:s|es)?[\s:]+(?P<role>[a-d])"
    rf"(?:[\s,]+(?P<first>{_LENGTH})(?:{_TIMES}(?P<second>{_LENGTH}))?)?"
    rf"(?:{_TIMES}(?P<count>[0-9]{{1,4}}))?"
)


def extra(text: str) -> Extra:
    """What is made besides, its colour, its lengths, and how many.

    Read: `pompom B 6cm`, `cord A 40cm x 2`, `fringe B 15cm x 80`, `flap A 9cm x 10cm x 2`,
    `edging B`.
    """
    plain = numbers.cleaned(text).strip().lower()
    found = _EXTRA.fullmatch(plain)
    if found is None:
        named = next((kind for kind in Kind if plain.startswith(kind)), None)
        raise Unreadable(text, "no_extra", extra=named)
    kind = Kind(found["kind"])
    lengths = tuple(quantities.length(found[n]) for n in ("first", "second") if found[n])
    count = int(found["count"]) if found["count"] else None
    if len(lengths) != LENGTHS[kind] or any(side.um <= 0 for side in lengths) or count == 0:
        raise Unreadable(text, "extra_of_nothing", extra=kind)
    return Extra(kind, found["role"].upper(), lengths, count)
