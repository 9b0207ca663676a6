"""The lots that will do for one role, in order of the least they can cost.

A set of lots of a line is kept as the bits of one number: bit `i` is the lot at place `i`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from operator import itemgetter
from typing import Generic, Protocol, TypeVar

from stash.matching.lots.lot_view import LotView
from stash.matching.rules.conflicts import ConflictKey, ConflictValue, class_of


class Costed(Protocol):
    """A lot with what it costs in a role, in thousandths."""

    @property
    def view(self) -> LotView:
        """The lot."""

    @property
    def cost(self) -> int:
        """Its cost in the role."""


Choice = TypeVar("Choice", bound=Costed, covariant=True)


class CandidateList(Generic[Choice]):
    """Lots by the least they can cost, then by number, each weighed when its turn comes.

    `lots` are pairs of that least cost, in thousandths, and the lot; `weigh` must not find it
    cheaper.
    """

    def __init__(
        self, lots: Iterable[tuple[int, LotView]], weigh: Callable[[LotView], Choice]
    ) -> None:
        in_order = sorted(lots, key=lambda lot: lot[1].id)
        in_order.sort(key=itemgetter(0))  # twice, for a shelf comes by number already
        self.least: Sequence[int] = [*map(itemgetter(0), in_order)]
        self.views: Sequence[LotView] = [*map(itemgetter(1), in_order)]
        self.everyone = (1 << len(self.views)) - 1
        self._weigh = weigh
        self._weighed: dict[int, Choice] = {}
        self._bearing: dict[str, dict[ConflictValue, int]] = {}
        self._classes: dict[tuple[str, ...], Sequence[tuple[ConflictValue, ...]]] = {}

    def __len__(self) -> int:
        return len(self.views)

    def choice(self, place: int) -> Choice:
        """The lot at this place, weighed."""
        if place not in self._weighed:
            self._weighed[place] = self._weigh(self.views[place])
        return self._weighed[place]

    def classes(self, conflict_keys: Sequence[ConflictKey]) -> Sequence[tuple[ConflictValue, ...]]:
        """The different kinds among the lots: what `class_of` gives for them."""
        names = tuple(conflict_key.name for conflict_key in conflict_keys)
        if names not in self._classes:
            self._classes[names] = [
                *dict.fromkeys(class_of(view, conflict_keys) for view in self.views)
            ]
        return self._classes[names]

    def conflicts(self, conflict_key: ConflictKey, value: ConflictValue) -> int:
        """The lots that cannot stand beside one with this mark."""
        found = 0
        for other, lots in self._bearers(conflict_key).items():
            if conflict_key.conflicts(value, other):
                found |= lots
        return found

    def _bearers(self, conflict_key: ConflictKey) -> dict[ConflictValue, int]:
        """The lots that carry each mark of the trait."""
        if conflict_key.name not in self._bearing:
            places: defaultdict[ConflictValue, list[int]] = defaultdict(list)
            for place, values in enumerate(map(conflict_key.values, self.views)):
                for value in values:
                    places[value].append(place)
            self._bearing[conflict_key.name] = {value: _bits(at) for value, at in places.items()}
        return self._bearing[conflict_key.name]


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
