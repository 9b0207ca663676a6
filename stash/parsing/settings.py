"""Her settings as she types them, as the file keeps them, and as they are shown."""

from __future__ import annotations

import re
from typing import TypeVar

from stash.costing.label import Place
from stash.costing.pools import Method
from stash.errors import NotFound, Unreadable
from stash.matching.question.wish import Contrast, Wished, wished
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import coins, headings, names, numbers, quantities, work
from stash.parsing.design import piece, sizes
from stash.requirements.design.sizing import kept_as

_M = TypeVar("_M", Mass, Length)

#: What every setting is for; tares, sizes, weights and headings have a name of their own behind
#: theirs.
MEANINGS = {
    "units": "metres or yards, for what is shown",
    "scale step": "the smallest step of your kitchen scale, as 1g",
    "room": "how damp it is where you weigh, as 40% to 60% (relative humidity)",
    "regain": "eu or us: whose agreed moisture of yarn to reckon with",
    "place": "eu, uk or us: whose rules your tags follow; else as regain",
    "maker": "your name or your workshop's, as it stands on a tag",
    "address": "your postal address, for tags",
    "contact": "your electronic address, for tags: e-mail or web",
    "terms": "us or uk names of crochet stitches",
    "margin": "added to what is expected where a command names none, as 15%",
    "class tolerance": "how many thickness classes apart two yarns may be",
    "useful end": "the shortest piece worth joining in, as 2m",
    "useful size": "an opened skein that holds less is a remnant, as 10m: for bands only",
    "contrast": "bold, clear, soft, tonal or any; or a gap in lightness, as 30 or 20-40",
    "fineness": "metres per 100 g that a yarn may have, as 200-260, or 15% about the piece's own",
    "colour vision": "protan, deutan or tritan: what would look alike to you is then said",
    "currency": "the three letters of the money of this file, as EUR",
    "wage": "what an hour of work is worth to you",
    "hours PIECE": "the hours that one article of a piece takes, as 3h 20min",
    "sundries": "buttons, labels and the like for one article, as 0.80",
    "overhead": "what rent, tools and power add to yarn, sundries and work, as 10%",
    "fees": "the share of the price that the place of sale keeps, as 6.5%",
    "valuation": "specific, fifo or average: how yarn that leaves is priced; one choice a year",
    "tare NAME": "the weight of a bowl, core or needle you weigh with, as 12g",
    "size NAME": "a size of your own chart, finished, as around 54cm tall 22cm",
    "weight NAME": "what a drawback counts when proposals are put in order; `weights` lists them",
    "heading NAME": "which column a heading of your sheets stands for, or ignored",
}
_CHOICES = {
    "units": ("metres", "yards"),
    "terms": ("us", "uk"),
    "regain": ("eu", "us"),
    "place": tuple(Place),
    "colour vision": ("usual", "protan", "deutan", "tritan"),
}
#: The drawbacks that can be weighed, by the names people type, and what each is counted for.
WEIGHTS = {
    "opening": "each whole skein that is opened",
    "sliver": "each opened for less than a sixth of it",
    "join": "each join",
    "looseness": "times the share of the lot that stays free: the tightest fit first",
    "useless end": "each end left that is shorter than the useful end",
    "lone skein": "one whole skein left by itself",
    "lot not known": "two skeins together whose dye lot is not known",
    "two lots": "two lots in one colour, where you ask for that with --two-lots",
    "class step": "each class away, and what is only known from the class",
    "colour not known": "a lot whose colour is not known",
    "condition": "each of faded, smoke or pets",
    "newness": "yarn that came today; the oldest of the shelf counts nothing",
    "price": "times its price a metre over that and the middle one of the shelf together",
}


def name_of(text: str) -> str:
    """A setting's name however it is typed, as `scale-step`; unknown ones are refused."""
    plain = re.sub(r"[-_\s]+", " ", text).strip().lower()
    if plain in MEANINGS:
        return plain
    kind, _, rest = plain.partition(" ")
    if kind in ("tare", "heading", "size", "hours") and rest:
        return plain
    if kind == "weight" and rest in WEIGHTS:
        return plain
    known = [*MEANINGS, *(f"weight {weight}" for weight in WEIGHTS)]
    if kind == "weight":
        raise NotFound("drawback to weigh", rest or text, [f"weight {w}" for w in WEIGHTS])
    raise NotFound("setting", text, names.nearest(plain, known) or list(MEANINGS))


def named(text: str) -> list[str]:
    """The settings a word asks to see: one, or every weight."""
    if text.strip().lower() in ("weight", "weights"):
        return [f"weight {weight}" for weight in WEIGHTS]
    return [name_of(text)]


