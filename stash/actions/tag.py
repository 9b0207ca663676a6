"""The facts for a sale tag: what an item is and is of, and where its yarn came from."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book
from stash.actions.cautions import item_plan, yarn_words
from stash.actions.her_settings import Settings
from stash.actions.several import in_turn
from stash.costing.label import Content, Part, Rules, content
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions, warnings
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.design.whom import Whom
from stash.stock.item import Item, ItemState
from stash.stock.movement import Kind, Movement, standing
from stash.stock.yarn import Lot
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.engine import Connection
from stash.trade.regain import shares_of


@dataclass(frozen=True, slots=True)
class Source:
    """A lot record whose yarn went into an item: from which skeins, and how much of it."""

    lot: Lot
    skeins: tuple[int, ...]
    mass: Mass


@dataclass(frozen=True, slots=True)
class Tag:
    """What a tag must say of an item; its number is the batch.

    `estimated`: some of the grams were shared out or as planned, not weighed. `warnings` are on
    the tag itself, `cautions` are for the maker.
    """

    item: Item
    made_on: date | None
    content: Content
    sources: tuple[Source, ...]
    estimated: bool
    shape: Shape | None
    size: Size | None
    whom: Whom | None
    warnings: tuple[Note, ...]
    cautions: tuple[Note, ...]
    settings: Settings


@dataclass(frozen=True, slots=True)
class TagAsked:
    """Whose rules a tag follows (None: as she has set it), which fibres have a function (US), and
    whom it is for, if said.
    """

    rules: Rules | None = None
    functional: Collection[str] = ()
    whom: Whom | None = None


_MADE = (ItemState.BEGUN, ItemState.DONE)


def tags(book: Book, items: Sequence[str], asked: TagAsked) -> list[Tag]:
    """The tags of items, each by number or by its design's name where one is finished or begun."""
    with book.reading() as db:
        settings = Settings.read(db)
        return in_turn(book, items, lambda item: _tag(db, settings, item, asked), saves=False)


def _tag(db: Connection, settings: Settings, named: str, asked: TagAsked) -> Tag:
    item = find.item_among(db, named, lambda: _able(db), "made_item")
    if item.state not in _MADE:
        raise Refusal("tag_of_nothing_made", item=item)
    used = _used(db, item)
    sources = _sources(db, used)
    if not sources:
        raise Refusal("tag_of_nothing_used", item=item)
    steps = item_rows.standing_steps(db, [item.number])
    plan = item_plan(db, item)
    parts = [Part(source.mass, tuple(shares_of(source.lot.fibre))) for source in sources]
    yarns = yarn_words(source.lot for source in sources)
    return Tag(
        item=item,
        made_on=next((s.on for s in reversed(steps) if s.state is ItemState.DONE), None),
        content=content(parts, asked.rules or rules_of(settings), asked.functional),
        sources=tuple(sources),
        estimated=any(move.estimated for move in used),
        shape=plan.shape,
        size=plan.size,
        whom=asked.whom or plan.wearer,
        warnings=warnings(plan, asked.whom, yarns),
        cautions=cautions(plan, asked.whom, yarns),
        settings=settings,
    )


def _able(db: Connection) -> set[int]:
    return {a.number for a in item_rows.items(db) if a.state in _MADE}


def rules_of(settings: Settings) -> Rules:
    """Whose rules her tags follow: as she has set it, else by the moisture she reckons with."""
    return Rules(settings.rules)


def _used(db: Connection, item: Item) -> list[Movement]:
    booked = entry_rows.movements(db, items=[item.number])
    return [move for move in standing(row.movement for row in booked) if move.kind is Kind.USED]


def _sources(db: Connection, moves: Sequence[Movement]) -> list[Source]:
    used: dict[int, Mass] = {}
    for move in moves:
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
