"""Slow references: the same answers by trying everything, written apart from the program."""

from __future__ import annotations

from itertools import combinations, product

from slow_limits import allowed, share_a_design, shelf_cost

from stash.matching.answer.proposal import Match
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Contrast, Gap, Wish, Wished
from stash.measures.colour import lab
from stash.requirements.yarn.need import Need, RoleNeed
from stash.stock.holding import HeldLot
from stash.stock.picking import Costs, Supply, Wanted
from stash.stock.yarn import LotState
from stash.trade.thickness import thickness_of_m_per_100g


def by_hand(designs: tuple[Supply, ...], ask: Wanted) -> list[tuple[int, int, int]] | None:
    """Cut the strands from these designs by the stated rule: (design, strand, um), or None."""
    left = {i: design.um for i, design in enumerate(designs)}
    cuts = []
    for strand in range(ask.strands):
        need = ask.um // ask.strands + (strand >= ask.strands - ask.um % ask.strands)
        first = True
        while need > 0:
            asked = need if first else need + ask.join_um
            able = {i: um for i, um in left.items() if um >= ask.shortest_um}
            if not able:
                return None
            enough = sorted((um, i) for i, um in able.items() if um >= asked)
            longest = sorted((designs[i].whole, -um, i) for i, um in able.items())
            i = enough[0][1] if enough else longest[0][2]
            cut = min(left[i], asked)
            cuts.append((i, strand + 1, cut))
            left[i] -= cut
            need -= cut if first else cut - ask.join_um
            first = False
    return cuts


def cheapest_by_hand(
    designs: list[Supply], ask: Wanted, costs: Costs
) -> tuple[int, list[int]] | None:
    """The least cost and its skeins, by trying every set of the useful designs."""
    useful = sorted(
        (p for p in designs if p.um >= ask.shortest_um), key=lambda p: (p.whole, -p.um, p.number)
    )
    tried = []
    for size in range(1, len(useful) + 1):
        for places in combinations(range(len(useful)), size):
            chosen = tuple(useful[i] for i in places)
            cuts = by_hand(chosen, ask)
            if cuts is None or len({i for i, _, _ in cuts}) < size:
                continue
            tried.append((cost_by_hand(chosen, cuts, useful, ask, costs), size, places))
    if not tried:
        return None
    cost, _, places = min(tried)
    return cost, sorted(useful[i].number for i in places)


def cost_by_hand(
    chosen: tuple[Supply, ...],
    cuts: list[tuple[int, int, int]],
    useful: list[Supply],
    ask: Wanted,
    costs: Costs,
) -> int:
    total = costs.mixed if len(chosen) > 1 else 0
    total += costs.join * sum(
        max(0, sum(1 for _, s, _ in cuts if s == strand) - 1) for strand in range(1, 9)
    )
    broken = 0
    for i, design in enumerate(chosen):
        used = sum(um for at, _, um in cuts if at == i)
        if design.whole:
            broken += 1
            total += costs.opening
            total += costs.very_little if used < design.um / 6 else 0
        total += costs.useless_end if 0 < design.um - used < ask.useful_um else 0
    whole_before = sum(p.whole for p in useful)
    return total + (costs.lone_skein if broken and whole_before - broken == 1 else 0)


# --- matching ---------------------------------------------------------------------------------


def sets_by_hand(shelf: Shelf, need: Need, wish: Wish) -> list[tuple[int, tuple[int, ...]]]:
    """Every set of lots that fits, as (cost in thousandths, lot numbers by role), in order."""
    found = []
    for lots in product(shelf.lots, repeat=len(need.roles)):
        costs = [
            role_cost(lot, role, need, wish) for lot, role in zip(lots, need.roles, strict=True)
        ]
        if None not in costs and suit_each_other(lots, wish):
            together = 0 if need.thickness_from is not None else 500 * widest(lots)
            pairs = [*zip(lots, need.roles, strict=True)]
            if not all(allowed(lot, role.role, wish) for lot, role in pairs):
                continue
            together += sum(shelf_cost(lot, role, need, shelf, wish) for lot, role in pairs)
            found.append((sum(c or 0 for c in costs) + together, tuple(x.lot.id for x in lots)))
    return sorted(found)


def sets_found(match: Match) -> list[tuple[int, tuple[int, ...]]]:
    """The proposals of a match in the same form."""
    return [(round(1000 * p.cost), tuple(f.lot.lot.id for f in p.roles)) for p in match.proposals]


