"""The shelf narrowed by choices that are counted: how many lots each would leave."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import partial

from stash.actions.book import Book
from stash.actions.show import Filters, Order, shelf
from stash.measures.length import NO_LENGTH, Length
from stash.stock.holding import HeldLot
from stash.stock.looks import looks_dyed
from stash.stock.yarn import Lot


class Facet(StrEnum):
    """What can be chosen of; within a group one choice or another, between groups all of them."""

    THICKNESS = "thickness"
    LEFT = "left"
    DYED = "dyed"
    PLACE = "place"
    FREE = "free"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was chosen; nothing of a group does not narrow.

    Of thickness by class number, of what is left by a skein's state, of dyeing and place as they
    are kept; None for what is not known. `words` may be misspelt.
    """

    words: str = ""
    of: Mapping[Facet, frozenset[Hashable]] = field(default_factory=dict)
    least_free: Length | None = None


@dataclass(frozen=True, slots=True)
class Narrowed:
    """The lots that answer to all that was chosen, in the order asked for.

    `counts`: for each choice there is on the whole shelf, the lots there would be if it were the
    only one of its group. `dropped`: for each group chosen of, the lots there would be without it.
    `samples`: for each way of dyeing the first such lot. `out_of`: so many lots on the shelf.
    """

    lots: tuple[HeldLot, ...]
    counts: Mapping[Facet, Mapping[Hashable, int]]
    dropped: Mapping[Facet, int]
    samples: Mapping[Hashable, Lot]
    out_of: int


def narrowed(book: Book, chosen: Chosen, order: Order | None = None) -> Narrowed:
    """The shelf by what was chosen, in the order that `shelf` has; words may be misspelt."""
    everything = shelf(book, Filters(), order).lots
    found = shelf(book, Filters(words=chosen.words), order).lots if chosen.words else everything
    sifted = _sift(found, chosen)
    dropped = {group: len(sifted.passed) + sifted.but[group] for group in sifted.active}
    if chosen.words:
        dropped[Facet.WORDS] = len(_sift(everything, chosen).passed)
    return Narrowed(
        tuple(sifted.passed),
        _counts(everything, sifted.counts),
        dropped,
        {looks_dyed(one.lot): one.lot for one in reversed(everything)},
        len(everything),
    )


@dataclass(slots=True)
class _Sifted:
    """What passes; how many of each choice would; how many fail by one group alone."""

    passed: list[HeldLot] = field(default_factory=list)
    counts: dict[Facet, Counter[Hashable]] = field(default_factory=lambda: defaultdict(Counter))
    but: Counter[Facet] = field(default_factory=Counter)
    active: list[Facet] = field(default_factory=list)


def _sift(lots: tuple[HeldLot, ...], chosen: Chosen) -> _Sifted:
    sifted = _Sifted(active=[group for group, choices in chosen.of.items() if choices])
    tests: dict[Facet, Callable[[HeldLot], bool]] = {
        group: partial(_has_one, group, chosen.of[group]) for group in sifted.active
    }
    if least := chosen.least_free:
        sifted.active.append(Facet.FREE)
        tests[Facet.FREE] = lambda lot: (lot.free_length or NO_LENGTH) >= least
    for lot in lots:
        failed = [group for group, test in tests.items() if not test(lot)]
        if not failed:
            sifted.passed.append(lot)
        elif len(failed) == 1:
            sifted.but[failed[0]] += 1
        for group, of in _CHOICES.items():
            if failed in ([], [group]):
                sifted.counts[group].update(of(lot))
    return sifted


def _has_one(group: Facet, choices: frozenset[Hashable], lot: HeldLot) -> bool:
    return not choices.isdisjoint(_CHOICES[group](lot))


def _counts(
    everything: tuple[HeldLot, ...], counts: Mapping[Facet, Counter[Hashable]]
) -> dict[Facet, Mapping[Hashable, int]]:
    """The counts of every choice there is on the whole shelf, also of those that leave nothing."""
    return {
        group: {choice: counts[group][choice] for lot in everything for choice in of(lot)}
        for group, of in _CHOICES.items()
    }


def _thickness(lot: HeldLot) -> frozenset[Hashable]:
    low, high = lot.lot.thickness_from, lot.lot.thickness_to
    return frozenset((None,)) if low is None else frozenset(range(low, (high or low) + 1))


def _left(lot: HeldLot) -> frozenset[Hashable]:
    return frozenset(skein.state for skein in lot.skeins if skein.held)


def _dyed(lot: HeldLot) -> frozenset[Hashable]:
    return frozenset((looks_dyed(lot.lot),))


def _places(lot: HeldLot) -> frozenset[Hashable]:
    return frozenset(skein.place or None for skein in lot.skeins)


_CHOICES: Mapping[Facet, Callable[[HeldLot], frozenset[Hashable]]] = {
    Facet.THICKNESS: _thickness,
    Facet.LEFT: _left,
    Facet.DYED: _dyed,
    Facet.PLACE: _places,
}
