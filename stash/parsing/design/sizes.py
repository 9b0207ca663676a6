"""Sizes as they are typed: whom it is for, the ease, and her own chart."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from fractions import Fraction

from stash.errors import Ambiguous, Refusal, Unreadable
from stash.measures.length import Length
from stash.parsing import numbers, quantities
from stash.parsing.design.wearers import wearer
from stash.requirements.design.shapes import BUILDS, Shape, Size
from stash.requirements.design.sizing import Ease, Fit, fitted, worn_on

_N = numbers.PATTERN


def ease(text: str) -> Ease:
    """How much smaller or roomier than the body: `-5%`, `-3cm`, `+1 in`, `0`."""
    plain = numbers.cleaned(text).strip().replace("−", "-")
    if re.fullmatch(r"[+-]?\s*0+\s*(?:%|[a-z]*)", plain):
        return Fraction(0)
    sign, rest = plain[:1], plain[1:].strip()
    if sign not in ("-", "+"):
        if re.match(_N, plain):
            raise Ambiguous(text, (f"-{plain} (smaller)", f"+{plain} (roomier)"))
        raise Unreadable(text, "no_ease")
    if rest.endswith("%"):
        share = numbers.fraction(rest.removesuffix("%")) / 100
        return -share if sign == "-" else share
    length = quantities.length(rest)
    return -length if sign == "-" else length


def fit(made: Shape | None, given: Collection[str], size: str, eased: str, folded: str) -> Fit:
    """What follows from a size; one whose every side is given is a name and nothing more."""
    if made is None:
        raise Refusal("size_without_shape")
    if set(given) == set(BUILDS[made].words):
        return Fit({}, size.strip())
    used = ease(eased) if eased else None
    return fitted(made, wearer(size, worn_on(made)), used, brim(folded))


def sized(made: Shape | None, given: Mapping[str, str | Length], fit: Fit | None) -> Size | None:
    """All sides, under the names that fit the shape; none at all where none is given."""
    if not given and not fit:
        return None
    if made is None:
        raise Refusal("size_without_shape")
    wanted = BUILDS[made].words
    typed = {name: _side(side, name) for name, side in given.items() if name in wanted}
    sides = {**(fit.sides if fit else {}), **typed}
    if set(given) - set(wanted) or set(sides) != set(wanted):
        missing = tuple(name for name in wanted if name not in sides)
        raise Refusal("sides_wanted", shape=made, missing=missing)
    across, *others = (sides[name] for name in wanted)
    return Size(across, *(others or [across]))


def _side(typed: str | Length, name: str) -> Length:
    if isinstance(typed, Length):
        return typed
    length = quantities.length(typed)
    if length.um <= 0:
        raise Unreadable(typed, "side_of_nothing", side=name)
    return length


#: What a size of her own chart may name.
SIDES = ("around", "tall", "wide", "long")
_SIDE = re.compile(rf"({'|'.join(SIDES)})\s*[:=]?\s*({_N}\s*(?:[a-z]+|\"))\s*,?\s*")


def chart(text: str) -> dict[str, Length]:
    """A size of her own: `around 54cm tall 22cm`, finished sides by the names of their options."""
    plain = numbers.cleaned(text).strip().lower()
    found = {name: quantities.length(words) for name, words in _SIDE.findall(plain)}
    if not found or _SIDE.sub("", plain):
        raise Unreadable(text, "no_size_of_her_own")
    if any(side.um <= 0 for side in found.values()):
        raise Unreadable(text, "size_of_no_sides")
    return found


def brim(text: str) -> Length | None:
    """A fold-up brim; `none` and 0 are no brim."""
    if text.strip().lower() in ("", "none"):
        return None
    folded = quantities.length(text)
    if folded.um < 0:
        raise Unreadable(text, "brim_below_nothing")
    return folded or None
