"""One cell of a sheet, read by the column it stands in."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Any

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import days, facts, label, numbers, quantities
from stash.parsing.label import fields, looks, lots, strand, strand_words
from stash.stock.yarn import FullFrom

#: More skeins than this in one row is taken for a slip of the pen (our choice).
MOST_SKEINS = 1000

#: Words that mark a figure as rough.
_ROUGHLY = re.compile(r"~|≈|\b(?:about|approx(?:imately)?|circa|ca)\b\.?", re.IGNORECASE)

_BARE = re.compile(rf"(?:(?:{_ROUGHLY.pattern})\s*)?{numbers.PATTERN}", re.IGNORECASE)
_SHARE = re.compile(
    rf"(?:(?:{_ROUGHLY.pattern})\s*)?[0-9]{{1,2}}\s?/\s?[0-9]{{1,2}}", re.IGNORECASE
)
_DIGITS = re.compile(r"[0-9]{1,9}")
_SKEINS = re.compile(
    r"(?:[x×]\s*)?([0-9]{1,9})\s*(?:x|×|skeins?|balls?|hanks?|cones?|cakes?|pcs\.?|pieces?)?",
    re.IGNORECASE,
)
#: What a spreadsheet leaves of a lot it took for a day or a number.
_LOT_SPOILT = re.compile(
    r"\d{1,2}[- ][A-Z][a-z]{2}(?:[- ]\d{2,4})?|[A-Z][a-z]{2}-\d{2,4}|\d{4}-\d{2}-\d{2}"
    r"|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}|\d+(?:[.,]\d+)?[Ee]\+\d+|\d+\.0"
)


#: What a cell says that says no more than a blank one.
NOTHING = object()
#: Columns in which a dash or a question mark leaves nothing in doubt but the fact itself; not so
#: beside `left`, where it may stand for a whole skein or for none.
_MAY_BE_UNKNOWN = frozenset(
    (
        *("maker", "colour", "colour_no", "hex", "thickness", "fibre", "full", "mass", "length"),
        *("total_mass", "total_length", "tare", "place", "owner", "bought", "care"),
        *("paid", "price", "cost", "dyed", "surface"),
    )
)


# A sheet says the same few hundred things over and over; each is read once.
@lru_cache(maxsize=8192)
def read_cell(column: str, text: str, today: date, currency: str) -> Any:
    """What a filled cell says; raises `BadInput` or `Refusal` with a way out."""
    if column == "label":
        return label.read(text, today, currency)
    if column == "bought":
        return days.day(text, today)
    if column in ("paid", "price", "cost"):
        return facts.price_said(text, currency)
    return _READ[column](text)


def _number(text: str) -> int:
    if not _DIGITS.fullmatch(text) or int(text) == 0:
        raise Unreadable(text, "no_skein_number")
    return int(text)


def _record(text: str) -> int:
    digits = text.removeprefix("L")
    if not _DIGITS.fullmatch(digits) or int(digits) == 0:
        raise Unreadable(text, "no_lot_record")
    return int(digits)


def count(text: str) -> int:
    """A count of skeins, with or without a word for them."""
    match = _SKEINS.fullmatch(text)
    if match and int(match[1]) == 0:
        raise Unreadable(text, "count_of_nothing", most=MOST_SKEINS)
    if not match or not 1 <= int(match[1]) <= MOST_SKEINS:
        raise Unreadable(text, "no_count_of_skeins", most=MOST_SKEINS)
    return int(match[1])


def spoilt(lot: str) -> bool:
    """Whether a lot looks like a day or a number that a spreadsheet made of it."""
    return _LOT_SPOILT.fullmatch(lot) is not None


@lru_cache(maxsize=8192)
def is_bare(text: str) -> bool:
    """Whether a cell is a figure without a unit, rough or not."""
    return _BARE.fullmatch(numbers.cleaned(text).strip()) is not None


def is_share(text: str) -> bool:
    """Whether a cell is a fraction below one, rough or not: `1/2`, `~⅔`."""
    return _SHARE.fullmatch(numbers.cleaned(text).strip()) is not None


@lru_cache(maxsize=8192)
def rough(text: str) -> bool:
    """Whether an amount is said to be about right only."""
    return _ROUGHLY.search(text) is not None


def not_known(column: str, text: str) -> bool:
    """Whether a cell says no more than that nobody knows."""
    return column in _MAY_BE_UNKNOWN and text.lower() in facts.NOT_KNOWN


@lru_cache(maxsize=8192)
def holds_amounts(text: str) -> bool:
    """Whether a cell meant for words holds a weight or a length: then it is a whole label."""
    try:
        return bool(quantities.found_in(numbers.cleaned(text)))
    except BadInput:
        return True  # a figure that may mean two amounts is one all the same


@lru_cache(maxsize=4096)
def thickness_in_name(yarn: str) -> tuple[int, int] | None:
    """The thickness class in a yarn's name, as in "Fell Wool DK"; None where it says none."""
    return looks.thickness_of_words(yarn)


