"""The facts for a sale tag: what an article is of, and where its yarn came from."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book
from stash.actions.lessons import Plans
from stash.costing.label import Content, Part, Place, content
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.requirements.extras import SMALL_PARTS
from stash.requirements.piece import Piece
from stash.requirements.shapes import HATS
from stash.stock.article import Article, ArticleState
from stash.stock.movement import Kind, standing
from stash.stock.yarn import Lot
from stash.store import article_rows, entry_rows, skein_rows
from stash.store.engine import Connection
from stash.trade.regain import shares_of


@dataclass(frozen=True, slots=True)
class Source:
    """A lot record whose yarn went into an article: from which skeins, and how much of it."""

    lot: Lot
    skeins: tuple[int, ...]
    mass: Mass


@dataclass(frozen=True, slots=True)
class Tag:
    """What a tag must tell of an article; its number is the batch. `small` are parts to mind."""

    article: Article
    made_on: date | None
    content: Content
    sources: tuple[Source, ...]
    for_child: bool
    hat: bool
    small: tuple[str, ...]


def tag(book: Book, asked: str, place: Place, functional: Collection[str] = ()) -> Tag:
    """The tag of an article: its number, or its piece's name where one is finished or under way."""
    with book.reading() as db:
        able = {
            a.number
            for a in article_rows.articles(db)
            if a.state in (ArticleState.BEGUN, ArticleState.DONE)
        }
        article = find.made(db, asked, able, "made")
        if article.number not in able:
            raise Refusal(f"article {article} is {article.state}; a tag is for what is made")
        sources = _sources(db, article)
        if not sources:
            raise Refusal(f"article {article} has used no yarn yet, so there is nothing to tell")
        steps = article_rows.standing_steps(db, article.number)
        plan = _plan(db, article, steps[0].entry)
    parts = [Part(source.mass, tuple(shares_of(source.lot.fibre))) for source in sources]
    return Tag(
        article=article,
        made_on=next((s.on for s in reversed(steps) if s.state is ArticleState.DONE), None),
        content=content(parts, place, functional),
        sources=tuple(sources),
        for_child=plan.for_child,
        hat=plan.shape in HATS,
        small=tuple(dict.fromkeys(e.kind.value for e in plan.extras if e.kind in SMALL_PARTS)),
    )


def _plan(db: Connection, article: Article, planned_in: int) -> Piece:
    """The plan as it was when its yarn was set aside."""
    if article.piece_id is None:
        return Piece()
    return Plans.read(db).at(article.piece_id, planned_in) or Piece()


def _sources(db: Connection, article: Article) -> list[Source]:
    used: dict[int, Mass] = {}
    for move in standing(
        row.movement for row in entry_rows.movements(db, article_number=article.number)
    ):
        if move.kind is Kind.USED:
            used[move.skein] = used.get(move.skein, NO_MASS) - move.change
    skeins = {n: skein_rows.skein_facts(db, n)["lot_id"] for n in sorted(used)}
    lots = skein_rows.lots(db, sorted(set(skeins.values())))
    return [
        Source(
            lot,
            tuple(n for n, lot_id in skeins.items() if lot_id == lot.id),
            sum((used[n] for n, lot_id in skeins.items() if lot_id == lot.id), NO_MASS),
        )
        for lot in lots.values()
    ]
