"""Two lots in one role by trying everything: all lots, all pairs of them, every split, both orders.

What a part takes is the program's own split, held against the design in test_splitting.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, permutations, product

from slow import role_cost, suit_each_other, widest
from slow_limits import allowed, shelf_cost

from stash.matching.answer.proposal import Match
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Wish
from stash.measures.estimate import Estimate
from stash.requirements.fit.splitting import Split
from stash.requirements.yarn.need import Need, RoleNeed
from stash.stock.holding import HeldLot
from stash.stock.yarn import LotState

#: A lot alone by its number; two after every lot alone, by the lower number, then the higher.
Place = tuple[int, ...]
Choice = tuple[int, Place, tuple[HeldLot, ...], str]


def sets_by_hand(shelf: Shelf, need: Need, wish: Wish) -> list[tuple[int, tuple[Place, ...], str]]:
    """Every set that fits, as (cost in thousandths, lots by role, key), in order."""
    found = []
    for chosen in product(*(_choices(shelf, role, need, wish) for role in need.roles)):
        sides = [choice[2] for choice in chosen]
        everyone = tuple(lot for side in sides for lot in side)
        if len({lot.lot.id for lot in everyone}) < len(everyone):
            continue
        if any(
            not suit_each_other((x, y), wish)
            for one, other in combinations(sides, 2) for x in one for y in other
        ):  # fmt: skip
            continue
        together = 0 if need.thickness_from is not None else 500 * widest(everyone)
        cost = together + sum(choice[0] for choice in chosen)
        found.append(
            (cost, tuple(choice[1] for choice in chosen), "+".join(choice[3] for choice in chosen))
        )
    return sorted(found)


def sets_found(match: Match) -> list[tuple[int, tuple[Place, ...], str]]:
    """The proposals of a match in the same form."""
    return [
        (round(1000 * p.cost), tuple(_place([h.lot.id for h in f.lots]) for f in p.roles), p.key)
        for p in match.proposals
    ]


def _place(ids: Sequence[int]) -> Place:
    return (0, *ids) if len(ids) == 1 else (1, *sorted(ids))


def _choices(shelf: Shelf, role: RoleNeed, need: Need, wish: Wish) -> list[Choice]:
    found: list[Choice] = []
    for lot in shelf.lots:
        cost = _cost(lot, role, role.set_aside_m, need, shelf, wish)
        if cost is not None:
            found.append((cost, _place([lot.lot.id]), (lot,), lot.lot.ref))
    assert wish.two_lots
    if role.role in wish.two_lots.asked:
        for one, other in combinations(shelf.lots, 2):
            found += _shared((one, other), role, need, shelf, wish)
    return found


def _shared(
    two: tuple[HeldLot, HeldLot], role: RoleNeed, need: Need, shelf: Shelf, wish: Wish
) -> list[Choice]:
    """The two by the first way that works in either order, the cheaper order of it."""
    assert wish.two_lots
    asked = wish.two_lots.asked[role.role]
    if not _one_colour(*two):
        return []
    for way in asked.ways:
        works = []
        for first, other in permutations(two):
            if first.lot.lot_state is LotState.UNKNOWN:
                continue
            if other.lot.lot_state is LotState.UNKNOWN and not asked.unknown:
                continue
            for split in wish.two_lots.ways(role.role).of(way):
                cost = _both((first, other), split, role, need, shelf, wish)
                if cost is not None:
                    key = f"{first.lot.ref}/{other.lot.ref}-{way}"
                    works.append((cost, len(works), key))
                    break
        if works:
            cost, _, key = min(works)
            return [(cost, _place([lot.lot.id for lot in two]), two, key)]
    return []


def _one_colour(one: HeldLot, other: HeldLot) -> bool:
    a, b = one.lot, other.lot
    if a.colour_no and b.colour_no:
        return a.yarn.id == b.yarn.id and a.colour_no == b.colour_no
    return a.yarn.id == b.yarn.id and a.colour == b.colour != ""


def _both(
    lots: tuple[HeldLot, HeldLot],
    split: Split,
    role: RoleNeed,
    need: Need,
    shelf: Shelf,
    wish: Wish,
) -> int | None:
    costs = [
        _cost(lot, role, split.rows_m[i] + split.more_m[i], need, shelf, wish)
        for i, lot in enumerate(lots)
    ]
    if None in costs:
        return None
    doubtful = sum(lot.lot.lot_state is not LotState.NUMBERED for lot in lots)
    return sum(cost or 0 for cost in costs) + 2000 + 750 * doubtful


def _cost(
    lot: HeldLot, role: RoleNeed, length_m: float, need: Need, shelf: Shelf, wish: Wish
) -> int | None:
    """What one lot costs for so many metres of a role, or None."""
    main = role is need.roles[0]
    part = replace(role, estimate=Estimate(length_m, 0.0), margin=0.0)
    asked = replace(need, roles=(part, *need.roles[1:]) if main else (need.roles[0], part))
    cost = role_cost(lot, part, asked, wish)
    if cost is None or not allowed(lot, role.role, wish):
        return None
    whole = sum(one.set_aside_m for one in need.roles)
    scaled = replace(need, roles=(replace(role, estimate=Estimate(whole, 0.0), margin=0.0),))
    return cost + shelf_cost(lot, part, scaled, shelf, wish)
