"""What new lines of yarn become: their lot records, skeins and numbers, worked out one by one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from stash.actions.book import EntryWriter
from stash.errors import Refusal, Undecided
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.incoming import Incoming
from stash.stock.movement import Kind, Movement
from stash.stock.yarn import FullFrom, Lot, LotState, Pair, Yarn
from stash.store import entry_rows, skein_rows, yarn_rows
from stash.trade.fibres import same_blend
from stash.trade.thickness import apart, usual_m_per_100g

#: The class reckoned with when nothing is known of a yarn but its length.
CLASS_WHEN_UNKNOWN = 4


@dataclass(frozen=True, slots=True)
class Arrived:
    """What one line became.

    `held` and `length` are those of its skeins together; None for a weight that is only inferred,
    and for a length that is not known.
    """

    line: Incoming
    lot: Lot
    skeins: tuple[int, ...]
    notes: tuple[Note, ...]
    held: Mass | None = None
    length: Length | None = None


def pair_of(line: Incoming) -> Pair:
    """The put-up a line is reckoned with, and where it comes from.

    With a length alone the mass is assumed from the class's usual metres per 100 g; with a mass
    alone there is no pair.
    """
    if line.full_mass and line.full_length:
        origin = FullFrom.MEASURED if line.measured else FullFrom.BAND
        origin = FullFrom.ASSUMED if line.assumed else origin
        return Pair(PutUp(line.full_mass, line.full_length), origin)
    length = line.full_length or (line.left if isinstance(line.left, Length) else None)
    if length and not line.full_mass:
        return Pair(PutUp(assumed_mass(length, line.thickness_from), length), FullFrom.ASSUMED)
    return Pair(None, FullFrom.MISSING)


def assumed_mass(length: Length, thickness: int | None) -> Mass:
    """What so much yarn of a class usually weighs; without a class, class 4 is taken."""
    usual = usual_m_per_100g(CLASS_WHEN_UNKNOWN if thickness is None else thickness)
    return Mass(max(1, round(length.m * 100_000 / usual)))


def mass_of_each(line: Incoming, pair: Pair) -> Mass:
    """What each skein of a line weighs in the books."""
    if isinstance(line.left, Mass):
        return line.left
    if isinstance(line.left, Length):
        if pair.put_up is None:
            raise Refusal("left_without_put_up", name=line.name, left=line.left)
        return pair.put_up.mass_of(line.left)
    if pair.put_up and line.full_length:  # as typed, whatever the record says
        return pair.put_up.mass_of(line.full_length)
    full = line.full_mass or (pair.put_up.mass if pair.put_up else None)
    if full is None:
        raise Refusal("neither_weight_nor_length", name=line.name)
    return full


@dataclass(slots=True)
class Desk:
    """Takes lines in one by one; records and skeins wait so that they are written together.

    One that `only_looks` writes nothing at all, and is not to be settled.
    """

    writer: EntryWriter
    taken: set[int]
    highest: int
    next_lot: int
    only_looks: bool = False
    _yarns: dict[tuple[str, str], Yarn] = field(default_factory=dict)
    _lots: dict[object, Lot] = field(default_factory=dict)
    _asked: dict[int, Incoming] = field(default_factory=dict)
    _free: set[int] = field(default_factory=set)
    _made: list[Lot] = field(default_factory=list)
    _masses: list[tuple[int, Mass, str]] = field(default_factory=list)
    _rows: list[Mapping[str, object]] = field(default_factory=list)

    @classmethod
    def of(
        cls, writer: EntryWriter, lines: Sequence[Incoming], *, only_looks: bool = False
    ) -> Desk:
        """A desk that knows which numbers and records these lines ask for."""
        asked = [line.number for line in lines if line.number is not None]
        taken = skein_rows.numbers_in_use(writer.db, asked)
        highest = max(skein_rows.highest_number(writer.db), *asked, 0)
        desk = cls(writer, taken, highest, skein_rows.next_lot(writer.db), only_looks)
        desk.expect(lines)
        return desk

    def expect(self, lines: Sequence[Incoming]) -> None:
        """Look at the records that lines ask for, before any of them is taken.

        A skein may have a pair for itself alone, but none can be without the pair of its record: so
        the record takes its pair from the skein that knows least.
        """
        for line in lines:
            first = self._asked.get(line.record) if line.record is not None else None
            if line.record is not None and (first is None or _knows(line) < _knows(first)):
                self._asked[line.record] = line
        self._free = {*self._asked} - skein_rows.lots_in_use(self.writer.db, [*self._asked])
        self.next_lot = max(self.next_lot, *(record + 1 for record in self._free), 1)

    def take(self, line: Incoming) -> Arrived:
        """One line under its record, with the numbers that its skeins get."""
        if line.count < 1:
            raise Refusal("no_such_count", name=line.name, count=line.count)
        if line.hand_dyed and len(_balls(line)) > 1:
            return self._singly(line)
        pair = pair_of(line)
        known, lot = self._lot(line, pair)
        pair = pair if line.record is not None else _in_its_record(pair, lot)
        each = _balls(line)
        masses = [mass_of_each(ball, pair) for ball in each]
        if min(masses).mg <= 0:
            raise Refusal("nothing_of_it_to_add", name=line.name)
        numbers = self._numbers(line)
        paid = line.paid.shared([mass.mg for mass in masses]) if line.paid else None
        for i, number in enumerate(numbers):
            self._masses.append((number, masses[i], line.typed))
            coins = paid[i].coins if paid else None
            self._rows.append(self._row(number, each[i], lot, pair) | {"paid_coins": coins})
        notes: tuple[Note, ...] = ()
        if known and line.record is None:
            _refuse_other_yarn(lot, line)
            notes = _differences(lot, line, pair)
        return Arrived(line, lot, numbers, notes, *_together(masses, pair))

    def _singly(self, line: Incoming) -> Arrived:
        """Hand-dyed yarn: one record a skein."""
        balls = _balls(line)
        pair = pair_of(line)
        masses = [mass_of_each(ball, pair).mg for ball in balls]
        shares = line.paid.shared(masses) if line.paid else [None] * len(balls)
        each = [
            self.take(replace(ball, paid=paid)) for ball, paid in zip(balls, shares, strict=True)
        ]
        numbers = tuple(n for arrived in each for n in arrived.skeins)
        notes = (Note("each_skein_its_own_lot"),)
        return Arrived(
            line, each[0].lot, numbers, notes, *_together([Mass(mg) for mg in masses], pair)
        )

    def _lot(self, line: Incoming, pair: Pair) -> tuple[bool, Lot]:
        """The line's record, and whether it was there before."""
        yarn = self._yarn(line)
        key = _record_key(line, yarn)
        known = self._lots.get(key) if key else None
        if known is not None:
            return True, known
        made = self._new_lot(line, yarn, pair)
        if key:
            self._lots[key] = made
        return False, made

    def _new_lot(self, line: Incoming, yarn: Yarn, pair: Pair) -> Lot:
        """A record that waits to be written, under the number asked for if that is free."""
        number = line.record if line.record in self._free else None
        if line.record is not None:
            line = self._asked[line.record]
            pair = pair_of(line)
        if number is None:
            number = self.next_lot
            self.next_lot += 1
        self._made.append(skein_rows.lot_from(number, yarn, line, pair))
        return self._made[-1]

    def _yarn(self, line: Incoming) -> Yarn:
        """The yarn of a line; its numbered dye lots on the books are known from then on."""
        key = (line.maker, line.name)
        if key not in self._yarns:
            known = yarn_rows.yarn_known(self.writer.db, *key)
            found = self._yarns[key] = known or self._new_yarn(*key)
            for lot in skein_rows.numbered_lots(self.writer.db, found.id):
                self._lots.setdefault((found.id, lot.colour, lot.colour_no, lot.lot), lot)
        return self._yarns[key]

    def _new_yarn(self, maker: str, name: str) -> Yarn:
        if self.only_looks:
            return Yarn(-1 - len(self._yarns), maker, name)
        return yarn_rows.new_yarn(self.writer.db, maker, name)

    def _numbers(self, line: Incoming) -> tuple[int, ...]:
        """The number asked for, if one was, else the next ones."""
        if line.number is not None:
            if line.number in self.taken or line.number < 1 or len(_balls(line)) > 1:
                raise Refusal("skein_number_in_use", skein=line.number)
            self.taken.add(line.number)
            return (line.number,)
        first = self.highest + 1
        self.highest += len(_balls(line))
        return tuple(range(first, self.highest + 1))

    def _row(self, number: int, line: Incoming, lot: Lot, pair: Pair) -> dict[str, object]:
        own = pair.put_up if pair != lot.pair else None
        return {
            "number": number,
            "entry_number": self.writer.number,
            "lot_id": lot.id,
            "own_mg": own.mass.mg if own else None,
            "own_um": own.length.um if own else None,
            "own_from": pair.origin.value if own else FullFrom.MEASURED.value,
            "tare_mg": line.tare.mg if line.tare else None,
            "opened": int(line.left is not None if line.opened is None else line.opened),
            "about": int(line.about),
            "place": line.place,
            "owner": line.owner,
            "bought_on": line.bought.isoformat() if line.bought else None,
            "note": line.note,
        }

    def settle(self) -> None:
        """Write the records and skeins that waited, and what each brought.

        The skeins are new: nothing is promised of them that could fall short.
        """
        skein_rows.add_lots(self.writer.db, self.writer.number, self._made)
        skein_rows.add_skeins(self.writer.db, self._rows)
        moves = [Movement(n, Kind.ARRIVED, mass, typed=typed) for n, mass, typed in self._masses]
        entry_rows.add_movements(self.writer.db, self.writer.number, moves)


