"""Facts put right about a skein or a lot record; the old value stays in the entry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.errors import NotFound, Refusal
from stash.measures.colour import Colour
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.movement import Kind, standing
from stash.stock.restating import restated_promises, restatement
from stash.stock.turnover import basis_mg, settled_mg
from stash.stock.yarn import Condition, FullFrom, Lot, LotState
from stash.store import entry_rows, item_rows, skein_rows
from stash.trade.colour_words import colour_of


@dataclass(frozen=True, slots=True)
class Changes:
    """What is to be put right; None leaves a fact as it is, "" or () clears it.

    `currency` is the one `paid` and `postage` came in, kept if the file has none.
    """

    place: str | None = None
    owner: str | None = None
    tare: Mass | None = None
    note: str | None = None
    lot: tuple[str, LotState] | None = None
    colour: str | None = None
    colours: tuple[Colour, ...] | None = None
    thickness: tuple[int, int] | None = None
    fibre: str | None = None
    put_up: PutUp | None = None
    conditions: tuple[Condition, ...] | None = None
    daylight: bool | None = None
    bought: date | None = None
    paid: Money | None = None
    postage: Money | None = None
    care: str | None = None
    currency: str = ""


@dataclass(slots=True)
class Changed:
    """What was put right of which skein or lot, and the promises it leaves short."""

    entry: int = 0
    what: str = ""
    done: list[Note] = field(default_factory=list)
    shorts: tuple[Note, ...] = ()


def change(book: Book, asked: str, changes: Changes, *, on: date | None = None) -> Changed:
    """Put facts right about one skein (a number) or a lot record (L and its number).

    A lot's facts asked of a skein are put right on its record, except the dye lot and the put-up,
    which are the skein's own. Raises Refusal when nothing is to be changed.
    """
    changed = Changed()
    with book.entry("change", on) as writer:
        learn(writer, changes.currency)
        record = find.lot_record(writer.db, asked)
        if record is None:
            found = find.skein(writer.db, asked)
            changed.what = f"skein {found.skein.number}"
            kind, thing = "skein_changed", {"skein": found.skein.number}
            _change_skein(writer, found.skein, found.lot, changes, changed)
            _price(writer, [found.skein], changes, changed)
            record = _record_now(writer, found.skein)
        else:
            changed.what = f"lot {record.ref}"
            kind, thing = "lot_changed", {"lot": record.id}
            _change_whole_lot(writer, record, changes, changed)
        _change_record(writer, record, changes, changed)
        if not changed.done:
            raise Refusal("so_already", what=changed.what)
        changed.entry = writer.number
        writer.what = Note(kind, **thing, done=tuple(changed.done))
    changed.shorts = writer.shorts
    return changed


def _change_skein(
    writer: EntryWriter, skein: HeldSkein, record: Lot, changes: Changes, changed: Changed
) -> None:
    facts = _given(
        place=changes.place,
        owner=changes.owner,
        note=changes.note,
        tare_mg=None if changes.tare is None else str(changes.tare.mg),
        bought_on=None if changes.bought is None else changes.bought.isoformat(),
    )
    for name in writer.set_facts("skein", skein.number, **facts) if facts else []:
        changed.done.append(_fact_now(name, facts[name]))
    if changes.put_up is not None and writer.set_own_pair(
        skein.number, changes.put_up, FullFrom.BAND
    ):
        _restate(writer, skein, changes.put_up)
        changed.done.append(_put_up_now(changes.put_up))
    if changes.lot is not None:
        _move_to_lot(writer, skein, record, changes.lot, changed)


def _fact_now(name: str, value: str | None) -> Note:
    if name == "tare_mg":
        return Note("tare_now", mass=Mass(int(value or 0)))
    if name == "daylight":
        return Note("daylight_now", looked_at=value == "1")
    fact = "thickness" if name in ("thickness_from", "thickness_to") else name
    return Note("fact_now", fact=fact, value=value or None)


def _put_up_now(put_up: PutUp) -> Note:
    return Note("put_up_now", mass=put_up.mass, length=put_up.length)


def _price(
    writer: EntryWriter, skeins: Sequence[HeldSkein], changes: Changes, changed: Changed
) -> None:
    """What was paid shared over skeins by what each came with, postage by what was paid for each.

    Yarn that was unravelled was paid for with the skein it was of, and has no price of its own.
    """
    if changes.paid is None and changes.postage is None:
        return
    came = {skein.number: _came_with(writer, skein.number) for skein in skeins}
    if any(came.values()):
        came = {number: mg for number, mg in came.items() if mg}
    numbers = [*came]
    paid = [skein_rows.skein_facts(writer.db, number)["paid_coins"] for number in numbers]
    if changes.paid is not None:
        paid = [each.coins for each in changes.paid.shared([mg or 1 for mg in came.values()])]
    if changes.postage is not None:
        known = [coins or 0 for coins in paid]
        weights = known if any(known) else [1] * len(numbers)
        more = changes.postage.shared(weights)
        paid = [coins + each.coins for coins, each in zip(known, more, strict=True)]
    for number, coins in zip(numbers, paid, strict=True):
        writer.set_facts("skein", number, paid_coins=str(coins))
    changed.done.append(Note("price_now"))


def _came_with(writer: EntryWriter, number: int) -> int:
    """The milligrams a skein's price is of; nothing for yarn that came back from an item."""
    booked = entry_rows.movements(writer.db, skein_number=number)
    moves = standing(one.movement for one in booked)
    if not moves or moves[0].kind is Kind.UNRAVELLED:
        return 0
    return max(0, round(basis_mg(moves, settled_mg(moves))))


