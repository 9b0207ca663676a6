"""The lots that will do for one role, in order of the least they can cost.

A set of lots of a line is kept as the bits of one number: bit `i` is the lot at place `i`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from operator import itemgetter
from typing import Generic, Protocol, TypeVar

from stash.matching.lots.lot_view import Seen
from stash.matching.rules.conflicts import Mark, Trait, kind_of


class Costed(Protocol):
    """A lot with what it costs in a role, in thousandths."""

    @property
    def seen(self) -> Seen:
        """The lot."""

    @property
    def cost(self) -> int:
        """Its cost in the role."""


Choice = TypeVar("Choice", bound=Costed, covariant=True)


class Line(Generic[Choice]):
    """Lots by the least they can cost, then by number, each weighed when its turn comes.

    `lots` are pairs of that least cost, in thousandths, and the lot; `weigh` must not find it
    cheaper.
    """

    def __init__(self, lots: Iterable[tuple[int, Seen]], weigh: Callable[[Seen], Choice]) -> None:
        in_order = sorted(lots, key=lambda lot: lot[1].id)
        in_order.sort(key=itemgetter(0))  # twice, for a shelf comes by number already
        self.least: Sequence[int] = [*map(itemgetter(0), in_order)]
        self.seen: Sequence[Seen] = [*map(itemgetter(1), in_order)]
        self.everyone = (1 << len(self.seen)) - 1
        self._weigh = weigh
        self._weighed: dict[int, Choice] = {}
        self._bearing: dict[str, dict[Mark, int]] = {}
        self._kinds: dict[tuple[str, ...], Sequence[tuple[Mark, ...]]] = {}

    def __len__(self) -> int:
        return len(self.seen)

    def choice(self, place: int) -> Choice:
        """The lot at this place, weighed."""
        if place not in self._weighed:
            self._weighed[place] = self._weigh(self.seen[place])
        return self._weighed[place]

    def kinds(self, traits: Sequence[Trait]) -> Sequence[tuple[Mark, ...]]:
        """The different kinds among the lots: what `kind_of` gives for them."""
        names = tuple(trait.name for trait in traits)
        if names not in self._kinds:
            self._kinds[names] = [*dict.fromkeys(kind_of(seen, traits) for seen in self.seen)]
        return self._kinds[names]

    def at_odds(self, trait: Trait, mark: Mark) -> int:
        """The lots that cannot stand beside one with this mark."""
        found = 0
        for other, lots in self._bearers(trait).items():
            if trait.at_odds(mark, other):
                found |= lots
        return found

    def _bearers(self, trait: Trait) -> dict[Mark, int]:
        """The lots that carry each mark of the trait."""
        if trait.name not in self._bearing:
            places: defaultdict[Mark, list[int]] = defaultdict(list)
            for place, marks in enumerate(map(trait.marks, self.seen)):
                for mark in marks:
                    places[mark].append(place)
            self._bearing[trait.name] = {mark: _bits(at) for mark, at in places.items()}
        return self._bearing[trait.name]


def _bits(places: Sequence[int]) -> int:
    """These places, in ascending order, as bits of one number; in time in line with their count."""
    filled = bytearray(places[-1] // 8 + 1)
    for place in places:
        filled[place >> 3] |= 1 << (place & 7)
    return int.from_bytes(filled, "little")


def first_of(bits: int) -> int:
    """The first place in a set that is not empty."""
    return (bits & -bits).bit_length() - 1


def places(bits: int) -> Iterator[int]:
    """The places in a set, in order."""
    while bits:
        yield first_of(bits)
        bits &= bits - 1
