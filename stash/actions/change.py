"""Facts put right about a skein or a lot record; the old value stays in the entry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from stash.actions.book import Book, EntryWriter
from stash.actions.change_price import share_price
from stash.actions.change_targets import Targets, targets
from stash.actions.currency import learn
from stash.actions.find import FoundSkein
from stash.actions.use import Amount, mass_in
from stash.actions.weigh import full_mass_of
from stash.errors import NotFound, Refusal
from stash.measures.colour import Colour
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.movement import Kind, Movement
from stash.stock.restating import restated_promises, restatement
from stash.stock.weighing import more_than_full
from stash.stock.yarn import Condition, FullFrom, Lot, LotState
from stash.store import item_rows, skein_rows, yarn_rows
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
    dyed: str | None = None
    surface: str | None = None
    put_up: PutUp | None = None
    conditions: tuple[Condition, ...] | None = None
    daylight: bool | None = None
    bought: date | None = None
    paid: Money | None = None
    postage: Money | None = None
    care: str | None = None
    name: str | None = None
    maker: str | None = None
    colour_no: str | None = None
    left: Amount | None = None
    currency: str = ""


@dataclass(slots=True)
class Changed:
    """What was put right of which skeins or lot, and the promises it leaves short.

    `said` is which skein words led to.
    """

    entry: int = 0
    what: str = ""
    numbers: tuple[int, ...] = ()
    said: Note | None = None
    done: list[Note] = field(default_factory=list)
    shorts: tuple[Note, ...] = ()


def change(
    book: Book, asked: Sequence[str], changes: Changes, *, on: date | None = None
) -> Changed:
    """Put facts right about skeins (by number, place or words) or lot records (L and a number).

    A lot's facts asked of a skein are put right on its record, except the dye lot and the put-up,
    which are the skein's own. Raises Refusal when nothing is to be changed.
    """
    changed = Changed()
    with book.entry("change", on) as writer:
        learn(writer, changes.currency)
        meant = targets(writer.db, asked)
        _refuse_of_one(meant, changes)
        changed.said = meant.said
        for lot in meant.lots:
            _change_whole_lot(writer, lot, changes, changed)
            _change_record(writer, lot, changes, changed)
        _change_skeins(writer, meant.skeins, changes, changed)
        changed.numbers = _numbers(writer, meant)
        changed.done = [*dict.fromkeys(changed.done)]
        writer.what = _what(meant, changed)
        if not changed.done:
            raise Refusal("so_already", what=changed.what)
        changed.entry = writer.number
    changed.shorts = writer.shorts
    return changed


def _refuse_of_one(meant: Targets, changes: Changes) -> None:
    """A price is of one line, and what is left is of a skein."""
    if meant.lots and changes.left is not None:
        raise Refusal("left_of_a_skein", lot=meant.lots[0].ref)
    if len(meant.lots) + bool(meant.skeins) > 1 and (changes.paid or changes.postage) is not None:
        raise Refusal("paid_for_one_lot")


def _change_skeins(
    writer: EntryWriter, skeins: Sequence[FoundSkein], changes: Changes, changed: Changed
) -> None:
    for found in skeins:
        _change_skein(writer, found.skein, found.lot, changes, changed)
    _price(writer, [found.skein for found in skeins], changes, changed)
    records = {record.id: record for one in skeins for record in (_record_now(writer, one.skein),)}
    for record in records.values():
        _change_record(writer, record, changes, changed)


def _numbers(writer: EntryWriter, meant: Targets) -> tuple[int, ...]:
    of_lots = {lot.id for lot in meant.lots}
    numbers = {found.skein.number for found in meant.skeins}
    if of_lots:
        numbers |= {s.number for s in skein_rows.held_skeins(writer.db) if s.lot_id in of_lots}
    return tuple(sorted(numbers))


def _what(meant: Targets, changed: Changed) -> Note:
    """The entry's facts; what was changed is named as she named it."""
    done = tuple(changed.done)
    if len(meant.lots) == 1 and not meant.skeins:
        changed.what = f"lot {meant.lots[0].ref}"
        return Note("lot_changed", lot=meant.lots[0].id, done=done)
    if len(changed.numbers) == 1:
        changed.what = f"skein {changed.numbers[0]}"
        return Note("skein_changed", skein=changed.numbers[0], done=done)
    changed.what = f"skeins {', '.join(map(str, changed.numbers))}"
    return Note("skeins_changed", numbers=changed.numbers, done=done)


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
    if changes.left is not None:
        _correct_left(writer, writer.skein(skein.number), changes.left, changed)


