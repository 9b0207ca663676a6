"""Numbers as makers type them, read exactly or not at all."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable

#: Spaces that people and spreadsheets put where a plain one is meant.
_SPACES = dict.fromkeys(map(ord, "\u00a0\u2007\u2009\u200a\u202f\u2002\u2003\u3000"), "\u00a0")
_QUOTES = str.maketrans("“”„‟″‘’‚′", '"""""\'\'\'\'')
_DROPPED = dict.fromkeys(map(ord, "\u200b\u200e\u200f\u2060\ufeff"))

#: One number, for building longer patterns: `1 1/2`, `1,200.5`, `.5`, a group parted by spaces.
PATTERN = (
    r"(?:[0-9]{1,3}(?:[ '][0-9]{3})+(?![0-9])(?:[.,][0-9]+)?"
    r"|[0-9]{1,6}(?:\s+|-|\s*(?:and|&)\s*)[0-9]{1,2}\s?/\s?[0-9]{1,2}(?![0-9])"
    r"|[0-9]{1,2}\s?/\s?[0-9]{1,2}(?![0-9])"
    r"|[0-9]+(?:[.,][0-9]+)*|\.[0-9]+)"
)

_PARTED = re.compile(r"([0-9]{1,3}(?:[ '][0-9]{3})+)(?:[.,]([0-9]+))?")
_MIXED = re.compile(r"(?:([0-9]{1,6})(?:\s+|-|\s*(?:and|&)\s*))?([0-9]{1,2})\s?/\s?([0-9]{1,2})")
_DECIMAL = re.compile(r"([0-9]*)(?:([.,])([0-9]+))?")
_MANY_GROUPS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3}){2,}|[0-9]{1,3}(?:\.[0-9]{3}){2,}")
_BOTH = re.compile(r"([0-9]{1,3}(?:,[0-9]{3})+)\.([0-9]+)|([0-9]{1,3}(?:\.[0-9]{3})+),([0-9]+)")

#: Longer than any number on a label; keeps a pasted page of digits out of the arithmetic.
_LONGEST = 24


def cleaned(text: str) -> str:
    """The text with curly quotes straightened, odd spaces made plain, and fractions written out.

    A thin or non-breaking space inside a number is taken out: it can only group thousands there.
    """
    if text.isascii():  # nothing of all that is in it, and most cells of a sheet are such
        return text
    plain = text.translate(_SPACES).translate(_QUOTES).translate(_DROPPED)
    plain = re.sub(r"(?<=[0-9])\u00a0(?=[0-9]{3}(?![0-9]))", "", plain).replace("\u00a0", " ")
    return "".join(_written_out(character) for character in plain).replace("⁄", "/")


#: A longer run than anybody means; it stays as it was typed.
LONGEST_RUN = 1000


def listed(text: str) -> list[str]:
    """The parts of a list such as `12,14-17`, runs drawn apart; what is no number stays."""
    found: list[str] = []
    plain = text.replace("–", "-")  # the longer dash that some keyboards and sheets put in
    for part in (one.strip().removeprefix("#") for one in plain.split(",")):
        first, dash, last = (end.strip() for end in part.partition("-"))
        run = dash and all(end.isascii() and end.isdecimal() for end in (first, last))
        if run and 0 <= int(last) - int(first) < LONGEST_RUN:
            found += map(str, range(int(first), int(last) + 1))
        elif part:
            found.append(part)
    return found


def fraction(text: str) -> Fraction:
    """The number somebody typed, exactly.

    Read: `1.5`, `1,5`, `1 1/2`, `1½`, `⅞`, `1 200`, `1,200.50`. Three digits after a single point
    or comma may be thousands or thousandths, so such a text is refused with both readings.
    """
    plain = cleaned(text).strip().strip("\"'").strip()
    if not plain or len(plain) > _LONGEST:
        raise _no_number(text)
    mixed = _MIXED.fullmatch(plain)
    if mixed:
        return _mixed(text, mixed)
    parted = _PARTED.fullmatch(plain)
    if parted:
        return _joined(re.sub(r"[ ']", "", parted[1]), parted[2])
    return _decimal(text, plain)


def _decimal(text: str, plain: str) -> Fraction:
    both = _BOTH.fullmatch(plain)
    if both:
        return _joined(re.sub(r"[.,]", "", both[1] or both[3]), both[2] or both[4])
    if _MANY_GROUPS.fullmatch(plain):
        return Fraction(re.sub(r"[.,]", "", plain))
    single = _DECIMAL.fullmatch(plain)
    if not single:
        raise _no_number(text)
    whole, _, after = single.groups()
    if after and len(after) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        thousandths = after.rstrip("0") or "0"
        thousandths += "0" if len(thousandths) == 3 else ""  # so that it reads back
        raise Ambiguous(text.strip(), (whole + after, f"{whole}.{thousandths}"))
    return _joined(whole, after)


def _mixed(text: str, parts: re.Match[str]) -> Fraction:
    """A whole number and a proper fraction; `80/20` is a blend, never four."""
    whole, above, below = (int(part or 0) for part in parts.groups())
    if not 0 < above < below:
        raise _no_number(text)
    return whole + Fraction(above, below)


def _joined(whole: str, after: str | None) -> Fraction:
    return Fraction(f"{whole or '0'}.{after or '0'}")


def _written_out(character: str) -> str:
    """A fraction in one character as ` 1/2`; anything else as it is."""
    if not unicodedata.decomposition(character).startswith("<fraction>"):
        return character
    value = Fraction(unicodedata.numeric(character)).limit_denominator(10)
    return f" {value.numerator}/{value.denominator}"


def _no_number(text: str) -> Unreadable:
    return Unreadable(text, "no_number")
