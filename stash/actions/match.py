"""What on the shelf can become a piece: the matcher asked on today's shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from stash.actions import clock, find
from stash.actions.book import Book
from stash.actions.limits import NOT_NARROWED, Narrowing, narrowed
from stash.actions.pieces import Kept, kept, refuse_unknown_roles
from stash.actions.preferences import Preferences
from stash.actions.sharing import TWO_LOTS, refuse_unshared, shared_by_two
from stash.errors import NotFound
from stash.matching.answer.proposal import Match
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.near_misses.change_words import Plan
from stash.matching.question.strands import apart
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.question.wish import Fixed, Wish, Wished
from stash.measures.length import Length
from stash.requirements.yarn.estimate import stated_need
from stash.requirements.yarn.need import Need
from stash.store import article_rows, skein_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Ask:
    """What a person wants matched: a kept piece by name, or lengths per role.

    Where both are given, the lengths stand in place of the piece's own need; `strands` is how many
    they are over. `fixed` holds what was typed for a role: a skein's number, a lot's reference, or
    words. Each strand of the roles in `apart` may be a yarn of its own.
    """

    piece: str = ""
    lengths: Mapping[str, Length] = field(default_factory=dict)
    thickness: tuple[int, int] | None = None
    margin: float | None = None
    contrast: Wished | None = None
    fixed: Mapping[str, str] = field(default_factory=dict)
    assume: bool = False
    top: int | None = 20
    narrowing: Narrowing = NOT_NARROWED
    two_lots: Mapping[str, TwoLotsAsked] = field(default_factory=dict)
    strands: int = 1
    apart: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """The matcher's answer, with the kept piece it was for (None for typed lengths)."""

    match: Match
    piece: Kept | None


def propose(book: Book, ask: Ask) -> Answer:
    """The sets of lots that cover the need, best first, and what almost does."""
    with book.reading() as db:
        return propose_within(db, Preferences.read(db), ask)


def propose_within(db: Connection, preferences: Preferences, ask: Ask) -> Answer:
    """The same inside a view or an entry that is open already."""
    piece, need = need_and_piece(db, preferences, ask)
    need = need_apart(need, ask)
    refuse_unknown_roles(need, [*ask.fixed, *ask.two_lots])
    two_lots = shared_by_two(ask.two_lots, need, piece.known if piece else None)
    refuse_unshared(two_lots)
    shelf = shelf_of(db, preferences)
    wish = wish_of(db, preferences, ask, need, shelf)
    plan = plan_of(piece, preferences) if piece and not ask.apart else None
    return Answer(match(shelf, need, replace(wish, two_lots=two_lots), plan), piece)


def plan_of(piece: Kept, preferences: Preferences) -> Plan:
    """The plan as near misses ask how it could be made otherwise."""
    return Plan(piece.known, inches=preferences.units == "yards")


def need_apart(need: Need, ask: Ask) -> Need:
    """The need with each strand by itself where she asks for that."""
    refuse_unknown_roles(need, ask.apart)
    return apart(need, ask.apart)


def shelf_of(db: Connection, preferences: Preferences, *, with_spent: bool = False) -> Shelf:
    """The shelf as it is today, perhaps with the skeins that are used up."""
    lots = skein_rows.held_lots(db, with_spent=with_spent)
    return Shelf(clock.today(), lots, preferences.scale)


def wish_of(db: Connection, preferences: Preferences, ask: Ask, need: Need, shelf: Shelf) -> Wish:
    """Her wish and her settings, held against this need and this shelf."""
    limits = narrowed(ask.narrowing, need, shelf.lots, preferences.fineness)
    return replace(wish_asked(db, preferences, ask), limits=limits)


def need_and_piece(db: Connection, preferences: Preferences, ask: Ask) -> tuple[Kept | None, Need]:
    """The kept piece that is asked for, and its need; of typed lengths the need alone."""
    margin = preferences.margin if ask.margin is None else ask.margin
    low, high = ask.thickness or (None, None)
    if ask.lengths:
        return None, stated_need(ask.lengths, margin, low, high, ask.strands)
    if not ask.piece:
        known = [row.name for row in article_rows.pieces(db)]
        raise (
            NotFound("piece", "", known[:5])
            if known
            else NotFound(
                "piece", "", ["none is kept yet: `stash piece add`, or give --need A=165m"]
            )
        )
    piece = kept(db, preferences, find.piece(db, ask.piece), margin)
    return piece, piece.need


def wish_asked(db: Connection, preferences: Preferences, ask: Ask) -> Wish:
    """What she asks of the matcher beside the need, her limits not yet held against the shelf."""
    return Wish(
        contrast=ask.contrast or preferences.contrast,
        fixed={role: fixed(db, text) for role, text in ask.fixed.items()},
        class_tolerance=preferences.class_tolerance,
        useful_end_m=preferences.useful_end.m,
        assume=ask.assume,
        weights=preferences.weights,
        top=ask.top,
        vision=preferences.colour_vision,
    )


def fixed(db: Connection, text: str) -> Fixed:
    """What was typed for a role: skein numbers with commas, a lot, two as L3/L9, or words."""
    if pair := TWO_LOTS.fullmatch(text.strip()):
        each = [find.lots(db, ref) for ref in pair.groups()]
        return Fixed(frozenset(lot.lot.id for lots in each for lot in lots))
    parts = [part.strip() for part in text.split(",")]
    if all(part.isdecimal() for part in parts):
        found = [find.skein(db, part).skein for part in parts]
        return Fixed(frozenset(s.lot_id for s in found), frozenset(s.number for s in found))
    return Fixed(frozenset(lot.lot.id for lot in find.lots(db, text)))