def _given(**facts: str | None) -> dict[str, str | None]:
    """The facts that were given at all."""
    return {name: value for name, value in facts.items() if value is not None}


def _change_whole_lot(writer: EntryWriter, record: Lot, changes: Changes, changed: Changed) -> None:
    """What a lot record says of all its skeins; facts of skeins are put right on every one."""
    skeins = _skeins_of(writer, record)
    if not skeins:  # taken back, or all of it moved to another record
        raise NotFound("lot", record.ref)
    of_skeins = Changed()
    for skein in skeins:
        _change_skein(writer, skein, record, replace(changes, put_up=None, lot=None), of_skeins)
    changed.done += sorted({*of_skeins.done}, key=lambda one: (one.kind, one.facts.get("fact", "")))
    _price(writer, skeins, changes, changed)
    if changes.put_up is not None:
        _put_up_of_lot(writer, record, skeins, changes.put_up, changed)
    if changes.lot is not None:
        _renumber(writer, record, skeins, changes.lot, changed)


def _renumber(
    writer: EntryWriter,
    record: Lot,
    skeins: list[HeldSkein],
    to: tuple[str, LotState],
    changed: Changed,
) -> None:
    """A record gets another dye lot; where one of that number is there, they become one."""
    line = _like(record, to)
    there = skein_rows.numbered_lot(writer.db, record.yarn.id, line)
    if there is not None and there != record.id:
        for skein in skeins:
            _move_to_lot(writer, skein, record, to, changed)
    elif writer.set_facts("lot", record.id, lot_text=line.lot, lot_state=line.lot_state.value):
        changed.done.append(_lot_now(line))


def _record_now(writer: EntryWriter, skein: HeldSkein) -> Lot:
    lot_id = writer.skein(skein.number).lot_id
    return skein_rows.lots(writer.db, [lot_id])[lot_id]


def _skeins_of(writer: EntryWriter, record: Lot) -> list[HeldSkein]:
    held = skein_rows.held_skeins(writer.db)
    return [s for s in held if s.lot_id == record.id]


def _change_record(writer: EntryWriter, record: Lot, changes: Changes, changed: Changed) -> None:
    hexes = None if changes.colours is None else skein_rows.colours_text(changes.colours)
    if hexes is None and changes.colour is not None:
        hexes = _value_of(record, changes, changed)
    low, high = (str(end) for end in changes.thickness) if changes.thickness else (None, None)
    conditions = changes.conditions
    facts = _given(
        conditions=None if conditions is None else skein_rows.conditions_text(conditions),
        daylight=None if changes.daylight is None else str(int(changes.daylight)),
        colour=changes.colour,
        colours_hex=hexes,
        fibre=changes.fibre,
        care=changes.care,
        thickness_from=low,
        thickness_to=high,
    )
    span = low if low == high else f"{low}-{high}"
    names = writer.set_facts("lot", record.id, **facts) if facts else []
    told = {**facts, "thickness_from": span, "thickness_to": span}
    changed.done += dict.fromkeys(_fact_now(name, told[name]) for name in names)


