"""The file proved sound: what the database says of itself, and what the books must add up to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from stash.actions.book import Book
from stash.actions.rows_read import unreadable
from stash.stock.article import Article, ArticleState
from stash.stock.sale import Sale, SaleKind, sold
from stash.store import article_rows, balance_rows, guards, sale_rows, skein_rows
from stash.store.engine import Connection


def check(book: Book) -> list[str]:
    """Everything that is not as it must be, one line each; nothing for a sound file."""
    with book.reading() as db:
        return findings(db)


def findings(db: Connection) -> list[str]:
    """The same inside a view or a unit of work that is open already.

    What the books add up to is looked at only where every row can be read.
    """
    of_rows = [*islice(unreadable(db), _MOST_TOLD)]
    return [*_file(db), *(of_rows or _books(db))]


#: So many rows that cannot be read say enough.
_MOST_TOLD = 50


def _file(db: Connection) -> Iterator[str]:
    for row in db.exec_driver_sql("PRAGMA integrity_check"):
        if row[0] != "ok":
            yield f"the file is damaged: {row[0]}"
    for row in db.exec_driver_sql("PRAGMA foreign_key_check"):
        yield f"table {row[0]}, row {row[1]} refers to a row of {row[2]} that is not there"
    for name in guards.missing(db):
        yield f"{name} is missing or altered; the rule it holds may have been broken"


def _books(db: Connection) -> Iterator[str]:
    skeins = skein_rows.held_skeins(db)
    numbers = [skein.number for skein in skeins]
    for number, day, held in balance_rows.lowest_on_any_day(db):
        yield f"skein {number} held {held} on {day}, less than nothing"
    for skein in skeins:
        if skein.set_aside + skein.free != skein.held:
            yield f"skein {skein.number}: set aside and free do not add up to what is held"
    promises = article_rows.promises(db)
    for number in sorted({p.skein for p in promises} - {*numbers}):
        yield f"skein {number} is promised but was taken back"
    known = {article.number: article for article in article_rows.articles(db)}
    for promise in promises:
        article = known.get(promise.article)
        if article is None:
            yield f"article {promise.article} was taken back and still has yarn set aside"
        elif not article.open:
            yield f"article {article} is {article.state} and still has yarn set aside"
    yield from _sales(db, known)
    for wrong, answer, left in balance_rows.unbalanced_take_backs(db):
        yield f"entry {answer} takes back {wrong} and leaves {left} over"


def _sales(db: Connection, known: Mapping[int, Article]) -> Iterator[str]:
    """A sale and its return take turns, of articles that are done."""
    by_article: dict[int, list[Sale]] = {}
    for sale in sale_rows.sales(db):
        by_article.setdefault(sale.article, []).append(sale)
    for number, facts in by_article.items():
        article = known.get(number)
        turns = [SaleKind.SOLD if i % 2 == 0 else SaleKind.RETURNED for i in range(len(facts))]
        if article is None:
            yield f"article {number} was taken back and is still in the sales"
        elif [fact.kind for fact in facts] != turns:
            yield f"article {article} was sold twice, or returned without being sold"
        elif sold(facts) is not None and article.state is not ArticleState.DONE:
            yield f"article {article} is sold and {article.state}"
