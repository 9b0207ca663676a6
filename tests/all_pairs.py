"""A chunked, vectorised reference for two roles: every pair of lots, cost and conditions, in numpy.

Written apart from the search: no bounds, no bit sets, no order to begin with. It is given what each
lot costs in each role. Of every chunk the best sets are kept, by (cost, lot numbers).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice, product

import numpy as np
from numpy.typing import NDArray

from stash.matching.lots.lot_view import LotView, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Contrast, Gap, Wash, Wish, Wished
from stash.matching.rules.colour_pairs import sheds, very_light
from stash.matching.rules.fits import PairRules, role_query
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import role_fit, weigh
from stash.matching.search.best_first import best_first
from stash.matching.search.candidate_list import CandidateList, Costed
from stash.requirements.yarn.need import Need
from stash.trade.washing import felts

#: Pairs in a chunk, so that masks and costs stay in the processor's cache; 2^16 to 2^19 were about
#: equally fast, 2^14 and 2^20 took half as long again.
CHUNK = 1 << 17
#: Larger than any lot number of the shelves tried.
_IDS = 1 << 20
_GAPS = {"bold": (40, None), "clear": (25, None), "soft": (12, 25), "tonal": (3, 12)}


@dataclass(frozen=True)
class Able:
    """The lots that fill a role, each with the least it can cost there, and how to weigh them."""

    lots: Sequence[tuple[int, LotView]]
    weigh: Callable[[LotView], Candidate]

    def line(self) -> CandidateList[Candidate]:
        lots = [(least, (lot,)) for least, lot in self.lots]
        return CandidateList(lots, lambda lots: self.weigh(lots[0]))

    def weighed(self) -> list[Candidate]:
        return [self.weigh(seen) for _, seen in self.lots]


def look_through(shelf: Shelf, need: Need, wish: Wish) -> list[Able]:
    """What search and reference both begin with, role by role."""
    seen, found = views_of(shelf, wish.assume), []
    for ask in (role_query(role, need, wish) for role in need.roles):
        fits = [role_fit(lot, ask) for lot in seen]
        good = [(fit.least, fit.view) for fit in fits if not fit.blockers]
        found.append(Able(good, partial(weigh, query=ask)))
    return found


def searched(
    by_role: Sequence[CandidateList[Candidate]], rules: PairRules, top: int | None
) -> list[tuple[int, tuple[int, ...]]]:
    """The best sets as the search finds them: (cost, lot numbers by role)."""
    found = islice(best_first(by_role, rules), top)
    return [(cost_of(lots, rules), tuple(lot.view.id for lot in lots)) for lots in found]


def cost_of(lots: Sequence[Candidate], rules: PairRules) -> int:
    return sum(lot.cost for lot in lots) + rules.cost([lot.view for lot in lots])


@dataclass(frozen=True)
class Side:
    """Lots of one role that have equally many colours, fact by fact; hue is nan for a grey."""

    ids: NDArray[np.int64]
    cost: NDArray[np.int64]
    low: NDArray[np.int8]
    high: NDArray[np.int8]
    lightness: NDArray[np.float64]
    hue: NDArray[np.float64]
    felts: NDArray[np.int8]
    sheds: NDArray[np.bool_]
    light: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.ids)

    def part(self, rows: slice) -> Side:
        return Side(*(getattr(self, name)[rows] for name in self.__dataclass_fields__))


def sides(lots: Sequence[Costed]) -> list[Side]:
    """The lots as arrays, by how many colours they have, so that none is padded."""
    by_colours: dict[int, list[Costed]] = {}
    for lot in lots:
        by_colours.setdefault(len(lot.lots[0].shades), []).append(lot)
    return [_side(same) for _, same in sorted(by_colours.items())]


def _side(lots: Sequence[Costed]) -> Side:
    seen = [lot.lots[0] for lot in lots]
    # a class that is not known meets every other
    classes = [(s.thickness.low, s.thickness.high) if s.thickness else (-99, 99) for s in seen]
    return Side(
        ids=np.array([s.id for s in seen], np.int64),
        cost=np.array([lot.cost for lot in lots], np.int64),
        low=np.array([low for low, _ in classes], np.int8),
        high=np.array([high for _, high in classes], np.int8),
        lightness=np.array([[x.lightness for x in s.shades] for s in seen], np.float64),
        hue=np.array([[_or_nan(x.hue) for x in s.shades] for s in seen], np.float64),
        felts=np.array([_or_two(felts(s.lot.lot.fibre, s.lot.lot.care)) for s in seen], np.int8),
        sheds=np.array([sheds(s.shades) for s in seen], np.bool_),
        light=np.array([very_light(s.shades) for s in seen], np.bool_),
    )


def _or_nan(hue: float | None) -> float:
    return float("nan") if hue is None else hue


def _or_two(known: bool | None) -> int:
    return 2 if known is None else int(known)


def best_of_all_pairs(
    first: Sequence[Side], second: Sequence[Side], rules: PairRules, top: int
) -> list[tuple[int, tuple[int, ...]]]:
    """The best sets of two lots as (cost, lot numbers), in order, by trying all."""
    # the C library gives blocks as large as a chunk back to the system each time, until it has seen
    # a larger one freed; without this the reference takes three times as long
    np.empty(1 << 24, np.int8)
    best = np.empty(0, np.int64)
    for one, other in _chunks(first, second):
        best = _least(np.concatenate([best, _keys(one, other, rules)]), top)
    return [(int(k) // _IDS**2, (int(k) // _IDS % _IDS, int(k) % _IDS)) for k in np.sort(best)]


def share_apart(first: Sequence[Side], second: Sequence[Side], wished: Wished) -> float:
    """Of all pairs, how many have colours that stand apart as wished."""
    passed = sum(_apart(one, other, wished).sum() for one, other in _chunks(first, second))
    return float(passed) / (sum(map(len, first)) * sum(map(len, second)))


def _chunks(first: Sequence[Side], second: Sequence[Side]) -> Iterator[tuple[Side, Side]]:
    for one, other in product(first, second):
        rows = max(1, CHUNK // len(other))
        for start in range(0, len(one), rows):
            yield one.part(slice(start, start + rows)), other


def _keys(one: Side, other: Side, rules: PairRules) -> NDArray[np.int64]:
    """For each pair that fits, its cost and its lot numbers as one whole number."""
    steps = np.maximum(one.low[:, None] - other.high, other.low - one.high[:, None]).clip(0)
    fit = steps <= rules.tolerance
    fit &= one.ids[:, None] != other.ids
    fit &= _apart(one, other, rules.contrast)
    if rules.wash is Wash.TOGETHER:
        fit &= one.felts[:, None] == other.felts
    if rules.no_bleeding:
        fit &= ~(one.sheds[:, None] & other.light | one.light[:, None] & other.sheds)
    i, j = np.nonzero(fit)
    cost = one.cost[i] + other.cost[j] + rules.step_cost * steps[i, j].astype(np.int64)
    return (cost * _IDS + one.ids[i]) * _IDS + other.ids[j]


def _apart(one: Side, other: Side, wished: Wished) -> NDArray[np.bool_]:
    """Whether every colour of the one stands to every colour of the other as wished."""
    if wished is Contrast.ANY:
        return np.ones((len(one), len(other)), np.bool_)
    known = one.lightness.size > 0 and other.lightness.size > 0
    fit = np.full((len(one), len(other)), known)
    least, most = (wished.least, wished.most) if isinstance(wished, Gap) else _GAPS[wished]
    for i, j in product(range(one.lightness.shape[-1]), range(other.lightness.shape[-1])):
        gap = np.abs(one.lightness[:, i, None] - other.lightness[:, j])
        fit &= gap >= least
        if most is not None:
            fit &= gap <= most
        if wished is Contrast.TONAL:
            fit &= _one_hue(one.hue[:, i, None], other.hue[:, j])
    return fit


def _one_hue(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.bool_]:
    turn = np.abs(one - other)
    near = np.minimum(turn, 360 - turn) < 30
    return near | (np.isnan(one) & np.isnan(other))


def _least(keys: NDArray[np.int64], top: int) -> NDArray[np.int64]:
    return keys if len(keys) <= top else np.partition(keys, top - 1)[:top]
