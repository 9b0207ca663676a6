"""A way out of a near miss: one change that lets its lots become the piece."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from stash.requirements.design.piece import Piece
from stash.stock.holding import HeldLot


class Kind(StrEnum):
    """What is changed, in the order in which ways are told: by how little the piece changes.

    First what leaves the piece as it is; then what changes one part of it: narrower, left out, in
    the other colour; then a body that is shorter, then a colour more. Another size comes last of
    these, since it no longer fits whom it was planned for. What is to be bought comes after all
    that can be done with what is on the shelf.
    """

    LET_IN = "let in"
    MARGIN = "margin"
    RELEASE = "release"
    SECOND_LOT = "second lot"
    BAND = "band"
    BRIM = "brim"
    TOP = "top"
    SHORTER = "shorter"
    COLOUR = "colour"
    SMALLER = "smaller"
    COVERS = "covers"
    SKEINS = "skeins"


#: So many are told at once, beside the yarn to buy: a few to choose from are an answer, all of them
#: a list.
TOLD = 3

_ORDER = {kind: at for at, kind in enumerate(Kind)}


@dataclass(frozen=True, slots=True)
class Way:
    """One way out, in words.

    `made` is the piece as it would be made and `beside` the lots that join it by role, where the
    piece changes; `margin` is the share that is left where that is what changes.
    """

    kind: Kind
    words: str
    made: Piece | None = None
    beside: tuple[tuple[str, HeldLot], ...] = ()
    margin: float | None = None


def in_order(ways: Iterable[Way]) -> tuple[Way, ...]:
    """The ways by how little they change the piece; of one kind, as they were found."""
    return tuple(sorted(ways, key=lambda way: _ORDER[way.kind]))


def told(ways: Sequence[Way]) -> tuple[Way, ...]:
    """Those to tell at once: the first few with what is on the shelf, and what there is to buy."""
    at_hand = [way for way in ways if way.kind is not Kind.SKEINS]
    return (*at_hand[:TOLD], *(way for way in ways if way.kind is Kind.SKEINS))


def in_words(ways: Sequence[Way]) -> str:
    """Those to tell at once in one line."""
    return ", or ".join(way.words for way in told(ways))
