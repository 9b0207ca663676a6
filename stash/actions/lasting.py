"""Will the yarn of an article last: its books, its plan, and the rows she has counted."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from operator import sub

from stash.actions import find
from stash.actions.book import Book
from stash.actions.preferences import Preferences
from stash.errors import NotFound, Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.requirements.by_rows import by_rows
from stash.requirements.lasting import (
    NOTHING_KEPT,
    READING_NOISE,
    Keep,
    Lasting,
    Left,
    Reading,
    Rows,
    Weighings,
    Work,
    lasting,
)
from stash.requirements.layout import Layout
from stash.requirements.plain import from_plain
from stash.stock.article import Article
from stash.stock.holding import HeldSkein
from stash.stock.movement import Booked, Kind, standing
from stash.store import article_rows, entry_rows, skein_rows
from stash.store.engine import Connection

#: A ball that was never weighed holds what its band says to 3 % (balls run +-6 %, two spreads).
BAND_NOISE = 0.03


@dataclass(frozen=True, slots=True)
class Asked:
    """What she says of an article under way.

    `rows_done`: the rows worked at the newest weighings in the books, the latest last. Without
    `rows_left` it is what its plan has left, without `work` rows are as planned, or else alike.
    `role` "" means every colour that was weighed.
    """

    article: str
    rows_done: Sequence[float]
    rows_left: float | None = None
    work: Rows | None = None
    keep: Keep = NOTHING_KEPT
    role: str = ""


@dataclass(frozen=True, slots=True)
class Outlook:
    """Whether each colour of an article lasts, A first, and what there is to say of it."""

    article: Article
    roles: Mapping[str, Lasting]
    notes: tuple[str, ...]

    @property
    def least_sure(self) -> str:
        """The colour that is most likely to run out."""
        return min(self.roles, key=lambda role: (self.roles[role].chance, role))


def will_last(book: Book, asked: Asked) -> Outlook:
    """Whether the yarn of an article lasts, by what its books say was used up to now."""
    with book.reading() as db:
        preferences = Preferences.read(db)
        article = find.article(db, asked.article)
        layout = _planned_rows(db, article) if asked.rows_left is None else None
        left = _rows_left(asked, layout)
        roles = {
            ball.role: _of(ball, asked, layout, left, preferences.scale_step)
            for ball in _balls(db, preferences, article, asked.role)
        }
    return Outlook(article, roles, _notes(asked, layout, left))


def _planned_rows(db: Connection, article: Article) -> Layout:
    """The plan row by row; refused where it is not known so."""
    plans = {piece.id: piece.plan for piece in article_rows.pieces(db)}
    plan = plans.get(article.piece_id or 0)
    rows = by_rows(from_plain(json.loads(plan))) if plan else None
    if rows is None:
        raise Refusal(
            f"the plan of article {article} is not known by its rows: "
            "say how many are left, as in --rows-left 36"
        )
    return rows.layout


def _rows_left(asked: Asked, layout: Layout | None) -> float:
    if asked.rows_left is not None or layout is None:
        return asked.rows_left or 0.0
    left = len(layout.rows) - asked.rows_done[-1]
    if left < 0:
        raise Refusal(
            f"the plan has {len(layout.rows)} rows and {asked.rows_done[-1]:g} are done: "
            "say how many are left, as in --rows-left 36"
        )
    return left


@dataclass(frozen=True, slots=True)
class _Ball:
    """All skeins of one role together: what they hold, and what was used of them, by entry.

    `opening_noise` is how far what was there at the beginning may be off, `unopened_noise` the
    same for balls that were set aside and not yet begun; in grams.
    """

    role: str
    m_per_100g: float | None
    have: Mass
    used: tuple[Mass, ...]
    opening_noise: float
    unopened_noise: float


def _balls(db: Connection, preferences: Preferences, article: Article, role: str) -> list[_Ball]:
    moved = entry_rows.movements(db, article_number=article.number)
    kept = {move.id for move in standing(row.movement for row in moved)}
    used = [r for r in moved if r.movement.id in kept and r.movement.kind is Kind.USED]
    roles = sorted({row.movement.role for row in used})
    if not roles:
        raise Refusal(
            f"nothing is booked as used for article {article} yet: weigh a ball of it, "
            f"as in `stash weigh 17 63g --for {article.number}`"
        )
    if role and role not in roles:
        raise NotFound("yarn used of colour", role, roles)
    return [
        _ball(db, preferences, article, [r for r in used if r.movement.role == one])
        for one in roles
        if not role or one == role
    ]


def _ball(
    db: Connection, preferences: Preferences, article: Article, used: Sequence[Booked]
) -> _Ball:
    role = used[0].movement.role
    promises = article_rows.promises(db, article_number=article.number)
    own = {p.skein: p.mass for p in promises if p.role == role}
    numbers = sorted({*own, *(row.movement.skein for row in used)})
    skeins = skein_rows.held_skeins(db, preferences.useful_size, numbers)
    weighed = entry_rows.first_weighings(db, numbers)
    for skein in skeins:
        if not skein.mass_known:
            raise Refusal(f"skein {skein.number} was never weighed: put it on the scale first")
    noises = [_noise(skein, used, weighed.get(skein.number), preferences) for skein in skeins]
    begun = {row.movement.skein for row in used}
    entries = list(dict.fromkeys(row.entry for row in used))
    return _Ball(
        role=role,
        m_per_100g=next((s.pair.put_up.m_per_100g for s in skeins if s.pair.put_up), None),
        have=sum((_able(skein, own.get(skein.number, NO_MASS)) for skein in skeins), NO_MASS),
        used=tuple(_taken([r for r in used if r.entry == one]) for one in entries),
        opening_noise=math.hypot(
            *(n for s, n in zip(skeins, noises, strict=True) if s.number in begun)
        ),
        unopened_noise=math.hypot(
            *(n for s, n in zip(skeins, noises, strict=True) if s.number not in begun)
        ),
    )


def _able(skein: HeldSkein, own: Mass) -> Mass:
    """What the article may take of a skein: what is free, and what was set aside for it."""
    return max(NO_MASS, skein.held - skein.promised + own)


def _taken(rows: Sequence[Booked]) -> Mass:
    return -sum((row.movement.change for row in rows), NO_MASS)


def _noise(
    skein: HeldSkein, used: Sequence[Booked], weighed: int | None, preferences: Preferences
) -> float:
    """How far off the grams are that a skein held before it was begun: by its band, or weighed."""
    mine = [row for row in used if row.movement.skein == skein.number]
    held = skein.held + _taken(mine)
    full = skein.pair.put_up
    never_weighed = weighed is None or (bool(mine) and weighed >= mine[0].entry)
    if full is not None and held >= full.mass and never_weighed:
        return BAND_NOISE * held.g
    return READING_NOISE * preferences.scale_step.g


def _of(ball: _Ball, asked: Asked, layout: Layout | None, rows: float, step: Mass) -> Lasting:
    weighings = Weighings(_readings(ball, asked, step), _work(ball.role, asked, layout))
    keep_g = asked.keep.grams(ball.m_per_100g)
    return lasting(weighings, Left(rows, keep_g, asked.keep.rows, ball.unopened_noise), step.g)


def _readings(ball: _Ball, asked: Asked, step: Mass) -> tuple[Reading, ...]:
    """What was there at the beginning and at the newest weighings; of equal rows the last one."""
    count = len(asked.rows_done)
    if count > len(ball.used):
        raise Refusal(
            f"--rows-done tells the rows of {count} weighings, and the books hold "
            f"{len(ball.used)} of {ball.role or 'this yarn'}: tell those of the newest ones"
        )
    opening = sum(ball.used, ball.have)
    held = list(accumulate(ball.used, sub, initial=opening))[-count:]
    newest = dict(zip(asked.rows_done, held, strict=True))
    noise = READING_NOISE * step.g
    return (
        Reading(0, opening.g, ball.opening_noise),
        *(Reading(rows, mass.g, noise) for rows, mass in newest.items()),
    )


def _work(role: str, asked: Asked, layout: Layout | None) -> Work:
    """What rows hold: as she says, as planned for this colour, or all alike."""
    if asked.work is not None or layout is None:
        return asked.work or Rows()
    held = [sum(count for one, count in row.counts if one == role) for row in layout.rows]
    sums = [0, *accumulate(held)]

    def worked(rows: float) -> float:
        whole = min(int(rows), len(held) - 1)
        return sums[whole] + (rows - whole) * held[whole]

    return worked


def _notes(asked: Asked, layout: Layout | None, left: float) -> tuple[str, ...]:
    if layout is None:
        return ()
    first, last = layout.rows[0].stitches, layout.rows[-1].stitches
    left_words = f"by its plan {left:g} of {len(layout.rows)} rows are left"
    if first == last or asked.work:
        return (left_words,)
    return (
        f"{left_words}, of {first} stitches at first and {last} at the end; "
        "if you work it the other way round, say --rows-left and --stitches",
    )
