"""Yarn set aside: by a proposal, by her own choice or under a note."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.arriving import assumed_mass
from stash.actions.book import Book, EntryWriter
from stash.actions.designs import Kept, keep_made, refuse_unknown_roles
from stash.actions.her_settings import Settings
from stash.actions.match import (
    AS_SET,
    NeedAsked,
    need_and_design,
    need_apart,
    propose_within,
)
from stash.actions.order import ForOrder, asked_by
from stash.actions.own_choice import cut_from
from stash.actions.several import in_turn, of_items
from stash.actions.sharing import from_key
from stash.actions.sized import Sized, kept_at
from stash.actions.use import Amount, mass_in
from stash.errors import NotEnoughYarn, Refusal, Undecided, Unreadable
from stash.matching.answer.proposal import Filled, Proposal, Take
from stash.matching.question.strands import colour_of, strand_of
from stash.matching.question.two_lots_asked import TwoLots
from stash.matching.question.wish import Fixed, Wish
from stash.matching.rules.colour_pairs import nobody_tells_apart
from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import NOT_ASKED, AskedFor, Item, ItemState
from stash.stock.promise import PromiseChange, PromiseKind
from stash.stock.yarn import Lot
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.item_rows import PlannedRole


@dataclass(frozen=True, slots=True)
class Picked:
    """One line of the list to pick by; `rows` tells what it is for where two lots share a role."""

    role: str
    skein: HeldSkein
    lot: Lot
    mass: Mass
    length: Length | None
    strand: int = 1
    rows: Note | None = None


@dataclass(frozen=True, slots=True)
class SetAside:
    """An item that was planned, by which plan, and what to take from where, by place."""

    entry: int
    item: Item
    picked: tuple[Picked, ...]
    plan: Design
    settings: Settings
    notes: tuple[Note, ...] = ()


def aside(
    book: Book,
    design: str,
    which: str,
    wish: Wish = AS_SET,
    *,
    order: ForOrder | None = None,
    sized: Sized | None = None,
    on: date | None = None,
) -> SetAside:
    """Set aside the yarn of one proposal: by its key (lots by role) or its rank, else of the first.

    It is made at the size of `sized`. Undecided where the first has colours that look alike and
    nothing was said of contrast.
    A rank is looked up by asking the same question again: same shelf, same wish, same answer.
    """
    with book.entry("aside", on) as writer:
        plan = kept_at(writer, design, sized, wish.margin)
        asked = asked_by(writer.db, order, plan.design.name)
        made, writer.what = _set_aside(writer, plan, (which, wish), asked)
    return made


def save_and_aside(
    book: Book, design: str, made: Design, which: str, wish: Wish = AS_SET
) -> SetAside:
    """Save a design made otherwise, under the name that `made` has, and set aside for it at once.

    What is set aside is what `propose` says of it while it is not saved: as the kept design needs.
    """
    with book.entry("aside") as writer:
        asked = NeedAsked(design=design, made=made)
        plan, _ = need_and_design(writer.db, writer.settings, asked, wish.margin)
        assert plan is not None
        plan = replace(plan, id=keep_made(writer, design, made))
        aside, what = _set_aside(writer, plan, (which, wish), NOT_ASKED)
        saved = Note("design_kept", name=made.name)
        writer.what = Note("saved_and_set_aside", done=(saved, what))
    return aside


def _set_aside(
    writer: EntryWriter, plan: Kept, chosen: tuple[str, Wish], asked: AskedFor
) -> tuple[SetAside, Note]:
    """An item with the yarn of a proposal set aside, by its key or rank; and the entry's words."""
    which, wish = chosen
    proposal = _proposal(writer, plan, which, wish) if which else _first(writer, plan, wish)
    item = _plan_item(writer, plan, asked)
    lots = [held for filled in proposal.roles for held in filled.lots]
    picked = promise_takes(writer, item, [*_by_colour(proposal.roles)], skeins_in(lots))
    name, takes = plan.design.name, _taken(picked)
    what = Note("proposal_set_aside", key=proposal.key, item=item, name=name, takes=takes)
    told = tuple(_with_rows(one, proposal.roles) for one in picked)
    planned = _as_it_stands(writer, item)
    return SetAside(writer.number, planned, told, plan.design, writer.settings), what


def _by_colour(roles: Sequence[Filled]) -> Iterator[tuple[str, Take]]:
    """What is taken for each colour of the design; a strand by itself is told by its number."""
    for filled in roles:
        strand = strand_of(filled.role)
        for take in filled.takes:
            told = replace(take, strand=strand) if strand else take
            yield colour_of(filled.role), told