def thickness_of(held: HeldLot) -> tuple[int, int, bool] | None:
    lot = held.lot
    if lot.thickness_from is not None and lot.thickness_to is not None:
        return lot.thickness_from, lot.thickness_to, False
    if lot.pair.put_up is None:
        return None
    derived = thickness_of_m_per_100g(lot.pair.put_up.m_per_100g)
    return derived, derived, True


def apart(one: tuple[int, int], other: tuple[int, int]) -> int:
    return min(abs(x - y) for x in range(one[0], one[1] + 1) for y in range(other[0], other[1] + 1))


def widest(lots: tuple[HeldLot, ...]) -> int:
    classes = [thickness_of(lot) for lot in lots]
    return max((apart(x[:2], y[:2]) for x, y in combinations(classes, 2) if x and y), default=0)


def role_cost(lot: HeldLot, role: RoleNeed, need: Need, wish: Wish) -> int | None:
    """What the lot costs in the role with the weights as they come, or None where it is unfit."""
    fixed = wish.fixed.get(role.role)
    several = len(need.roles) > 1
    if fixed and lot.lot.id not in fixed.lots:
        return None
    doubts = 0
    thickness = thickness_of(lot)
    if several or need.thickness_from is not None:
        if thickness is None and fixed is None:
            return None
        doubts += 500 if thickness is None else 0
    if thickness:
        if need.thickness_from is not None and need.thickness_to is not None:
            steps = apart(thickness[:2], (need.thickness_from, need.thickness_to))
            if steps > wish.thickness_tolerance:
                return None
            doubts += 500 * steps
        doubts += 500 if thickness[2] else 0
    if several and not lot.lot.colours:
        if wish.contrast_or_any is not Contrast.ANY:
            return None
        doubts += 500
    main = several and role.role == need.roles[0].role and fixed is None
    return picked_cost(lot, role, wish, doubts, main)


def picked_cost(lot: HeldLot, role: RoleNeed, wish: Wish, doubts: int, main: bool) -> int | None:
    fixed = wish.fixed.get(role.role)
    designs = []
    for skein in lot.skeins:
        if (main and skein.remnant) or skein.number in wish.limits.barred:
            continue
        if skein.pair.put_up and not (fixed and fixed.skeins and skein.number not in fixed.skeins):
            put_up = skein.pair.put_up
            free = max(0, skein.held.mg - skein.promised.mg)
            um = free * put_up.length.um // put_up.mass.mg
            designs.append(Supply(skein.number, um, not skein.opened))
    um = -(-round(role.set_aside_m * 10**12) // 10**6)
    ask = Wanted(um, role.strands, round(wish.join_m * 10**6), round(wish.useful_end_m * 10**6))
    mixed = 0 if lot.lot.lot_state is LotState.NUMBERED else 750
    best = cheapest_by_hand(designs, ask, Costs(mixed=mixed))
    if best is None:
        return None
    free = sum(p.um for p in designs if p.um >= ask.useful_um)
    return best[0] + doubts + round(1000 * (1 - um / free))


def suit_each_other(lots: tuple[HeldLot, ...], wish: Wish) -> bool:
    for one, other in combinations(lots, 2):
        if one.lot.id == other.lot.id:
            return False
        a, b = thickness_of(one), thickness_of(other)
        if a and b and apart(a[:2], b[:2]) > wish.thickness_tolerance:
            return False
        if not colours_suit(one, other, wish.contrast_or_any) or not share_a_design(
            one, other, wish
        ):
            return False
    return True


def colours_suit(one: HeldLot, other: HeldLot, wished: Wished) -> bool:
    if isinstance(wished, Gap):
        gaps = [
            abs(lab(x).lightness - lab(y).lightness)
            for x, y in product(one.lot.colours, other.lot.colours)
        ]
        most = 100 if wished.most is None else wished.most
        return bool(gaps) and wished.least <= min(gaps) and max(gaps) <= most
    least, most = {"bold": 40, "clear": 25, "soft": 12}, {"soft": 25}
    for x, y in product(one.lot.colours, other.lot.colours):
        first, second = lab(x), lab(y)
        gap = abs(first.lightness - second.lightness)
        if wished.value in least and gap < least[wished.value]:
            return False
        if gap > most.get(wished.value, 100):
            return False
        if wished is Contrast.TONAL:
            if not 3 <= gap <= 12 or (first.hue is None) != (second.hue is None):
                return False
            if first.hue is not None and second.hue is not None:
                turn = abs(first.hue - second.hue)
                if min(turn, 360 - turn) >= 30:
                    return False
    return True
