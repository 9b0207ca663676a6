"""An item is done: what it used is booked, the rest given back, the next estimate taught."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.finished import ClosedItem, Finished, finished, finished_in
from stash.actions.order import ForOrder, give_to_order
from stash.actions.release import release_within
from stash.actions.several import in_turn, of_items
from stash.actions.use import book_use, ready_for_use
from stash.actions.weigh import ScaleReading, weigh_within
from stash.errors import NotFound, Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.note import Note
from stash.measures.rounding import shared_out
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState, Weighed
from stash.stock.movement import Movement, standing
from stash.store import entry_rows, item_rows, skein_rows, weighing_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Known:
    """How the yarn of a finished item is known; exactly one way.

    `left`: what each ball weighs now, by skein as typed. `total`: what the item weighs.
    `by_role`: what it took of each colour. `as_planned`: nothing was weighed. `shared`: a ball that
    other items were made from too was weighed, and what it lost is booked already.
    """

    left: Mapping[str, Mass] = field(default_factory=dict)
    total: Mass | None = None
    by_role: Mapping[str, Mass] = field(default_factory=dict)
    as_planned: bool = False
    shared: bool = False

    @property
    def how(self) -> Weighed:
        """Which way it is; refused for none or for several."""
        ways = {
            Weighed.BALLS: bool(self.left) or self.shared,
            Weighed.ITEM: self.total is not None,
            Weighed.ROLES: bool(self.by_role),
            Weighed.AS_PLANNED: self.as_planned,
        }
        given = [way for way, is_given in ways.items() if is_given]
        if len(given) != 1:
            raise Refusal("used_in_one_way")
        return given[0]


def done(
    book: Book,
    known: Mapping[str, Known],
    *,
    minutes: int | None = None,
    order: ForOrder | None = None,
    on: date | None = None,
) -> list[Finished]:
    """Close items in one entry, each by what is known of it. A planned one is begun by it.

    `minutes` is what each of them really took, `order` the one that each is for.
    """
    with book.entry("done", on) as writer:
        items = find.Items(writer.db, known)

        def close(typed: str) -> ClosedItem:
            item = items.item(typed)
            items.becomes(replace(item, state=ItemState.DONE))
            return close_within(writer, item, known[typed], minutes, order)

        booked = in_turn(book, [*known], close)
        how = " / ".join(dict.fromkeys(one.how.value for one in known.values()))
        write_what(writer, booked, how)
    return finished(book, writer, booked)


@dataclass(frozen=True, slots=True)
class Finishing:
    """What finishing an item would come to, and what each of its balls would hold then."""

    finished: Finished
    left: Mapping[int, Mass]


def try_done(book: Book, item: str, known: Known) -> Finishing:
    """What `done` would book of one item, by the same steps; nothing is kept."""
    with book.trying("done") as writer:
        closed = close_within(writer, find.item(writer.db, item), known, None, None)
        (found,) = finished_in(writer.db, writer, [closed])
        numbers = {move.skein for move in _moves(writer.db, closed.item)}
        numbers |= {promise.skein for promise in closed.released}
        held = skein_rows.held_skeins(writer.db, sorted(numbers))
        left = {skein.number: skein.held for skein in held}
    return Finishing(found, left)


def close_within(
    writer: EntryWriter, item: Item, known: Known, minutes: int | None, order: ForOrder | None
) -> ClosedItem:
    """One item closed as part of an entry."""
    ready_for_use(writer, item)
    how = known.how
    notes = _book(writer, item, known, how)
    if order is not None and order.number != item.asked.order:
        notes.append(give_to_order(writer, item, order))
    released = release_within(writer, item)
    writer.step([entry_rows.Step(item.number, ItemState.DONE, how, known.total)])
    if minutes is not None:
        writer.set_facts("item", item.number, made_minutes=str(minutes))
    return ClosedItem(item, notes, released)


def write_what(writer: EntryWriter, closed: Sequence[ClosedItem], how: str) -> None:
    """The facts of an entry that closed these items."""
    items = [one.item for one in closed]
    used = item_rows.used_of(writer.db, [item.number for item in items]).values()
    total = sum((mass for masses in used for mass in masses.values()), NO_MASS)
    writer.what = of_items("item_done", "items_done", items, mass=total, how=how)


def _book(writer: EntryWriter, item: Item, known: Known, how: Weighed) -> list[Note]:
    if how is Weighed.BALLS:
        return _weigh_balls(writer, item, known.left)
    booked = item_rows.used_by_role(writer.db, item.number)
    wanted = _wanted_by_role(writer, item, known, booked)
    for role, mass in wanted.items():
        rest = mass - booked.get(role, NO_MASS)
        _refuse_more_booked(writer, mass, booked.get(role, NO_MASS), role=role)
        if rest.mg > 0:
            estimated = how in (Weighed.ITEM, Weighed.AS_PLANNED)
            _share_over_skeins(writer, item, role, rest, estimated)
    return []


def _refuse_more_booked(writer: EntryWriter, weighed: Mass, booked: Mass, **of: str | Item) -> None:
    """What was booked as used cannot be more than what the scale finds, but for its step."""
    if booked - weighed > writer.settings.scale_step:
        kind = "more_booked_of_role" if "role" in of else "more_booked_of_item"
        raise Refusal(kind, booked=booked, weighed=weighed, **of)


def _weigh_balls(writer: EntryWriter, item: Item, left: Mapping[str, Mass]) -> list[Note]:
    """Each ball on the scale: what it lost went into this item."""
    promised = item_rows.promises(writer.db, items=[item.number])
    weighed = set()
    for typed, gross in left.items():
        skein = find.skein(writer.db, typed).skein
        if not skein.mass_known:
            raise Refusal("skein_never_weighed", skein=skein.number)
        weigh_within(writer, skein, ScaleReading(gross, closing=True), item)
        weighed.add(skein.number)
    used = {move.skein for move in _moves(writer.db, item)}
    held = skein_rows.held_skeins(writer.db, sorted(used - weighed))
    begun = {skein.number for skein in held if skein.held}
    return [*_not_weighed(writer, item, ({p.skein for p in promised} | begun) - weighed)]


def _not_weighed(writer: EntryWriter, item: Item, skeins: Collection[int]) -> Iterator[Note]:
    """What is taken for granted of the skeins set aside that were not weighed at the end."""
    last = weighing_rows.weighed_since_set_aside(writer.db, [item.number])[item.number]
    booked = {move.skein for move in _moves(writer.db, item)}
    for number in sorted(skeins):
        if number in last and last[number].entry == writer.number:
            continue  # by this very entry, for several items
        if number in last:
            weighed = last[number]
            yield Note("last_weighed", skein=number, net=weighed.net, entry=weighed.entry)
        elif number in booked:
            yield Note("taken_as_booked", skein=number)
        else:
            yield Note("taken_as_untouched", skein=number)


def _wanted_by_role(
    writer: EntryWriter, item: Item, known: Known, booked: Mapping[str, Mass]
) -> dict[str, Mass]:
    """What each role took in all, by what is known."""
    if known.by_role:
        planned = [p.role for p in item_rows.planned_roles(writer.db, item.number)]
        for role in known.by_role:
            if role not in planned:
                raise NotFound("role", role, planned)
        return dict(known.by_role)
    expected = _expected_by_role(writer, item)
    if known.total is None:
        return {role: max(mass, booked.get(role, NO_MASS)) for role, mass in expected.items()}
    _refuse_more_booked(writer, known.total, sum(booked.values(), NO_MASS), item=item)
    return _shared_by_expected(known.total, expected, booked)


def _shared_by_expected(
    total: Mass, expected: Mapping[str, Mass], booked: Mapping[str, Mass]
) -> dict[str, Mass]:
    """A weighed item shared out: what is not booked yet goes to the roles by what they still
    lack of their share of the whole, so that a role which was weighed already gets no more."""
    before = sum(booked.values(), NO_MASS)
    rest = total - before
    if rest.mg <= 0:
        return {}
    roles = sorted(expected)
    shares = shared_out(total.mg, [expected[role].mg for role in roles])
    lacking = [
        max(0, share - booked.get(role, NO_MASS).mg)
        for role, share in zip(roles, shares, strict=True)
    ]
    parts = shared_out(rest.mg, lacking if any(lacking) else [expected[r].mg for r in roles])
    return {
        role: booked.get(role, NO_MASS) + Mass(part)
        for role, part in zip(roles, parts, strict=True)
    }


def _expected_by_role(writer: EntryWriter, item: Item) -> dict[str, Mass]:
    """The grams each role was expected to take, in the yarn that was set aside for it."""
    expected = {}
    skeins = _skeins_by_role(writer, item)
    for planned in item_rows.planned_roles(writer.db, item.number):
        pairs = (skein.pair.put_up for skein in skeins.get(planned.role, ()))
        pair = next(filter(None, pairs), None)
        if pair is None:
            raise Refusal("no_put_up_for_role", item=item, role=planned.role)
        expected[planned.role] = pair.mass_of(planned.expected)
    return expected


def _skeins_by_role(writer: EntryWriter, item: Item) -> dict[str, list[HeldSkein]]:
    """The skeins set aside for each role, in the order of promises, then those used before."""
    promised = item_rows.promises(writer.db, items=[item.number])
    of_roles = [(p.role, p.skein) for p in sorted(promised, key=lambda p: p.since)]
    of_roles += [(move.role, move.skein) for move in _moves(writer.db, item)]
    found: dict[str, dict[int, None]] = {}
    for role, number in of_roles:
        found.setdefault(role, {})[number] = None
    return {role: writer.skeins([*numbers]) for role, numbers in found.items()}


def _moves(db: Connection, item: Item) -> list[Movement]:
    booked = entry_rows.movements(db, items=[item.number])
    return standing(row.movement for row in booked)


def _share_over_skeins(
    writer: EntryWriter, item: Item, role: str, mass: Mass, estimated: bool
) -> None:
    """Book what a role took: first what was promised, then what else those skeins have."""
    left = mass
    skeins = _skeins_by_role(writer, item).get(role, [])
    promised: dict[int, Mass] = {}
    for p in item_rows.promises(writer.db, items=[item.number]):
        promised[p.skein] = promised.get(p.skein, NO_MASS) + p.mass
    parts = {s.number: min(promised.get(s.number, NO_MASS), s.held) for s in skeins}
    plan: dict[int, Mass] = {}
    for number, able in parts.items():
        plan[number] = min(left, able)
        left -= plan[number]
    for skein in skeins:
        more = min(left, skein.free)
        plan[skein.number] += more
        left -= more
    if left:
        raise Refusal("more_than_skeins_hold", role=role, mass=mass, missing=left)
    _book_parts(writer, item, role, skeins, plan, estimated)


def _book_parts(
    writer: EntryWriter,
    item: Item,
    role: str,
    skeins: Sequence[HeldSkein],
    plan: Mapping[int, Mass],
    estimated: bool,
) -> None:
    for skein in skeins:
        if plan[skein.number]:
            book_use(writer, skein, plan[skein.number], item, estimated=estimated, role=role)