def _correct_left(writer: EntryWriter, skein: HeldSkein, left: Amount, changed: Changed) -> None:
    """The record was wrong about what a skein holds; the difference is a correction."""
    if isinstance(left.value, Mass) and not skein.mass_known:
        raise Refusal("left_of_unweighed", skein=skein.number)
    mass = mass_in(skein, left)
    if mass == skein.held:
        return
    full = full_mass_of(writer.db, skein)
    if full is not None and more_than_full(skein, mass, full):
        raise Refusal("left_above_full", skein=skein.number, left=mass, full=full)
    writer.touch([skein.number])
    writer.set_facts("skein", skein.number, opened="1")
    writer.move([Movement(skein.number, Kind.CORRECTED, mass - skein.held, left.typed)])
    changed.done.append(Note("left_now", mass=mass))


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
    if share_price(writer, skeins, changes.paid, changes.postage):
        changed.done.append(Note("price_now"))


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
    line = Incoming.like(record, to)
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
    if changes.name is not None or changes.maker is not None:
        record = _rename(writer, record, changes, changed)
    hexes = None if changes.colours is None else skein_rows.colours_text(changes.colours)
    if hexes is None and changes.colour is not None:
        hexes = _value_of(record, changes, changed)
    low, high = (str(end) for end in changes.thickness) if changes.thickness else (None, None)
    conditions = changes.conditions
    facts = _given(
        conditions=None if conditions is None else skein_rows.conditions_text(conditions),
        daylight=None if changes.daylight is None else str(int(changes.daylight)),
        colour=changes.colour,
        colour_no=changes.colour_no,
        colours_hex=hexes,
        fibre=changes.fibre,
        dyed=changes.dyed,
        surface=changes.surface,
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
    line = Incoming.like(record, to)
    if (line.lot, line.lot_state) == (record.lot, record.lot_state):
        return
    skein = writer.skein(skein.number)
    found = skein_rows.numbered_lot(writer.db, record.yarn.id, line)
    if found is None:
        found = skein_rows.next_lot(writer.db)
        new = skein_rows.lot_from(found, record.yarn, line, record.pair)
        skein_rows.add_lots(writer.db, writer.number, [new])
    _join(writer, skein, found)
    changed.done.append(_lot_now(line, found))


def _rename(writer: EntryWriter, record: Lot, changes: Changes, changed: Changed) -> Lot:
    """The record is of the yarn of this name and maker; where that has one like it, they join."""
    name = record.yarn.name if changes.name is None else changes.name.strip()
    maker = record.yarn.maker if changes.maker is None else changes.maker.strip()
    if not name:
        raise Refusal("yarn_needs_name")
    yarn = yarn_rows.yarn_of(writer.db, maker, name)
    if yarn.id == record.yarn.id:
        return record
    there = skein_rows.numbered_lot(
        writer.db, yarn.id, Incoming.like(record, (record.lot, record.lot_state))
    )
    if there is None:
        writer.set_facts("lot", record.id, yarn_id=str(yarn.id))
    else:
        for skein in _skeins_of(writer, record):
            _join(writer, skein, there)
    changed.done.append(Note("yarn_now", maker=yarn.maker, yarn=yarn.name))
    now = record.id if there is None else there
    return skein_rows.lots(writer.db, [now])[now]


def _join(writer: EntryWriter, skein: HeldSkein, found: int) -> None:
    """The skein belongs to another record now, and keeps its own put-up where that differs."""
    writer.set_facts("skein", skein.number, lot_id=str(found))
    pair = skein_rows.lots(writer.db, [found])[found].pair
    if not skein.mass_known and pair.put_up is not None and skein.held_length is not None:
        _restate_to(writer, skein, pair.put_up, pair.put_up.mass_of(skein.held_length))
    elif skein.pair.put_up is not None and skein.pair != pair:
        writer.set_own_pair(skein.number, skein.pair.put_up, skein.pair.origin)
