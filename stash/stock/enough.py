"""Whether pieces are enough for a need, and the least that taking them can cost, by sums alone.

Cheaper by far than picking: for most lots of a shelf this is all that has to be known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.stock.picking import Costs, Supply, Wanted


@dataclass(frozen=True, slots=True)
class Sums:
    """What the pieces worth joining in come to, in micrometres; the opened ones also by themselves.

    `longest_um` is the longest of all.
    """

    count: int
    um: int
    longest_um: int
    opened_um: int
    longest_opened_um: int


def summed(supplies: Sequence[Supply], wanted: Wanted) -> Sums:
    """The sums of the pieces that are worth joining in for this need."""
    count = total = longest = opened = longest_opened = 0
    shortest = wanted.shortest_um
    for supply in supplies:
        um = supply.um
        if um >= shortest:
            count += 1
            total += um
            if um > longest:
                longest = um
            if not supply.whole:
                opened += um
                if um > longest_opened:
                    longest_opened = um
    return Sums(count, total, longest, opened, longest_opened)


def short_um(sums: Sums, wanted: Wanted) -> int | None:
    """How much is missing when every piece is joined in, or None where only laying out tells.

    A single strand loses a tail at each join and nothing else. Several strands can also leave ends
    behind that are too short to begin another with, at most one for each strand but the last.
    """
    strands = wanted.strands
    if strands == 1:
        return max(0, wanted.um - sums.um + wanted.join_um * max(0, sums.count - 1))
    ends = (strands - 1) * (wanted.shortest_um - 1)
    return 0 if sums.um >= wanted.um + wanted.join_um * sums.count + ends else None


def least_cost(sums: Sums, wanted: Wanted, costs: Costs) -> int:
    """No pick that covers the need costs less, in thousandths; the pieces are enough for it."""
    if wanted.um <= 0:
        return 0
    ways = []
    if sums.opened_um >= wanted.um:
        ways.append(_joined(-(-wanted.um // sums.longest_opened_um), wanted, costs))
    if sums.um > sums.opened_um:
        whole = max(1, -(-(wanted.um - sums.opened_um) // sums.longest_um))
        supplies = max(whole, -(-wanted.um // sums.longest_um))
        ways.append(costs.opening * whole + _joined(supplies, wanted, costs))
    return min(ways)


def _joined(supplies: int, wanted: Wanted, costs: Costs) -> int:
    """What so many pieces cost at least by being several."""
    return costs.join * max(0, supplies - wanted.strands) + costs.mixed * (supplies > 1)
