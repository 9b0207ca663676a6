"""Scale against books: a reading becomes use, a correction, or agreement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.use import ready_for_use, refuse_closed, role_for
from stash.errors import Refusal
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.stock.entry import of_item
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState
from stash.stock.movement import Kind, Movement
from stash.stock.promise import lowered_by_use
from stash.stock.restating import restated_promises, restatement
from stash.stock.weighing import Reading, Verdict, WeighingOutcome, weighed
from stash.stock.yarn import FullFrom, Lot, Pair
from stash.store import entry_rows, item_rows, skein_rows, weighing_rows
from stash.store.engine import Connection
from stash.store.weighing_rows import RowOf


@dataclass(frozen=True, slots=True)
class ScaleReading:
    """What the scale shows and what was given with it: `item` and `tare` as typed or measured.

    `closing`: the item is being finished, every gram of a fall went into it. `row`: how many of
    its rows are done.
    """

    gross: Mass
    item: str | None = None
    tare: Mass | None = None
    opened: bool = False
    recount: bool = False
    closing: bool = False
    row: int | None = None


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a reading comes to, booked or not, and the skein before and after it.

    `item` is the one that a fall is used for.
    """

    before: HeldSkein
    after: HeldSkein
    outcome: WeighingOutcome
    item: Item | None
    settings: Settings


@dataclass(frozen=True, slots=True)
class Weighing(Meaning):
    """A reading that is booked, by which entry, and the promises that it made impossible to keep.

    `said` is which skein was taken, where words were typed.
    """

    entry: int
    said: Note | None
    shorts: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class OnScale:
    """A skein as it comes onto the scale.

    `items`: those its yarn may go into, the begun ones first. `last`: what it weighed when it was
    last there, without its tare, and on which day.
    """

    skein: HeldSkein
    lot: Lot
    items: tuple[Item, ...]
    last: tuple[Mass, date] | None


def on_scale(book: Book, skein: str) -> OnScale:
    """A skein by its number or by words, with what is known of it before it is weighed."""
    with book.reading() as db:
        found = find.skein(db, skein).skein
        claims = {p.item for p in item_rows.promises(db, skeins=[found.number])}
        items = item_rows.items(db, sorted(claims)) if claims else []
        able = [one for one in items if one.open and one.design_id is not None]
        weighed = weighing_rows.last_weighing(db, found.number)
        last = None
        if weighed is not None:
            (entry,) = entry_rows.entries(db, number=weighed.entry)
            last = (weighed.net, entry.on)
        return OnScale(
            found,
            skein_rows.lots(db, [found.lot_id])[found.lot_id],
            tuple(sorted(able, key=lambda one: (one.state is not ItemState.BEGUN, one.number))),
            last,
        )


def meaning(book: Book, skein: str, asked: ScaleReading) -> Meaning:
    """What a reading would be booked as; nothing is written. Refused as `weigh` would refuse it."""
    with book.reading() as db:
        settings = Settings.read(db)
        found = find.skein(db, skein).skein
        whom = find.item(db, asked.item) if asked.item else None
        outcome, whom = _meant(db, settings, found, asked, whom)
    used = outcome.verdict is Verdict.USE
    if used and whom is not None:
        refuse_closed(whom)
    own = outcome.own_pair
    opened = outcome.opens or (bool(outcome.change) and not outcome.restates)
    after = replace(
        found,
        held=found.held + outcome.change,
        opened=found.opened or opened,
        pair=found.pair if own is None else Pair(own, FullFrom.MEASURED),
    )
    return Meaning(found, after, outcome, whom if used else None, settings)


def weigh(book: Book, skein: str, asked: ScaleReading, *, on: date | None = None) -> Weighing:
    """Compare a skein on the scale with the books, and book the difference as what it is."""
    with book.entry("weigh", on) as writer:
        found = find.skein(writer.db, skein)
        writer.know([found.skein])
        whom = find.item(writer.db, asked.item) if asked.item else None
        outcome, item = weigh_within(writer, found.skein, asked, whom)
        writer.what = booked_note(found.skein, outcome, item)
        after = writer.skein(found.skein.number)
    return Weighing(
        entry=writer.number,
        before=found.skein,
        after=after,
        outcome=outcome,
        item=item,
        said=found.said,
        shorts=writer.shorts,
        settings=writer.settings,
    )


