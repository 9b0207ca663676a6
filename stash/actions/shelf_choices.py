"""The shelf narrowed by choices that are counted: how many lots each would leave."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from stash.actions.book import Book
from stash.actions.shelf import Filters, SortBy, shelf
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


def narrowed(book: Book, chosen: Chosen, order: SortBy | None = None) -> Narrowed:
    """The shelf by what was chosen, in the order that `shelf` has; words may be misspelt."""
    everything = shelf(book, Filters(), order).lots
    found = shelf(book, Filters(words=chosen.words), order).lots if chosen.words else everything
    traits = {one.lot.id: _traits(one) for one in everything}
    sifted = _sift(found, traits, chosen)
    dropped = {facet: len(sifted.passed) + sifted.but[facet] for facet in sifted.active}
    if chosen.words:
        dropped[Facet.WORDS] = len(_sift(everything, traits, chosen).passed)
    choices = {of: frozenset().union(*{one[of] for one in traits.values()}) for of in _CHOICES}
    return Narrowed(
        tuple(sifted.passed),
        {of: {choice: sifted.counts[of][choice] for choice in choices[of]} for of in choices},
        dropped,
        _samples(everything, traits),
        len(everything),
    )


#: What a lot is by each facet that can be chosen of.
_Traits = Mapping[Facet, frozenset[Hashable]]


@dataclass(slots=True)
class _Sifted:
    """What passes; how many of each choice would; how many fail by one facet alone."""

    passed: list[HeldLot] = field(default_factory=list)
    counts: dict[Facet, Counter[Hashable]] = field(default_factory=lambda: defaultdict(Counter))
    but: Counter[Facet] = field(default_factory=Counter)
    active: list[Facet] = field(default_factory=list)


def _sift(lots: Sequence[HeldLot], traits: Mapping[int, _Traits], chosen: Chosen) -> _Sifted:
    wanted = {facet: choices for facet, choices in chosen.of.items() if choices}
    least = chosen.least_free
    sifted = _Sifted(active=[*wanted, *([Facet.FREE] if least else [])])
    for lot in lots:
        own = traits[lot.lot.id]
        failed = [facet for facet, choices in wanted.items() if choices.isdisjoint(own[facet])]
        if least and (lot.free_length or NO_LENGTH) < least:
            failed.append(Facet.FREE)
        if not failed:
            sifted.passed.append(lot)
        elif len(failed) == 1:
            sifted.but[failed[0]] += 1
        for facet in own if not failed else own.keys() & failed if len(failed) == 1 else ():
            for choice in own[facet]:
                sifted.counts[facet][choice] += 1
    return sifted


def _samples(lots: Sequence[HeldLot], traits: Mapping[int, _Traits]) -> dict[Hashable, Lot]:
    """The first lot of each way of dyeing."""
    samples: dict[Hashable, Lot] = {}
    for lot in lots:
        for dyed in traits[lot.lot.id][Facet.DYED]:
            samples.setdefault(dyed, lot.lot)
    return samples


def _traits(lot: HeldLot) -> _Traits:
    return {facet: of(lot) for facet, of in _CHOICES.items()}


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


def most_usual(book: Book) -> Lot | None:
    """A lot of the thickness that most lots on the shelf have; None where none is known."""
    lots = [held.lot for held in shelf(book, Filters()).lots if held.lot.thickness_from is not None]
    counts = Counter((lot.thickness_from, lot.thickness_to) for lot in lots)
    return max(lots, key=lambda lot: counts[lot.thickness_from, lot.thickness_to], default=None)
