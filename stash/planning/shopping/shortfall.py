"""What the shelf does not give of what is wanted: role by role, as lengths to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from stash.matching.after_taking import renewed, shelf_without, views_after
from stash.matching.answer.proposal import Take
from stash.matching.lots.lot_view import LotView, known_put_up, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.match import lots_by_role
from stash.matching.near_misses.near_misses import RoleLots
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.fits import PairRules, RoleQuery, pair_rules, role_query
from stash.matching.scoring.capacity import skeins_to_add
from stash.matching.scoring.coverage import role_fit
from stash.matching.search.best_first import best_first
from stash.matching.two_lots.couples import role_filled
from stash.measures.put_up import PutUp
from stash.planning.model.batch import Batch, Wanted
from stash.planning.shopping.shopping import Missing
from stash.requirements.yarn.need import RoleNeed
from stash.stock.holding import HeldLot

#: Nobody buys more skeins than this to complete a lot.
_MOST_MORE = 500


@dataclass(frozen=True, slots=True)
class Completed:
    """A lot on the shelf that so many more skeins of the same dye lot would make enough.

    `full` is what a full skein of it holds.
    """

    lot: HeldLot
    skeins: int
    full: PutUp


@dataclass(frozen=True, slots=True)
class Lack:
    """A role that is missing, and the lot of the shelf that needs least to give it all."""

    missing: Missing
    completed: Completed | None


@dataclass(frozen=True, slots=True)
class Shortfall:
    """How many items of each want the shelf gives, and what is missing for the others.

    `left` is the shelf once those items have their yarn.
    """

    given: tuple[int, ...]
    lacks: tuple[Lack, ...]
    left: Shelf


def shortfall(shelf: Shelf, batch: Batch) -> Shortfall:
    """What is missing once the batch is made, its leftovers put to use where they cover a role.

    Of an item that cannot be made whole, as much as can be comes from the shelf: the roles with
    the longest need that lots fill and that go together.
    """
    assume = any(want.wish.assume for want in batch.wants)
    shelf = shelf_without(shelf, _taken(batch))
    left = {lot.id: lot for lot in views_of(shelf, assume)}
    given: list[int] = []
    lacks: list[Lack] = []
    for number, want in enumerate(batch.wants):
        made = sum(len(one.items) for one in batch.made if one.want == number)
        wanted = want.at_least if want.at_most is None else want.at_most
        whole, short = _short(want, wanted - made, left)
        given.append(made + len(whole))
        shelf = shelf_without(shelf, [take for takes in whole for take in takes])
        lacks += _lacks(want, short, left)
    return Shortfall(tuple(given), tuple(lacks), shelf)


def _taken(batch: Batch) -> list[Take]:
    """All that the batch takes."""
    return [
        Take(skein.number, skein.lot.lot.id, skein.place, cut.strand, cut.length)
        for skein in batch.skeins
        for cut in skein.cuts
    ]


def _short(
    want: Wanted, count: int, left: dict[int, LotView]
) -> tuple[list[list[Take]], Counter[str]]:
    """What each item takes that lacks nothing after all, and how often each role is to be bought.

    What the shelf gives is taken off `left`.
    """
    looked: Sequence[RoleLots] = lots_by_role([*left.values()], want.need, want.wish)
    rules = pair_rules(want.need, want.wish)
    short: Counter[str] = Counter()
    names = [role.role for role in want.need.roles]
    whole: list[list[Take]] = []
    for done in range(count):
        roles, takes = _most_given(looked, rules)
        if not roles:
            short.update(dict.fromkeys(names, count - done))
            break
        if len(roles) == len(names):
            whole.append(takes)
        short.update(name for at, name in enumerate(names) if at not in roles)
        changed = views_after(takes, looked)
        left.update(changed)
        looked = [renewed(at, changed) for at in looked]
    return whole, short


def _most_given(looked: Sequence[RoleLots], rules: PairRules) -> tuple[tuple[int, ...], list[Take]]:
    """The roles that lots fill and that go together, most yarn first, and what they take."""
    able = [at for at, one in enumerate(looked) if one.good]
    sets = [some for size in range(len(able), 0, -1) for some in combinations(able, size)]
    for roles in sorted(sets, key=lambda some: (-_um(looked, some), some)):
        found = next(best_first([looked[at].good for at in roles], rules.among(roles)), None)
        if found is not None:
            sides = zip(found, roles, strict=True)
            told = [role_filled(lot, looked[at].query) for lot, at in sides]
            return roles, [take for one in told for take in one.takes]
    return (), []


def _um(looked: Sequence[RoleLots], roles: Sequence[int]) -> int:
    return sum(looked[at].query.wanted.um for at in roles)


def _lacks(want: Wanted, short: Mapping[str, int], left: Mapping[int, LotView]) -> Iterator[Lack]:
    """What is missing of each role; a lot is only told once, since roles differ in colour."""
    able = {**left}
    for role in want.need.roles:
        if short[role.role]:
            lack = _lack(want, role, short[role.role], able)
            if lack.completed:
                del able[lack.completed.lot.lot.id]
            yield lack


def _lack(want: Wanted, role: RoleNeed, count: int, left: Mapping[int, LotView]) -> Lack:
    ask = role_query(role, want.need, want.wish)
    low, high = want.need.thickness_from, want.need.thickness_to
    missing = Missing(
        design=want.name,
        role=role.role,
        um=ask.wanted.um,
        count=count,
        strands=role.strands,
        classes=None if low is None else (low, low if high is None else high),
        colour=", ".join(named.word for named in want.wish.limits.wanted.get(role.role, ())),
    )
    return Lack(missing, _completed(ask, count, left))


def _completed(ask: RoleQuery, count: int, left: Mapping[int, LotView]) -> Completed | None:
    """The lot that needs the fewest metres more for all of them, where its dye lot is numbered."""
    found = []
    for seen in left.values():
        put_up = known_put_up(seen.lot)
        if put_up is None or not seen.known_lot or not ask.allows(seen.id):
            continue
        if role_fit(seen, ask).blockers not in ((), (Blocker.SHORT,)):
            continue
        if more := _more(seen, ask, count, put_up.length.um):
            found.append((more * put_up.length.um, seen.id, Completed(seen.lot, more, put_up)))
    return min(found)[2] if found else None


def _more(seen: LotView, ask: RoleQuery, count: int, um: int) -> int | None:
    """How many skeins more do for so many items; None where none or very many do not."""
    every = replace(ask.wanted, um=ask.wanted.um * count, strands=ask.wanted.strands * count)
    if every.um > _MOST_MORE * um:
        return None
    return skeins_to_add(ask.of(seen.supplies), um, every) or None
