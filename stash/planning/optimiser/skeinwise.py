"""A lot written out skein by skein: which strands are cut of which skein, and what is joined.

As in `cutting`, joined strands are laid end to end, so of so many skeins there is one less of them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise

from stash.planning.model.problem import Ends, StockLot
from stash.planning.optimiser.cutting import Cut, Cutting, Strand
from stash.planning.optimiser.solver import ENDLESS, Effort, Program, going_on

_M = 1_000_000
#: A lot with more places for joined strands, times skeins, than this is not written out.
MOST_PLACES = 240
#: So near to the best is one lot cut, in so many steps and so much work at most.
GAP, STEPS, WORK = 1e-3, 100, 300_000
#: What a join costs against a metre of part balls: fewer joins settle ties.
A_JOIN = 1e-3


@dataclass(frozen=True, slots=True)
class Joined:
    """A strand that may be joined: its kind, and of each skein whether and how much."""

    kinds: Mapping[Strand, int]
    used: Mapping[int, int]
    cut: Mapping[int, int]


@dataclass(slots=True)
class Written:
    """The columns of a program that say how a lot is cut; `whole` by kind and skein."""

    whole: dict[tuple[Strand, int], int] = field(default_factory=dict)
    joined: list[Joined] = field(default_factory=list)

    @property
    def columns(self) -> int:
        """How many they are."""
        return len(self.whole) + sum(len(one.kinds) + 2 * len(one.cut) for one in self.joined)

    def of_supply(self, supply: int) -> dict[int, float]:
        """All that is cut of a skein, in metres."""
        told = {at: kind.um / _M for (kind, i), at in self.whole.items() if i == supply}
        for one in self.joined:
            if supply in one.cut:
                told[one.cut[supply]] = 1.0
        return told


@dataclass(frozen=True, slots=True)
class Sketched:
    """As `Written`, but of what is joined only how many of each kind and how much of each skein."""

    whole: Mapping[tuple[Strand, int], int]
    joined: Mapping[Strand, int]
    cut: Mapping[int, int]

    def of_supply(self, supply: int) -> dict[int, float]:
        """All that is cut of a skein, in metres."""
        told = {at: kind.um / _M for (kind, i), at in self.whole.items() if i == supply}
        return told | ({self.cut[supply]: 1.0} if supply in self.cut else {})


def sketch_out(
    program: Program, stock: StockLot, ends: Ends, asked: Mapping[Strand, Mapping[int, float]]
) -> Sketched:
    """Put into a program what holds of any cutting of a lot: every cutting fits it, not only such.

    It takes far fewer columns than to write the lot out, and mostly does.
    """
    whole = {
        (kind, i): program.column(0.0, {}, supply.um // max(1, kind.um))
        for kind in asked
        for i, supply in enumerate(stock.supplies)
        if kind.pool >> i & 1 and supply.um >= kind.um
    }
    joins = len(stock.supplies) - 1
    found = Sketched(
        whole,
        {kind: program.column(0.0, {}, joins) for kind in asked},
        {
            i: program.column(0.0, {}, supply.um / _M, whole=False)
            for i, supply in enumerate(stock.supplies)
            if supply.um >= ends.shortest_um
        },
    )
    for kind, entries in asked.items():
        given = {at: 1.0 for (one, _), at in whole.items() if one == kind}
        lacks = {at: -count for at, count in entries.items()}
        program.row(0.0, 0.0, {**lacks, **given, found.joined[kind]: 1.0})
    for i, supply in enumerate(stock.supplies):
        program.row(-ENDLESS, supply.um / _M, found.of_supply(i))
    every = [found.of_supply(i) for i in range(len(stock.supplies))]
    program.row(-ENDLESS, stock.most_um / _M, {at: um for one in every for at, um in one.items()})
    program.row(-ENDLESS, joins, dict.fromkeys(found.joined.values(), 1.0))
    cut = dict.fromkeys(found.cut.values(), 1.0)
    for least, most, few in ((0.0, ENDLESS, 1), (-ENDLESS, 0.0, joins)):
        long = {at: -(kind.um + ends.join_um * few) / _M for kind, at in found.joined.items()}
        program.row(least, most, cut | long)
    return found


def can_be_written(stock: StockLot) -> bool:
    """Whether a lot is small enough to be written out."""
    return (len(stock.supplies) - 1) * len(stock.supplies) <= MOST_PLACES


def write_out(
    program: Program, stock: StockLot, ends: Ends, asked: Mapping[Strand, Mapping[int, float]]
) -> Written:
    """Put a lot into a program; `asked` are the columns that ask for strands of each kind."""
    found = Written()
    given: dict[Strand, dict[int, float]] = {
        kind: {at: -count for at, count in entries.items()} for kind, entries in asked.items()
    }
    for kind, entries in given.items():
        for i, supply in enumerate(stock.supplies):
            if kind.pool >> i & 1 and supply.um >= kind.um:
                at = program.column(0.0, {}, supply.um // max(1, kind.um))
                found.whole[kind, i] = at
                entries[at] = 1.0
    for _ in range(len(stock.supplies) - 1):
        found.joined.append(_joined(program, stock, ends, [*given]))
    _in_order(program, found.joined)
    for kind, entries in given.items():
        program.row(0.0, 0.0, {**entries, **{one.kinds[kind]: 1.0 for one in found.joined}})
    every: dict[int, float] = {}
    for i, supply in enumerate(stock.supplies):
        told = found.of_supply(i)
        every |= told
        program.row(-ENDLESS, supply.um / _M, told)
    program.row(-ENDLESS, stock.most_um / _M, every)
    return found


def _joined(program: Program, stock: StockLot, ends: Ends, kinds: Sequence[Strand]) -> Joined:
    one = Joined({kind: program.column(0.0, {}, 1.0) for kind in kinds}, {}, {})
    length = {at: (ends.join_um - kind.um) / _M for kind, at in one.kinds.items()}
    cut, used = {}, {}
    for i, supply in enumerate(stock.supplies):
        if supply.um < ends.shortest_um:
            continue
        cut[i] = program.column(0.0, {}, supply.um / _M, whole=False)
        used[i] = program.column(0.0, {}, 1.0)
        length |= {cut[i]: 1.0, used[i]: -ends.join_um / _M}
        program.row(-ENDLESS, 0.0, {cut[i]: 1.0, used[i]: -supply.um / _M})
        program.row(0.0, ENDLESS, {cut[i]: 1.0, used[i]: -ends.shortest_um / _M})
        able = {at: -1.0 for kind, at in one.kinds.items() if kind.pool >> i & 1}
        program.row(-ENDLESS, 0.0, {used[i]: 1.0, **able})
    program.row(0.0, 0.0, length)
    program.row(-ENDLESS, 1.0, dict.fromkeys(one.kinds.values(), 1.0))
    return Joined(one.kinds, used, cut)


def _in_order(program: Program, joined: Sequence[Joined]) -> None:
    """What is joined stands first among the places for it: one order of many that are alike."""
    for one, after in pairwise(joined):
        there = dict.fromkeys(one.kinds.values(), 1.0)
        program.row(0.0, ENDLESS, there | dict.fromkeys(after.kinds.values(), -1.0))


@lru_cache(maxsize=4_096)
def best_cut(stock: StockLot, strands: tuple[Strand, ...], ends: Ends) -> Cutting | None:
    """A cutting that uses as much of the part balls as can be, then with few joins; None: none.

    Where its pieces have several prices, one that costs as little as can be.
    Strands are told in any order that is always the same for the same strands.
    """
    if not strands or not can_be_written(stock):
        return None
    program = Program(going_on)
    counts = Counter(strands)
    asked = {kind: {program.column(0.0, {}, count): 1.0} for kind, count in counts.items()}
    for entries, count in zip(asked.values(), counts.values(), strict=True):
        program.between(next(iter(entries)), count, count)
    lot = write_out(program, stock, ends, asked)
    _worth(program, stock, strands, lot)
    found = program.whole(Effort(GAP, min(STEPS, WORK // program.step_work)))
    if found.values is None:
        return None
    return _as_cut(stock, strands, ends, lot, found.values)


def _worth(program: Program, stock: StockLot, strands: Sequence[Strand], lot: Written) -> None:
    if stock.several_prices:
        _worth_of_prices(program, stock, lot)
        return
    asked = sum(strand.um for strand in strands)
    used_up = program.column(0.0, {}, min(stock.opened_um, asked) / _M, whole=False)
    worths = [0.0] * (used_up + 1)
    worths[used_up] = 1.0
    opened: dict[int, float] = {}
    for i, supply in enumerate(stock.supplies):
        opened |= {} if supply.whole else lot.of_supply(i)
    program.row(-ENDLESS, 0.0, {used_up: 1.0, **{at: -um for at, um in opened.items()}})
    for one in lot.joined:
        for at in one.used.values():
            worths[at] = -A_JOIN
    program.worths(worths)


def _worth_of_prices(program: Program, stock: StockLot, lot: Written) -> None:
    dearest = max(stock.prices)
    worths = [0.0] * program.columns
    for i, price in enumerate(stock.prices):
        for at, metres in lot.of_supply(i).items():
            worths[at] -= price * metres / dearest
    for one in lot.joined:
        for at in one.used.values():
            worths[at] -= A_JOIN
    program.worths(worths)


def _as_cut(
    stock: StockLot, strands: Sequence[Strand], ends: Ends, lot: Written, values: Sequence[float]
) -> Cutting | None:
    """The cuts in whole micrometres; None where rounding would cut a skein beyond its end."""
    waiting: dict[Strand, list[int]] = {}
    for at, strand in enumerate(strands):
        waiting.setdefault(strand, []).append(at)
    cuts = [
        Cut(i, waiting[kind].pop(), kind.um)
        for (kind, i), at in lot.whole.items()
        for _ in range(round(values[at]))
    ]
    for one in lot.joined:
        for kind in [kind for kind, at in one.kinds.items() if round(values[at])]:
            cuts += _joined_cuts(one, kind, waiting[kind].pop(), ends, values)
    left = [supply.um for supply in stock.supplies]
    for cut in cuts:
        left[cut.supply] -= cut.um
    whole = min(left) >= 0 and sum(cut.um for cut in cuts) <= stock.most_um
    return Cutting(tuple(cuts)) if whole else None


def _joined_cuts(
    one: Joined, kind: Strand, strand: int, ends: Ends, values: Sequence[float]
) -> list[Cut]:
    supplies = [i for i, at in one.used.items() if round(values[at])]
    lengths = [max(ends.shortest_um, round(values[one.cut[i]] * _M)) for i in supplies]
    if len(supplies) == 1:
        return [Cut(supplies[0], strand, kind.um)]
    over = sum(lengths) - kind.um - ends.join_um * (len(supplies) - 1)
    longest = lengths.index(max(lengths))
    lengths[longest] -= over
    return [Cut(i, strand, um) for i, um in zip(supplies, lengths, strict=True)]