def _together(masses: Sequence[Mass], pair: Pair) -> tuple[Mass | None, Length | None]:
    """What skeins of one pair hold in all, as far as it is known."""
    held = Mass(sum(mass.mg for mass in masses))
    length = pair.put_up.length_of(held) if pair.put_up else None
    return None if pair.origin is FullFrom.ASSUMED else held, length


def _balls(line: Incoming) -> list[Incoming]:
    """A line as one line for each of its skeins: those it counts, then the opened ones beside."""
    one = replace(line, count=1, part_balls=())
    opened = [replace(one, left=left, opened=True) for left in line.part_balls]
    return [one] * line.count + opened


def _record_key(line: Incoming, yarn: Yarn) -> object:
    """What lines must share to be one record: a record asked for, or a numbered dye lot."""
    if line.record is not None:
        return line.record
    if line.lot_state is LotState.NUMBERED and not line.hand_dyed:
        return yarn.id, line.colour, line.colour_no, line.lot
    return None


def _knows(line: Incoming) -> int:
    """How much a line knows of its pair: nothing, a guess, what a band says, what she measured."""
    rising = (FullFrom.MISSING, FullFrom.ASSUMED, FullFrom.BAND, FullFrom.MEASURED)
    return rising.index(pair_of(line).origin)


def _in_its_record(pair: Pair, lot: Lot) -> Pair:
    """A line that only guesses at its pair is reckoned with the pair of the record it joins."""
    known = lot.pair.put_up is not None
    guessed = pair.origin in (FullFrom.ASSUMED, FullFrom.MISSING)
    if known and guessed and pair.put_up != lot.pair.put_up:
        return lot.pair
    return pair