def _value_of(record: Lot, changes: Changes, changed: Changed) -> str | None:
    """The value a new colour word brings: what the word means, unless a better one was there.

    A value that is not the old word's own was given, and one looked at in daylight is better than
    any word: both stay, and that is said.
    """
    if record.colours and record.colour == changes.colour:
        return None
    daylight = record.daylight if changes.daylight is None else changes.daylight
    given = bool(record.colours) and record.colours != colour_of(record.colour)
    if record.colours and (given or daylight):
        why = "given" if given else "daylight"
        value = skein_rows.colours_text(record.colours)
        changed.done.append(Note("value_stays", value=value, why=why))
        return None
    return skein_rows.colours_text(colour_of(changes.colour or ""))


def _lot_now(line: Incoming, record: int | None = None) -> Note:
    return Note("lot_now", lot_text=line.lot, lot_state=line.lot_state, lot=record)


def _put_up_of_lot(
    writer: EntryWriter, record: Lot, skeins: list[HeldSkein], put_up: PutUp, changed: Changed
) -> None:
    moved = writer.set_facts(
        "lot",
        record.id,
        full_mg=str(put_up.mass.mg),
        full_um=str(put_up.length.um),
        full_from=FullFrom.BAND.value,
    )
    if not moved:
        return
    for skein in skeins:
        if writer.skein(skein.number).pair.put_up == put_up:  # none of its own
            _restate(writer, skein, put_up)
    changed.done.append(_put_up_now(put_up))


def _restate(writer: EntryWriter, skein: HeldSkein, put_up: PutUp) -> None:
    """What is held and promised under a new pair.

    A whole skein is a full one of the new pair. A length that was typed stays, so its grams
    change; grams that were weighed stay, so the length changes. Promises keep their metres.
    """
    if not skein.opened:
        held = put_up.mass
    elif not skein.mass_known and skein.held_length is not None:
        held = put_up.mass_of(skein.held_length)
    else:
        held = skein.held
    _restate_to(writer, skein, put_up, held)


def _restate_to(writer: EntryWriter, skein: HeldSkein, put_up: PutUp, held: Mass) -> None:
    writer.move(restatement(skein, held))
    promises = item_rows.promises(writer.db, skeins=[skein.number])
    writer.promise(restated_promises(skein, put_up, held, promises))


def _move_to_lot(
    writer: EntryWriter, skein: HeldSkein, record: Lot, to: tuple[str, LotState], changed: Changed
) -> None:
    """The skein goes to the record of that dye lot: the one there is, or a new one like its own."""
    line = _like(record, to)
    if (line.lot, line.lot_state) == (record.lot, record.lot_state):
        return
    skein = writer.skein(skein.number)
    found = skein_rows.numbered_lot(writer.db, record.yarn.id, line)
    if found is None:
        found = skein_rows.next_lot(writer.db)
        new = skein_rows.lot_from(found, record.yarn, line, record.pair)
        skein_rows.add_lots(writer.db, writer.number, [new])
    writer.set_facts("skein", skein.number, lot_id=str(found))
    pair = skein_rows.lots(writer.db, [found])[found].pair
    if not skein.mass_known and pair.put_up is not None and skein.held_length is not None:
        _restate_to(writer, skein, pair.put_up, pair.put_up.mass_of(skein.held_length))
    elif skein.pair.put_up is not None and skein.pair != pair:
        writer.set_own_pair(skein.number, skein.pair.put_up, skein.pair.origin)
    changed.done.append(_lot_now(line, found))


def _like(record: Lot, lot: tuple[str, LotState]) -> Incoming:
    """A line of yarn just like a record, but of another dye lot."""
    text, state = lot
    return Incoming(
        name=record.yarn.name,
        maker=record.yarn.maker,
        colour=record.colour,
        colour_no=record.colour_no,
        colours=record.colours,
        lot=text,
        lot_state=state,
        thickness_from=record.thickness_from,
        thickness_to=record.thickness_to,
        fibre=record.fibre,
        full_mass=record.full_mass,
        hand_dyed=record.hand_dyed,
        care=record.care,
    ).trimmed()
