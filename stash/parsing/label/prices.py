"""What a label line says of money: each, for all, so many for so much, and the postage."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.parsing import coins, quantities
from stash.parsing.label.lots import ends_of_numbers
from stash.parsing.label.span import Kind, Span, span_between, span_of
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import EACH, FOR_ALL, PACKAGE, N, compiled

_SIGNED = coins.SIGNED
_COINS = r"(?:(?<![\w.,])[0-9]+(?:[.,][0-9]+)?\s?(?:p|c|ct|cts|cents?|pence|öre|øre|¢)(?![^\W\d_]))"
_WORDED = (
    r"(?:(?<![\w.,])[0-9]+(?:[.,][0-9]+)?\s?(?:pounds?(?=\s*(?:each|ea\b|per|for|the|all|total|,"
    r"|$))|quid|euros?|dollars?|bucks?|francs?|kronor|kroner|kronen|zloty)(?![^\W\d_]))"
)
MONEY = rf"(?:(?<![\w.,]){N}\s?(?:A|AU|C|CA|NZ|US|S|HK)\$|{_SIGNED}|{_COINS}|{_WORDED})"
_ANY = rf"(?:{MONEY}|{N})"
_PAID = (
    r"(?:paid|i\s+paid|cost(?:\s+me)?|costs|spent|bought\s+for|got\s+for|for|was|at|only|just"
    r"|total(?:\s+(?:cost|price|paid))?|gezahlt|bezahlt|payé|pagué|pagato|betaald|betalte|betalt)"
)
_POSTAGE_WORD = (
    r"(?:ship(?:ping)?|post(?:age)?|p\s?&\s?p|delivery|porto|versand|frais\s+de\s+port|verzending"
    r"|frakt|fragt)"
)
_POSTAGE = compiled(
    rf"(?:\+|plus|and)\s*(?:{_POSTAGE_WORD}\b\.?\s*:?\s*(?P<after>{_ANY})"
    rf"|(?P<before>{_ANY})\s*{_POSTAGE_WORD}\b)"
)
_AT = compiled(rf"@\s*(?P<each>{_ANY})(?:\s*{EACH})?")
_EACH_AFTER = compiled(
    rf"(?:\b(?:{_PAID}|price)\s*:?\s*)?(?P<each>{MONEY}|(?<![\w.,/])[0-9]+[.,][0-9]{{2}})\s*"
    rf"(?:{EACH}|(?:pi[èe]ce|stück|stuk|stk|pz|ud|la\s+unidad)(?![^\W\d_]))"
)
_EACH_BEFORE = compiled(
    rf"\b(?:je|pro\s+stück|each|pro\s+{PACKAGE}|per\s+{PACKAGE}|per\s+stuk|cad\.?|chacune?"
    rf"|unit(?:\s+price)?|styckpris|per)\s*:?\s*(?P<each>{MONEY})|\b(?:each|je)\s+"
    rf"(?P<bare>[0-9]+[.,][0-9]{{2}})(?![\w])"
)
_PRICE_WORD = compiled(
    rf"\b(?:price|unit\s+price|preis|prix|precio|prezzo|prijs|pris)\s*(?:each\b)?\s*[:=]?\s*"
    rf"(?P<each>{_ANY})(?!\s*%)"
)
_DEAL = compiled(
    rf"(?:\b(?:or|and)\s+)?(?<![\w.,/])(?P<count>[0-9]{{1,3}}|two|three|four|five|six)\s*"
    rf"(?:{PACKAGE}"
    rf"\s*)?(?:for|für|pour|por|per|voor|för|à)\s*(?P<deal>{MONEY})(?!\s*(?:{EACH}))"
)
_LINE_AFTER = compiled(
    rf"(?:\b{_PAID}\s*:?\s*)?(?P<whole>{MONEY})\s*(?:,\s*)?(?:{FOR_ALL})|\b(?:{FOR_ALL})\s*:?"
    rf"\s*(?P<whole2>{MONEY})"
)
_PAID_BEFORE = compiled(
    rf"\b(?P<word>{_PAID})\s*:?\s*(?P<whole>{MONEY})|\b(?:paid|cost|spent)\s*:?\s*"
    rf"(?P<bare>{N})(?!\s*[a-z%\"]|[\d.,])"
)
_BARE = compiled(rf"(?P<whole>{MONEY})(?:\s+(?:paid|only|new))?")
#: A sum without its sign, behind the number of a lot: nothing that counts or measures follows it.
_AFTER_LOT = compiled(
    rf"\s*[,;]?\s*(?!{quantities.PATTERN})(?P<whole>[0-9]{{1,4}}[.,][0-9]{{2}})(?!\w|[.,/-]\d)"
    rf"(?!\s*(?:[x×%/\"]|(?:{PACKAGE}|{EACH}|hook|needles?|ply|wpi|sts|left)(?![^\W\d_])))"
)
_FREE = compiled(
    r"\b(?:gift(?:ed)?(?=\s*(?:[,;.)]|$))|freebie|free(?:\s+of\s+charge)?(?=\s*(?:[,;.)]|$"
    r"|\())|(?:got|had)\s+(?:it|this|these|them)\s+(?:for\s+)?free|for\s+free|for\s+nothing"
    r"|gratis|umsonst|geschenkt|geschenk|cadeau|offert|gratuite?|regalo|regalat[oa]|gekregen"
    r"|kostenlos)(?![^\W\d_])"
)
#: What a shop asked or would ask is not what was paid.
_SHOP_PRICE = compiled(
    rf"\b(?:rrp|rrp\.|msrp|normally|usually|reg(?:ular)?|orig(?:inally)?|was|worth|instead"
    rf"\s+of|retail(?:s)?(?:\s+(?:at|for))?|statt|full\s+price)\s*:?\s*(?P<shop>{MONEY})(?:"
    rf"\s*{EACH})?"
)
_OFF = compiled(
    r"\b[0-9]{1,2}\s?%\s*(?:off|discount|rabatt|korting|rea)\b|\bhalf[\s-]price(?:\s+(?:bin"
    r"|basket|box|table|shelf))?\b|\bon\s+(?:sale|offer)\b|\b(?:in\s+the\s+)?sale\b(?=\s*(?:,"
    r"|;|$))"
)


@dataclass(frozen=True, slots=True)
class Price:
    """Money in a line and what it is for: `each`, `line`, `deal` (so many), `post`, or not said."""

    words: str
    of: str = ""
    count: int = 0


#: Where nothing of this stands, no price does.
_HINT = compiled(
    r"[£€$¥₹₩¢@]|[0-9][.,][0-9]{2}(?![0-9])|(?-i:[0-9]\s?[A-Z]{3}\b|\b[A-Z]{3}\s?[0-9])|[0-9]\s?(?:p|c|ct|cts|pence"
    r"|cents?|öre|øre|kr|fr|zł|kč)\b|\b(?:kr|fr)\b"
    r"|paid|price|cost|spent|free|gift|nothing|gratis|sale|offer|off\b|rabatt|korting|pound"
    r"|quid|euro|dollar|buck|franc|kron|zloty|preis|prix|preci|prezz|prij|pris"
    r"|umsonst|geschenk|cadeau|offert|gratuit|regal|gekregen|kostenlos"
)


def price_spans(text: Text) -> Iterator[Span]:
    """Every price a line may hold."""
    plain = text.plain
    if not _HINT.search(plain):
        return
    for m in _POSTAGE.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["after"] or m["before"], "post"), 4.0)
    for m in _AT.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["each"], "each"), 3.0)
    for pattern in (_EACH_AFTER, _EACH_BEFORE):
        for m in pattern.finditer(plain):
            yield span_of(text, m, Kind.PRICE, Price(m["each"] or m["bare"], "each"), 3.0)
    for m in _PRICE_WORD.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["each"], "each"), 1.5)
    for m in _DEAL.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["deal"], "deal", _count(m["count"])), 3.0)
    for m in _LINE_AFTER.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["whole"] or m["whole2"], "line"), 3.0)
    yield from _loosely(text)


def _loosely(text: Text) -> Iterator[Span]:
    plain = text.plain
    for m in _PAID_BEFORE.finditer(plain):
        sure = (m["word"] or "paid").lower() not in ("for", "was", "at", "only", "just")
        yield span_of(
            text, m, Kind.PRICE, Price(m["whole"] or m["bare"], "line" if sure else ""), 2.0
        )
    for m in _BARE.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price(m["whole"]), 1.0)
    for end in ends_of_numbers(text):
        if after := _AFTER_LOT.match(plain, end):
            price = Price(after["whole"])
            yield span_between(text, after.start("whole"), after.end(), Kind.PRICE, price, 1.0)
    for m in _FREE.finditer(plain):
        yield span_of(text, m, Kind.PRICE, Price("free", "line"), 4.0)
    for m in _SHOP_PRICE.finditer(plain):
        yield span_of(text, m, Kind.NOTE, "shop price", 2.5)
    for m in _OFF.finditer(plain):
        yield span_of(text, m, Kind.NOTE, "offer", 3.0)


def _count(word: str) -> int:
    words = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
    return words.get(word.lower(), 0) or int(word)
