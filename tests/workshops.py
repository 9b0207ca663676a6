"""Invented workshops for the planner, in whole numbers; the same seed gives the same one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from random import Random

from stash.planning.model.problem import (
    Beside,
    Ends,
    Mix,
    Part,
    Place,
    Problem,
    StockLot,
    Variety,
    Want,
    least_um,
)
from stash.planning.optimiser.incumbent import Calls
from stash.stock.picking import Supply

#: What a join costs and the useful end, as the matcher has them unless she says otherwise.
ENDS = Ends(400_000, 2_000_000)
#: Metres of a full skein by class, as such yarns are commonly put up (no source).
METRES = {2: 200, 3: 230, 4: 180, 5: 105}
QUIET = Calls(lambda: False, lambda words: None)


class OneClass:
    """Lots of one thickness class may stand beside each other."""

    def __init__(self, classes: Sequence[int], colours: Sequence[int] = ()) -> None:
        self._classes = classes
        self._rows = {c: sum(1 << i for i, d in enumerate(classes) if c == d) for c in {*classes}}

    def row(self, lot: int) -> int:
        return self._rows[self._classes[lot]] & ~(1 << lot)


def a_lot(*metres: float, opened: int = 0, most: float | None = None) -> StockLot:
    """A lot of such designs, the first so many of them opened, numbered from 1."""
    designs = tuple(
        Supply(i + 1, round(m * 1_000_000), whole=i >= opened) for i, m in enumerate(metres)
    )
    all_um = sum(design.um for design in designs)
    return StockLot(designs, all_um if most is None else round(most * 1_000_000))


def a_part(
    lots: Sequence[StockLot],
    metres: float,
    among: Sequence[int] | None = None,
    *,
    role: str = "A",
    strands: int = 1,
) -> Part:
    """A part of so many metres out of any design of these lots (None: all of them)."""
    um = round(metres * 1_000_000)
    lengths = Part("", um, strands, {}).strand_lengths
    places = {}
    for at in range(len(lots)) if among is None else among:
        designs = sorted(lots[at].supplies, key=lambda p: -p.um)
        each = [least_um(designs, length, ENDS) for length in lengths]
        least = sum(one for one in each if one is not None)
        if None not in each and least <= lots[at].most_um:
            places[at] = Place(at, (1 << len(designs)) - 1, least)
    return Part(role, um, strands, places)


def a_want(*parts: Part, lots: int, coins: int = 100, most: int = 3, **facts: int) -> Want:
    """A want whose lots may all stand beside each other."""
    return Want(
        parts,
        facts.get("least", 0),
        most,
        coins,
        facts.get("minutes", 0),
        OneClass([0] * lots),
    )


def a_workshop(
    seed: int, lots: int, designs: int, *, sizes: int = 3, most: tuple[int, int] = (40, 100)
) -> Problem:
    """A seller's stock: lots of 2 to 12 skeins, a quarter of them part balls, four classes.

    Designs of two colours, each in so many sizes 15 % apart; together they want more yarn than
    there is in most classes, and a lot holds several items.
    """
    random = Random(seed)
    classes = [random.choice(tuple(METRES)) for _ in range(lots)]
    numbers = iter(range(1, 1_000_000))
    stock = [_stock(random, METRES[c], random.randint(2, 12), numbers) for c in classes]
    beside = OneClass(classes)
    wants = []
    for _ in range(designs):
        cls = random.choice(tuple(METRES))
        main, other = random.uniform(40, 110), random.uniform(8, 40)
        coins, hours = random.uniform(1200, 4000), random.uniform(2, 6)
        among = [i for i, c in enumerate(classes) if c == cls]
        for size in range(sizes):
            larger = 1 + 0.15 * size
            parts = (
                a_part(stock, main * larger, among),
                a_part(stock, other * larger, among, role="B"),
            )
            count = random.randint(*most)
            wants.append(
                Want(parts, 0, count, round(coins * larger), round(60 * hours * larger), beside)
            )
    return Problem(tuple(stock), tuple(wants), ENDS)


def _stock(
    random: Random, metres: int, count: int, numbers: object, opened: float = 0.25
) -> StockLot:
    designs = []
    for _ in range(count):
        part = random.random() < opened
        share = random.uniform(0.1, 0.95) if part else 1.0
        designs.append(Supply(next(numbers), round(metres * share * 1_000_000), not part))  # type: ignore[call-overload]
    designs.sort(key=lambda p: (p.whole, -p.um, p.number))
    return StockLot(tuple(designs), sum(design.um for design in designs))


def a_tight_shelf(
    seed: int, *, lots: int = 3, wants: int = 2, most: int = 3, longest: int = 120
) -> Problem:
    """A few balls and wants that ask for about twice of what there is, in one or two classes."""
    random = Random(seed)
    classes = [random.choice((3, 4)) if random.random() < 0.3 else 3 for _ in range(lots)]
    stock = []
    for _ in range(lots):
        lengths = sorted(round(random.uniform(15, longest), 3) for _ in range(random.randint(1, 3)))
        stock.append(a_lot(*lengths[::-1], opened=random.randint(0, len(lengths))))
    beside = OneClass(classes)
    asked = []
    for _ in range(wants):
        cls = random.choice(classes)
        among = [i for i, c in enumerate(classes) if c == cls]
        parts = [a_part(stock, round(random.uniform(20, 90), 3), among)]
        if random.random() < 0.7:
            parts.append(a_part(stock, round(random.uniform(8, 40), 3), among, role="B"))
        asked.append(
            Want(
                tuple(parts),
                0,
                random.randint(1, most),
                random.randint(8, 40) * 100,
                random.randint(60, 400),
                beside,
            )
        )
    minutes = random.choice((None, random.randint(300, 1500)))
    per_pair = random.choice((None, None, 1, 2))
    return Problem(tuple(stock), tuple(asked), ENDS, minutes, per_pair)


def with_prices(problem: Problem, seed: int, *, by_piece: bool = False) -> Problem:
    """The same with yarn that costs something: a price for each lot, or for each piece of it.

    Some of it is a gift, some so dear that an item of it brings less than it costs. Nine tenths of
    what is set aside are expected to be used.
    """
    random = Random(7 * seed + 3)

    def price() -> int:
        return random.choice((0, 3, 8, 15, 40)) * 1_000_000 + random.randint(0, 900_000)

    lots = []
    for lot in problem.lots:
        of_lot = price()
        prices = (price() if by_piece else of_lot for _ in lot.supplies)
        lots.append(replace(lot, prices=tuple(prices)))
    wants = [
        replace(
            want,
            parts=tuple(replace(part, used_um=part.um * 9 // 10) for part in want.parts),
            expenses=random.randint(0, 300),
        )
        for want in problem.wants
    ]
    return replace(problem, lots=tuple(lots), wants=tuple(wants))


def with_variety(problem: Problem, seed: int) -> Problem:
    """The same with different pairs asked for: of all together, of each want, or of both."""
    random = Random(11 * seed + 5)
    every = Variety(frozenset(range(len(problem.wants))), random.randint(1, 4))
    each = [
        Variety(frozenset({i}), random.randint(1, want.at_most))
        for i, want in enumerate(problem.wants)
        if random.random() < 0.5
    ]
    chosen = random.choice(([every], each, [every, *each]))
    return replace(problem, varieties=tuple(chosen))


def a_market(seed: int) -> Problem:
    """A batch as one is asked for: up to 60 lots, 6 designs in up to 3 sizes, hours that bind.

    Half the lots are of one skein or two, a third of all skeins are part balls; designs of one to
    three colours, some worked with two strands; colours by share, counts, pairs and a part of every
    lot held back, each in some of them.
    """
    random = Random(1_000_003 * seed + 12)
    count = random.choice((4, 6, 8, 12, 16, 20, 30, 45, 60))
    kinds = random.sample(tuple(METRES), random.choice((1, 1, 2, 3)))
    classes = [random.choice(kinds) for _ in range(count)]
    colours = [random.randrange(5) for _ in range(count)]
    back = random.choice((0, 0, 0, 10, 20, 30))
    numbers = iter(range(1, 1_000_000))
    stock = []
    for kind in classes:
        lot = _stock(random, METRES[kind], random.choice((1, 1, 2, 2, 3, 4, 6, 8)), numbers, 0.35)
        stock.append(replace(lot, most_um=lot.most_um * (100 - back) // 100))
    beside = random.choice((OneClass, _Apart))
    wants = []
    for _ in range(random.randint(1, 6)):
        wants += _in_sizes(random, stock, classes, beside(classes, colours))
    minutes = sum(want.minutes * min(want.at_most, 4) for want in wants)
    return Problem(
        tuple(stock),
        tuple(wants),
        ENDS,
        round(minutes * random.uniform(0.2, 0.9)) if random.random() < 0.85 else None,
        random.choice((None, None, None, 1, 2)),
        tuple(_mixes(random, len(wants), colours)),
    )


class _Apart:
    """Lots of one thickness class and of unlike colours may stand beside each other."""

    def __init__(self, classes: Sequence[int], colours: Sequence[int]) -> None:
        kinds = [*zip(classes, colours, strict=True)]
        self._rows = [
            sum(1 << i for i, (c, d) in enumerate(kinds) if c == cls and d != colour)
            for cls, colour in kinds
        ]

    def row(self, lot: int) -> int:
        return self._rows[lot]


def _in_sizes(
    random: Random, stock: Sequence[StockLot], classes: Sequence[int], beside: Beside
) -> list[Want]:
    """One design in up to three sizes 12 % apart, prices and hours rounded as people round them."""
    kind = random.choice(classes)
    among = [i for i, one in enumerate(classes) if one == kind]
    metres = [random.uniform(35, 190), random.uniform(8, 60), random.uniform(5, 25)]
    roles = [*zip("ABC", metres, strict=False)][: random.choice((1, 2, 2, 2, 2, 3))]
    strands = random.choice((1, 1, 1, 1, 2))
    coins, minutes = random.randint(8, 60) * 100, random.randint(3, 30) * 15
    found = []
    for size in range(random.randint(1, 3)):
        larger = 1 + 0.12 * size
        parts = tuple(
            a_part(stock, m * larger, among, role=role, strands=strands if role == "A" else 1)
            for role, m in roles
        )
        most = random.randint(1, 8)
        least = random.choice((0, 0, 0, 0, 0, 1))
        price = round(coins * larger / 50) * 50
        hours = round(minutes * larger / 15) * 15
        found.append(Want(parts, least, most, price, hours, beside))
    return found


def _mixes(random: Random, wants: int, colours: Sequence[int]) -> Iterator[Mix]:
    every = frozenset(range(wants))
    for colour in range(5):
        lots = frozenset(i for i, one in enumerate(colours) if one == colour)
        chance = random.random()
        if chance < 0.08:
            yield Mix(every, lots, at_least=random.choice((10, 20)), share=True)
        elif chance < 0.2:
            yield Mix(every, lots, at_most=random.choice((30, 40, 50)), share=True)
        elif chance < 0.26:
            yield Mix(every, lots, at_most=random.randint(1, 3))
