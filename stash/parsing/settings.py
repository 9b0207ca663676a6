"""Her settings as she types them, as the file keeps them, and as they are shown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TypeVar

from stash.costing.label import Rules
from stash.costing.pools import Method
from stash.errors import NotFound, Unreadable
from stash.matching.question.wish import Contrast, Wished, wished
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import coins, headings, names, numbers, quantities, work
from stash.parsing.design import design, sizes
from stash.requirements.design.sizing import kept_as

_M = TypeVar("_M", Mass, Length)

#: Every setting; tares, sizes, weights and headings have a name of their own behind theirs.
NAMES = (
    "units",
    "length",
    "weight",
    "size",
    "terms",
    "margin",
    "thickness tolerance",
    "useful end",
    "useful size",
    "hours DESIGN",
    "size NAME",
    "contrast",
    "colour vision",
    "per 100g",
    "ranking NAME",
    "scale step",
    "tare NAME",
    "humidity",
    "currency",
    "wage",
    "sundries",
    "overhead",
    "fees",
    "valuation",
    "letter keys",
    "rules",
    "maker",
    "address",
    "contact",
    "heading NAME",
)
#: The drawbacks that can be weighed.
RANKING = (
    "opening",
    "very little",
    "join",
    "looseness",
    "useless end",
    "lone skein",
    "lot not known",
    "two lots",
    "thickness step",
    "colour not known",
    "condition",
    "newness",
    "price",
)
_CHOICES = {
    "units": ("metric", "us"),
    "length": ("m", "yd"),
    "weight": ("g", "oz"),
    "size": ("cm", "in"),
    "terms": ("us", "uk"),
    "rules": tuple(Rules),
    "letter keys": ("on", "off"),
    "colour vision": ("usual", "protan", "deutan", "tritan"),
}
_METHODS = tuple(Method)
#: Units and systems of them as people call them.
_UNIT_WORDS = {
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("gram", "grams", "gr"), "g"),
    **dict.fromkeys(("ounce", "ounces"), "oz"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("inch", "inches", '"'), "in"),
}
_SYSTEM_WORDS = {
    **dict.fromkeys(("metre", "metres", "meter", "meters", "m", "cm", "eu", "uk"), "metric"),
    **dict.fromkeys(("yard", "yards", "yd", "imperial", "american", "usa", "u.s."), "us"),
}


#: Settings as older versions called them, and as people call them.
_BEFORE = {
    "room": "humidity",
    "regain": "rules",
    "place": "rules",
    "fineness": "per 100g",
    "metres per 100g": "per 100g",
    "class tolerance": "thickness tolerance",
}


def name_of(text: str) -> str:
    """A setting's name however it is typed, as `scale-step`; unknown ones are refused."""
    plain = re.sub(r"[-_\s]+", " ", text).strip().lower()
    ours = names.our_spelling(plain)
    ours = _BEFORE.get(ours, ours)
    if ours in NAMES:
        return ours
    kind, _, rest = plain.partition(" ")
    if kind in ("tare", "heading", "size", "hours") and rest:
        return plain
    if kind == "ranking" and ours.removeprefix("ranking ") in RANKING:
        return ours
    known = [*NAMES, *(f"ranking {one}" for one in RANKING)]
    if kind == "ranking":
        raise NotFound("drawback", rest or text, [f"ranking {one}" for one in RANKING])
    raise NotFound("setting", text, names.nearest(plain, known) or list(NAMES))


def choices() -> Mapping[str, tuple[str, ...]]:
    """Every setting with a name of its own, and the words that may follow it, if it has such."""
    words = {**_CHOICES, "contrast": tuple(Contrast), "valuation": tuple(Method)}
    return {name: words.get(name, ()) for name in NAMES if name.islower()}


def named(text: str) -> list[str]:
    """The settings a word asks to see: one, or all of the ranking."""
    if text.strip().lower() == "ranking":
        return [f"ranking {one}" for one in RANKING]
    return [name_of(text)]


