"""From the shelf and what is wanted to whole numbers: which lots may fill which part, and how far.

A lot may fill a part if the matcher has nothing against it but its length; the length is the
planner's own question, because lots are shared.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stash.matching.lots.lot_view import LotView, put_up_of, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Wish
from stash.matching.rules.fits import (
    PairRules,
    RoleQuery,
    blockers_but_length,
    pair_rules,
    role_query,
)
from stash.measures.colour import family
from stash.measures.estimate import to_books
from stash.planning.model.batch import MixWanted, Terms, Wanted
from stash.planning.model.problem import (
    METRE_UM,
    MILLIONTHS,
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
from stash.stock.picking import Supply

#: What a milligram of a skein costs, in coins, by its number.
Costs = Mapping[int, Fraction]


@dataclass(frozen=True, slots=True)
class Encoded:
    """The problem, and the lots it speaks of, by their place in it."""

    problem: Problem
    seen: tuple[LotView, ...]


def ends_of(wish: Wish) -> Ends:
    """What a join costs, and the shortest piece worth joining in, brought to the books."""
    join_um = to_books(wish.join_m).um
    return Ends(join_um, max(to_books(wish.useful_end_m).um, join_um + 1))


def encode(
    shelf: Shelf, wants: Sequence[Wanted], terms: Terms, costs: Costs | None = None
) -> Encoded:
    """The batch in whole numbers; all wants share what a join costs and the useful end.

    `costs` are what a milligram of each skein costs, by its number, where that matters.
    """
    seen = tuple(views_of(shelf, any(want.wish.assume for want in wants)))
    lots = tuple(_stock(lot, terms.hold_back, costs) for lot in seen)
    ends = ends_of(wants[0].wish)
    asking = _Asking(seen, lots, ends)
    posed = tuple(asking.want(want) for want in wants)
    return Encoded(
        Problem(
            lots,
            posed,
            ends,
            terms.minutes,
            terms.per_pair,
            tuple(_mix(mix, wants, seen) for mix in terms.mixes),
            tuple(i for i, want in enumerate(wants) if want.order is not None),
            tuple(variety for _, variety in _varieties(wants, terms)),
        ),
        seen,
    )


def _varieties(wants: Sequence[Wanted], terms: Terms) -> Iterator[tuple[int | None, Variety]]:
    """Of all that is made together, then want by want, told by its place."""
    if terms.different:
        yield None, Variety(frozenset(range(len(wants))), terms.different)
    for i, want in enumerate(wants):
        if want.different:
            yield i, Variety(frozenset({i}), want.different)


def wants_of_varieties(wants: Sequence[Wanted], terms: Terms) -> list[int | None]:
    """The want that each variety of the problem is of, None for the batch as a whole."""
    return [want for want, _ in _varieties(wants, terms)]


def _prices(lot: LotView, supplies: Sequence[Supply], costs: Costs) -> Iterator[int]:
    """What a metre of each piece costs, in millionths of a coin, to the nearest."""
    skeins = {skein.number: skein for skein in lot.lot.skeins}
    for supply in supplies:
        put_up = put_up_of(skeins[supply.number], lot.thickness, lot.assume)
        cost = costs.get(supply.number, Fraction(0))
        per_um = Fraction(put_up.mass.mg, put_up.length.um) if put_up else 0
        yield round(cost * per_um * METRE_UM * MILLIONTHS)


def _stock(lot: LotView, hold_back: int, costs: Costs | None) -> StockLot:
    supplies = sorted(
        (supply for supply in lot.supplies if supply.um > 0),
        key=lambda p: (p.whole, -p.um, p.number),
    )
    free_um = sum(supply.um for supply in supplies)
    prices = () if costs is None else tuple(_prices(lot, supplies, costs))
    return StockLot(tuple(supplies), free_um * (100 - hold_back) // 100, prices)


def _mix(mix: MixWanted, wants: Sequence[Wanted], seen: Sequence[LotView]) -> Mix:
    with_orders = mix.at_most is not None and not (mix.at_least or mix.share)
    of = [
        i
        for i, want in enumerate(wants)
        # a least or a share is of what is wanted; what is ordered is made whatever the mix
        if (want.order is None or with_orders)
        and mix.design.lower() in ("", want.design.lower())
        and mix.size in ("", want.size)
    ]
    lots = [i for i, lot in enumerate(seen) if any(family(s) == mix.family for s in lot.shades)]
    return Mix(
        frozenset(of), frozenset(lots) if mix.family else None, mix.at_least, mix.at_most, mix.share
    )


class Neighbours:
    """Which lots may stand beside which under one set of rules, worked out row by row."""

    def __init__(self, seen: Sequence[LotView], rules: PairRules) -> None:
        self._seen, self._rules = seen, rules
        self._rows: dict[int, int] = {}

    def row(self, lot: int) -> int:
        """The lots that may stand beside this one, as bits."""
        if lot not in self._rows:
            one, fit = self._seen[lot], self._rules.fit
            self._rows[lot] = sum(1 << i for i, other in enumerate(self._seen) if fit(one, other))
        return self._rows[lot]


class _Asking:
    """Asks the matcher once for each kind of role, however many wants have it."""

    def __init__(self, seen: Sequence[LotView], lots: Sequence[StockLot], ends: Ends) -> None:
        self._seen, self._lots, self._ends = seen, lots, ends
        self._free = sum(lot.most_um for lot in lots)
        self._rules: list[tuple[PairRules, Neighbours]] = []
        self._pools: list[tuple[RoleQuery, dict[int, int]]] = []
        self._supplies: dict[tuple[int, int], list[Supply]] = {}

    def want(self, want: Wanted) -> Want:
        parts = tuple(
            self._part(role_query(role, want.need, want.wish)) for role in want.need.roles
        )
        whole = max(1, sum(part.um for part in parts))
        most = self._free // whole if want.at_most is None else want.at_most
        return Want(
            parts,
            want.at_least,
            max(most, want.at_least),
            want.coins,
            want.minutes,
            self._beside(pair_rules(want.need, want.wish)),
            want.expenses,
        )

    def _beside(self, rules: PairRules) -> Neighbours:
        for known, neighbours in self._rules:
            if known == rules:
                return neighbours
        self._rules.append((rules, Neighbours(self._seen, rules)))
        return self._rules[-1][1]

    def _part(self, ask: RoleQuery) -> Part:
        um, strands = ask.wanted.um, ask.wanted.strands
        lengths = Part("", um, strands, {}).strand_lengths
        places = {}
        for lot, pool in self._pools_of(ask).items():
            supplies = self._of(lot, pool)
            each = [least_um(supplies, length, self._ends) for length in lengths]
            least = sum(one for one in each if one is not None)
            if None not in each and least <= self._lots[lot].most_um:
                places[lot] = Place(lot, pool, least)
        used = to_books(ask.role.estimate.expected_m)
        return Part(ask.role.role, um, strands, places, used.um)

    def _pools_of(self, ask: RoleQuery) -> dict[int, int]:
        """For each lot that may fill such a role, which of its pieces may."""
        for known, pools in self._pools:
            if _alike(known, ask):
                return pools
        found = {}
        for at, lot in enumerate(self._seen):
            if ask.allows(lot.id) and not blockers_but_length(lot, ask):
                numbers = {supply.number for supply in ask.of(lot.supplies)}
                supplies = self._lots[at].supplies
                pool = sum(1 << i for i, supply in enumerate(supplies) if supply.number in numbers)
                if pool:
                    found[at] = pool
        self._pools.append((ask, found))
        return found

    def _of(self, lot: int, pool: int) -> list[Supply]:
        """The pieces of a set, the longest first."""
        if (lot, pool) not in self._supplies:
            supplies = [p for i, p in enumerate(self._lots[lot].supplies) if pool >> i & 1]
            self._supplies[lot, pool] = sorted(supplies, key=lambda p: -p.um)
        return self._supplies[lot, pool]


def _alike(one: RoleQuery, other: RoleQuery) -> bool:
    """Whether two roles ask the same of a lot, but for how much."""
    return (
        one.role.role == other.role.role
        and (one.wish is other.wish or one.wish == other.wish)
        and one.together == other.together
        and _main(one) == _main(other)
        and (one.need.thickness_from, one.need.thickness_to)
        == (other.need.thickness_from, other.need.thickness_to)
    )


def _main(ask: RoleQuery) -> bool:
    return ask.role.role == ask.need.roles[0].role