def weigh_within(
    writer: EntryWriter, skein: HeldSkein, asked: ScaleReading, whom: Item | None
) -> tuple[WeighingOutcome, Item | None]:
    """One weighing as part of an entry: what it came to, and the item a fall was for."""
    writer.touch([skein.number])
    outcome, whom = _meant(writer.db, writer.settings, skein, asked, whom)
    if outcome.verdict is Verdict.USE and whom is not None:
        ready_for_use(writer, whom)
    _book(writer, skein, asked, outcome, whom)
    at = None if asked.row is None or whom is None else RowOf(whom.number, asked.row)
    weighing_rows.add_weighing(writer.db, writer.number, skein, asked.gross, outcome, at)
    return outcome, whom if outcome.verdict is Verdict.USE else None


def _meant(
    db: Connection, settings: Settings, skein: HeldSkein, asked: ScaleReading, whom: Item | None
) -> tuple[WeighingOutcome, Item | None]:
    """What a reading comes to, and the item that it is of."""
    begun, named = _begun_claimants(db, skein), whom
    if asked.row is not None and whom is None:
        whom = _worked_from(db, asked.row, begun)
    into = named if asked.recount else whom  # a row says of which item, not that yarn went into it
    reading = Reading(
        asked.gross,
        asked.tare,
        asked.opened,
        asked.recount,
        into.number if into else None,
        asked.closing,
        full_mass_of(db, skein),
    )
    claimants = [(a.number, a.design) for a in begun]
    outcome = weighed(skein, reading, settings.scale_step, claimants)
    if outcome.item is not None and whom is None:
        whom = next(a for a in begun if a.number == outcome.item)
    return outcome, whom


def full_mass_of(db: Connection, skein: HeldSkein) -> Mass | None:
    """What a full skein weighs: by its own pair, unless that is of a metre or two, or its lot's."""
    if skein.pair.put_up is not None and not skein.by_metre:
        return skein.pair.put_up.mass
    return skein_rows.lots(db, [skein.lot_id])[skein.lot_id].full_mass


def _worked_from(db: Connection, row: int, begun: Sequence[Item]) -> Item:
    """The item that a row given with a reading is of: the only one begun of those it is for."""
    if len(begun) == 1:
        return begun[0]
    others = [one for one in item_rows.items(db) if one.state is ItemState.BEGUN]
    raise Refusal("row_of_which_item", row=row, items=tuple(begun or others))


def _begun_claimants(db: Connection, skein: HeldSkein) -> list[Item]:
    claims = {p.item for p in item_rows.promises(db, skeins=[skein.number])}
    found = item_rows.items(db, sorted(claims)) if claims else []
    return [a for a in found if a.state is ItemState.BEGUN]


def _book(
    writer: EntryWriter,
    skein: HeldSkein,
    asked: ScaleReading,
    outcome: WeighingOutcome,
    whom: Item | None,
) -> None:
    typed = str(asked.gross)
    if outcome.opens and not skein.opened:
        writer.set_facts("skein", skein.number, opened="1")
    if outcome.restates:
        _settle_pair(writer, skein, outcome, typed)
    elif outcome.verdict is Verdict.USE:
        into = [whom.number] if whom else None
        mine = item_rows.promises(writer.db, skeins=[skein.number], items=into)
        role = role_for(writer, skein.number, whom, mine)
        writer.move([Movement(skein.number, Kind.USED, outcome.change, typed, outcome.item, role)])
        writer.promise(lowered_by_use(mine, -outcome.change))
    else:
        writer.move([Movement(skein.number, Kind.CORRECTED, outcome.change, typed)])


def _settle_pair(
    writer: EntryWriter, skein: HeldSkein, outcome: WeighingOutcome, typed: str
) -> None:
    """The skein's own pair from now on; its promises follow in the same entry."""
    writer.move(restatement(skein, outcome.net, typed))
    if outcome.own_pair is None:
        return
    writer.set_own_pair(skein.number, outcome.own_pair, FullFrom.MEASURED)
    promises = item_rows.promises(writer.db, skeins=[skein.number])
    writer.promise(restated_promises(skein, outcome.own_pair, outcome.net, promises))


def booked_note(skein: HeldSkein, outcome: WeighingOutcome, item: Item | None) -> Note:
    """What an entry keeps of a weighing.

    A use is a weight above nothing; a correction has the sign of the change."""
    if outcome.verdict is Verdict.IN_AGREEMENT:
        return Note("skein_agrees", skein=skein.number, held=skein.held)
    return Note(
        "skein_weighed",
        skein=skein.number,
        net=outcome.net,
        verdict=outcome.verdict,
        mass=-outcome.change if outcome.verdict is Verdict.USE else outcome.change,
        **of_item(item),
    )
