"""What a new line of yarn may take from yarn that is known already, and what is like it here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.actions import find
from stash.actions.book import Book
from stash.actions.preferences import Preferences
from stash.stock.holding import HeldLot
from stash.stock.incoming import Incoming
from stash.stock.yarn import Lot, PairFrom
from stash.store import skein_rows
from stash.wording import names

#: A name as like as this to one that is known is asked about (of 100; our choice).
NEARLY = 80


@dataclass(frozen=True, slots=True)
class Filled:
    """A line with what it did not say filled in, and what there is to tell about that."""

    line: Incoming
    notes: tuple[str, ...] = ()


def like(book: Book, asked: str, line: Incoming | None) -> Incoming:
    """Same again: what a line does not say is taken from a lot (a reference, words or a skein).

    Colour and dye lot are never taken, except with no line at all: then it is the very same.
    """
    with book.reading() as db:
        found = find.lot_record(db, asked) or find.skein(db, Preferences.read(db), asked).lot
    if line is None:
        return replace(
            _same_yarn(found, Incoming(found.yarn.name)),
            colour=found.colour,
            colour_no=found.colour_no,
            colours=found.colours,
            lot=found.lot,
            lot_state=found.lot_state,
        )
    return _same_yarn(found, line)


def _same_yarn(lot: Lot, line: Incoming) -> Incoming:
    put_up = lot.pair.put_up
    bare = line.full_mass is None and line.full_length is None
    return replace(
        line,
        name=lot.yarn.name,
        maker=lot.yarn.maker,
        class_from=lot.class_from if line.class_from is None else line.class_from,
        class_to=lot.class_to if line.class_from is None else line.class_to,
        fibre=line.fibre or lot.fibre,
        full_mass=(put_up.mass if put_up else lot.full_mass) if bare else line.full_mass,
        full_length=put_up.length if put_up and bare else line.full_length,
        measured=lot.pair.origin is PairFrom.MEASURED if bare else line.measured,
        assumed=lot.pair.origin is PairFrom.ASSUMED if bare else line.assumed,
        care=line.care or lot.care,
        hand_dyed=line.hand_dyed or lot.hand_dyed,
    )


def filled_from_known(book: Book, line: Incoming) -> Filled:
    """What a line leaves out, from records of the same yarn where these agree.

    Where they do not, nothing is filled and it is said. A name that is nearly a known one is asked
    about and left as it is. What lies on the shelf already in that colour is named.
    """
    with book.reading() as db:
        lots = list(skein_rows.lots(db).values())
        shelf = skein_rows.held_lots(db, Preferences.read(db).useful_size)
    same = [lot for lot in lots if _is(lot, line)]
    if not same:
        return Filled(line, _nearly(line, lots))
    found = Filled(line)
    for fact in (_put_up, _thickness, _fibre):
        found = fact(found, same)
    return Filled(found.line, (*found.notes, *_already(line, shelf)))


def _is(lot: Lot, line: Incoming) -> bool:
    named = lot.yarn.name.casefold() == line.name.strip().casefold()
    return named and (not line.maker or lot.yarn.maker.casefold() == line.maker.strip().casefold())


def _put_up(found: Filled, same: Sequence[Lot]) -> Filled:
    line = found.line
    known = {lot.pair.put_up for lot in same if lot.pair.put_up}
    if line.full_mass or line.full_length or not known:
        return found
    if len(known) > 1:
        said = " or ".join(sorted(str(put_up) for put_up in known))
        return _noted(found, f"you have {line.name} of {said}: nothing was filled in")
    (put_up,) = known
    filled = replace(line, full_mass=put_up.mass, full_length=put_up.length)
    return _noted(Filled(filled, found.notes), f"{put_up}, from what you have of {line.name}")


def _thickness(found: Filled, same: Sequence[Lot]) -> Filled:
    line = found.line
    known = {(lot.class_from, lot.class_to) for lot in same if lot.class_from is not None}
    if line.class_from is not None or len(known) != 1:
        return found
    ((low, high),) = known
    filled = replace(line, class_from=low, class_to=high)
    return _noted(Filled(filled, found.notes), f"class {low}, from what you have of {line.name}")


def _fibre(found: Filled, same: Sequence[Lot]) -> Filled:
    known = {lot.fibre for lot in same if lot.fibre}
    if found.line.fibre or len(known) != 1:
        return found
    (fibre,) = known
    filled = replace(found.line, fibre=fibre)
    return _noted(Filled(filled, found.notes), f"{fibre}, from what you have of {filled.name}")


def _noted(found: Filled, note: str) -> Filled:
    return Filled(found.line, (*found.notes, note))


def _nearly(line: Incoming, lots: Sequence[Lot]) -> tuple[str, ...]:
    known = sorted({lot.yarn.name for lot in lots})
    near = [name for name, like in names.likeness(line.name, known) if like >= NEARLY]
    return (f"is that {near[0]}? it was kept as {line.name}",) if near else ()


def _already(line: Incoming, shelf: Sequence[HeldLot]) -> tuple[str, ...]:
    same = [
        held
        for held in shelf
        if _is(held.lot, line) and held.lot.colour.casefold() == line.colour.strip().casefold()
    ]
    if not same or not line.colour:
        return ()
    count = sum(len(held.skeins) for held in same)
    where = "; ".join(f"{held.lot.ref}, {_where(held)}" for held in same)
    skeins = "1 skein" if count == 1 else f"{count} skeins"
    return (f"you have {skeins} of it already: {where}",)


def _where(held: HeldLot) -> str:
    places = dict.fromkeys(s.place for s in held.skeins if s.place)
    return ", ".join([held.lot.lot_words, *places])
