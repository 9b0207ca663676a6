"""The grams of a skein put right while its metres stay: for the skein and for what is promised."""

from __future__ import annotations

from collections.abc import Sequence

from stash.measures.length import NO_LENGTH
from stash.measures.mass import NO_MASS, Mass
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind, Movement
from stash.stock.promise import PromiseChange, Promised, PromiseKind


def restated_promises(
    skein: HeldSkein, pair: PutUp, held: Mass, promises: Sequence[Promised]
) -> list[PromiseChange]:
    """Every promise of a skein in the grams of a new pair: same metres.

    `held` is what the skein holds after the change. Where it is long enough for all of them,
    rounding up never promises a gram that is not there; where it is not, the newest is short.
    """
    enough = not skein.short and _asked(pair, promises) <= held
    room = held if enough else None
    changes = []
    for promise in sorted(promises, key=lambda p: p.since):
        mass = promise.mass if promise.length is None else pair.mass_covering(promise.length)
        if room is not None:
            mass = min(mass, room)
            room -= mass
        if mass != promise.mass:
            changes.append(_restated(promise, mass))
    return changes


def _asked(pair: PutUp, promises: Sequence[Promised]) -> Mass:
    length = sum((p.length for p in promises if p.length), NO_LENGTH)
    return sum((p.mass for p in promises if p.length is None), pair.mass_of(length))


def _restated(promise: Promised, mass: Mass) -> PromiseChange:
    return PromiseChange(
        promise.skein,
        promise.item,
        promise.role,
        promise.strand,
        PromiseKind.RESTATED,
        mass - promise.mass,
        None,
    )


def restatement(skein: HeldSkein, held: Mass, typed: str = "") -> list[Movement]:
    """The movement that brings a skein's grams to what they are now known to be; none if so."""
    change = held - skein.held
    return [Movement(skein.number, Kind.RESTATED, change, typed)] if change != NO_MASS else []
