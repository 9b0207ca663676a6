"""What a new line of yarn may take from yarn that is known already, and what is like it here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from stash.actions import find
from stash.actions.book import Book
from stash.errors import Ambiguous, Undecided
from stash.measures.note import Note
from stash.parsing import names
from stash.stock.holding import HeldLot
from stash.stock.incoming import Incoming
from stash.stock.yarn import FullFrom, Lot
from stash.store import skein_rows
from stash.store.engine import Connection
from stash.store.memory import recall
from stash.trade import thickness

#: A name as like as this to one that is known is asked about (of 100; our choice).
NEARLY = 80


@dataclass(frozen=True, slots=True)
class Filled:
    """A line with what it did not say filled in, and notes on that."""

    line: Incoming
    notes: tuple[Note, ...] = ()


def like(book: Book, asked: str, line: Incoming | None = None) -> Incoming:
    """Same again: what a line does not say is taken from a lot (a reference, words or a skein).

    Colour and dye lot are never taken, except with no line at all: then it is the very same.
    """
    with book.reading() as db:
        found = find.lot_record(db, asked) or find.skein(db, asked).lot
    if line is None:
        return replace(
            _same_yarn(found, Incoming(found.yarn.name)),
            colour=found.colour,
            colour_no=found.colour_no,
            colours=found.colours,
            lot=found.lot,
            lot_state=found.lot_state,
            dyed=found.dyed,
        )
    return _same_yarn(found, line)


def _same_yarn(lot: Lot, line: Incoming) -> Incoming:
    put_up = lot.pair.put_up
    bare = line.full_mass is None and line.full_length is None
    return replace(
        line,
        name=lot.yarn.name,
        maker=lot.yarn.maker,
        thickness_from=line.thickness_from if lot.thickness_from is None else lot.thickness_from,
        thickness_to=line.thickness_to if lot.thickness_from is None else lot.thickness_to,
        fibre=line.fibre or lot.fibre,
        full_mass=(put_up.mass if put_up else lot.full_mass) if bare else line.full_mass,
        full_length=put_up.length if put_up and bare else line.full_length,
        measured=lot.pair.origin is FullFrom.MEASURED if bare else line.measured,
        assumed=lot.pair.origin is FullFrom.ASSUMED if bare else line.assumed,
        care=line.care or lot.care,
        hand_dyed=line.hand_dyed or lot.hand_dyed,
        surface=line.surface or lot.surface,
    )


def filled_from_known(book: Book, line: Incoming, *, another: bool = False) -> Filled:
    """What a line leaves out, from records of the same yarn where these agree.

    A yarn whose name is that of a known one but for words of thickness is asked about (`Undecided`)
    unless it is said to be `another`.

    Where they do not, nothing is filled and it is said; two put-ups for a line that gives no amount
    at all are refused, both written out. A name that is nearly a known one is asked about and left
    as it is. What lies on the shelf already in that colour is named.
    """
    with book.reading() as db:
        books = _all_lots(db)
    same = [held for held in books if _is(held.lot, line)]
    if not same and not another:
        _refuse_twin(line, [held.lot for held in books])
    if not same:
        return Filled(line, _nearly(line, [held.lot for held in books]))
    found = _filled(line, [held.lot for held in same])
    return Filled(found.line, (*found.notes, *_already(line, same)))


def _all_lots(db: Connection) -> Sequence[HeldLot]:
    """Every lot there is or was; a page asks for them at each key that is pressed."""
    return recall(db, "all lots", lambda: skein_rows.held_lots(db, with_spent=True))


def last_place(book: Book) -> str:
    """Where the newest skein that is still held was put; nothing where that is not known."""
    with book.reading() as db:
        lots = _all_lots(db)
    held = ((one.number, one.place) for lot in lots for one in lot.skeins if one.held)
    return max(held, default=(0, ""))[1]


def newest_lots(book: Book, most: int) -> list[Lot]:
    """The lots that came in last, the newest first."""
    with book.reading() as db:
        return sorted((held.lot for held in _all_lots(db)), key=lambda lot: -lot.id)[:most]


def _is(lot: Lot, line: Incoming) -> bool:
    named = lot.yarn.name.casefold() == line.name.strip().casefold()
    return named and (not line.maker or lot.yarn.maker.casefold() == line.maker.strip().casefold())


def _refuse_twin(line: Incoming, lots: Sequence[Lot]) -> None:
    """The same yarn, typed once with and once without its word for thickness?"""
    bare = thickness.without(line.name)
    twins = {
        lot.yarn.name: lot.ref
        for lot in lots
        if thickness.without(lot.yarn.name) == bare
        and line.name.casefold() != lot.yarn.name.casefold()
        and (bare in (line.name.casefold(), lot.yarn.name.casefold()))
        and not _apart(line, lot)
    }
    if twins:
        typed = line.typed
        ways = [
            (Note("it_is_this_yarn", name=name), Note("typed_with_like", lot=ref, typed=typed))
            for name, ref in twins.items()
        ]
        raise Undecided(
            Note("same_yarn_or_not", name=line.name, others=tuple(twins)),
            [*ways, (Note("it_is_another_yarn"), Note("typed_with_new", typed=typed))],
        )


def twins_in(book: Book | None, lines: Sequence[tuple[int, Incoming]]) -> list[tuple[int, Note]]:
    """Rows of a sheet whose yarn has the name of another but for words of thickness, each once.

    The other may be in the sheet or on the shelf. Lines that ask for a record of their own are left
    out: those were kept apart before.
    """
    known: dict[str, Lot | None] = {}
    if book is not None:
        with book.reading() as db:
            shelf = _all_lots(db)
        known = {held.lot.yarn.name: held.lot for held in shelf}
    found = []
    for row, line in lines:
        if line.record is not None or line.name in known:
            continue
        bare = thickness.without(line.name)
        twin = next((name for name in known if thickness.without(name) == bare
                     and bare in (name.casefold(), line.name.casefold())), "")  # fmt: skip
        if twin:
            of = Note("kept_as_two", name=line.name, other=twin, lot=known[twin])
            found.append((row, of))
        known[line.name] = None
    return found


def _apart(line: Incoming, lot: Lot) -> bool:
    """Whether two yarns are of different thickness, as far as both say theirs."""
    return thickness.apart(
        (line.thickness_from, line.thickness_to), (lot.thickness_from, lot.thickness_to)
    )


def _filled(line: Incoming, same: Sequence[Lot]) -> Filled:
    taken, doubts = [], []
    for known in _left_out(line, same):
        if len(known) > 1:
            doubts.append(Note("known_differ", name=line.name, known=tuple(sorted(known))))
        for value, facts in known.items() if len(known) == 1 else ():
            taken.append(value)
            line = replace(line, **facts)
    source = (Note("filled_in", name=line.name, values=tuple(taken)),) if taken else ()
    return Filled(line, (*source, *doubts))


def _left_out(line: Incoming, same: Sequence[Lot]) -> Iterator[dict[str, dict[str, Any]]]:
    """For each fact that the line does not say, what records say: as written, and to fill in."""
    if line.full_mass is None and line.full_length is None:
        yield _put_ups(line, same)
    if line.thickness_from is None:
        yield {
            f"class {_span(lot)}": {
                "thickness_from": lot.thickness_from,
                "thickness_to": lot.thickness_to,
            }
            for lot in same
            if lot.thickness_from is not None
        }
    if not line.fibre:
        yield {lot.fibre: {"fibre": lot.fibre} for lot in same if lot.fibre}
    if line.surface is None:
        yield {lot.surface: {"surface": lot.surface} for lot in same if lot.surface}


def _put_ups(line: Incoming, same: Sequence[Lot]) -> dict[str, dict[str, Any]]:
    """Put-ups that a band says or that she measured; a guessed one would pass for either."""
    sure = (FullFrom.BAND, FullFrom.MEASURED)
    pairs = [lot.pair for lot in same if lot.pair.origin in sure]
    known = {
        str(pair.put_up): {"full_mass": pair.put_up.mass, "full_length": pair.put_up.length}
        for pair in pairs
        if pair.put_up
    }
    if len(known) > 1 and line.left is None:
        raise Ambiguous(line.typed or line.name, [f"{line.name} {put_up}" for put_up in known])
    return known


def _span(lot: Lot) -> str:
    low, high = lot.thickness_from, lot.thickness_to
    return f"{low}" if high in (None, low) else f"{low}-{high}"


def _nearly(line: Incoming, lots: Sequence[Lot]) -> tuple[Note, ...]:
    known = sorted({lot.yarn.name for lot in lots})
    near = [name for name, like in names.likeness(line.name, known) if like >= NEARLY]
    return (Note("nearly_known_name", name=line.name, near=near[0]),) if near else ()


def _already(line: Incoming, shelf: Sequence[HeldLot]) -> tuple[Note, ...]:
    colour = line.colour.strip().casefold()
    here = [held for held in shelf if held.held and held.lot.colour.casefold() == colour]
    if not here or not colour:
        return ()
    count = sum(1 for held in here for skein in held.skeins if skein.held)
    return (Note("have_already", skeins=count, lots=tuple((h.lot, _places(h)) for h in here)),)


def _places(held: HeldLot) -> tuple[str, ...]:
    return tuple(dict.fromkeys(s.place for s in held.skeins if s.place and s.held))
