"""What keeps a lot out of a role, with the figures."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from stash.matching.lots.lot_view import LotView, known_put_up, mass_of_um, put_up_of
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.fits import RoleQuery
from stash.matching.scoring.capacity import holds_expected
from stash.matching.scoring.coverage import RoleFit
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.yarn.need import Source
from stash.stock.picking import Supply
from stash.trade.fibres import content

Facts = dict[str, Any]


def short_g(unfit: RoleFit, query: RoleQuery) -> float | None:
    """What is missing, in grams of this lot, else of the yarn the design was planned in."""
    mass = mass_of_um(unfit.view, unfit.short_um)
    if mass is not None:
        return mass.g
    per_100g = query.role.m_per_100g
    return 100 * Length(unfit.short_um).m / per_100g if per_100g else None


def short_rows(unfit: RoleFit, query: RoleQuery) -> int | None:
    """What is missing, in whole rows of the design, each at what is to be set aside for it."""
    if not query.role.row_m:
        return None
    return math.ceil(Length(unfit.short_um).m / (query.role.row_m * (1 + query.role.margin)) - 1e-9)


def blockers_of(unfit: RoleFit, query: RoleQuery) -> tuple[Note, ...]:
    """Everything that keeps the lot out of the role."""
    lot = {"role": query.role.role, "lot": unfit.view.lot.lot}
    found = []
    for blocker in unfit.blockers:
        kind, facts = _BLOCKERS[blocker]
        found.append(Note(kind, **lot, **facts(unfit, query)))
    return tuple(found)


def _none(unfit: RoleFit, query: RoleQuery) -> Facts:
    return {}


def _short(unfit: RoleFit, query: RoleQuery) -> Facts:
    """What the lot `has` for the role, how much is missing, and how much is `promised`, if any.

    What is there and what is missing add up to what it takes with all its joins. Where only the
    margin is short, also what is `expected`, and whether that is a pattern's own `printed` figure.
    """
    found: Facts = {
        "has": Length(max(0, query.wanted.um - unfit.short_um)),
        "needs": Length(query.wanted.um),
        "short": Length(unfit.short_um),
        "short_g": short_g(unfit, query),
        "short_rows": short_rows(unfit, query),
    }
    if promised := promised_um(unfit.view, query):
        found["promised"] = Length(promised)
    if holds_expected(unfit.view, query):
        found["expected"] = Length(round(query.role.estimate.expected_m * 1_000_000))
        found["printed"] = query.role.source is Source.STATED
    return found


def _contrast(unfit: RoleFit, query: RoleQuery) -> Facts:
    return {"contrast": query.wish.contrast_or_any}


def _class(unfit: RoleFit, query: RoleQuery) -> Facts:
    return {"thickness": unfit.view.thickness}


def _fineness(unfit: RoleFit, query: RoleQuery) -> Facts:
    put_up = known_put_up(unfit.view.lot)
    low, high = query.wish.limits.fineness[query.role.role]
    return {"m_per_100g": put_up.m_per_100g if put_up else None, "least": low, "most": high}


def _fibre(unfit: RoleFit, query: RoleQuery) -> Facts:
    fibres = content(unfit.view.lot.lot.fibre).fibres
    return {"fibre": next(f.name for f in fibres if f.name in query.wish.limits.without)}


def _blend(unfit: RoleFit, query: RoleQuery) -> Facts:
    return {"fibre": unfit.view.lot.lot.fibre}


def _heat(unfit: RoleFit, query: RoleQuery) -> Facts:
    lot = unfit.view.lot.lot
    return {"fibre": lot.fibre, "care": lot.care}


def _colour(unfit: RoleFit, query: RoleQuery) -> Facts:
    limits, role = query.wish.limits, query.role.role
    return {
        "wanted": tuple(named.word for named in limits.wanted.get(role, ())),
        "unwanted": tuple(named.word for named in limits.unwanted.get(role, ())),
    }


def _barred(unfit: RoleFit, query: RoleQuery) -> Facts:
    barred = query.wish.limits.barred
    return {"whys": tuple(dict.fromkeys(barred[skein.number] for skein in unfit.view.lot.skeins))}


_BLOCKERS: dict[Blocker, tuple[str, Callable[[RoleFit, RoleQuery], Facts]]] = {
    Blocker.SHORT: ("lot_short", _short),
    Blocker.NO_LENGTH: ("lot_without_length", _none),
    Blocker.NO_CLASS: ("lot_without_thickness", _none),
    Blocker.NO_COLOUR: ("lot_without_colour", _contrast),
    Blocker.NO_FIBRE: ("lot_without_fibre", _blend),
    Blocker.NO_FINENESS: ("lot_without_fineness", _none),
    Blocker.QUARANTINED: ("lot_quarantined", _none),
    Blocker.WRONG_CLASS: ("lot_of_wrong_thickness", _class),
    Blocker.WRONG_FINENESS: ("lot_of_wrong_fineness", _fineness),
    Blocker.WRONG_COLOUR: ("lot_of_wrong_colour", _colour),
    Blocker.WRONG_FIBRE: ("lot_of_wrong_fibre", _fibre),
    Blocker.NOT_FOR_HEAT: ("lot_not_for_heat", _heat),
    Blocker.BARRED: ("lot_barred", _barred),
}


def promised_um(view: LotView, query: RoleQuery) -> int:
    """How much longer the lot's pieces would be without the promises on them."""
    free = {supply.number: supply.um for supply in query.of(view.supplies)}
    return sum(supply.um - free[supply.number] for supply in as_if_free(view, query))


def as_if_free(view: LotView, query: RoleQuery) -> tuple[Supply, ...]:
    """The pieces for the role as they would be without the promises on them."""
    put_ups = {s.number: (s, put_up_of(s, view.thickness, view.assume)) for s in view.lot.skeins}
    found = []
    for supply in query.of(view.supplies):
        skein, put_up = put_ups[supply.number]
        held = skein.held.mg * put_up.length.um // put_up.mass.mg if put_up else supply.um
        found.append(replace(supply, um=held))
    return tuple(found)
