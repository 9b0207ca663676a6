"""What a stretch of a line could be: the fact, how sure, and how to write it plainly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing.label.text import Text

Amount = Mass | Length


class Kind(StrEnum):
    """What a stretch of a line may say."""

    GAP = "nothing"
    NOTE = "note"
    NUMBER = "a number"
    NAME = "name"
    MAKER = "maker"
    COLOUR = "colour"
    COLOUR_NO = "colour number"
    HEX = "colour value"
    THICKNESS = "thickness"
    FIBRE = "fibre"
    LOT = "lot"
    FULL = "full"
    TOTAL = "total"
    GROSS = "gross"
    TARE = "tare"
    FINENESS = "fineness"
    COUNT = "count"
    BOUGHT_COUNT = "bought"
    LEFT = "left"
    PART = "part"
    OPENED = "opened"
    WHOLE = "whole"
    PRICE = "price"
    PLACE = "place"
    OWNER = "owner"
    DAY = "bought on"
    CARE = "care"
    CONDITION = "condition"
    DYED = "dyed"
    STRAND = "strand"
    MEASURED = "measured"
    QUESTION = "question"


@dataclass(frozen=True, slots=True)
class Span:
    """Some tokens of a line read as one fact.

    `score` is added up over a line and the best sum wins: about two for each token that is read
    surely, below nothing for what is only kept. `value` is what the fact holds, `plain` the words
    that say the same beyond doubt, for a question.
    """

    first: int
    end: int
    kind: Kind
    score: float
    value: Any = None
    plain: str = ""


def span_between(text: Text, start: int, end: int, kind: Kind, value: object, bonus: float) -> Span:
    """A stretch of a line as a span: two for each token, and so much more for how sure it is."""
    first, last = text.tokens_of(start, end)
    score = 2.0 * (last - first) + bonus
    return Span(first, last, kind, score, value, text.plain[start:end].strip())


def span_of(text: Text, m: re.Match[str], kind: Kind, value: object, bonus: float) -> Span:
    """A match as a span, likewise."""
    return span_between(text, m.start(), m.end(), kind, value, bonus)


@dataclass(frozen=True, slots=True)
class Held:
    """What is left of a skein, or is used of it: an amount, or a share of a full one.

    `about` marks a rough one; `used` turns an amount into what is gone.
    """

    amount: Amount | None = None
    share: Fraction | None = None
    used: bool = False
    about: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """An opened ball beside others: counted among them (`within`), or one more."""

    held: Held | None
    within: bool
    times: int = 1


@dataclass(frozen=True, slots=True)
class Count:
    """How many balls; `bound` where an amount stands with it and is of each (`3 x 50g`).

    `whole` where they are said to be full, so that a part one is one more; `pack` where the words
    are of a pack, whose amount may be of all; `divides` where it surely is (`400 g in 4 balls`).
    """

    number: Fraction
    bound: bool = False
    whole: bool = False
    pack: bool = False
    divides: bool = False