def _with_rows(picked: Picked, roles: Sequence[Filled]) -> Picked:
    """The line with the rows its lot is for, where it shares a role with another lot."""
    for filled in roles:
        if filled.role == picked.role and filled.second is not None:
            lots = [held.lot.id for held in filled.lots]
            lot = lots.index(picked.lot.id)
            return replace(picked, rows=Note("rows_for_lot", split=filled.second.split, lot=lot))
    return picked


def _proposal(writer: EntryWriter, plan: Kept, which: str, wish: Wish) -> Proposal:
    roles = [need.role for need in need_apart(plan.need, wish).roles]
    keys = which.split("+")
    if which.isdecimal() and 0 < int(which) < 10**9:
        rank = int(which)
        wish = replace(wish, top=rank)
    elif len(keys) == len(roles):
        rank = 1
        wish = _by_key(wish, roles, keys)
    else:
        raise Unreadable(which, "proposal")
    answer = propose_within(writer.db, writer.settings, plan.need, wish, plan)
    found, misses = answer.match.proposals, answer.match.near_misses
    if rank > len(found):
        blockers = misses[0].blockers if misses else ()
        raise Refusal("no_such_proposal", which=which, last=len(found), blockers=blockers)
    return found[rank - 1]


#: Among so many proposals one is looked for whose colours can be told apart.
_LOOKED_AT = 20


def _first(writer: EntryWriter, plan: Kept, wish: Wish) -> Proposal:
    """The first proposal, unless its colours look alike and she has not said that they may."""
    first = _proposal(writer, plan, "1", wish)
    if wish.contrast is not None or not nobody_tells_apart(first.colour_difference):
        return first
    more = replace(wish, top=_LOOKED_AT)
    answer = propose_within(writer.db, writer.settings, plan.need, more, plan)
    raise which_of_alike(answer.match.proposals, first.key)


def which_of_alike(sets: Sequence[Proposal], key: str) -> Refusal:
    """The question whether to take a set whose colours look alike, or the best one that has none.

    The set of that key may be there no longer: then there is nothing to ask.
    """
    alike = [one for one in sets if one.key == key]
    if not alike:
        return Refusal("no_such_proposal", which=key, last=len(sets), blockers=())
    apart = [one for one in sets if not nobody_tells_apart(one.colour_difference)][:1]
    ways = [(Note("set_of_lots", lots=_lots(one)), one.key) for one in (*alike, *apart)]
    return Undecided(Note("first_set_looks_alike"), ways)


def _lots(proposal: Proposal) -> tuple[Lot, ...]:
    return tuple(held.lot for filled in proposal.roles for held in filled.lots)


def _by_key(wish: Wish, roles: Sequence[str], keys: Sequence[str]) -> Wish:
    """The wish that only the proposal of that key answers."""
    fixed, two_lots = {**wish.fixed}, {**(wish.two_lots.asked if wish.two_lots else {})}
    for role, key in zip(roles, keys, strict=True):
        two_lots.pop(role, None)
        fixed[role] = Fixed(typed=key)
        if pair := from_key(key):
            fixed[role], two_lots[role] = Fixed(typed=pair[0]), pair[1]
    return replace(wish, fixed=fixed, two_lots=TwoLots(two_lots), top=1)


def _plan_item(writer: EntryWriter, plan: Kept, asked: AskedFor) -> int:
    made = item_rows.add_item(writer.db, writer.number, plan.id, "", asked)
    writer.step([entry_rows.Step(made, ItemState.PLANNED)])
    roles = [
        PlannedRole(
            need.role,
            to_books(need.estimate.expected_m),
            to_books(need.set_aside_m),
            need.source.value,
        )
        for need in plan.need.roles
    ]
    item_rows.add_planned(writer.db, writer.number, made, roles)
    return made


#: Skeins by number, each with its record, as they were read in the open entry.
Skeins = Mapping[int, tuple[HeldSkein, Lot]]


def skeins_in(lots: Iterable[HeldLot]) -> Skeins:
    """The skeins of these lots."""
    return {skein.number: (skein, held.lot) for held in lots for skein in held.skeins}


def promise_takes(
    writer: EntryWriter, item: int, takes: Sequence[tuple[str, Take]], skeins: Skeins
) -> tuple[Picked, ...]:
    """Book the takes as promises; together they never ask more of a skein than is free."""
    writer.know(skein for skein, _ in skeins.values())
    room = {number: writer.free(number) for number in {take.number for _, take in takes}}
    changes, picked = [], []
    for role, take in takes:
        skein, lot = skeins[take.number]
        mass = min(_grams(skein, lot, take.length), room[take.number])
        room[take.number] -= mass
        changes.append(
            PromiseChange(
                take.number,
                item,
                role,
                take.strand,
                PromiseKind.SET_ASIDE,
                mass,
                take.length,
            )
        )
        picked.append(Picked(role, skein, lot, mass, take.length, take.strand))
    writer.promise([change for change in changes if change.mass])
    return _by_place(picked)


