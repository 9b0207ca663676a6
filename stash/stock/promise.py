"""Promises: yarn set aside for an item. It lowers what is free, not what is held."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass


class PromiseKind(StrEnum):
    """Why a promise changed."""

    SET_ASIDE = "set aside"
    USED = "used"
    RELEASED = "released"
    RESTATED = "restated"


@dataclass(frozen=True, slots=True)
class Promised:
    """What one item may still take of one skein for one role and strand.

    `length` is the metres asked for, where the skein's pair was known. `since` rises with age: the
    place of the promise in the books, so that the newest can be short first.
    """

    skein: int
    item: int
    role: str
    strand: int
    mass: Mass
    length: Length | None
    since: int


@dataclass(frozen=True, slots=True)
class PromiseChange:
    """A change of a promise as it is booked."""

    skein: int
    item: int
    role: str
    strand: int
    kind: PromiseKind
    mass: Mass
    length: Length | None
    undoes: int | None = None


@dataclass(frozen=True, slots=True)
class BookedPromise:
    """A change of a promise with its row and the entry it belongs to, for reading a history."""

    row: int
    entry: int
    change: PromiseChange


def shortages(held: Mass, promises: Sequence[Promised]) -> list[tuple[Promised, Mass]]:
    """Which promises of one skein cannot be kept in full, and by how much.

    Older promises are served first, so the newest is short first.
    """
    left = held
    short = []
    for promise in sorted(promises, key=lambda p: p.since):
        served = min(left, promise.mass)
        left -= served
        if served < promise.mass:
            short.append((promise, promise.mass - served))
    return short


def lowered(promise: Promised, by: Mass, kind: PromiseKind) -> PromiseChange:
    """The change that takes so much off a promise; its metres go down in proportion."""
    by = min(by, promise.mass)
    length = promise.length
    if length is not None and by != promise.mass:
        length = Length(length.um * by.mg // promise.mass.mg)
    return PromiseChange(
        promise.skein,
        promise.item,
        promise.role,
        promise.strand,
        kind,
        -by,
        None if length is None else -length,
    )


def lowered_by_use(promises: Sequence[Promised], used: Mass) -> list[PromiseChange]:
    """How the promises of one skein to one item shrink when so much is used for it."""
    left = used
    changes = []
    for promise in sorted(promises, key=lambda p: p.since):
        part = min(left, promise.mass)
        if part > NO_MASS:
            changes.append(lowered(promise, part, PromiseKind.USED))
            left -= part
    return changes
