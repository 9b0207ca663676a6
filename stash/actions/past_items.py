"""What her finished, weighed articles took: the evidence that the next estimate learns from."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from stash.actions.preferences import Preferences
from stash.measures.mass import Mass
from stash.requirements.design.evidence import OwnArticle
from stash.requirements.design.piece import Piece
from stash.requirements.design.serialise import deserialise
from stash.requirements.yarn.experience import Made, as_made
from stash.stock.article import Weighed
from stash.stock.holding import HeldSkein
from stash.store import article_rows, entry_rows, skein_rows
from stash.store.article_rows import PieceRow, Used
from stash.store.engine import Connection
from stash.store.entry_rows import Fact

#: The difference of two readings on a scale of step 1 spreads by this much (two even errors).
READING_SPREAD = math.sqrt(2 / 12)


def past_articles(db: Connection, preferences: Preferences, plans: Plans) -> list[Made]:
    """Every finished, weighed article whose yarn is known in metres, by number.

    Each with the plan as it was when its yarn was set aside, because a piece may have been put
    right since.
    """
    used = article_rows.used_by_articles(db)
    numbers = sorted({row.skein for row in used})
    held = skein_rows.held_skeins(db, numbers) if used else []
    skeins = {skein.number: skein for skein in held}
    found = []
    for _, run in groupby(used, key=lambda row: row.article):
        rows = list(run)
        plan = plans.at(rows[0].piece, rows[0].planned_in)
        took = _took(rows, skeins, preferences.scale_step)
        if plan and took:
            found.append(Made(rows[0].piece, plan, took))
    return found


@dataclass(frozen=True, slots=True)
class Plans:
    """Every kept plan as it is today, and as it was before each time it was put right."""

    today: Mapping[int, str]
    before: Sequence[Fact]

    @classmethod
    def read(cls, db: Connection, pieces: Sequence[PieceRow] | None = None) -> Plans:
        """All of them, in two questions; in one where the pieces have been read."""
        rows = article_rows.pieces(db) if pieces is None else pieces
        today = {row.id: row.plan for row in rows}
        changes = entry_rows.facts(db, thing="piece")
        return cls(today, [fact for fact in changes if fact.name == "plan"])

    def at(self, piece: int, entry: int) -> Piece | None:
        """The plan of a piece as it stood in an entry, gauge and put-up as they are known today.

        None for a piece that was taken back.
        """
        if piece not in self.today:
            return None
        later = (f.old for f in self.before if f.ref == str(piece) and f.entry > entry)
        today = _read(self.today[piece])
        then = next(later, None)
        return as_made(_read(then), today) if then else today

    def since(self, piece: int, part: Callable[[Piece], object]) -> Piece:
        """The plan of a piece as it was when a part of it became what it is today."""
        older = [f.old for f in self.before if f.ref == str(piece) and f.old]
        plan = today = _read(self.today[piece])
        for text in reversed(older):
            earlier = _read(text)
            if part(earlier) != part(today):
                break
            plan = earlier
        return as_made(plan, today)


def _read(plan: str) -> Piece:
    return deserialise(json.loads(plan))


def _took(rows: Sequence[Used], skeins: Mapping[int, HeldSkein], step: Mass) -> OwnArticle | None:
    """By colour where every gram is known to be of one; else the total alone."""
    lengths = [
        (row.role, length.m)
        for row in rows
        if row.skein in skeins and (length := skeins[row.skein].length(row.used))
    ]
    if len(lengths) < len(rows):
        return None
    grams = math.fsum(row.used.g for row in rows)
    m_per_g = math.fsum(m for _, m in lengths) / grams
    scale_m = READING_SPREAD * step.g * m_per_g * math.sqrt(len(rows))
    if rows[0].how is Weighed.ARTICLE or not all(role for role, _ in lengths):
        whole_m = math.fsum(m for _, m in lengths)
        return OwnArticle(total_m=whole_m, scale_m=scale_m, yarns=(("", 100 * m_per_g),))
    roles = sorted({role for role, _ in lengths})
    by_role = {role: math.fsum(m for one, m in lengths if one == role) for role in roles}
    weighed = {role: math.fsum(row.used.g for row in rows if row.role == role) for role in roles}
    yarns = ((role, 100 * by_role[role] / weighed[role]) for role in roles)
    return OwnArticle(by_role=tuple(by_role.items()), scale_m=scale_m, yarns=tuple(yarns))
