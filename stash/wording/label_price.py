"""What a label line says of money: each, for all, so many for so much, and the postage."""

from __future__ import annotations

import re

from stash.errors import Unreadable
from stash.measures.money import Money
from stash.wording import coins, numbers
from stash.wording.label_parts import NO_MONEY, PACKAGE, Line, Price

_SIGNED = coins.SIGNED
_ANY = rf"(?:{_SIGNED}|{numbers.PATTERN})"
_ONE = r"(?:skein|ball|hank|cake|cone)"
_EACH = rf"(?:\s*(?:ea\b\.?|each\b|apiece\b|a\s+{_ONE}\b|per\s+{_ONE}\b|/\s?(?:ea|{_ONE})\b))"
_POSTAGE = re.compile(
    rf"(?:\+|plus|and)\s*(?:(?:ship(?:ping)?|post(?:age)?|p\s?&\s?p|delivery)\b\.?\s*:?\s*(?P<after>{_ANY})"
    rf"|(?P<before>{_ANY})\s*(?:ship(?:ping)?|post(?:age)?|p\s?&\s?p|delivery)\b)",
    re.IGNORECASE,
)
_AT = re.compile(rf"(?:(?<![\w.,/])(?P<count>\d{{1,3}})\s*)?@\s*(?P<each>{_ANY}){_EACH}?", re.I)
_EACH_PRICE = re.compile(
    rf"(?:\b(?:paid|cost|price)\s*:?\s*)?(?P<each>{_SIGNED}|(?<![\w.,/])\d+[.,]\d\d){_EACH}", re.I
)
_DEAL = re.compile(
    rf"(?:\b(?:or|and)\s+)?(?<![\w.,/])(?P<count>\d{{1,3}})\s*(?:{PACKAGE}\s*)?for\s*(?P<deal>{_SIGNED})",
    re.I,
)
_WHOLE = re.compile(
    rf"(?:\b(?:paid|cost|price|total|for|was|at)\b\s*:?\s*)?(?P<whole>{_SIGNED})"
    rf"|\b(?:paid|cost|price)\s*:?\s*(?P<bare>{numbers.PATTERN})(?!\s*[a-z%\"]|[\d.,])",
    re.IGNORECASE,
)
_FOR_ALL = re.compile(r"\s*(?:total|in all|in total|altogether|all in|for all|for the lot)\b", re.I)
_GIFT = re.compile(r"\b(?:gift(?:ed)?|freebie|free of charge)\b", re.IGNORECASE)


def take_price(line: Line) -> None:
    """Every price in the line; what it comes to is settled when the count is known."""
    postage = line.take(_POSTAGE)
    at = line.take(_AT)
    each = None if at else line.take(_EACH_PRICE)
    deal = line.take(_DEAL)
    whole = None if at or each or deal else _take_whole(line)
    if at and at["count"]:
        line.count = int(at["count"])
    line.price = Price(
        each=_money(line, (at or each or {"each": None})["each"]),
        whole=whole,
        deal=(int(deal["count"]), _some(line, deal["deal"])) if deal else None,
        postage=_money(line, (postage["after"] or postage["before"]) if postage else None)
        or NO_MONEY,
    )
    if re.search(_SIGNED, line.rest):
        raise Unreadable(line.text, "one price", "write `3.20 each` or what was paid for the line")


def settle_price(line: Line, count: int) -> None:
    """What was paid for the whole line, once it is known how many skeins it holds."""
    price = line.price
    if price is None:
        return
    paid = _paid(line, price, count)
    if paid is None:
        return
    paid += price.postage
    line.learn("paid", f"{coins.show_money(paid, line.currency)} for the line", paid=paid)


def _paid(line: Line, price: Price, count: int) -> Money | None:
    if price.deal:
        return _with_deal(line, price.deal, price.each, count)
    if price.each is not None:
        return Money(price.each.coins * count)
    if price.whole and price.whole.coins and count > 1:
        line.notes.append("the price is taken for the whole line; write `each` if it is for one")
    return price.whole


def _with_deal(line: Line, deal: tuple[int, Money], each: Money | None, count: int) -> Money | None:
    """As many at the price of the deal as fill it, the others at the single price."""
    size, price = deal
    if size < 1:
        raise Unreadable(line.text, "a price", "a deal is for at least one skein")
    deals, singles = divmod(count, size)
    if singles and each is None:
        raise Unreadable(line.text, "a price", f"say what was paid for all {count}")
    return Money(deals * price.coins + (singles * each.coins if each else 0))


def count_of_deal(line: Line) -> int | None:
    """`4 for £11` alone says that there are four."""
    price = line.price
    return price.deal[0] if price and price.deal and price.each is None else None


def _take_whole(line: Line) -> Money | None:
    found = line.take(_WHOLE)
    if found is None:
        return NO_MONEY if line.take(_GIFT) else None
    line.take(_FOR_ALL)
    return _some(line, found["whole"] or found["bare"])


def _money(line: Line, words: str | None) -> Money | None:
    return None if words is None else _some(line, words)


def _some(line: Line, words: str) -> Money:
    signs = coins.currencies_of(words)
    if not line.currency and len(signs) == 1:
        line.currency = signs[0]
    return coins.money(words, line.currency)
