"""What each item of a planned batch costs, and so the least to ask for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from stash.actions.batch import PlannedBatch
from stash.actions.batch_profit import thought_of
from stash.actions.book import Book
from stash.actions.cost import terms_of
from stash.actions.priced import Priced, yarn_of
from stash.costing.price import Costing
from stash.measures.money import Money
from stash.planning.model.batch import Wanted


@dataclass(frozen=True, slots=True)
class WantPriced:
    """A want with its items, each by its number in the plan, at what it would cost.

    They are the same work in other yarns, so one price is to pay for the dearest of them.
    """

    want: Wanted
    items: Mapping[int, Costing]

    @property
    def dearest(self) -> Costing:
        """The cost of the one whose yarn costs most."""
        return max(self.items.values(), key=lambda one: one.yarn_cost.coins)

    @property
    def price(self) -> Money | None:
        """What she asks for one; None where she said nothing."""
        return Money(self.want.coins) if self.want.coins else None

    @property
    def known(self) -> bool:
        """Whether the price of all its yarn is known."""
        return all(one.known for one in self.items.values())

    @property
    def least(self) -> Money:
        """What pays for the yarn and all else of the dearest, and for her hours if she said."""
        wanted = self.dearest.wanted
        return (wanted or self.dearest.floor).price

    @property
    def pays_wage(self) -> bool:
        """Whether her hours are in the least."""
        return self.dearest.wanted is not None

    @property
    def earns(self) -> Fraction | None:
        """What the price leaves of the dearest for an hour, in coins; None if that is not known."""
        return None if self.price is None else self.dearest.earns(self.price)


def batch_prices(book: Book, planned: PlannedBatch) -> list[WantPriced]:
    """Each want of which something is made, as `cost` says it of the items once they are made.

    They are finished as planned in the order of their numbers. By *fifo*, that order says which of
    her yarn each is charged with.
    """
    batch, settings = planned.batch, planned.settings
    with book.reading() as db:
        priced = Priced.read(db, more=[*thought_of(batch)])
    found: dict[int, dict[int, Costing]] = {}
    for number, at in sorted(_items(planned)):
        want = batch.wants[at]
        hours = Fraction(want.minutes, 60) if want.minutes else None
        costing = Costing(yarn_of(priced, -number), terms_of(settings, hours))
        found.setdefault(at, {})[number] = costing
    return [WantPriced(batch.wants[at], items) for at, items in sorted(found.items())]


def _items(planned: PlannedBatch) -> Iterator[tuple[int, int]]:
    for made in planned.batch.made:
        for number in made.items:
            yield number, made.want
