"""Prices as people write them, to and from whole smallest coins."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.measures.money import Money, decimals
from stash.measures.written import SIGNS
from stash.parsing import numbers

#: Words for a currency, written after the figure (common practice, no source).
_WORDS = {
    **dict.fromkeys(("euro", "euros"), ("EUR",)), **dict.fromkeys(("pounds", "quid"), ("GBP",)),
    **dict.fromkeys(("dollar", "dollars", "bucks"), SIGNS["$"]),
    **dict.fromkeys(("krona", "kronor"), ("SEK",)),
    **dict.fromkeys(("krone", "kroner"), ("NOK", "DKK")), "yen": ("JPY",),
}  # fmt: skip
#: Signs for a hundredth, written after the figure.
_HUNDREDTHS = {
    **dict.fromkeys(("p", "pence"), ("GBP",)), "ct": ("EUR",), "öre": ("SEK",),
    **dict.fromkeys(("c", "cent", "cents"), ("EUR", "USD", "AUD", "CAD", "NZD", "SGD", "HKD")),
    "¢": ("USD", "CAD", "AUD", "NZD"), "øre": ("NOK", "DKK"),
}  # fmt: skip
#: What is typed for a price where nothing was paid (common practice, no source).
_FOR_NOTHING = frozenset(
    ("free", "for free", "free of charge", "freebie", "gift", "a gift", "gifted", "nothing",
     "gratis", "present", "a present", "geschenk", "geschenkt", "cadeau", "regalo")
)  # fmt: skip


def _one_of(signs: Iterable[str]) -> str:
    """A pattern for one of several signs, the longest first."""
    return "|".join(re.escape(s) for s in sorted(signs, key=lambda s: (-len(s), s)))


#: Currencies by their letters (ISO 4217; from memory).
CODE = (
    "GBP|EUR|USD|AUD|CAD|NZD|CHF|SEK|NOK|DKK|ISK|PLN|CZK|JPY|CNY|INR|KRW|ZAR|SGD|HKD|MXN|HUF|TRY"
    "|BHD|CLP|JOD|KWD|OMR|TND|VND|BRL|ILS|RON|THB"
)
_NUMBER = numbers.PATTERN
#: A price with its sign, for finding one inside a longer text (after `numbers.cleaned`).
SIGNED = (
    rf"(?:(?:(?<![^\W\d_])(?:{CODE})\s?|[£€¥₹₩]\s?"
    rf"|(?<![^\W\d_])(?:A|AU|C|CA|NZ|US|S|HK|MX|R)?\$\s?"
    rf"|(?<![^\W\d_])(?:kr|Fr)\.?\s?){_NUMBER}(?:\s?(?:{CODE})(?![^\W\d_]))?"
    rf"|(?<![\w.,/]){_NUMBER}(?:\s?(?:(?:{CODE}|kr|zł|Kč|öre|øre|ct)(?![^\W\d_])|[£€¥₹₩$¢](?!\s?[0-9]))"
    r"|[pc](?![^\W\d_])))"
)
_MONEY = re.compile(
    rf"(?P<before>{_one_of(SIGNS)}|{CODE})?\.?\s*(?P<number>{_NUMBER})\s*"
    rf"(?P<after>{_one_of([*SIGNS, *_WORDS, *_HUNDREDTHS])}|{CODE})?\.?",
    re.IGNORECASE,
)
_BY_SMALL_LETTERS = {s.lower(): codes for s, codes in {**SIGNS, **_WORDS, **_HUNDREDTHS}.items()}


def money(text: str, currency: str = "") -> Money:
    """An amount in whole smallest coins: `£3.20`, `3,20 €`, `12`, `4.5`, `75p`; `free` is nothing.

    `currency` is the file's ISO 4217 code, empty while it has none. A sign that cannot mean it is
    refused; one that several currencies share is `Ambiguous` while the file has none.
    """
    if text.strip().lower() in _FOR_NOTHING:
        return Money(0)
    found = _matched(text)
    meant = _meant(found)
    if currency and meant and currency not in meant:
        raise Unreadable(text, "other_currency", currency=currency)
    if not currency and len(meant) > 1:
        raise Ambiguous(text.strip(), [_written_with(found, code) for code in meant])
    return _in_coins(text, found, currency or (meant[0] if meant else ""))


def _in_coins(text: str, found: re.Match[str], currency: str) -> Money:
    hundredths = (found["after"] or "").lower() in _HUNDREDTHS
    places = decimals(currency)
    coins = _number(found["number"], places) * 10**places / (100 if hundredths else 1)
    if coins.denominator != 1:
        raise Unreadable(text, "too_many_decimals", places=places)
    if coins >= 10**15:
        raise Unreadable(text, "too_much_money")
    return Money(int(coins))


def _written_with(found: re.Match[str], code: str) -> str:
    """A price with the letters of one currency in the place of its sign."""
    if (found["after"] or "").lower() in _HUNDREDTHS:
        return f"{float(_number(found['number'], 2) / 100):.2f} {code}"
    return f"{found['number']} {code}"


def typed(text: str, currency: str = "") -> Money:
    """A price off a command line, where a shell takes `$2` out of "$2.99" before we see it."""
    if text.strip().startswith("."):
        raise Unreadable(text, "sign_taken_by_the_shell", figure=text.strip())
    return money(text, currency)


def typed_together(texts: Sequence[str], currency: str = "") -> tuple[list[Money | None], str]:
    """Prices of one command line, None for one that was not typed, and the currency they are in."""
    found: list[Money | None] = []
    for text in texts:
        found.append(typed(text, currency) if text else None)
        meant = currencies_of(text) if text else ()
        currency = currency or (meant[0] if meant else "")
    return found, currency


def currencies_of(text: str) -> tuple[str, ...]:
    """The ISO 4217 codes the sign in a price may stand for; empty where it has none."""
    return () if text.strip().lower() in _FOR_NOTHING else _meant(_matched(text))


def currency_in(text: str) -> str:
    """The ISO 4217 code of the first price in a text, empty where no sign means one only."""
    found = re.search(SIGNED, numbers.cleaned(text))
    meant = currencies_of(found[0].strip()) if found else ()
    return meant[0] if len(meant) == 1 else ""


def _matched(text: str) -> re.Match[str]:
    plain = numbers.cleaned(text).strip()
    found = _MONEY.fullmatch(plain)
    if not found or (found["before"] and found["after"] and not _meant(found)):
        raise Unreadable(text, "no_money")
    return found


def _meant(found: re.Match[str]) -> tuple[str, ...]:
    """The currencies that the signs of a price allow, before and after the figure."""
    before, after = (_codes(found[side]) for side in ("before", "after"))
    if before and after:
        return tuple(code for code in before if code in after)
    return before or after


def _codes(sign: str | None) -> tuple[str, ...]:
    return _BY_SMALL_LETTERS.get(sign.lower(), (sign.upper(),)) if sign else ()


def _number(text: str, places: int) -> Fraction:
    """The figure; with three coins' digits, three digits after the point are no thousands."""
    if places == 3 and re.fullmatch(r"[0-9]+[.,][0-9]{3}", text):
        return Fraction(text.replace(",", "."))
    return numbers.fraction(text)
