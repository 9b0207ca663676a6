"""What is typed about yarn to buy: an offer, read like a label, and a need given by weight."""

from __future__ import annotations

import re

from stash.errors import Unreadable
from stash.measures.length import Length, metres
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.parsing import label, quantities
from stash.parsing.coins import money
from stash.planning.shopping.shopping import Offer
from stash.trade.thickness import thickness_of_m_per_100g, usual_m_per_100g


def offer(text: str, currency: str) -> Offer:
    """`Fell Wool DK 50g/120m 4.50`: a name, the put-up, and the price of one skein if known.

    Without a class it is taken to be of the one its metres per 100 g belong to, where the weight is
    given too.
    """
    line, price = _with_price(text)
    incoming = label.read(line, currency=currency).incoming
    length = incoming.full_length
    if length is None or incoming.count < 1:
        raise Unreadable(text, "offer_without_length")
    coins = None
    if price:
        coins = money(price, currency).coins
    elif incoming.paid is not None:
        coins = -(-incoming.paid.coins // incoming.count)
    low, high = incoming.thickness_from, incoming.thickness_to
    if low is None and incoming.full_mass is not None:
        low = thickness_of_m_per_100g(PutUp(incoming.full_mass, length).m_per_100g)
    classes = None if low is None else (low, low if high is None else high)
    name = f"{incoming.maker} {incoming.name}".strip()
    return Offer(name, length.um, coins, classes, incoming.full_mass)


def _with_price(text: str) -> tuple[str, str]:
    """The label, and a bare price behind it; one with a sign is read with the label."""
    found = re.fullmatch(r"(.*\S)\s+(\d+[.,]\d\d)", text.strip())
    return (found[1], found[2]) if found else (text, "")


def need(text: str, pair: PutUp | None, classes: tuple[int, int] | None) -> tuple[Length, int]:
    """A need in metres, and the metres to 100 g that were only assumed (0 where they were not).

    Grams become metres by the put-up, else by what the class usually has.
    """
    amount = quantities.amount(text)
    if not amount:
        raise Unreadable(text, "need_of_nothing")
    if isinstance(amount, Length):
        return amount, 0
    if pair is not None:
        return pair.length_of(amount), 0
    if classes is None:
        raise Unreadable(text, "need_of_unknown_yarn")
    usual = round(usual_m_per_100g(classes[1]))
    return PutUp(grams(100), metres(usual)).length_of(amount), usual
