"""Prices as people write them, to and from whole smallest coins."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.money import Money
from stash.wording import numbers

#: Currencies whose smallest coin is not a hundredth (ISO 4217, minor units; from memory).
_DECIMALS = {
    "BHD": 3, "CLP": 0, "ISK": 0, "JOD": 3, "JPY": 0, "KRW": 0, "KWD": 3, "OMR": 3, "TND": 3,
    "VND": 0,
}  # fmt: skip

#: The signs people write and the currencies they may stand for (common practice, no source).
SIGNS: dict[str, tuple[str, ...]] = {
    "£": ("GBP",), "€": ("EUR",), "¥": ("JPY", "CNY"), "₹": ("INR",), "₩": ("KRW",),
    "zł": ("PLN",), "Kč": ("CZK",), "Fr": ("CHF",), "R": ("ZAR",),
    "A$": ("AUD",), "C$": ("CAD",), "NZ$": ("NZD",), "US$": ("USD",),
    "$": ("USD", "AUD", "CAD", "NZD", "SGD", "HKD", "MXN"), "kr": ("SEK", "NOK", "DKK", "ISK"),
}  # fmt: skip
#: Signs for a hundredth.
_HUNDREDTHS = {"p": ("GBP",), "c": ("USD", "AUD", "CAD", "NZD", "EUR"), "¢": ("USD", "CAD")}

_SIGN = "|".join(re.escape(s) for s in sorted(SIGNS, key=lambda s: (-len(s), s)))
_CODE = (
    "GBP|EUR|USD|AUD|CAD|NZD|CHF|SEK|NOK|DKK|ISK|PLN|CZK|JPY|CNY|INR|KRW|ZAR|SGD|HKD|MXN|HUF|TRY"
    "|BHD|CLP|JOD|KWD|OMR|TND|VND|BRL|ILS|RON|THB"
)
_NUMBER = numbers.PATTERN
#: A price with its sign, for finding one inside a longer text (after `numbers.cleaned`).
SIGNED = (
    rf"(?:(?:(?<![^\W\d_])(?:{_CODE})\s?|[£€¥₹₩]\s?|(?<![^\W\d_])(?:A|C|NZ|US)?\$\s?"
    rf"|(?<![^\W\d_])(?:kr|Fr)\.?\s?){_NUMBER}"
    rf"|(?<![\w.,]){_NUMBER}\s?(?:(?:{_CODE}|kr|zł|Kč)(?![^\W\d_])|[£€¥₹₩$]))"
)
_MONEY = re.compile(
    rf"(?P<before>{_SIGN}|{_CODE})?\.?\s*(?P<number>{_NUMBER})\s*"
    rf"(?P<after>{_SIGN}|{_CODE}|p|c|¢)?",
    re.IGNORECASE,
)
_BY_SMALL_LETTERS = {s.lower(): codes for s, codes in {**SIGNS, **_HUNDREDTHS}.items()}


def decimals(currency: str) -> int:
    """How many digits stand after the point in a currency; two where none is known."""
    return _DECIMALS.get(currency, 2)


def money(text: str, currency: str = "") -> Money:
    """An amount in whole smallest coins: `£3.20`, `3,20 €`, `12`, `4.5`, `75p`.

    `currency` is the file's ISO 4217 code; a sign that cannot mean it is refused.
    """
    found = _matched(text)
    meant = _meant(found)
    if currency and meant and currency not in meant:
        raise Unreadable(
            text, f"an amount in {currency}", f"this file keeps its money in {currency}"
        )
    after = (found["after"] or "").lower()
    hundredths = after in _HUNDREDTHS
    places = 0 if hundredths else decimals(currency or (meant[0] if meant else ""))
    coins = _number(found["number"], places) * 10**places
    if coins.denominator != 1:
        raise Unreadable(text, "an amount of money", f"at most {places} digits after the point")
    if coins >= 10**15:
        raise Unreadable(text, "an amount of money", "the figure is too large")
    return Money(int(coins))


def currencies_of(text: str) -> tuple[str, ...]:
    """The ISO 4217 codes the sign in a price may stand for; empty where it has none."""
    return _meant(_matched(text))


def currency_in(text: str) -> str:
    """The ISO 4217 code of the first price in a text, empty where no sign means one only."""
    found = re.search(SIGNED, numbers.cleaned(text))
    meant = currencies_of(found[0].strip()) if found else ()
    return meant[0] if len(meant) == 1 else ""


def show_money(amount: Money, currency: str = "") -> str:
    """An amount with its sign or code, so that it reads back to the same coins: `£3.20`."""
    places = decimals(currency)
    digits = str(abs(amount.coins)).rjust(places + 1, "0")
    figure = f"{digits[: len(digits) - places]}.{digits[len(digits) - places :]}".rstrip(".")
    figure = f"-{figure}" if amount.coins < 0 else figure
    signs = [sign for sign, codes in SIGNS.items() if codes[0] == currency and sign in "£€¥$"]
    if signs:
        return f"{signs[0]}{figure}"
    return f"{figure} {currency}".strip()


def _matched(text: str) -> re.Match[str]:
    plain = numbers.cleaned(text).strip()
    found = _MONEY.fullmatch(plain)
    if not found or (found["before"] and found["after"]):
        raise Unreadable(text, "an amount of money", "write it like 3.20")
    return found


def _meant(found: re.Match[str]) -> tuple[str, ...]:
    sign = found["before"] or found["after"] or ""
    return _BY_SMALL_LETTERS.get(sign.lower(), (sign.upper(),) if sign else ())


def _number(text: str, places: int) -> Fraction:
    """The figure; with three coins' digits, three digits after the point are no thousands."""
    if places == 3 and re.fullmatch(r"[0-9]+[.,][0-9]{3}", text):
        return Fraction(text.replace(",", "."))
    return numbers.fraction(text)
