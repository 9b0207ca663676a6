"""What so much yarn makes of a piece: amounts as told, or skeins on the shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from stash.actions import find
from stash.actions.book import Book
from stash.actions.pieces import refuse_unknown_roles
from stash.actions.preferences import Preferences
from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.requirements.known import Known
from stash.requirements.reach import Lots, Reach, RoleReach, reach, role_reach

#: A length or a weight of yarn, or the number of a skein, of which the free yarn is meant.
Told = Length | Mass | int


def in_metres(
    known: Known, told: Mapping[str, Sequence[Told]], book: Callable[[], Book]
) -> dict[str, tuple[float, ...]]:
    """The yarn of each role in metres, lot after lot; the book is opened only for skeins."""
    refuse_unknown_roles(known.need(known.piece), told)
    skeins = [one for each in told.values() for one in each if isinstance(one, int)]
    if twice := sorted({one for one in skeins if skeins.count(one) > 1}):
        raise Refusal(f"skein {twice[0]} is told twice: a gram can be used but once")
    free = dict(_free(book(), skeins)) if skeins else {}
    return {
        role: tuple(free[one] if isinstance(one, int) else _metres(known, one) for one in each)
        for role, each in told.items()
    }


def reached(known: Known, lots: Lots) -> Reach:
    """What can become of the piece with that yarn."""
    return reach(known, lots)


def rows_left(known: Known, lots: Lots, done: int) -> tuple[RoleReach, ...]:
    """How far that yarn goes from after the rows that are done."""
    return tuple(role_reach(known, role, each, done) for role, each in sorted(lots.items()))


def _free(book: Book, numbers: Sequence[int]) -> Iterator[tuple[int, float]]:
    with book.reading() as db:
        preferences = Preferences.read(db)
        for number in numbers:
            length = find.skein(db, preferences, str(number)).skein.free_length
            if length is None:
                raise Refusal(
                    f"how long skein {number} is is not known: give its --put-up with "
                    "`stash change`, or its length in place of its number"
                )
            yield number, length.m


def _metres(known: Known, one: Length | Mass) -> float:
    if isinstance(one, Length):
        return one.m
    m_per_100g = known.piece.m_per_100g
    if m_per_100g is None:
        raise Refusal(
            f"{one} of this yarn cannot be told in metres: give its length, "
            "or the piece its --put-up or --class"
        )
    return one.g * m_per_100g / 100
