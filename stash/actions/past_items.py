"""What her finished, weighed items took: the evidence that the next estimate learns from."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from stash.actions.her_settings import Settings
from stash.measures.mass import Mass
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.serialise import deserialise
from stash.requirements.yarn.experience import Made, as_made
from stash.stock.holding import HeldSkein
from stash.stock.item import Weighed
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.engine import Connection
from stash.store.entry_rows import Fact
from stash.store.item_rows import DesignRow, Used

#: The difference of two readings on a scale of step 1 spreads by this much (two even errors).
READING_SPREAD = math.sqrt(2 / 12)


def past_items(db: Connection, settings: Settings, plans: Plans) -> list[Made]:
    """Every finished, weighed item whose yarn is known in metres, by number.

    Each with the plan as it was when its yarn was set aside, because a design may have been put
    right since.
    """
    used = item_rows.used_by_items(db)
    numbers = sorted({row.skein for row in used})
    held = skein_rows.held_skeins(db, numbers) if used else []
    skeins = {skein.number: skein for skein in held}
    found = []
    for _, run in groupby(used, key=lambda row: row.item):
        rows = list(run)
        plan = plans.at(rows[0].design, rows[0].planned_in)
        took = _took(rows, skeins, settings.scale_step)
        if plan and took:
            found.append(Made(rows[0].design, plan, took))
    return found


@dataclass(frozen=True, slots=True)
class Plans:
    """Every kept plan as it is today, and as it was before each time it was put right."""

    today: Mapping[int, str]
    before: Sequence[Fact]

    @classmethod
    def read(cls, db: Connection, designs: Sequence[DesignRow] | None = None) -> Plans:
        """All of them, in two questions; in one where the designs have been read.

        Those too that were dropped, because what was made of them still teaches.
        """
        rows = item_rows.designs(db, dropped=True) if designs is None else designs
        today = {row.id: row.plan for row in rows}
        changes = entry_rows.facts(db, thing="design")
        return cls(today, [fact for fact in changes if fact.name == "plan"])

    def at(self, design: int, entry: int) -> Design | None:
        """The plan of a design as it stood in an entry, gauge and put-up as they are known today.

        None for a design that was taken back.
        """
        if design not in self.today:
            return None
        later = (f.old for f in self.before if f.ref == str(design) and f.entry > entry)
        today = _read(self.today[design])
        then = next(later, None)
        return as_made(_read(then), today) if then else today

    def since(self, design: int, part: Callable[[Design], object]) -> Design:
        """The plan of a design as it was when a part of it became what it is today."""
        older = [f.old for f in self.before if f.ref == str(design) and f.old]
        plan = today = _read(self.today[design])
        for text in reversed(older):
            earlier = _read(text)
            if part(earlier) != part(today):
                break
            plan = earlier
        return as_made(plan, today)


class ReadPlans:
    """Plans as they were in an entry, each read once."""

    def __init__(self, plans: Plans) -> None:
        self._plans = plans
        self._changed = {fact.ref for fact in plans.before}
        self._read: dict[tuple[int, int], Design] = {}

    def at(self, design: int | None, entry: int) -> Design:
        """As `Plans.at` gives it; an empty one where there is none."""
        if design is None:
            return Design()
        key = design, entry if str(design) in self._changed else 0
        if key not in self._read:
            self._read[key] = self._plans.at(design, entry) or Design()
        return self._read[key]


def _read(plan: str) -> Design:
    return deserialise(json.loads(plan))


def _took(rows: Sequence[Used], skeins: Mapping[int, HeldSkein], step: Mass) -> OwnItem | None:
    """By colour where every gram is known to be of one; else the total alone."""
    lengths = [
        (row.role, length.m)
        for row in rows
        if row.skein in skeins and (length := skeins[row.skein].length(row.used))
    ]
    if len(lengths) < len(rows):
        return None
    grams = math.fsum(row.used.g for row in rows)
    m_per_g = math.fsum(m for _, m in lengths) / grams
    scale_m = READING_SPREAD * step.g * m_per_g * math.sqrt(len(rows))
    if rows[0].how is Weighed.ITEM or not all(role for role, _ in lengths):
        whole_m = math.fsum(m for _, m in lengths)
        return OwnItem(total_m=whole_m, scale_m=scale_m, yarns=(("", 100 * m_per_g),))
    roles = sorted({role for role, _ in lengths})
    by_role = {role: math.fsum(m for one, m in lengths if one == role) for role in roles}
    weighed = {role: math.fsum(row.used.g for row in rows if row.role == role) for role in roles}
    yarns = ((role, 100 * by_role[role] / weighed[role]) for role in roles)
    return OwnItem(by_role=tuple(by_role.items()), scale_m=scale_m, yarns=tuple(yarns))
