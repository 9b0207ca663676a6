"""How far round somebody is, as it is measured, and as hats are numbered."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length
from stash.measures.note import Note
from stash.parsing import numbers, quantities

#: A number of an age or a girth.
NUMBER = r"[0-9]{1,4}(?:[.,][0-9]+)?(?:\s+[0-9]{1,2}/[0-9]{1,2})?"
#: Between the ends of a span: `5-6`, `5/6`, `5 to 6`.
TO = r"\s*(?:-|–|—|/|&|\bto\b|\bor\b|\band\b)\s*"
_LONG = r"(?:mm|cms?|ins?|inch|inches|\"|''|cent(?:imet(?:re|er)s?))"
_GIRTHS = re.compile(rf"(?P<low>{NUMBER})\s*{_LONG}?{TO}(?P<high>{NUMBER})\s*(?P<unit>{_LONG})")
#: A whole number of m is months: nobody's head goes round metres.
_GIRTH = re.compile(rf"{numbers.PATTERN}\s*{_LONG}|[0-9]*[.,][0-9]+\s*m(?:et(?:re|er)s?)?")
#: US numbers are the girth in inches by pi, UK ones an eighth less.
_HAT_SIZE = re.compile(
    r"(?:(?P<first>us|uk) )?(?P<hat>hat )?(?:size )?(?P<whole>[678])(?:[ -](?P<part>[1-7]/[248]))?"
    r"(?: (?P<last>us|uk))?"
)
_INCH_CM = 2.54


def measured(text: str, figure: str) -> Length | None:
    """A girth as it was measured, None where the figure is no length; of a span it is asked."""
    if span := _GIRTHS.fullmatch(figure):
        low, high = numbers.fraction(span["low"]), numbers.fraction(span["high"])
        raise Ambiguous(text.strip(), between(low, high, span["unit"]))
    if not _GIRTH.fullmatch(figure):
        return None
    girth = quantities.length(figure)
    if girth.um <= 0:
        raise Unreadable(text, "girth_of_nothing")
    return girth


def between(low: Fraction, high: Fraction, unit: str) -> list[str]:
    """Both ends and the middle, as to type them."""
    each = dict.fromkeys((low, (low + high) / 2, high))
    return [f"{shown(one)}{unit}" for one in each]


def shown(number: Fraction | float) -> str:
    """A number as to type it."""
    return f"{float(number):g}"


def hat_size(text: str, plain: str) -> Length | None:
    """A girth by its number on a hat; asked whose number it is where that is not said."""
    found = _HAT_SIZE.fullmatch(plain)
    if found is None or not (found["part"] or found["hat"]):
        return None
    size = " ".join(filter(None, (found["whole"], found["part"])))
    number = numbers.fraction(size)
    each = {"US": number, "UK": number + Fraction(1, 8)}
    typed = {terms: f"{math.pi * n * _INCH_CM:.1f}cm" for terms, n in each.items()}
    terms = (found["first"] or found["last"] or "").upper()
    if terms:
        return quantities.length(typed[terms])
    notes = [Note("hat_size", typed=cm, terms=terms, size=size) for terms, cm in typed.items()]
    raise Ambiguous(text.strip(), [*typed.values()], notes)