def _grams(skein: HeldSkein, lot: Lot, length: Length) -> Mass:
    """Grams that hold so many metres; where no pair is known, by what the class usually weighs."""
    if skein.pair.put_up is None:
        return assumed_mass(length, lot.thickness_from)
    return skein.pair.put_up.mass_covering(length)


def _by_place(picked: Sequence[Picked]) -> tuple[Picked, ...]:
    return tuple(sorted(picked, key=lambda p: (p.skein.place, p.role, p.skein.number)))


def _taken(picked: Sequence[Picked]) -> tuple[Note, ...]:
    """What its entry keeps of each take, colour by colour."""
    return tuple(
        Note(
            "yarn_taken",
            skein=one.skein.number,
            length=one.length,
            mass=one.mass,
            colour=one.lot.colour,
            yarn=str(one.lot.yarn),
        )
        for one in sorted(picked, key=lambda one: (one.role, one.skein.number, one.strand))
    )


def _as_it_stands(writer: EntryWriter, item: int) -> Item:
    return item_rows.items(writer.db, [item])[0]


def aside_own_choice(
    book: Book,
    design: str,
    skeins: Mapping[str, Sequence[int]],
    *,
    order: ForOrder | None = None,
    sized: Sized | None = None,
    on: date | None = None,
) -> SetAside:
    """Set aside the skeins she names for each role, whatever the matcher would say.

    Refused only if they cannot cover what is expected; less than the amount to set aside, or two
    lots in one role, is said.
    """
    with book.entry("aside", on) as writer:
        plan = kept_at(writer, design, sized)
        asked = asked_by(writer.db, order, plan.design.name)
        refuse_unknown_roles(plan.need, skeins)
        missing = [need.role for need in plan.need.roles if need.role not in skeins]
        if missing:
            raise Refusal("no_skein_for_role", role=missing[0])
        item = _plan_item(writer, plan, asked)
        named = {number for numbers in skeins.values() for number in numbers}
        held = {s.number: s for s in skein_rows.held_skeins(writer.db, sorted(named))}
        takes: list[tuple[str, Take]] = []
        notes: list[Note] = []
        for need in plan.need.roles:
            cut, said = cut_from(held, need, skeins[need.role], [t for _, t in takes])
            takes += [(need.role, take) for take in cut]
            notes += said
        lots = skein_rows.lots(writer.db, sorted({skein.lot_id for skein in held.values()}))
        found = {number: (skein, lots[skein.lot_id]) for number, skein in held.items()}
        picked = promise_takes(writer, item, takes, found)
        choice = tuple((role, tuple(skeins[role])) for role in sorted(skeins))
        writer.what = Note(
            "choice_set_aside",
            choice=choice,
            item=item,
            name=plan.design.name,
            takes=_taken(picked),
        )
        planned = _as_it_stands(writer, item)
    return SetAside(writer.number, planned, picked, plan.design, writer.settings, tuple(notes))


def aside_note(
    book: Book, note: str, skein: str, amount: Amount | None, *, on: date | None = None
) -> SetAside:
    """Hold yarn aside under a note, without a design: an amount, or all that is free of a skein."""
    with book.entry("aside", on) as writer:
        found = find.skein(writer.db, skein)
        writer.know([found.skein])
        mass = mass_in(found.skein, amount) if amount else found.skein.free
        if not mass or mass > found.skein.free:
            raise NotEnoughYarn(found.skein.number, mass, found.skein.free)
        made = item_rows.add_item(writer.db, writer.number, None, note)
        writer.step([entry_rows.Step(made, ItemState.PLANNED)])
        length = found.skein.length(mass)
        writer.promise(
            [PromiseChange(found.skein.number, made, "", 1, PromiseKind.SET_ASIDE, mass, length)]
        )
        writer.what = Note("skein_set_aside", mass=mass, skein=found.skein.number, note=note)
        planned = _as_it_stands(writer, made)
    picked = (Picked("", found.skein, found.lot, mass, length),)
    return SetAside(writer.number, planned, picked, Design(), writer.settings)


def begin(book: Book, items: Sequence[str], *, on: date | None = None) -> tuple[int, list[Item]]:
    """Items are begun, all in one entry."""
    with book.entry("begin", on) as writer:
        known = find.Items(writer.db, items)
        begun = in_turn(book, items, lambda typed: known.becomes(_begun(known.item(typed))))
        writer.step([entry_rows.Step(item.number, ItemState.BEGUN) for item in begun])
        writer.what = of_items("item_begun", "items_begun", begun)
    return writer.number, begun


def _begun(item: Item) -> Item:
    """A planned item as it is once it is begun."""
    if item.design_id is None:
        raise Refusal("no_design_to_begin", item=item)
    if item.state is not ItemState.PLANNED:
        raise Refusal("begun_before", item=item)
    return replace(item, state=ItemState.BEGUN)