def meaning(name: str) -> str:
    """What a setting is for."""
    return WEIGHTS.get(name.removeprefix("weight ")) or MEANINGS.get(name, "")


def kept(name: str, text: str, currency: str = "") -> str:
    """A value as the file keeps it: whole smallest units as digits, shares as decimals."""
    kind = name.partition(" ")[0]
    if kind == "heading":
        return str(headings.told(text))
    if kind == "size":
        return kept_as(sizes.chart(text))
    if kind in ("tare", "scale"):
        return str(_above_nothing(text, quantities.mass(text)).mg)
    if name in ("useful end", "useful size"):
        return str(_above_nothing(text, quantities.length(text)).um)
    if name == "room":
        return _humidity(text)
    if name == "margin":
        return str(piece.margin(text))
    if name == "class tolerance":
        return str(_whole(text, 7))
    if name == "contrast":
        return str(contrast(text))
    if name == "fineness":
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
    if kind == "weight":
        return str(float(numbers.fraction(text)))
    return _one_of(text, _CHOICES[name])


def currency_said(name: str, text: str, currency: str = "") -> str:
    """The currency an amount of money was typed in, `currency` if it says none; else nothing."""
    if name not in ("wage", "sundries") or text.strip().lower() == "usual":
        return ""
    return coins.typed_together([text], currency)[1]


def valuation(text: str) -> Method:
    """How yarn that leaves is priced."""
    return Method(_one_of(text, tuple(Method)))


def place(text: str) -> Place:
    """Whose rules a tag follows."""
    return Place(_one_of(text, tuple(Place)))


def contrast(text: str) -> Wished:
    """How far two colours should stand apart: by a word, or by the gap in lightness."""
    plain = text.strip().lower()
    if plain in set(Contrast):
        return Contrast(plain)
    low, high = _from_to(text)
    most = float(high) if high else 100.0
    if low is None or not 0 <= float(low) <= most <= 100:
        words = ", ".join(Contrast)
        way_out = f"choose {words}, or a gap in lightness up to 100, as 30 or 20-40"
        raise Unreadable(text, "a contrast", way_out)
    return wished(f"{low}-{high}" if high else low)


def fineness(text: str) -> str:
    """Metres per 100 g as the file keeps them: `200-260` as from and to, `15%` as a share."""
    low, high = _from_to(text)
    share = re.fullmatch(r"(?:±|\+/-)?\s*(\d+(?:[.,]\d+)?)\s*%", text.strip())
    if share and 0 < (part := float(numbers.fraction(share[1])) / 100) < 1:
        return f"{part:g}"
    if low and high and 0 < float(low) <= float(high):
        return f"{low} {high}"
    raise Unreadable(text, "metres per 100 g", "write them from and to, as 200-260, or as 15%")


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
        raise Unreadable(text, "one of these", f"choose {', '.join(choices)}")
    return str(plain)


def _above_nothing(text: str, value: _M) -> _M:
    if not value:
        raise Unreadable(text, "an amount", "give more than nothing")
    return value


def _humidity(text: str) -> str:
    """Relative humidity from and to; of a single one, five points either way."""
    found = re.findall(r"(\d+(?:[.,]\d+)?)\s*%?", text)
    shares = sorted(float(numbers.fraction(one)) / 100 for one in found)
    if len(shares) == 1:
        shares = [max(0.0, shares[0] - 0.05), shares[0] + 0.05]
    if len(shares) != 2 or not 0.1 <= shares[0] < shares[1] <= 1:
        raise Unreadable(text, "a humidity", "write it like 50%, or 40% to 60%")
    return f"{shares[0]:g} {shares[1]:g}"


def _whole(text: str, most: int) -> int:
    if not re.fullmatch(r"[0-9]{1,3}", text.strip()) or int(text) > most:
        raise Unreadable(text, "a whole number", f"give one from 0 to {most}")
    return int(text)


#: As much as fits on a tag.
_LONGEST = 120


def _line(text: str) -> str:
    """What stands on a tag as it is typed, in one line."""
    plain = " ".join(text.split())
    if not plain.isprintable() or not 0 < len(plain) <= _LONGEST:
        raise Unreadable(text, "a line for a tag", f"write up to {_LONGEST} letters in one line")
    return plain


def _currency(text: str) -> str:
    plain = text.strip().upper()
    if not re.fullmatch(r"[A-Z]{3}", plain):
        raise Unreadable(text, "a currency", "give its three letters, as EUR or GBP (ISO 4217)")
    return plain
