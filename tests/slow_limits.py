"""Slow references for limits and shelf-wide costs, by tables and rules written apart."""

from __future__ import annotations

from statistics import median_high

from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Named, Wash, Wish
from stash.measures.colour import ciede2000, family, lab
from stash.requirements.yarn.need import Need, RoleNeed
from stash.stock.holding import HeldLot
from stash.stock.yarn import Condition, FullFrom

#: By hand for each blend of the dressed shelves: has wool or merino; felts untreated; bears heat;
#: None where the band leaves it open.
BLENDS: dict[str, tuple[bool | None, bool | None, bool | None]] = {
    "": (None, None, None),
    "100% wool": (True, True, False),
    "100% acrylic": (False, False, False),
    "100% cotton": (False, False, True),
    "75% merino wool, 25% polyamide": (True, True, False),
    "60% cotton, 40% polyester": (False, False, True),
    "80% acrylic, 20% other fibre": (None, None, False),
    "70% alpaca, 30% silk": (False, True, False),
}


def felts_by_hand(held: HeldLot) -> bool | None:
    felts = BLENDS[held.lot.fibre][1]
    return False if felts and held.lot.care == "superwash" else felts


def allowed(held: HeldLot, role: str, wish: Wish) -> bool:
    """Whether the lot keeps to every limit of the role."""
    limits, lot = wish.limits, held.lot
    wool, _, heat = BLENDS[lot.fibre]
    pair = lot.pair
    known = pair.put_up is not None and pair.origin in (FullFrom.BAND, FullFrom.MEASURED)
    if role in limits.fineness:
        low, high = limits.fineness[role]
        if not known or not pair.put_up or not low <= pair.put_up.m_per_100g <= high:
            return False
    if Condition.QUARANTINED in {*lot.conditions} - limits.let_in:
        return False
    if limits.without and wool is not False:
        return False
    if limits.wash is Wash.HOT and (heat is not True or lot.care == "hand wash"):
        return False
    if limits.wash is Wash.TOGETHER and felts_by_hand(held) is None:
        return False
    if limits.barred and all(s.number in limits.barred for s in held.skeins):
        return False
    wanted = limits.wanted.get(role, ())
    if wanted and not any(called(held, named) for named in wanted):
        return False
    return all(called(held, named) is False for named in limits.unwanted.get(role, ()))


def called(held: HeldLot, named: Named) -> bool | None:
    if held.lot.colour.lower() == named.word:
        return True
    shades = [lab(colour) for colour in held.lot.colours]
    if not named.family and named.near is None:
        return False
    if not shades:
        return None
    if named.family:
        return named.word in [family(shade) for shade in shades]
    assert named.near
    return min(ciede2000(shade, named.near) for shade in shades) <= 12


def share_a_design(one: HeldLot, other: HeldLot, wish: Wish) -> bool:
    if wish.limits.wash is Wash.TOGETHER and felts_by_hand(one) != felts_by_hand(other):
        return False
    return not wish.limits.no_bleeding or not (stains(one, other) or stains(other, one))


def stains(dark: HeldLot, light: HeldLot) -> bool:
    very_light = any(lab(c).lightness >= 85 for c in light.lot.colours)
    return very_light and any(_sheds(lab(c).lightness, lab(c).hue, lab(c).chroma)
                              for c in dark.lot.colours)  # fmt: skip


def _sheds(lightness: float, hue: float | None, chroma: float) -> bool:
    if lightness <= 30 or hue is None:
        return lightness <= 30
    red = (hue < 45 or hue >= 345) and chroma >= 40 and lightness <= 55
    indigo = 270 <= hue <= 315 and chroma >= 25 and lightness <= 45
    return red or indigo


def shelf_cost(held: HeldLot, role: RoleNeed, need: Need, shelf: Shelf, wish: Wish) -> int:
    """What conditions, age and price cost, in thousandths."""
    cost = 500 * len(held.lot.conditions)
    days = [s.since for lot in shelf.lots for s in lot.skeins if s.since]
    own = [s.since for s in held.skeins if s.since]
    if own and min(days) < shelf.as_of:
        newer = (min(own) - min(days)).days / (shelf.as_of - min(days)).days
        cost += round(1000 * wish.ranking.newness * newer)
    known = [p for lot in shelf.lots if (p := price(lot))]
    if not known:
        return cost
    mine = price(held)
    ratio = 1.0 if mine is None else mine / median_high(known)
    part = role.set_aside_m / sum(r.set_aside_m for r in need.roles)
    return cost + round(1000 * wish.ranking.price * ratio / (1 + ratio) * part)


def price(held: HeldLot) -> float | None:
    put_up = held.lot.pair.put_up
    paid = [s.paid.coins for s in held.skeins if s.paid and not s.arrived_opened]
    return None if not paid or not put_up else sum(paid) / (len(paid) * put_up.length.m)
