"""The lots that will do for one role, in order of the least they can cost.

A set of places in a list is kept as the bits of one number: bit `i` is place `i`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from operator import itemgetter
from typing import Generic, Protocol, TypeVar

from stash.matching.lots.lot_view import Lots, order_of
from stash.matching.search.conflict_keys import ConflictKey, ConflictValue, class_of


class Costed(Protocol):
    """The lots chosen for a role with what they cost there, in thousandths."""

    @property
    def lots(self) -> Lots:
        """One lot, or the two that share the role."""

    @property
    def cost(self) -> int:
        """Their cost in the role."""


Choice = TypeVar("Choice", bound=Costed, covariant=True)


class CandidateList(Generic[Choice]):
    """Choices by the least they can cost, then by number, each weighed when its turn comes.

    `lots` are pairs of that least cost, in thousandths, and the lots of a choice; `weigh` must not
    find them cheaper.
    """

    def __init__(self, lots: Iterable[tuple[int, Lots]], weigh: Callable[[Lots], Choice]) -> None:
        in_order = sorted(lots, key=lambda one: order_of(one[1]))
        in_order.sort(key=itemgetter(0))  # twice, for a shelf comes by number already
        self.least: Sequence[int] = [*map(itemgetter(0), in_order)]
        self.lots: Sequence[Lots] = [*map(itemgetter(1), in_order)]
        self.everyone = (1 << len(self.lots)) - 1
        self._weigh = weigh
        self._weighed: dict[int, Choice] = {}
        self._with_value: dict[str, dict[ConflictValue, int]] = {}
        self._classes: dict[tuple[str, ...], Sequence[tuple[ConflictValue, ...]]] = {}

    def __len__(self) -> int:
        return len(self.lots)

    def choice(self, place: int) -> Choice:
        """The choice at this place, weighed."""
        if place not in self._weighed:
            self._weighed[place] = self._weigh(self.lots[place])
        return self._weighed[place]

    def classes(self, keys: Sequence[ConflictKey]) -> Sequence[tuple[ConflictValue, ...]]:
        """The different classes among the lots, by `class_of`; of two lots that of the first."""
        names = tuple(key.name for key in keys)
        if names not in self._classes:
            self._classes[names] = [*dict.fromkeys(class_of(lots[0], keys) for lots in self.lots)]
        return self._classes[names]

    def conflicting(self, key: ConflictKey, value: ConflictValue) -> int:
        """The places of all that conflict with a lot of this value."""
        found = 0
        for other, there in self._places(key).items():
            if key.conflicts(value, other):
                found |= there
        return found

    def _places(self, key: ConflictKey) -> dict[ConflictValue, int]:
        """The places of all that have each value of the key."""
        if key.name not in self._with_value:
            values_of = key.values
            found: defaultdict[ConflictValue, list[int]] = defaultdict(list)
            for place, lots in enumerate(self.lots):
                for lot in lots:
                    for value in values_of(lot):
                        found[value].append(place)
            self._with_value[key.name] = {value: _bits(at) for value, at in found.items()}
        return self._with_value[key.name]


def _bits(places: Sequence[int]) -> int:
    """These places, in ascending order, as bits of one number; in time linear in their count."""
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
