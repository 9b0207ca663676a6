"""Pieces: the plans she keeps, and what each needs of every colour."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from stash.actions import find, past_items
from stash.actions.book import Book
from stash.actions.past_items import Plans
from stash.actions.preferences import Preferences
from stash.errors import NotFound, Refusal
from stash.measures.note import Note
from stash.requirements.design.piece import Piece
from stash.requirements.design.serialise import deserialise, serialise
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import Experience, Made, as_given, experience
from stash.requirements.yarn.need import Need
from stash.store import article_rows
from stash.store.article_rows import PieceRow
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Kept:
    """A piece of hers with its need, and what is known of it to ask more."""

    id: int
    piece: Piece
    need: Need
    known: DesignContext
    settings: Preferences


def add_piece(book: Book, piece: Piece) -> tuple[int, Need]:
    """Keep a plan under its name; the entry and its need. Refused if the name is taken."""
    need_of(piece)  # refused before anything is written
    with book.entry("piece add") as writer:
        _refuse_name(writer.db, piece.name)
        article_rows.add_piece(writer.db, writer.number, piece.name, _text(piece))
        writer.what = Note("design_kept", name=piece.name)
        need = kept_named(writer.db, writer.preferences, piece.name).need
    return writer.number, need


def _refuse_name(db: Connection, name: str, but: int | None = None) -> None:
    """Refused if another piece bears the name."""
    for piece in article_rows.pieces(db):
        if piece.name.lower() == name.lower() and piece.id != but:
            raise Refusal("piece_name_taken", piece=piece.name)


def change_piece(book: Book, name: str, changed: Piece) -> tuple[int, Need]:
    """Put a kept plan right; its articles keep the need they were planned with."""
    need_of(changed)  # refused before anything is written
    with book.entry("piece change") as writer:
        row = find.piece(writer.db, name)
        changed = replace(changed, name=changed.name or row.name)
        _refuse_name(writer.db, changed.name, but=row.id)
        if not writer.set_facts("piece", row.id, name=changed.name, plan=_text(changed)):
            raise Refusal("piece_so_already", piece=row.name)
        writer.what = Note("design_changed", name=row.name)
        need = kept_named(writer.db, writer.preferences, changed.name).need
    return writer.number, need


def show(book: Book, name: str, margin: float | None = None) -> Kept:
    """One piece with its need, own finished articles counted in."""
    with book.reading() as db:
        preferences = Preferences.read(db)
        return kept_named(db, preferences, name, margin)


def listed(book: Book) -> list[Kept]:
    """Every piece with its need, by name."""
    with book.reading() as db:
        return listed_within(db, Preferences.read(db))


def listed_within(db: Connection, preferences: Preferences) -> list[Kept]:
    """The same inside a view that is open already."""
    rows = article_rows.pieces(db)
    plans = Plans.read(db, rows)
    made = past_items.past_articles(db, preferences, plans)
    return [_kept(row, made, plans, preferences) for row in rows]


def kept_named(
    db: Connection, preferences: Preferences, name: str, margin: float | None = None
) -> Kept:
    """A piece read back, with the need that today's knowledge gives."""
    rows = article_rows.pieces(db)
    row = find.piece_among(rows, name)
    plans = Plans.read(db, rows)
    made = past_items.past_articles(db, preferences, plans)
    return _kept(row, made, plans, preferences, margin)


def _kept(
    row: PieceRow,
    made: Sequence[Made],
    plans: Plans,
    preferences: Preferences,
    margin: float | None = None,
) -> Kept:
    piece, plan, bears = _known(row, made, plans)
    known = DesignContext(plan, preferences.margin if margin is None else margin, bears)
    return Kept(row.id, piece, known.need(plan), known, preferences)


def _known(row: PieceRow, made: Sequence[Made], plans: Plans) -> tuple[Piece, Piece, Experience]:
    """A piece as it is kept, with its figures brought to its size, and what bears on it."""
    piece = replace(deserialise(json.loads(row.plan)), name=row.name)
    stated_for = plans.since(row.id, lambda plan: plan.stated)
    weighed_for = plans.since(row.id, lambda plan: plan.weighed)
    plan, notes = as_given(piece, stated_for, weighed_for)
    bears = experience(row.id, plan, made)
    return piece, plan, replace(bears, notes=(*notes, *bears.notes))


def all_known(
    db: Connection, preferences: Preferences, rows: Sequence[PieceRow], margin: float | None = None
) -> list[DesignContext]:
    """Each of these plans with what is known of it."""
    plans = Plans.read(db, rows)
    made = past_items.past_articles(db, preferences, plans)
    margin = preferences.margin if margin is None else margin
    found = [_known(row, made, plans) for row in rows]
    return [DesignContext(plan, margin, bears) for _, plan, bears in found]


@dataclass(frozen=True, slots=True)
class HerPieces:
    """What a plan is read and reckoned by: her settings, her pieces, and what she made before."""

    settings: Preferences = field(default_factory=Preferences)
    rows: Sequence[PieceRow] = ()
    made: Sequence[Made] = ()

    def plan(self, name: str) -> Piece:
        """The plan of a piece alone."""
        row = find.piece_among(self.rows, name)
        return replace(deserialise(json.loads(row.plan)), name=row.name)

    def known_for(self, piece: Piece, margin: float | None = None) -> DesignContext:
        """A plan that is not kept, with what she made before."""
        margin = self.settings.margin if margin is None else margin
        return DesignContext(piece, margin, experience(None, piece, self.made))


def her_pieces(book: Book) -> HerPieces:
    """All of it in one view."""
    with book.reading() as db:
        settings, rows = Preferences.read(db), article_rows.pieces(db)
        return HerPieces(
            settings, rows, past_items.past_articles(db, settings, Plans.read(db, rows))
        )


def names(book: Book) -> list[str]:
    """The names of all pieces."""
    with book.reading() as db:
        return [row.name for row in article_rows.pieces(db)]


def _text(piece: Piece) -> str:
    return json.dumps(serialise(piece), sort_keys=True)


def refuse_unknown_roles(need: Need, roles: Iterable[str]) -> None:
    """Roles that are asked for must be roles of the need."""
    known = [role.role for role in need.roles]
    for role in roles:
        if role not in known:
            raise NotFound("role", role, known)
