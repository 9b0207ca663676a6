"""What an article cost, or what the next one of a piece would, by the yarn on the shelf."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stash.actions import clock, find
from stash.actions.book import Book
from stash.actions.match import propose_within
from stash.actions.pieces import kept_named
from stash.actions.preferences import Preferences
from stash.actions.priced import Priced, yarn_of
from stash.costing.pools import Method
from stash.costing.price import NO_MONEY, Costing, Terms, YarnCost, gifts_at
from stash.errors import Ambiguous, NotFound, Refusal
from stash.matching.answer.proposal import Proposal
from stash.matching.question.wish import Wish
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.requirements.yarn.need import Need
from stash.stock.article import Article, ArticleState
from stash.stock.movement import Booked, Kind, Movement
from stash.stock.sale import Sale, sold
from stash.stock.yarn import Lot
from stash.store import article_rows, sale_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class CostAsked:
    """What a person says of the cost; what is None is as in her settings."""

    sundries: Money | None = None
    hours: Fraction | None = None
    wage: Money | None = None
    overhead: Fraction | None = None
    fees: Fraction | None = None
    gifts_at: Money | None = None
    method: Method | None = None


@dataclass(frozen=True, slots=True)
class Costed:
    """An article's cost, or (`article` None) that of the next one of a piece.

    `lots` are the records of its skeins; `sale` the sale not taken back; `key` the proposal that
    the next one was reckoned from; `others` what finished articles of the piece took in yarn.
    """

    piece: str
    article: Article | None
    costing: Costing
    lots: dict[int, Lot]
    method: Method
    currency: str
    sale: Sale | None = None
    key: str = ""
    others: tuple[tuple[int, Costing], ...] = ()


def cost(book: Book, asked: str, said: CostAsked | None = None) -> Costed:
    """The cost of an article (its number, or its piece's name while one is open), else of a piece.

    An article is reckoned from the grams it took so far; a piece from what the shelf proposes
    first, at the expected amount.
    """
    said = said or CostAsked()
    with book.reading() as db:
        preferences = Preferences.read(db)
        article = _article(db, asked)
        if article is not None:
            return _of_article(db, preferences, article, said)
        return _of_piece(db, preferences, find.piece(db, asked), said)


def _article(db: Connection, asked: str) -> Article | None:
    """None where a piece is meant: by a name that no article bears which is on the hook."""
    numbered = asked.strip().removeprefix("#").isdecimal()
    try:
        found = find.article(db, asked)
    except (NotFound, Ambiguous):
        if numbered:
            raise
        return None
    return found if numbered or article_rows.used_by_role(db, found.number) else None


def _terms(
    preferences: Preferences, said: CostAsked, piece: str, article: Article | None = None
) -> Terms:
    """What she says, else what was asked for the article, else her settings."""
    hours = preferences.hours(piece)
    if article is not None and article.asked.minutes is not None:
        hours = Fraction(article.asked.minutes, 60)
    sundries = preferences.sundries if said.sundries is None else said.sundries
    overhead = preferences.overhead if said.overhead is None else said.overhead
    fees = preferences.fees if said.fees is None else said.fees
    return Terms(
        sundries=sundries or NO_MONEY,
        hours=hours if said.hours is None else said.hours,
        wage=preferences.wage if said.wage is None else said.wage,
        overhead=overhead or Fraction(0),
        fees=fees or Fraction(0),
    )


def _of_article(
    db: Connection, preferences: Preferences, article: Article, said: CostAsked
) -> Costed:
    if article.state is ArticleState.UNRAVELLED:
        raise Refusal("cost_of_unravelled", article=article)
    priced = Priced.read(db, said.method)
    lines = yarn_of(priced, article.number)
    if not lines:
        raise Refusal("cost_of_nothing_used", article=article)
    return Costed(
        piece=article.piece,
        article=article,
        costing=_costing(lines, priced, _terms(preferences, said, article.piece, article), said),
        lots={line.skein: priced.lot(line.skein) for line in lines},
        method=priced.method,
        currency=preferences.currency,
        sale=sold(sale_rows.sales(db, article.number)),
    )


def _costing(lines: Sequence[YarnCost], priced: Priced, terms: Terms, said: CostAsked) -> Costing:
    if said.gifts_at is None:
        return Costing(tuple(lines), terms)
    if priced.method is not Method.SPECIFIC:
        raise Refusal("gifts_lower_all", method=priced.method)
    return Costing(gifts_at(lines, said.gifts_at), terms)


#: The number of an article that is only thought of.
_THOUGHT_OF = -1


def _of_piece(
    db: Connection, preferences: Preferences, row: article_rows.PieceRow, said: CostAsked
) -> Costed:
    piece = kept_named(db, preferences, row.name)
    answer = propose_within(db, preferences, piece.need, Wish(top=1), piece)
    if not answer.match.proposals:
        raise Refusal("nothing_covers_piece", piece=row.name)
    proposal = answer.match.proposals[0]
    moves = list(_thought_of(proposal, answer.match.need))
    priced = Priced.read(db, said.method, moves)
    terms = _terms(preferences, said, row.name)
    lines = yarn_of(priced, _THOUGHT_OF)
    made = [
        a.number
        for a in article_rows.articles(db)
        if a.piece_id == row.id and a.state is ArticleState.DONE
    ]
    return Costed(
        piece=row.name,
        article=None,
        costing=_costing(lines, priced, terms, said),
        lots={line.skein: priced.lot(line.skein) for line in lines},
        method=priced.method,
        currency=preferences.currency,
        key=proposal.key,
        others=tuple(
            (number, _costing(yarn_of(priced, number), priced, terms, said)) for number in made
        ),
    )


def _thought_of(proposal: Proposal, need: Need) -> Iterator[Booked]:
    """The proposal worked up today: each take by the share of it that is expected to be used."""
    today, last = clock.today(), 2**40
    expected = {role.role: role.estimate.expected_m for role in need.roles}
    for filled in proposal.roles:
        taken_m = math.fsum(take.length.m for take in filled.takes)
        pairs = {skein.number: skein.pair.put_up for skein in filled.lot.skeins}
        for take in filled.takes:
            pair = pairs[take.number]
            if pair is None:
                continue
            share = min(1.0, expected[filled.role] / taken_m)
            mass = Mass(round(pair.mass_of(take.length).mg * share))
            last += 1
            move = Movement(
                take.number, Kind.USED, -mass, article=_THOUGHT_OF, role=filled.role, id=last
            )
            yield Booked(last, today, move)
