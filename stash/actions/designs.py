"""Designs: the plans she keeps, and what each needs of every colour."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from stash.actions import find, past_items
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.past_items import Plans
from stash.errors import NotFound, Refusal
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.serialise import deserialise, serialise
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import Experience, Made, as_given, experience
from stash.requirements.yarn.need import Need
from stash.store import item_rows, order_rows
from stash.store.engine import Connection
from stash.store.item_rows import DesignRow
from stash.store.memory import recall


@dataclass(frozen=True, slots=True)
class Kept:
    """A design of hers with its need, and what is known of it to ask more."""

    id: int
    design: Design
    need: Need
    known: DesignContext
    settings: Settings


def add_design(book: Book, design: Design) -> tuple[int, Need]:
    """Keep a plan under its name; the entry and its need. Refused if the name is taken."""
    need_of(design)  # refused before anything is written
    with book.entry("design add") as writer:
        _refuse_name(writer.db, design.name)
        item_rows.add_design(writer.db, writer.number, design.name, _text(design))
        writer.what = Note("design_kept", name=design.name)
        need = kept_named(writer.db, writer.settings, design.name).need
    return writer.number, need


def _refuse_name(db: Connection, name: str, but: int | None = None) -> None:
    """Refused if another design bears the name."""
    for design in item_rows.designs(db):
        if design.name.lower() == name.lower() and design.id != but:
            raise Refusal("design_name_taken", design=design.name)


def change_design(book: Book, name: str, changed: Design) -> tuple[int, Need]:
    """Put a kept plan right; its items keep the need they were planned with."""
    need_of(changed)  # refused before anything is written
    with book.entry("design change") as writer:
        row = find.design(writer.db, name)
        changed = replace(changed, name=changed.name or row.name)
        _refuse_name(writer.db, changed.name, but=row.id)
        if not writer.set_facts("design", row.id, name=changed.name, plan=_text(changed)):
            raise Refusal("design_so_already", design=row.name)
        writer.what = Note("design_changed", name=row.name)
        need = kept_named(writer.db, writer.settings, changed.name).need
    return writer.number, need


def copy_design(book: Book, name: str, new: str) -> tuple[Need, Design]:
    """The plan of a design under another name as well; refused if that name is taken."""
    with book.entry("design copy") as writer:
        row = find.design(writer.db, name)
        _refuse_name(writer.db, new)
        item_rows.add_design(writer.db, writer.number, new, row.plan)
        writer.what = Note("design_kept", name=new)
        kept = kept_named(writer.db, writer.settings, new)
    return kept.need, kept.design


def save_as(book: Book, name: str, new: str, made: Design) -> None:
    """A design made otherwise, kept under a new name; refused if that name is taken."""
    with book.entry("design add") as writer:
        keep_made(writer, name, replace(made, name=new))
        writer.what = Note("design_kept", name=new)


def keep_made(writer: EntryWriter, name: str, made: Design) -> int:
    """The same in an entry that is open already, under the name that `made` has: its number.

    Figures given for its size are those of the plan it was made from, so that comes first.
    """
    need_of(made)  # refused before anything is written
    _refuse_name(writer.db, made.name)
    row = find.design(writer.db, name)
    given = made.stated or made.weighed
    plan = row.plan if given else _text(made)
    new = item_rows.add_design(writer.db, writer.number, made.name, plan)
    if given:
        writer.set_facts("design", new, plan=_text(made))
    return new


def drop_design(book: Book, name: str) -> tuple[int, str]:
    """A design is no longer listed or matched; its items stay.

    Refused while one is open or ordered.
    """
    with book.entry("design drop") as writer:
        row = find.design(writer.db, name)
        still = [a.number for a in item_rows.items(writer.db) if a.design_id == row.id and a.open]
        if still:
            raise Refusal("design_in_use", design=row.name, numbers=tuple(still))
        waiting = [o for o in order_rows.orders(writer.db) if o.design_id == row.id and o.left]
        if waiting:
            raise Refusal("design_ordered", design=row.name, order=waiting[0])
        writer.set_facts("design", row.id, dropped="1")
        writer.what = Note("design_dropped", name=row.name)
    return writer.number, row.name


def show(book: Book, name: str, margin: float | None = None) -> Kept:
    """One design with its need, own finished items counted in."""
    with book.reading() as db:
        settings = Settings.read(db)
        return kept_named(db, settings, name, margin)


def listed(book: Book) -> list[Kept]:
    """Every design with its need, by name."""
    with book.reading() as db:
        return listed_within(db, Settings.read(db))


def listed_within(db: Connection, settings: Settings) -> list[Kept]:
    """The same inside a view that is open already."""
    known = _read(db, settings)
    return [known.design(row) for row in known.rows]


def kept_named(db: Connection, settings: Settings, name: str, margin: float | None = None) -> Kept:
    """A design read back, with the need that today's knowledge gives."""
    known = _read(db, settings)
    return known.design(find.design_among(known.rows, name), margin)