def kept(name: str, text: str, currency: str = "") -> str:
    """A value as the file keeps it: whole smallest units as digits, shares as decimals."""
    kind = name.partition(" ")[0]
    if kind == "heading":
        return str(headings.column_named(text))
    if kind == "size" and name != "size":
        return kept_as(sizes.chart(text))
    if kind in ("tare", "scale"):
        return str(_above_nothing(text, quantities.mass(text)).mg)
    if name in ("useful end", "useful size"):
        return str(_above_nothing(text, quantities.length(text)).um)
    if name == "humidity":
        return _humidity(text)
    if name == "margin":
        return str(design.margin(text))
    if name == "thickness tolerance":
        return str(_whole(text, 7))
    if name == "contrast":
        return str(contrast(text))
    if name == "per 100g":
        return fineness(text)
    if name == "valuation":
        return valuation(text).value
    if name in ("maker", "address", "contact"):
        return _line(text)
    if name in ("wage", "sundries"):
        return str(coins.typed(text, currency).coins)
    if name in ("overhead", "fees"):
        return str(float(work.share(text)))
    if kind == "hours":
        return str(round(60 * work.hours(text)))
    if name == "currency":
        return _currency(text)
    if kind == "ranking":
        return str(float(numbers.fraction(text)))
    words = _SYSTEM_WORDS if name == "units" else _UNIT_WORDS
    return _one_of(words.get(text.strip().lower(), text), _CHOICES[name])


def currency_said(name: str, text: str, currency: str = "") -> str:
    """The currency an amount of money was typed in, `currency` if it says none; else nothing."""
    if name not in ("wage", "sundries") or text.strip().lower() == "usual":
        return ""
    return coins.typed_together([text], currency)[1]


def valuation(text: str) -> Method:
    """How yarn that leaves is priced."""
    return Method(_one_of(text, tuple(Method)))


def rules(text: str) -> Rules:
    """Whose rules a tag follows."""
    return Rules(_one_of(text, tuple(Rules)))


def contrast(text: str) -> Wished:
    """How far two colours should stand apart: by a word, or by the gap in lightness."""
    plain = text.strip().lower()
    if plain in set(Contrast):
        return Contrast(plain)
    low, high = _from_to(text)
    most = float(high) if high else 100.0
    if low is None or not 0 <= float(low) <= most <= 100:
        raise Unreadable(text, "no_contrast", choices=tuple(Contrast))
    return wished(f"{low}-{high}" if high else low)


def fineness(text: str) -> str:
    """Metres per 100 g as the file keeps them: `200-260` as from and to, `15%` as a share."""
    low, high = _from_to(text)
    share = re.fullmatch(r"(?:±|\+/-)?\s*(\d+(?:[.,]\d+)?)\s*%", text.strip())
    if share and 0 < (part := float(numbers.fraction(share[1])) / 100) < 1:
        return f"{part:g}"
    if low and high and 0 < float(low) <= float(high):
        return f"{low} {high}"
    raise Unreadable(text, "no_fineness")


def _from_to(text: str) -> tuple[str | None, str | None]:
    """`200-260`, `200 to 260`, or a number alone; plain digits with a point."""
    found = re.fullmatch(
        r"(\d{1,5}(?:[.,]\d{1,2})?)(?:\s*(?:-|–|\bto\b)\s*(\d{1,5}(?:[.,]\d{1,2})?))?\s*m?",
        text.strip().lower(),
    )
    low, high = found.groups() if found else (None, None)
    return low and low.replace(",", "."), high and high.replace(",", ".")


def _one_of(text: str, choices: tuple[str, ...]) -> str:
    plain = text.strip().lower()
    if plain not in choices:
        raise Unreadable(text, "not_a_choice", choices=choices)
    return str(plain)


def _above_nothing(text: str, value: _M) -> _M:
    if not value:
        raise Unreadable(text, "amount_of_nothing")
    return value


def _humidity(text: str) -> str:
    """Relative humidity from and to; of a single one, five points either way."""
    found = re.findall(r"(\d+(?:[.,]\d+)?)\s*%?", text)
    shares = sorted(float(numbers.fraction(one)) / 100 for one in found)
    if len(shares) == 1:
        shares = [max(0.0, shares[0] - 0.05), shares[0] + 0.05]
    if len(shares) != 2 or not 0.1 <= shares[0] < shares[1] <= 1:
        raise Unreadable(text, "no_humidity")
    return f"{shares[0]:g} {shares[1]:g}"


def _whole(text: str, most: int) -> int:
    if not re.fullmatch(r"[0-9]{1,3}", text.strip()) or int(text) > most:
        raise Unreadable(text, "no_whole_number", most=most)
    return int(text)


#: As much as fits on a tag.
_LONGEST = 120


def _line(text: str) -> str:
    """What stands on a tag as it is typed, in one line."""
    plain = " ".join(text.split())
    if not plain.isprintable() or not 0 < len(plain) <= _LONGEST:
        raise Unreadable(text, "no_line_for_a_tag", most=_LONGEST)
    return plain


def _currency(text: str) -> str:
    plain = text.strip().upper()
    if not re.fullmatch(r"[A-Z]{3}", plain):
        raise Unreadable(text, "no_currency")
    return plain
