"""One cell of a sheet, read by the column it stands in."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from functools import lru_cache
from typing import Any

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.stock.yarn import PairFrom
from stash.wording import days, facts, label_lot, quantities

#: More skeins than this in one row is taken for a slip of the pen (our choice).
MOST_SKEINS = 1000

#: Words that mark a figure as rough.
_ROUGHLY = re.compile(r"~|≈|\b(?:about|approx(?:imately)?|circa|ca)\b\.?", re.IGNORECASE)

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


# A sheet says the same few hundred things over and over; each is read once.
@lru_cache(maxsize=8192)
def read(column: str, text: str, today: date, currency: str) -> Any:
    """What a filled cell says; raises `BadInput` or `Refusal` with a way out."""
    if column == "bought":
        return days.day(text, today)
    if column == "paid":
        return facts.price(text, currency)
    return _READ[column](text)


def _number(text: str) -> int:
    if not _DIGITS.fullmatch(text) or int(text) == 0:
        raise Unreadable(text, "the number of a skein", "write a whole number, or leave it blank")
    return int(text)


def _record(text: str) -> int:
    digits = text.removeprefix("L")
    if not _DIGITS.fullmatch(digits) or int(digits) == 0:
        raise Unreadable(text, "a lot record", "write it like L12, or leave it blank")
    return int(digits)


def _count(text: str) -> int:
    match = _SKEINS.fullmatch(text)
    if not match or not 1 <= int(match[1]) <= MOST_SKEINS:
        raise Unreadable(
            text,
            "a count of skeins",
            f"write a whole number from 1 to {MOST_SKEINS}; a part ball has a row of its own",
        )
    return int(match[1])


def spoilt(lot: str) -> bool:
    """Whether a lot looks like a day or a number that a spreadsheet made of it."""
    return _LOT_SPOILT.fullmatch(lot) is not None


def rough(text: str) -> bool:
    """Whether an amount is said to be about right only."""
    return _ROUGHLY.search(text) is not None


def _class(text: str) -> tuple[int, int] | None:
    return None if text in facts.NOT_KNOWN else facts.thickness(text)


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
        raise Unreadable(text, "one full skein", "write what one holds; how many goes into `count`")
    return (amount, None) if isinstance(amount, Mass) else (None, amount)


def _left(text: str) -> Mass | Length:
    amount = quantities.amount(_ROUGHLY.sub("", text))
    if not amount:
        raise Unreadable(text, "what is left", "drop the row of a skein that is used up")
    return amount


def _origin(text: str) -> PairFrom:
    try:
        return PairFrom(text.lower())
    except ValueError:
        names = ", ".join(PairFrom)
        raise Unreadable(text, "where the pair is from", f"write one of {names}") from None


def _yes(text: str) -> bool:
    if text.lower() in ("yes", "y", "true", "1", "x"):
        return True
    if text.lower() in ("no", "n", "false", "0", "-"):
        return False
    raise Unreadable(text, "yes or no", "write yes, or leave it blank")


_READ: dict[str, Callable[[str], Any]] = {
    "number": _number,
    "yarn": facts.words,
    "maker": facts.words,
    "colour": facts.words,
    "colour_no": lambda text: facts.words(text).removeprefix("#"),
    "hex": facts.hexes,
    "lot": label_lot.lot,
    "class": _class,
    "fibre": facts.words,
    "put_up": _full,
    "pair_from": _origin,
    "count": _count,
    "left": _left,
    "tare": quantities.mass,
    "place": facts.words,
    "owner": facts.words,
    "note": str,
    "care": facts.words,
    "hand_dyed": _yes,
    "record": _record,
}
