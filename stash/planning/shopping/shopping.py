"""What to buy for what the shelf does not give: whole skeins, each role in one lot, at least cost.

All items of a want take a role from one lot, so that they match and can stand in for each other.
One lot may serve several wants, but never two roles of one design, which are two colours.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from stash.measures.mass import Mass
from stash.planning.model.problem import Ends
from stash.planning.optimiser.solver import ENDLESS, Effort, Program

#: After so many lots that had to be cut again the best found so far stands.
_MOST_ROUNDS = 200
#: Of purchases that cost the same the one with less yarn; small against one coin.
_COINS_A_METRE = 1e-6


@dataclass(frozen=True, slots=True)
class Missing:
    """A role of a design that the shelf does not give: the length of one, for so many items.

    `classes` are the thickness classes it may be of, None where any will do; `colour` is what was
    asked for, "" where that is open.
    """

    design: str
    role: str
    um: int
    count: int = 1
    strands: int = 1
    classes: tuple[int, int] | None = None
    colour: str = ""

    @property
    def strand_lengths(self) -> list[int]:
        """Every length to be cut, of all items."""
        one = [(self.um + strand) // self.strands for strand in range(self.strands)]
        return one * self.count


@dataclass(frozen=True, slots=True)
class Offer:
    """A yarn to be had in any colour: the length of a skein, and its price where that is known.

    `mass` is what a skein weighs, where that is known; `classes` is None where its thickness is
    not known, and it is then taken to suit.
    """

    name: str
    um: int
    coins: int | None = None
    classes: tuple[int, int] | None = None
    mass: Mass | None = None

    def suits(self, missing: Missing, tolerance: int) -> bool:
        """Whether it is near enough in thickness."""
        if self.classes is None or missing.classes is None:
            return True
        (low, high), (least, most) = self.classes, missing.classes
        return max(0, low - most, least - high) <= tolerance


@dataclass(frozen=True, slots=True)
class Bought:
    """So many skeins of one lot of an offer, what they are for, the joins, and what stays."""

    offer: Offer
    skeins: int
    wanted: tuple[Missing, ...]
    joins: int
    left_um: int

    @property
    def coins(self) -> int | None:
        """What they cost, None where the price is not known."""
        return None if self.offer.coins is None else self.offer.coins * self.skeins


@dataclass(frozen=True, slots=True)
class Basket:
    """What to buy, and what none of the offers suits; `least` if nothing cheaper is possible."""

    bought: tuple[Bought, ...]
    nowhere: tuple[Missing, ...]
    least: bool

    @property
    def coins(self) -> int:
        """What is known of its cost."""
        return sum(lot.coins or 0 for lot in self.bought)

    @property
    def priced(self) -> bool:
        """Whether every price is known."""
        return all(lot.coins is not None for lot in self.bought)


def shopping(
    missing: Sequence[Missing], offers: Sequence[Offer], ends: Ends, tolerance: int = 0
) -> Basket:
    """The cheapest lots that give all that is missing, each cut to the last join.

    Where a yarn that suits has a price, those without one are left out; where none has, the least
    yarn is bought. Of equal ones the first in the order of the offers.
    """
    able = [offer for offer in offers if offer.um > ends.shortest_um]
    fitting = {one: [o for o in able if o.suits(one, tolerance)] for one in missing}
    nowhere = [one for one in missing if not fitting[one]]
    bought: list[Bought] = []
    least = True
    for priced in (True, False):
        asked = [
            one
            for one in missing
            if fitting[one] and any(o.coins is not None for o in fitting[one]) is priced
        ]
        choice = [
            offer
            for offer in able
            if (offer.coins is not None) is priced and any(offer in fitting[one] for one in asked)
        ]
        if asked:
            found, proved = _Purchase(asked, choice, ends, tolerance).best()
            bought += found
            least = least and proved
    return Basket(tuple(bought), tuple(nowhere), least)


def cut_from(offer_um: int, lengths: Sequence[int], ends: Ends) -> tuple[int, int, int]:
    """How many skeins of a length give these lengths, with how many joins, and what stays.

    The longest first, each begun with what is left of the skein before where that is worth joining.
    """
    skeins = joins = left = over = 0
    for length in sorted(lengths, reverse=True):
        open_um = length
        if left < min(ends.shortest_um, open_um):
            over, left = over + left, 0
        while open_um > left:
            if left:
                open_um += ends.join_um
                joins += 1
            open_um -= left
            skeins, left = skeins + 1, offer_um
        left -= open_um
    return skeins, joins, over + left


class _Purchase:
    """Which slot each missing role is bought in; a slot is one lot of one offer.

    A lot is reckoned by its length alone at first. Where cutting it takes a skein more, that is
    told to the program, which is asked again.
    """

    def __init__(
        self, asked: Sequence[Missing], offers: Sequence[Offer], ends: Ends, tolerance: int
    ) -> None:
        self._asked, self._ends = asked, ends
        slots = _colours(asked)
        self._slots = [offer for offer in offers for _ in range(slots)]
        self._program = Program(lambda: False)
        self._skeins = [self._program.column(-_cost(offer), {}) for offer in self._slots]
        self._in: dict[tuple[int, int], int] = {
            (one, slot): self._program.column(0.0, {}, 1.0)
            for one, missing in enumerate(asked)
            for slot, offer in enumerate(self._slots)
            if offer.suits(missing, tolerance)
        }
        self._told: set[tuple[Offer, tuple[int, ...]]] = set()
        self._hold()

    def _hold(self) -> None:
        """Each role in one lot, two roles that differ in colour never in the same, enough of it."""
        for one in range(len(self._asked)):
            places = {at: 1.0 for (who, _), at in self._in.items() if who == one}
            self._program.row(1.0, 1.0, places)
        apart = [
            (one, other)
            for one, other in combinations(range(len(self._asked)), 2)
            if _differ(self._asked[one], self._asked[other])
        ]
        for slot, offer in enumerate(self._slots):
            for one, other in apart:
                if (one, slot) in self._in and (other, slot) in self._in:
                    both = {self._in[one, slot]: 1.0, self._in[other, slot]: 1.0}
                    self._program.row(-ENDLESS, 1.0, both)
            takes = {
                at: -sum(self._asked[one].strand_lengths) / offer.um
                for (one, where), at in self._in.items()
                if where == slot
            }
            self._program.row(0.0, ENDLESS, {self._skeins[slot]: 1.0, **takes})

    def best(self) -> tuple[list[Bought], bool]:
        """The lots to buy, and whether nothing cheaper is possible."""
        for _ in range(_MOST_ROUNDS):
            values = self._program.whole(Effort(gap=0.0, steps=100_000)).values
            assert values is not None
            lots = [*self._lots(values)]
            if not self._tell(lots, values):
                return [self._bought(slot, who) for slot, who in lots], True
        return [self._bought(slot, who) for slot, who in lots], False

    def _lots(self, values: Sequence[float]) -> Iterator[tuple[int, tuple[int, ...]]]:
        for slot in range(len(self._slots)):
            who = tuple(o for (o, s), at in self._in.items() if s == slot and values[at] > 0.5)
            if who:
                yield slot, who

    def _tell(self, lots: Sequence[tuple[int, tuple[int, ...]]], values: Sequence[float]) -> bool:
        """Tell the program of lots that take more skeins than it thought; whether there are any."""
        found = False
        for slot, who in lots:
            offer = self._slots[slot]
            skeins = self._cut(offer, who)[0]
            if skeins > round(values[self._skeins[slot]]) and (offer, who) not in self._told:
                self._told.add((offer, who))
                found = True
                for other, same in enumerate(self._slots):
                    if same == offer:
                        self._needs(other, who, skeins)
        return found

    def _needs(self, slot: int, who: Sequence[int], skeins: int) -> None:
        """Whoever buys for all of these in this lot buys at least so many skeins."""
        # one of them less, and the row asks for nothing
        takes = {self._in[one, slot]: -float(skeins) for one in who}
        low = skeins - float(skeins) * len(who)
        self._program.row(low, ENDLESS, {self._skeins[slot]: 1.0, **takes})

    def _cut(self, offer: Offer, who: Sequence[int]) -> tuple[int, int, int]:
        lengths = [um for one in who for um in self._asked[one].strand_lengths]
        return cut_from(offer.um, lengths, self._ends)

    def _bought(self, slot: int, who: Sequence[int]) -> Bought:
        skeins, joins, left_um = self._cut(self._slots[slot], who)
        wanted = tuple(self._asked[one] for one in who)
        return Bought(self._slots[slot], skeins, wanted, joins, left_um)


def _cost(offer: Offer) -> float:
    return (offer.coins or 0) + _COINS_A_METRE * offer.um / 1_000_000


def _differ(one: Missing, other: Missing) -> bool:
    """Whether the two are of different colours: roles of one design, or other colours asked for."""
    if one.design == other.design and one.role != other.role:
        return True
    return bool(one.colour and other.colour) and one.colour != other.colour


def _colours(asked: Sequence[Missing]) -> int:
    """So many lots of one offer are enough: one more than any role differs from."""
    return 1 + max(sum(_differ(one, other) for other in asked) for one in asked)