def _refuse_other_yarn(lot: Lot, line: Incoming) -> None:
    """Two yarns of one maker often share a lot number: another thickness or fibre is asked for."""
    said = []
    if apart((line.thickness_from, line.thickness_to), (lot.thickness_from, lot.thickness_to)):
        said.append("thickness")
    if line.fibre and lot.fibre and not same_blend(line.fibre, lot.fibre):
        said += ["fibre"]
    typed = line.typed or str(Yarn(0, line.maker, line.name))
    if said:
        raise Undecided(
            Note("lot_of_other_yarn", name=line.name, lot=lot, other=tuple(said)),
            [
                (Note("the_same_yarn"), Note("typed_with_like", lot=lot.ref, typed=typed)),
                (Note("another_yarn"), Note("typed_with_other_name", typed=typed)),
            ],
        )


def _differences(lot: Lot, line: Incoming, pair: Pair) -> tuple[Note, ...]:
    """What this line says otherwise than the record it joins: a note, never an overwrite."""
    said = {
        "put-up": (pair.put_up, lot.pair.put_up),
        "thickness": (line.thickness_from, lot.thickness_from),
        "dyeing": (line.dyed, lot.dyed),
        "surface": (line.surface, lot.surface),
    }
    different = [name for name, (new, old) in said.items() if new and old and new != old]
    if not different:
        return (Note("joins_lot", lot=lot),)
    return (Note("joins_lot_unlike", lot=lot, different=tuple(different)),)
