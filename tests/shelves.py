"""Invented shelves for tests and benchmarks; the same seed gives the same shelf."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from random import Random

from stash.matching.lots.shelf import Shelf
from stash.measures.colour import Colour
from stash.measures.estimate import Estimate
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.requirements.yarn.need import Need, RoleNeed, Source
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.yarn import FullFrom, Lot, LotState, Pair, Yarn

AS_OF = date(2026, 3, 1)
#: Full skeins by class: grams and metres, as such yarns are commonly put up (no source).
PUT_UPS = {2: (50, 145), 3: (50, 115), 4: (100, 180), 5: (100, 105)}


def put_up(mass_g: int, length_m: int) -> PutUp:
    return PutUp(grams(mass_g), metres(length_m))


def a_skein(
    number: int,
    lot_id: int,
    held_g: float,
    *,
    pair: Pair,
    promised_g: float = 0,
    opened: bool = False,
) -> HeldSkein:
    return HeldSkein(
        number, lot_id, Mass(round(held_g * 1000)), Mass(round(promised_g * 1000)),
        pair, opened, place="shelf",
    )  # fmt: skip


def a_lot(
    lot_id: int,
    held_g: tuple[float, ...],
    *,
    of: PutUp | None = None,
    opened: tuple[int, ...] = (),
    promised_g: dict[int, float] | None = None,
    **facts: object,
) -> HeldLot:
    """A lot of 100 g / 200 m skeins of class 4 in lot 7, numbered from 10 x its own number.

    `opened` and `promised_g` name skeins by their place in `held_g`, from 0.
    """
    of = of or put_up(100, 200)
    known = facts.pop("pair", Pair(of, FullFrom.BAND))
    assert isinstance(known, Pair)
    stated: dict[str, object] = {
        "colours": (Colour("#204060"),),
        "lot": "7",
        "lot_state": LotState.NUMBERED,
        "thickness_from": 4,
        "thickness_to": 4,
    }
    lot = Lot(lot_id, Yarn(lot_id, "", f"yarn {lot_id}"), pair=known, **{**stated, **facts})  # type: ignore[arg-type]
    skeins = tuple(
        a_skein(
            10 * lot_id + i, lot_id, held, pair=known,
            promised_g=(promised_g or {}).get(i, 0),
            opened=i in opened or held * 1000 < (of.mass.mg if known.put_up else 0),
        )
        for i, held in enumerate(held_g)
    )  # fmt: skip
    return HeldLot(lot, skeins)


def a_shelf(*lots: HeldLot) -> Shelf:
    return Shelf(AS_OF, lots)


def a_need(
    thickness_from: int | None = None,
    margin: float = 0.15,
    row_m: float | None = None,
    **roles: float,
) -> Need:
    """Expected metres by role, spread 20 %, from a gauge."""
    return Need(
        tuple(
            RoleNeed(role, Estimate(m, m * 0.2), margin, Source.GAUGE, row_m=row_m)
            for role, m in roles.items()
        ),
        thickness_from,
        thickness_from,
    )


def random_shelf(seed: int, skeins: int, *, doubtful: float = 0.1, dark: bool = False) -> Shelf:
    """An ordinary shelf of so many skeins, about three to a lot.

    `doubtful` is the share of lots with each kind of unknown fact; `dark` makes nearly every colour
    a middling dark one, so that hardly any two stand apart.
    """
    random = Random(seed)
    lots: list[HeldLot] = []
    number = 1
    while number <= skeins:
        count = min(skeins + 1 - number, random.choice((1, 1, 2, 3, 3, 4, 7)))
        lots.append(_random_lot(random, len(lots) + 1, number, count, doubtful, dark))
        number += count
    return Shelf(AS_OF, tuple(lots))


def _random_lot(
    random: Random, lot_id: int, first: int, count: int, doubtful: float, dark: bool
) -> HeldLot:
    thickness = random.choice(tuple(PUT_UPS))
    of = put_up(*PUT_UPS[thickness])

    def unknown() -> bool:
        return random.random() < doubtful

    pair = Pair(None, FullFrom.MISSING) if unknown() else Pair(of, FullFrom.BAND)
    no_thickness, no_colour = unknown(), unknown()
    state = random.choice(tuple(LotState)) if unknown() else LotState.NUMBERED
    lot = Lot(
        lot_id,
        Yarn(lot_id, "", f"yarn {lot_id}"),
        colours=() if no_colour else _random_colours(random, dark),
        lot=str(random.randrange(1000, 9999)) if state is LotState.NUMBERED else "",
        lot_state=state,
        thickness_from=None if no_thickness else thickness,
        thickness_to=None if no_thickness else thickness + (random.random() < 0.1),
        pair=pair,
    )
    skeins = tuple(_random_skein(random, first + i, lot_id, of, pair) for i in range(count))
    return HeldLot(lot, skeins)


def _random_skein(random: Random, number: int, lot_id: int, of: PutUp, pair: Pair) -> HeldSkein:
    part = random.random() < 0.35
    held_g = round(of.mass.g * random.uniform(0.02, 0.95), 1) if part else of.mass.g
    promised_g = round(held_g * random.uniform(0, 1.1), 1) if random.random() < 0.15 else 0
    return a_skein(number, lot_id, held_g, pair=pair, promised_g=promised_g, opened=part)


def _random_colours(random: Random, dark: bool) -> tuple[Colour, ...]:
    how_many = random.choice((2, 3)) if random.random() < 0.1 else 1

    def one() -> Colour:
        low, high = (60, 110) if dark and random.random() > 0.01 else (0, 255)
        return Colour("#" + "".join(f"{random.randint(low, high):02x}" for _ in range(3)))

    return tuple(one() for _ in range(how_many))


def with_remnants(shelf: Shelf, below_g: float) -> Shelf:
    """The shelf of a maker to whom an opened ball lighter than this is a remnant."""

    def seen_so(lot: HeldLot) -> HeldLot:
        skeins = (replace(s, remnant=s.opened and s.held.g < below_g) for s in lot.skeins)
        return replace(lot, skeins=tuple(skeins))

    return replace(shelf, lots=tuple(seen_so(lot) for lot in shelf.lots))


#: Metres per 100 g of the classes on the shelf (standards: trade charts).
METRES_PER_100G = {2: 300, 3: 230, 4: 170, 5: 100}


def arriving_lines(random: Random, lots: int) -> list[Incoming]:
    """Lots of two whole skeins and a part ball each."""
    made = []
    for number in range(lots):
        cls = random.choice([2, 3, 3, 3, 4, 4, 4, 5])
        for count, left in ((2, None), (1, Mass(random.randrange(5_000, 95_000)))):
            made.append(
                Incoming(
                    name=f"yarn {number // 20}",
                    colour=f"colour {number}",
                    colours=(Colour(f"#{random.randrange(1 << 24):06x}"),),
                    lot=str(number),
                    lot_state=LotState.NUMBERED,
                    thickness_from=cls,
                    thickness_to=cls,
                    full_mass=grams(100),
                    full_length=metres(METRES_PER_100G[cls]),
                    count=count,
                    left=left,
                )
            )
    return made
