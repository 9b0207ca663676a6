"""What was paid for a line, once it is known what it holds."""

from __future__ import annotations

from stash.errors import Ambiguous, Unreadable
from stash.measures.money import Money
from stash.measures.note import Note
from stash.parsing import coins
from stash.parsing.label.draft import Draft
from stash.parsing.label.holding import Holding
from stash.parsing.label.prices import Price
from stash.parsing.label.span import Kind, Span


def settle_price(draft: Draft, holding: Holding) -> None:
    """The price of the line: each times how many, or as it stands; asked where it may be either."""
    spans = draft.of(Kind.PRICE)
    each = [s for s in spans if s.value.of == "each"]
    deals = [s for s in spans if s.value.of == "deal"]
    line = [s for s in spans if s.value.of == "line"]
    bare = [s for s in spans if not s.value.of]
    posts = [_money(draft, s) for s in spans if s.value.of == "post"]
    total = holding.count + len(holding.parts)
    paid: Money | None = None
    if deals:
        paid = _deal(draft, deals[0], each, total)
    elif line:
        paid = _money(draft, line[0])
    elif each:
        paid = Money(round(_money(draft, each[0]).coins * draft.facts.full_skeins))
    elif bare:
        paid = _bare(draft, bare, holding)
    if paid is None:
        return
    for post in posts:
        paid += post
    draft.learn(Note("read_paid", paid=paid, currency=draft.currency), paid=paid)


def _money(draft: Draft, span: Span) -> Money:
    price: Price = span.value
    words = price.words
    if words == "free":
        return Money(0)
    money = coins.money(words, draft.currency)
    signs = coins.currencies_of(words)
    if not draft.currency and signs:
        draft.currency = signs[0]
    return money


def _bare(draft: Draft, spans: list[Span], holding: Holding) -> Money:
    """One price that is neither of each nor of all is plain only on one whole skein."""
    amounts = {_money(draft, span).coins for span in spans}
    if len(amounts) > 1:
        raise Unreadable(draft.text.plain, "two_prices")
    paid = _money(draft, spans[0])
    several = holding.count + len(holding.parts) > 1
    part = holding.left is not None and holding.full(holding.left) is not None
    if paid.coins and (several or part):
        words = spans[0].value.words
        raise Ambiguous(draft.words(spans[0]), [f"{words} each", f"paid {words}"])
    return paid


def _deal(draft: Draft, span: Span, each: list[Span], count: int) -> Money:
    """As many at the price of the deal as fill it, the others at the single price."""
    size, price = span.value.count, _money(draft, span)
    if size < 1:
        raise Unreadable(draft.text.plain, "deal_of_nothing")
    deals, singles = divmod(count, size)
    if singles and not each:
        raise Unreadable(draft.text.plain, "deal_and_more", count=count)
    return Money(deals * price.coins + (singles * _money(draft, each[0]).coins if each else 0))
