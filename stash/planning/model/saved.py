"""A plan as it is kept in a file of its own until it is booked, with the shelf it was made on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass


@dataclass(frozen=True, slots=True)
class SavedRole:
    """What a role of an item was expected to take, and what was to be set aside for it."""

    role: str
    expected: Length
    set_aside: Length
    source: str


@dataclass(frozen=True, slots=True)
class SavedWant:
    """A design of the plan: `plan` as it was kept then; `made_as` where it is made otherwise.

    `coins` and `minutes` are what one was to bring and to take, `order` the order it is for; None
    where nothing was said.
    """

    design: str
    name: str
    plan: Mapping[str, Any]
    made_as: Mapping[str, Any] | None
    roles: tuple[SavedRole, ...]
    coins: int | None = None
    minutes: int | None = None
    order: int | None = None


@dataclass(frozen=True, slots=True)
class SavedCut:
    """A length of a skein for a strand of a role of an item."""

    item: int
    skein: int
    role: str
    strand: int
    length: Length


@dataclass(frozen=True, slots=True)
class Saved:
    """The plan: which want each item is of, by its number, every cut, and what was free then."""

    as_of: date
    wants: tuple[SavedWant, ...]
    items: Mapping[int, int]
    cuts: tuple[SavedCut, ...]
    free: Mapping[int, Mass]
