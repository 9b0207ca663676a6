"""What a shelf looks like once yarn of it is taken: only lots that changed are looked at again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from stash.matching.answer.proposal import Take
from stash.matching.lots.lot_view import Lots, LotView, view_of
from stash.matching.lots.shelf import Shelf
from stash.matching.near_misses.near_misses import RoleLots
from stash.matching.rules.fits import RoleQuery
from stash.matching.scoring.coverage import role_fit
from stash.matching.search.candidate_list import CandidateList
from stash.matching.two_lots.couples import Filling, weigh_any
from stash.measures.mass import Mass
from stash.stock.holding import HeldSkein


def views_after(takes: Sequence[Take], by_role: Sequence[RoleLots]) -> dict[int, LotView]:
    """The lots these takes come from, as they are once their yarn is set aside; by lot number."""
    views = {lot.id: lot for at in by_role for lots in at.good.lots for lot in lots}
    return {lot: view_after(views[lot], takes) for lot in sorted({take.lot_id for take in takes})}


def shelf_after(shelf: Shelf, takes: Sequence[Take]) -> Shelf:
    """The shelf once these takes of it are promised."""
    return _with_skeins(shelf, takes, _promised)


def shelf_without(shelf: Shelf, takes: Sequence[Take]) -> Shelf:
    """The shelf once these takes of it are used."""
    return _with_skeins(shelf, takes, _used)


_After = Callable[[HeldSkein, Sequence[Take]], HeldSkein]


def _with_skeins(shelf: Shelf, takes: Sequence[Take], after: _After) -> Shelf:
    lots = {take.lot_id for take in takes}
    now = (
        replace(lot, skeins=tuple(after(skein, takes) for skein in lot.skeins))
        if lot.lot.id in lots
        else lot
        for lot in shelf.lots
    )
    return replace(shelf, lots=tuple(now))


def view_after(view: LotView, takes: Sequence[Take]) -> LotView:
    """A lot once these takes of it are promised."""
    skeins = tuple(_promised(skein, takes) for skein in view.lot.skeins)
    return view_of(replace(view.lot, skeins=skeins), view.assume, view.scale, view.stats)


def _promised(skein: HeldSkein, takes: Sequence[Take]) -> HeldSkein:
    return replace(skein, promised=skein.promised + _taken(skein, takes))


def _used(skein: HeldSkein, takes: Sequence[Take]) -> HeldSkein:
    mass = _taken(skein, takes)
    return replace(skein, held=skein.held - mass, opened=skein.opened or bool(mass))


def _taken(skein: HeldSkein, takes: Sequence[Take]) -> Mass:
    """What these takes are of what is free of a skein; all of it where its grams are not known."""
    free, pair = skein.free, skein.pair.put_up
    for take in takes:
        if take.number == skein.number:
            free -= min(pair.mass_covering(take.length), free) if pair else free
    return skein.free - free


def renewed(at: RoleLots, changed: Mapping[int, LotView]) -> RoleLots:
    """The same role with the lots that changed looked at once more."""
    pairs = zip(at.good.least, at.good.lots, strict=True)
    same = [(least, lots) for least, lots in pairs if not any(lot.id in changed for lot in lots)]
    return replace(at, good=alone_in([*same, *fitting(changed.values(), at.query)], at.query))


def fitting(lots: Iterable[LotView], query: RoleQuery) -> Iterator[tuple[int, Lots]]:
    """The lots that fill the role, each with the least it can cost."""
    for lot in lots:
        fit = role_fit(lot, query)
        if not fit.blockers:
            yield fit.least, (lot,)


def alone_in(lots: Iterable[tuple[int, Lots]], query: RoleQuery) -> CandidateList[Filling]:
    """These lots in order, each alone in the role, to be weighed when their turn comes."""
    return CandidateList(lots, partial(weigh_any, query=query, plans={}))
