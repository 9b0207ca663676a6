"""Lots whose pieces have several prices: in a program their cheapest yarn is used first.

That is the least that any cutting costs, so what it proves holds for every plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from stash.planning.model.problem import METRE_UM, Problem, StockLot
from stash.planning.optimiser.skeinwise import Sketched
from stash.planning.optimiser.solver import ENDLESS, Program


@dataclass(frozen=True, slots=True)
class DearerYarn:
    """Rows by lot, in metres that are used; columns of yarn that costs more than its cheapest.

    `extra` is how much more by column, in millionths of a coin for a metre; `most_m` what there is
    of each column of a lot, cheapest first.
    """

    rows: dict[int, int] = field(default_factory=dict)
    extra: dict[int, int] = field(default_factory=dict)
    most_m: dict[int, dict[int, float]] = field(default_factory=dict)
    cheapest_m: dict[int, float] = field(default_factory=dict)

    def worths(self, worth: float) -> dict[int, float]:
        """What each column takes off, where a millionth of a coin is worth so much."""
        return {at: -extra * worth for at, extra in self.extra.items()}

    def filled(self, used_um: Mapping[int, int]) -> dict[int, float]:
        """What is used of the lots, as it stands in the columns."""
        found = {}
        for lot, columns in self.most_m.items():
            left = used_um.get(lot, 0) / METRE_UM - self.cheapest_m[lot]
            for at, most in columns.items():
                found[at] = max(0.0, min(left, most))
                left -= most
        return found


def cut_cheaply(
    program: Program,
    stock: StockLot,
    asked: Mapping[int, float],
    dearer: Mapping[int, float],
    cut: Sketched,
) -> None:
    """No more of the cheaper yarn of a lot is used than is cut of it.

    `asked` are the metres that columns use of it, `dearer` its columns of dearer yarn, by price.
    """
    cheaper: dict[int, float] = {}
    columns = [*dearer]
    for price in sorted({*stock.prices})[:-1]:
        for i, own in enumerate(stock.prices):
            if own == price:
                for at, metres in cut.of_supply(i).items():
                    cheaper[at] = cheaper.get(at, 0.0) - metres
        program.row(-ENDLESS, 0.0, {**asked, **dict.fromkeys(columns, -1.0), **cheaper})
        columns = columns[1:]


def dearer_yarn(
    program: Program, problem: Problem, worth: float, asked: Mapping[int, Mapping[int, float]]
) -> DearerYarn:
    """Put it into a program; `worth` is that of a millionth, `asked` what columns use of a lot."""
    found = DearerYarn()
    for lot, stock in enumerate(problem.lots):
        if not stock.several_prices:
            continue
        there: Counter[int] = Counter()
        for supply, price in zip(stock.supplies, stock.prices, strict=True):
            there[price] += supply.um
        (cheapest, um), *others = sorted(there.items())
        row = program.row(-ENDLESS, um / METRE_UM, asked.get(lot))
        found.rows[lot], found.cheapest_m[lot] = row, um / METRE_UM
        found.most_m[lot] = {}
        for price, um in others:
            extra = price - cheapest
            at = program.column(-extra * worth, {row: -1.0}, um / METRE_UM, whole=False)
            found.extra[at] = extra
            found.most_m[lot][at] = um / METRE_UM
    return found