@lru_cache(maxsize=4096)
def looks_in_words(yarn: str, colour: str) -> strand.Looks:
    """What the words for a yarn and for its colour say of how it is dyed and made."""
    return strand.looks_of(yarn, [colour])


def _full(text: str) -> tuple[Mass | None, Length | None]:
    """What a full skein weighs and measures, or the one of them that is given."""
    try:
        pair = quantities.put_up(text)
    except Ambiguous:
        raise
    except BadInput as no_pair:
        return _half(text, no_pair)
    return pair.mass, pair.length


def _half(text: str, no_pair: BadInput) -> tuple[Mass | None, Length | None]:
    try:
        count, amount = quantities.counted(_ROUGHLY.sub("", text))
    except Ambiguous:
        raise
    except BadInput:
        raise no_pair from None
    if count > 1 or not amount:
        raise Unreadable(text, "several_full_skeins")
    return (amount, None) if isinstance(amount, Mass) else (None, amount)


def _left(text: str) -> Any:
    """An amount, or a share of a full skein; NOTHING where the skein is whole."""
    if text.lower() in _WHOLE:
        return NOTHING
    amount = _left_in_words(text) or quantities.amount(_ROUGHLY.sub("", text))
    if isinstance(amount, Fraction) and not 0 < amount < 1:
        raise Unreadable(text, "left_of_a_whole_skein")
    if not amount:
        raise Unreadable(text, "left_of_nothing")
    return amount


def _left_in_words(text: str) -> Mass | Length | Fraction | None:
    """`half a skein`, `60%`, `43g left`; None where words beside these stand in the cell."""
    if share := _PERCENT.fullmatch(text):
        return Fraction(int(share[1]), 100)
    return fields.left(text)


_WHOLE = frozenset(
    ("whole", "full", "all", "new", "unused", "unopened", "not opened", "full skein")
)
_PERCENT = re.compile(rf"(?:(?:{_ROUGHLY.pattern})\s*)?(\d{{1,3}})\s*%", re.IGNORECASE)


def _above_nothing(read: Callable[[str], Any], text: str) -> Any:
    amount = read(_ROUGHLY.sub("", text))
    if not amount:
        raise Unreadable(text, "skein_of_nothing")
    return amount


def _mass(text: str) -> Mass:
    mass: Mass = _above_nothing(quantities.mass, text)
    return mass


def _length(text: str) -> Length:
    if is_bare(text):  # in inches and centimetres nobody measures a skein
        raise Ambiguous(text, [f"{text} m", f"{text} yd"])
    length: Length = _above_nothing(quantities.length, text)
    return length


def _origin(text: str) -> FullFrom:
    try:
        return FullFrom(text.lower())
    except ValueError:
        raise Unreadable(text, "no_origin_of_a_pair", choices=tuple(FullFrom)) from None


def _yes(text: str) -> bool:
    if text.lower() in ("yes", "y", "true", "1", "x"):
        return True
    if text.lower() in ("no", "n", "false", "0", "-"):
        return False
    raise Unreadable(text, "no_yes")


_READ: dict[str, Callable[[str], Any]] = {
    "number": _number,
    "yarn": facts.words,
    "maker": facts.words,
    "colour": facts.words,
    "colour_no": lambda text: facts.words(text).removeprefix("#"),
    "hex": facts.hexes,
    "lot": lots.lot,
    "thickness": facts.thickness,
    "fibre": facts.words,
    "full": _full,
    "full_from": _origin,
    "count": count,
    "left": _left,
    "tare": quantities.mass,
    "place": facts.words,
    "owner": facts.words,
    "note": str,
    "care": facts.words,
    "hand_dyed": _yes,
    "condition": lambda text: facts.conditions(re.split(r"[/,;]", text)),
    "daylight": _yes,
    "about": _yes,
    "opened": _yes,
    "record": _record,
    "dyed": lambda text: strand_words.dyed(text) or NOTHING,
    "surface": lambda text: strand_words.surface(text) or NOTHING,
    "mass": _mass,
    "length": _length,
    "total_mass": _mass,
    "total_length": _length,
}
