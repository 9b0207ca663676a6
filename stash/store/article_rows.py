"""Articles, their promises and the pieces they are made from."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import Connection, Select, func, insert, select

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.article import (
    NOT_ASKED,
    TEACHING,
    Article,
    ArticleState,
    AskedFor,
    Weighed,
)
from stash.stock.promise import Promised
from stash.store.in_list import in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import (
    article,
    article_need,
    article_step,
    entry,
    movement,
    piece,
    promise,
)


def promises(
    db: Connection,
    *,
    skeins: Collection[int] | None = None,
    article_number: int | None = None,
) -> list[Promised]:
    """What is still promised, by skein, then oldest promise first."""
    since = func.min(promise.c.id)
    asked = (
        select(
            promise.c.skein_number,
            promise.c.article_number,
            promise.c.role,
            promise.c.strand,
            func.sum(promise.c.change_mg).label("mg"),
            func.sum(promise.c.change_um).label("um"),
            since.label("since"),
        )
        .group_by(
            promise.c.skein_number, promise.c.article_number, promise.c.role, promise.c.strand
        )
        .having(func.sum(promise.c.change_mg) > 0)
        .order_by(promise.c.skein_number, since)
    )
    if skeins is not None:
        asked = asked.where(in_list(promise.c.skein_number, skeins))
    if article_number is not None:
        asked = asked.where(promise.c.article_number == article_number)
    return [_promised(row) for row in db.execute(asked)]


def strands_of(db: Connection, article_number: int, role: str) -> dict[int, set[int]]:
    """Of which strands of a role each skein was set aside, whatever is still promised of it."""
    asked = (
        select(promise.c.skein_number, promise.c.strand)
        .where(promise.c.article_number == article_number, promise.c.role == role)
        .order_by(promise.c.id)
    )
    found: dict[int, set[int]] = {}
    for skein, strand in db.execute(asked):
        found.setdefault(skein, set()).add(strand)
    return found


def _promised(row: Any) -> Promised:
    return Promised(
        row.skein_number,
        row.article_number,
        row.role,
        row.strand,
        Mass(row.mg),
        None if row.um is None else Length(row.um),
        row.since,
    )


def roles_set_aside(db: Connection, skein_number: int, made: int) -> list[str]:
    """The roles a skein was ever set aside for, for one article, in the order of the alphabet."""
    asked = select(promise.c.role).where(
        promise.c.skein_number == skein_number, promise.c.article_number == made
    )
    return list(db.execute(asked.distinct().order_by(promise.c.role)).scalars())


def articles(db: Connection, numbers: Collection[int] | None = None) -> list[Article]:
    """Articles in their present state, by number; without those whose entry was taken back."""
    asked = _article_statement()
    if numbers is not None:
        asked = asked.where(in_list(article.c.number, numbers))
    return [
        Article(
            row.number,
            ArticleState(row.state),
            row.piece_id,
            row.piece or "",
            row.note,
            Weighed(row.how) if row.how else None,
            bool(row.promised_mg),
            AskedFor(
                None if row.asked_coins is None else Money(row.asked_coins), row.asked_minutes
            ),
        )
        for row in db.execute(asked)
    ]


def _article_statement() -> Select[Any]:
    last = (
        select(article_step.c.article_number, func.max(article_step.c.id).label("id"))
        .group_by(article_step.c.article_number)
        .subquery()
    )
    promised = (
        select(promise.c.article_number, func.sum(promise.c.change_mg).label("mg"))
        .group_by(promise.c.article_number)
        .subquery()
    )
    return (
        select(
            article.c.number,
            article.c.piece_id,
            article.c.note,
            article.c.asked_coins,
            article.c.asked_minutes,
            piece.c.name.label("piece"),
            article_step.c.state,
            article_step.c.how,
            func.coalesce(promised.c.mg, 0).label("promised_mg"),
        )
        .select_from(article)
        .outerjoin(piece, piece.c.id == article.c.piece_id)
        .join(last, last.c.article_number == article.c.number)
        .join(article_step, article_step.c.id == last.c.id)
        .outerjoin(promised, promised.c.article_number == article.c.number)
        .where(article.c.entry_number.not_in(taken_back_entries))
        .order_by(article.c.number)
    )


@dataclass(frozen=True, slots=True)
class Stepped:
    """An article reaching a state on a day."""

    article: int
    entry: int
    on: date
    state: ArticleState


def standing_steps(db: Connection, article_number: int | None = None) -> list[Stepped]:
    """Every step that was not taken back, of one article or of all, as they were booked."""
    answered = select(article_step.c.undoes).where(article_step.c.undoes.is_not(None))
    asked = (
        select(article_step, entry.c.on_day)
        .join(entry, entry.c.number == article_step.c.entry_number)
        .where(article_step.c.undoes.is_(None), article_step.c.id.not_in(answered))
        .order_by(article_step.c.id)
    )
    if article_number is not None:
        asked = asked.where(article_step.c.article_number == article_number)
    return [
        Stepped(
            row.article_number,
            row.entry_number,
            date.fromisoformat(row.on_day),
            ArticleState(row.state),
        )
        for row in db.execute(asked)
    ]


def add_article(
    db: Connection, number: int, piece_id: int | None, note: str, asked: AskedFor = NOT_ASKED
) -> int:
    """A new article; its number is never used again."""
    added = db.execute(
        insert(article).values(
            entry_number=number,
            piece_id=piece_id,
            note=note,
            asked_coins=None if asked.price is None else asked.price.coins,
            asked_minutes=asked.minutes,
        )
    ).inserted_primary_key
    assert added is not None
    made: int = added[0]
    return made


def used_by_role(db: Connection, number: int) -> dict[str, Mass]:
    """What one article took so far, by role; what the open entry has booked counts."""
    asked = (
        select(movement.c.role, func.sum(movement.c.change_mg))
        .where(movement.c.article_number == number)
        .group_by(movement.c.role)
        .having(func.sum(movement.c.change_mg) != 0)
        .order_by(movement.c.role)
    )
    return {role: Mass(-mg) for role, mg in db.execute(asked)}


@dataclass(frozen=True, slots=True)
class Used:
    """What one article took of one skein for one role, and how that became known.

    `piece` and `planned_in`: which piece it is of, and the entry in which it was planned.
    """

    article: int
    piece: int
    planned_in: int
    skein: int
    role: str
    used: Mass
    how: Weighed


def used_by_articles(db: Connection) -> list[Used]:
    """What finished articles took, where that was weighed; by article, skein and role."""
    done = {
        a.number: (a.piece_id, a.how)
        for a in articles(db)
        if a.piece_id is not None and a.state is ArticleState.DONE and a.how in TEACHING
    }
    if not done:
        return []
    asked = (
        select(
            movement.c.article_number,
            article.c.entry_number,
            movement.c.skein_number,
            movement.c.role,
            func.sum(movement.c.change_mg).label("mg"),
        )
        .join(article, article.c.number == movement.c.article_number)
        .where(movement.c.kind == "used", movement.c.article_number.is_not(None))
        .group_by(movement.c.article_number, movement.c.skein_number, movement.c.role)
        .having(func.sum(movement.c.change_mg) < 0)
        .order_by(movement.c.article_number, movement.c.skein_number, movement.c.role)
    )
    found = []
    for number, entry_number, skein, role, mg in db.execute(asked):
        if number in done:
            piece_id, how = done[number]
            assert piece_id is not None
            assert how is not None
            found.append(Used(number, piece_id, entry_number, skein, role, Mass(-mg), how))
    return found


@dataclass(frozen=True, slots=True)
class PlannedRole:
    """What a role of an article was expected to take, on the day its yarn was set aside."""

    role: str
    expected: Length
    set_aside: Length
    source: str


def add_planned(db: Connection, number: int, made: int, roles: Collection[PlannedRole]) -> None:
    """The need an article was begun with."""
    for planned in roles:
        db.execute(
            insert(article_need).values(
                entry_number=number,
                article_number=made,
                role=planned.role,
                expected_um=planned.expected.um,
                set_aside_um=planned.set_aside.um,
                source=planned.source,
            )
        )


def planned_roles(db: Connection, made: int) -> list[PlannedRole]:
    """The need an article was begun with, A first."""
    asked = (
        select(article_need)
        .where(article_need.c.article_number == made)
        .order_by(article_need.c.role)
    )
    return [
        PlannedRole(row.role, Length(row.expected_um), Length(row.set_aside_um), row.source)
        for row in db.execute(asked)
    ]


@dataclass(frozen=True, slots=True)
class PieceRow:
    """A piece as it is kept: its plan as JSON text."""

    id: int
    name: str
    plan: str


def pieces(db: Connection) -> list[PieceRow]:
    """Every piece, by name; those whose entry was taken back are not there."""
    asked = (
        select(piece)
        .where(piece.c.entry_number.not_in(taken_back_entries))
        .order_by(func.lower(piece.c.name), piece.c.id)
    )
    return [PieceRow(row.id, row.name, row.plan) for row in db.execute(asked)]


def add_piece(db: Connection, number: int, name: str, plan: str) -> int:
    """A new piece."""
    added = db.execute(
        insert(piece).values(entry_number=number, name=name, plan=plan)
    ).inserted_primary_key
    assert added is not None
    made: int = added[0]
    return made
