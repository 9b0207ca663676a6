"""Pieces: the plans she keeps, and what each needs of every colour."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from stash.actions import find
from stash.actions.book import Book
from stash.actions.preferences import Preferences
from stash.errors import NotFound, Refusal
from stash.measures.mass import Mass
from stash.requirements.evidence import OwnArticle
from stash.requirements.need import Need
from stash.requirements.piece import Piece
from stash.requirements.plain import as_plain, from_plain
from stash.requirements.reckon import need_of
from stash.stock.article import Weighed
from stash.store import article_rows, skein_rows
from stash.store.article_rows import PieceRow
from stash.store.engine import Connection

#: The difference of two readings on a scale of step 1 spreads by this much (two uniform errors).
READING_SPREAD = 0.41


@dataclass(frozen=True, slots=True)
class Kept:
    """A piece of hers with its need."""

    id: int
    piece: Piece
    need: Need


def add(book: Book, piece: Piece) -> tuple[int, Need]:
    """Keep a plan under its name; the entry and its need. Refused if the name is taken."""
    need = need_of(piece)
    with book.entry("piece add") as pen:
        _refuse_name(pen.db, piece.name)
        article_rows.add_piece(pen.db, pen.number, piece.name, _text(piece))
        pen.words = f"piece {piece.name!r}"
    return pen.number, need


def _refuse_name(db: Connection, name: str, but: int | None = None) -> None:
    """Refused if another piece bears the name."""
    for piece in article_rows.pieces(db):
        if piece.name.lower() == name.lower() and piece.id != but:
            raise Refusal(
                f"there is a piece {piece.name!r} already; "
                "choose another name, or `stash piece change` that one"
            )


def change(book: Book, name: str, changed: Piece) -> tuple[int, Need]:
    """Put a kept plan right; its articles keep the need they were planned with."""
    need = need_of(changed)
    with book.entry("piece change") as pen:
        row = find.piece(pen.db, name)
        changed = replace(changed, name=changed.name or row.name)
        _refuse_name(pen.db, changed.name, but=row.id)
        if not pen.set_facts("piece", row.id, name=changed.name, plan=_text(changed)):
            raise Refusal(f"piece {row.name!r} is so already, nothing was changed")
        pen.words = f"piece {row.name!r} put right"
    return pen.number, need


def show(book: Book, name: str, margin: float | None = None) -> Kept:
    """One piece with its need, own finished articles counted in."""
    with book.reading() as db:
        preferences = Preferences.read(db)
        return kept(db, preferences, find.piece(db, name), margin)


def listed(book: Book) -> list[Kept]:
    """Every piece with its need, by name."""
    with book.reading() as db:
        preferences = Preferences.read(db)
        return [kept(db, preferences, row) for row in article_rows.pieces(db)]


def kept(
    db: Connection, preferences: Preferences, row: PieceRow, margin: float | None = None
) -> Kept:
    """A piece read back, with the need that today's knowledge gives."""
    piece = replace(from_plain(json.loads(row.plan)), name=row.name)
    own = _own_articles(db, preferences, row.id, piece)
    margin = preferences.margin if margin is None else margin
    return Kept(row.id, piece, need_of(piece, margin, own))


def plan_of(book: Book, name: str) -> Piece:
    """The plan alone, for putting it right."""
    with book.reading() as db:
        row = find.piece(db, name)
        return replace(from_plain(json.loads(row.plan)), name=row.name)


def names(book: Book) -> list[str]:
    """The names of all pieces."""
    with book.reading() as db:
        return [row.name for row in article_rows.pieces(db)]


def _text(piece: Piece) -> str:
    return json.dumps(as_plain(piece), sort_keys=True)


def _own_articles(
    db: Connection, preferences: Preferences, piece_id: int, piece: Piece
) -> list[OwnArticle]:
    """What her finished, weighed articles of this piece took, by the pairs of their skeins."""
    used = article_rows.used_by_articles(db, piece_id)
    numbers = sorted({row.skein for row in used})
    if not numbers:
        return []
    skeins = {s.number: s for s in skein_rows.held_skeins(db, preferences.useful_size, numbers)}
    own = []
    for article in sorted({row.article for row in used}):
        mine = [row for row in used if row.article == article and row.skein in skeins]
        lengths = [(row.role, skeins[row.skein].length(row.used)) for row in mine]
        if any(length is None for _, length in lengths):
            continue
        metres = [(role, length.m) for role, length in lengths if length]
        step_m = _step_in_metres(preferences.scale_step, piece, len(mine))
        own.append(_article(metres, mine[0].how, step_m))
    return own


def _article(metres: list[tuple[str, float]], how: Weighed, step_m: float) -> OwnArticle:
    """By colour where every gram is known to be of one; else the total alone."""
    if how is Weighed.ARTICLE or not all(role for role, _ in metres):
        return OwnArticle(total_m=sum(m for _, m in metres), scale_m=step_m)
    by_role: dict[str, float] = {}
    for role, m in metres:
        by_role[role] = by_role.get(role, 0.0) + m
    return OwnArticle(by_role=tuple(sorted(by_role.items())), scale_m=step_m)


def _step_in_metres(step: Mass, piece: Piece, readings: int) -> float:
    """What the scale leaves open over so many differences of readings, in metres."""
    m_per_g = (piece.m_per_100g or 0.0) / 100
    return float(READING_SPREAD * step.g * m_per_g * readings**0.5)


def need_for(piece: Piece, margin: float | None) -> Need:
    """The need of a plan that is not kept."""
    return need_of(piece, margin)


def plan_keys(piece: Piece) -> dict[str, Any]:
    """A plan as plain values, as it is kept."""
    return as_plain(piece)


def refuse_unknown_roles(need: Need, roles: Iterable[str]) -> None:
    """Roles that are asked for must be roles of the need."""
    known = [role.role for role in need.roles]
    for role in roles:
        if role not in known:
            raise NotFound("role", role, known)