@dataclass(frozen=True, slots=True)
class _EveryDesign:
    """Every design that is listed, and what bears on their needs, read once."""

    rows: Sequence[DesignRow]
    made: Sequence[Made]
    plans: Plans
    settings: Settings

    def design(self, row: DesignRow, margin: float | None = None) -> Kept:
        design, plan, bears = _known(row, self.made, self.plans)
        known = DesignContext(plan, self.settings.margin if margin is None else margin, bears)
        return Kept(row.id, design, known.need(plan), known, self.settings)


def _read(db: Connection, settings: Settings) -> _EveryDesign:
    def read() -> _EveryDesign:
        every = item_rows.designs(db, dropped=True)
        plans = Plans.read(db, every)
        made = past_items.past_items(db, settings, plans)
        return _EveryDesign([row for row in every if not row.dropped], made, plans, settings)

    return recall(db, "designs", read)


def _known(row: DesignRow, made: Sequence[Made], plans: Plans) -> tuple[Design, Design, Experience]:
    """A design as it is kept, with its figures brought to its size, and what bears on it."""
    design = replace(deserialise(json.loads(row.plan)), name=row.name)
    stated_for = plans.since(row.id, lambda plan: plan.stated)
    weighed_for = plans.since(row.id, lambda plan: plan.weighed)
    plan, notes = as_given(design, stated_for, weighed_for)
    bears = experience(row.id, plan, made)
    return design, plan, replace(bears, notes=(*notes, *bears.notes))


def all_known(
    db: Connection, settings: Settings, rows: Sequence[DesignRow], margin: float | None = None
) -> list[DesignContext]:
    """Each of these plans with what is known of it."""
    plans = Plans.read(db)
    made = past_items.past_items(db, settings, plans)
    margin = settings.margin if margin is None else margin
    found = [_known(row, made, plans) for row in rows]
    return [DesignContext(plan, margin, bears) for _, plan, bears in found]


@dataclass(frozen=True, slots=True)
class HerDesigns:
    """What a plan is read and reckoned by: her settings, her designs, and what she made before."""

    settings: Settings = field(default_factory=Settings)
    rows: Sequence[DesignRow] = ()
    made: Sequence[Made] = ()

    def row(self, asked: str) -> DesignRow:
        """A design by its number in the file, else by its name; no name reads like a number."""
        if not asked.isdecimal():
            return find.design_among(self.rows, asked)
        for row in self.rows:
            if str(row.id) == asked:
                return row
        raise NotFound("design", asked, [row.name for row in self.rows[:3]])

    def plan(self, name: str) -> Design:
        """The plan of a design alone."""
        row = find.design_among(self.rows, name)
        return replace(deserialise(json.loads(row.plan)), name=row.name)

    def known_for(self, design: Design, margin: float | None = None) -> DesignContext:
        """A plan that is not kept, with what she made before."""
        margin = self.settings.margin if margin is None else margin
        return DesignContext(design, margin, experience(None, design, self.made))


def her_designs(book: Book) -> HerDesigns:
    """All of it in one view."""
    with book.reading() as db:
        settings = Settings.read(db)
        known = _read(db, settings)
        return HerDesigns(settings, known.rows, known.made)


def names(book: Book) -> list[str]:
    """The names of all designs."""
    with book.reading() as db:
        return [row.name for row in item_rows.designs(db)]


def _text(design: Design) -> str:
    return json.dumps(serialise(design), sort_keys=True)


def refuse_unknown_roles(need: Need, roles: Iterable[str]) -> None:
    """Roles that are asked for must be roles of the need."""
    known = [role.role for role in need.roles]
    for role in roles:
        if role not in known:
            raise NotFound("role", role, known)
