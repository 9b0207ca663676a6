"""A finished article is sold, or comes back from its buyer: a fact beside the state it is in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.errors import Refusal
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.article import Article, ArticleState
from stash.stock.entry import of_item
from stash.stock.sale import Sale, SaleKind, sold
from stash.store import article_rows, sale_rows
from stash.store.engine import Connection

NO_MONEY = Money(0)


@dataclass(frozen=True, slots=True)
class SaleBooked:
    """A sale or a return as it was booked, and the currency of its money."""

    article: Article
    sale: Sale
    currency: str


def sell(
    book: Book,
    article: str,
    price: Money,
    fee: Money = NO_MONEY,
    *,
    currency: str = "",
    on: date | None = None,
) -> SaleBooked:
    """A finished article is sold; the fee is what the place of sale keeps of the price.

    `currency` is the one they came in, kept if the file has none. Refused for one that is not
    done, or is sold already.
    """
    with book.entry("sold", on) as writer:
        learn(writer, currency)
        ready = unsold(writer.db)
        found = find.article_among(writer.db, article, ready, "unsold_article")
        if found.state is not ArticleState.DONE:
            raise Refusal("only_done_is_sold", article=found)
        refuse_if_sold(writer, found)
        if fee > price:
            raise Refusal("fee_above_price")
        booked = _book(writer, found, SaleKind.SOLD, price, fee)
    return replace(booked, currency=booked.currency or currency)


def take_back(
    book: Book, article: str, fee_back: Money = NO_MONEY, *, on: date | None = None
) -> SaleBooked:
    """A sold article comes back and its price is given back; it can be sold again.

    `fee_back` is what the place of sale gave back of its fee. Refused for one that is not sold.
    """
    with book.entry("returned", on) as writer:
        done = {a.number for a in article_rows.articles(writer.db) if a.state is ArticleState.DONE}
        found = find.article_among(writer.db, article, done - unsold(writer.db), "sold_article")
        sale = sold(sale_rows.sales(writer.db, found.number))
        if sale is None:
            raise Refusal("article_not_sold", article=found)
        if fee_back > sale.fee:
            raise Refusal("fee_back_above_fee")
        return _book(writer, found, SaleKind.RETURNED, sale.price, fee_back)


def _book(
    writer: EntryWriter, article: Article, kind: SaleKind, price: Money, fee: Money
) -> SaleBooked:
    _refuse_too_early(writer, article)
    made = Sale(writer.number, writer.on, article.number, kind, price, fee)
    sale_rows.add_sale(writer.db, made)
    booked = "item_sold" if kind is SaleKind.SOLD else "item_returned"
    writer.what = Note(booked, **of_item(article))
    return SaleBooked(article, made, writer.preferences.currency)


def unsold(db: Connection) -> set[int]:
    """The finished articles that are not sold."""
    gone: dict[int, bool] = {}
    for fact in sale_rows.sales(db):
        gone[fact.article] = fact.kind is SaleKind.SOLD
    done = {a.number for a in article_rows.articles(db) if a.state is ArticleState.DONE}
    return {number for number in done if not gone.get(number)}


def refuse_if_sold(writer: EntryWriter, article: Article) -> None:
    """What a buyer has can neither be sold again nor unravelled; nor on a day before it was."""
    if sold(sale_rows.sales(writer.db, article.number)) is not None:
        raise Refusal("article_is_sold", article=article)
    _refuse_too_early(writer, article)


def _refuse_too_early(writer: EntryWriter, article: Article) -> None:
    """Each thing that happens to an article lies on or after the day of the one before."""
    facts = [(fact.on, fact.kind.value) for fact in sale_rows.sales(writer.db, article.number)]
    steps = [
        (step.on, step.state.value)
        for step in article_rows.standing_steps(writer.db, article.number)
        if step.state is ArticleState.DONE
    ]
    last, what = max([*steps, *facts], default=(writer.on, ""))
    if writer.on < last:
        raise Refusal("dated_before_last_step", article=article, step=what, day=last)
