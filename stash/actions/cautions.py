"""What can hurt whom an article is for, by its plan and the yarns in it."""

from __future__ import annotations

from collections.abc import Iterable

from stash.actions.past_items import Plans
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions
from stash.requirements.design.piece import Piece
from stash.requirements.design.whom import Whom
from stash.stock.article import Article
from stash.stock.yarn import Lot
from stash.store import article_rows, entry_rows, skein_rows
from stash.store.engine import Connection


def cautions_of(plan: Piece, lots: Iterable[Lot], whom: Whom | None = None) -> tuple[Note, ...]:
    """Of an article by its plan and the yarn in it; `whom` where it is said at once."""
    by_number = {lot.id: lot for lot in lots}
    return cautions(plan, whom, yarn_words(lot for _, lot in sorted(by_number.items())))


def lots_of(db: Connection, article: Article) -> tuple[Lot, ...]:
    """The records of the yarn set aside for an article or used."""
    promised = {p.skein for p in article_rows.promises(db, article_number=article.number)}
    moved = {m.movement.skein for m in entry_rows.movements(db, article_number=article.number)}
    held = skein_rows.held_skeins(db, sorted(promised | moved))
    return tuple(skein_rows.lots(db, sorted({skein.lot_id for skein in held})).values())


def article_plan(db: Connection, article: Article) -> Piece:
    """The plan as it was when its yarn was set aside; an empty one where there is none."""
    if article.piece_id is None:
        return Piece()
    steps = article_rows.standing_steps(db, article.number)
    return Plans.read(db).at(article.piece_id, steps[0].entry) or Piece()


def yarn_words(lots: Iterable[Lot]) -> str:
    """The names and fibres of yarns, which say whether one is brushed."""
    return "; ".join(f"{lot.yarn} {lot.fibre}" for lot in lots)
