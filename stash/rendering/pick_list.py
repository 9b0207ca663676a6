"""What to fetch for an item, place by place, as keys and to walk along the shelf with."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, islice
from typing import TYPE_CHECKING, Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering import amounts, keys
from stash.rendering.amounts import Page
from stash.rendering.columns import columns
from stash.rendering.figures import near, up
from stash.rendering.match import called, lot_words
from stash.rendering.sentences.say import sentence
from stash.stock.holding import HeldSkein
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.aside import Picked

NOWHERE = "Place not known"
#: To tick with a pencil, on any printer.
_BOX = "[ ]"


@dataclass(frozen=True, slots=True)
class Fetch:
    """An amount of one skein to fetch for one role; strands count from 1.

    `rows` says where it is worked, where two lots share the role.
    """

    role: str
    skein: HeldSkein
    lot: Lot
    mass: Mass
    length: Length | None
    strand: int = 1
    rows: Note | None = None

    @property
    def rows_in_words(self) -> str:
        """The same in words."""
        return sentence(self.rows) if self.rows else ""

    @property
    def place(self) -> str:
        """Where it lies; empty where that is not known."""
        return self.skein.place


@dataclass(frozen=True, slots=True)
class Worked:
    """How a role's skeins are worked: so many ends at once, and so many joins in all."""

    role: str
    numbers: tuple[int, ...]
    ends: int
    joins: int


@dataclass(frozen=True, slots=True)
class PickList:
    """Everything to fetch, in the order in which one walks past it, and how it is then worked."""

    fetches: tuple[Fetch, ...]
    roles: tuple[Worked, ...]

    @property
    def places(self) -> list[tuple[str, list[Fetch]]]:
        """The places with what to fetch there; yarn whose place is not known comes last."""
        return [(place, list(there)) for place, there in groupby(self.fetches, lambda f: f.place)]


def pick_list(takes: Sequence[Fetch]) -> PickList:
    """What to fetch, place by place in natural order, each skein once for a role."""
    roles = sorted({take.role for take in takes})
    worked = (_worked(role, [take for take in takes if take.role == role]) for role in roles)
    return PickList(tuple(sorted(_merged(takes), key=_order)), tuple(worked))


def of_picked(picked: Sequence[Picked]) -> PickList:
    """The same of what was picked for one item."""
    return pick_list(
        [Fetch(p.role, p.skein, p.lot, p.mass, p.length, p.strand, p.rows) for p in picked]
    )


def of_items(picked: Sequence[tuple[int, Picked]]) -> PickList:
    """The same of what was picked for several items: a role is one of an item."""
    return pick_list(
        [
            Fetch(f"{p.role} of {item}", p.skein, p.lot, p.mass, p.length, p.strand)
            for item, p in picked
        ]
    )


def _merged(takes: Sequence[Fetch]) -> Iterator[Fetch]:
    """Several strands from one skein are fetched at once."""
    found: dict[tuple[str, int], Fetch] = {}
    for take in takes:
        key = take.role, take.skein.number
        if (first := found.get(key)) is not None:
            both = first.length and take.length and first.length + take.length
            take = replace(first, mass=first.mass + take.mass, length=both)
        found[key] = take
    yield from found.values()


def _worked(role: str, takes: Sequence[Fetch]) -> Worked:
    ends = len({take.strand for take in takes})
    numbers = tuple(sorted({take.skein.number for take in takes}))
    return Worked(role, numbers, ends, joins=len(takes) - ends)


def _order(fetch: Fetch) -> tuple[bool, Sequence[tuple[bool, int, str]], str, str, int]:
    place = fetch.place
    return (not place, natural(place), place, fetch.role, fetch.skein.number)


def natural(text: str) -> tuple[tuple[bool, int, str], ...]:
    """A place's turn among places: box 2 before box 10, large letters like small ones."""
    parts = re.findall(r"[0-9]+|[^0-9]+", text.casefold())
    return tuple((not p.isdecimal(), int(p) if p.isdecimal() else 0, p) for p in parts)


def list_keys(found: PickList) -> dict[str, Any]:
    """The list by place and by role; a place that is not known is None."""
    return {
        "places": [
            {"place": place or None, "skeins": [fetch_keys(fetch) for fetch in there]}
            for place, there in found.places
        ],
        "roles": [
            {"role": w.role or None, "skeins": [*w.numbers], "ends": w.ends, "joins": w.joins}
            for w in found.roles
        ],
    }


def fetch_keys(fetch: Fetch) -> dict[str, Any]:
    """One skein to fetch; grams are None while they are only inferred from a length."""
    known = fetch.skein.mass_known
    return {
        "number": fetch.skein.number,
        "place": fetch.place or None,
        "role": fetch.role or None,
        "rows": fetch.rows_in_words or None,
        **keys.lot_name(fetch.lot),
        "colours_hex": [colour.hex for colour in fetch.lot.colours],
        "take_g": fetch.mass.g if known else None,
        "take_m": keys.metres(fetch.length),
        "held_g": fetch.skein.held.g if known else None,
    }


def list_rows(found: PickList) -> list[dict[str, Any]]:
    """One row for each skein and role."""
    return [fetch_keys(fetch) for fetch in found.fetches]


def list_lines(found: PickList, page: Page) -> list[str]:
    """The list for reading: each place with its skeins to tick, then how the roles are joined."""
    cells = [_row(fetch, page) for fetch in found.fetches]
    rows = iter(columns(cells, "  ").split("\n"))
    lines = []
    known = any(place for place, _ in found.places)  # else the list would say no more by saying so
    for place, there in found.places:
        heading = [page.strong(place or NOWHERE)] if known else []
        lines += [*heading, *islice(rows, len(there))]
    return [*lines, *role_lines(found)]


def lot_called(fetch: Fetch) -> str:
    """The lot as it is looked for on the shelf, and where it is worked if two share a colour."""
    return ", ".join(part for part in (called(fetch.lot), fetch.rows_in_words) if part)


def _row(fetch: Fetch, page: Page) -> list[str]:
    return [
        f"{_BOX} skein {fetch.skein.number}",
        ", ".join(part for part in (fetch.role, fetch.rows_in_words) if part),
        how_much(fetch),
        f"{page.patch(fetch.lot)}{lot_words(fetch.lot)}",
    ]


def how_much(fetch: Fetch) -> str:
    """`142 m, 61.5 g of its 100 g`, or `all 200 m, 100 g`."""
    skein = fetch.skein
    all_of_it = "all " if fetch.mass >= skein.held else ""
    parts = [str(up(fetch.length))] if fetch.length else []
    if skein.mass_known:
        parts.append(f"{up(fetch.mass)}{'' if all_of_it else f' of its {near(skein.held)}'}")
    return all_of_it + ", ".join(parts)


def role_lines(found: PickList) -> Iterator[str]:
    """How the roles are worked that take several skeins, or several ends at once."""
    for one in found.roles:
        if one.role and (len(one.numbers) > 1 or one.ends > 1):
            ends = f", {one.ends} strands held together" if one.ends > 1 else ""
            joins = f", {amounts.counted(one.joins, 'join')}" if one.joins else ""
            skeins = f"skein{'s' if len(one.numbers) > 1 else ''} {amounts.numbers(one.numbers)}"
            yield f"{one.role}: use {skeins}{ends}{joins}"
