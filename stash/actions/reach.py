"""What so much yarn makes of a design: amounts as given, or skeins on the shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from stash.actions import find
from stash.actions.book import Book
from stash.actions.designs import refuse_unknown_roles
from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.requirements.fit.reach import Lots, Reach, RoleReach, reach, role_reach
from stash.requirements.yarn.design_context import DesignContext

#: A length or a weight of yarn, or the number of a skein, of which the free yarn is meant.
YarnGiven = Length | Mass | int


def in_metres(
    known: DesignContext, given: Mapping[str, Sequence[YarnGiven]], book: Callable[[], Book]
) -> dict[str, tuple[float, ...]]:
    """The yarn of each role in metres, lot after lot; the book is opened only for skeins."""
    refuse_unknown_roles(known.need(known.design), given)
    skeins = [one for each in given.values() for one in each if isinstance(one, int)]
    if twice := sorted({one for one in skeins if skeins.count(one) > 1}):
        raise Refusal("skein_given_twice", skein=twice[0])
    free = dict(_free(book(), skeins)) if skeins else {}
    return {
        role: tuple(
            free[one] if isinstance(one, int) else _metres(known, role, one) for one in each
        )
        for role, each in given.items()
    }


def reached(known: DesignContext, lots: Lots) -> Reach:
    """What can become of the design with that yarn."""
    return reach(known, lots)


def rows_left(known: DesignContext, lots: Lots, done: int) -> tuple[RoleReach, ...]:
    """How far that yarn goes from after the rows that are done."""
    return tuple(role_reach(known, role, each, done) for role, each in sorted(lots.items()))


def _free(book: Book, numbers: Sequence[int]) -> Iterator[tuple[int, float]]:
    with book.reading() as db:
        for number in numbers:
            length = find.skein(db, str(number)).skein.free_length
            if length is None:
                raise Refusal("length_of_skein_not_known", skein=number)
            yield number, length.m


def _metres(known: DesignContext, role: str, one: Length | Mass) -> float:
    if isinstance(one, Length):
        return one.m
    needs = known.need(known.design).roles
    m_per_100g = next((need.m_per_100g for need in needs if need.role == role), None)
    m_per_100g = m_per_100g or known.design.m_per_100g
    if m_per_100g is None:
        raise Refusal("mass_without_metres", mass=one)
    return one.g * m_per_100g / 100
