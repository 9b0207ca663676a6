"""What keeps a lot out of a role, with the figures."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from stash.matching.lots.lot_view import Seen, known_put_up, mass_of_um, put_up_of
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.fits import Asked
from stash.matching.scoring.capacity import holds_expected
from stash.matching.scoring.coverage import Unfit
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.yarn.need import Source
from stash.stock.picking import Supply
from stash.trade.fibres import content

Facts = dict[str, Any]


def short_g(unfit: Unfit, ask: Asked) -> float | None:
    """What is missing, in grams of this lot, else of the yarn the piece was planned in."""
    mass = mass_of_um(unfit.seen, unfit.short_um)
    if mass is not None:
        return mass.g
    per_100g = ask.role.m_per_100g
    return 100 * Length(unfit.short_um).m / per_100g if per_100g else None


def short_rows(unfit: Unfit, ask: Asked) -> int | None:
    """What is missing, in whole rows of the piece, each at what is to be set aside for it."""
    if not ask.role.row_m:
        return None
    return math.ceil(Length(unfit.short_um).m / (ask.role.row_m * (1 + ask.role.margin)) - 1e-9)


def blockers_of(unfit: Unfit, ask: Asked) -> tuple[Note, ...]:
    """Everything that keeps the lot out of the role."""
    lot = {"role": ask.role.role, "lot": unfit.seen.lot.lot}
    found = []
    for trouble in unfit.troubles:
        kind, facts = _BLOCKERS[trouble]
        found.append(Note(kind, **lot, **facts(unfit, ask)))
    return tuple(found)


def _none(unfit: Unfit, ask: Asked) -> Facts:
    return {}


def _short(unfit: Unfit, ask: Asked) -> Facts:
    """How much is missing, of all or only of the margin on top of what is `expected`.

    `printed` where what is expected is a pattern's own figure; `promised` is what promises hold of
    the lot.
    """
    promised = promised_um(unfit.seen, ask)
    within = holds_expected(unfit.seen, ask)
    expected = Length(round(ask.role.estimate.expected_m * 1_000_000)) if within else None
    return {
        "short": Length(unfit.short_um),
        "short_g": short_g(unfit, ask),
        "short_rows": short_rows(unfit, ask),
        "expected": expected,
        "printed": ask.role.source is Source.STATED,
        "promised": Length(promised) if promised else None,
    }


def _contrast(unfit: Unfit, ask: Asked) -> Facts:
    return {"contrast": ask.wish.contrast}


def _class(unfit: Unfit, ask: Asked) -> Facts:
    return {"thickness": unfit.seen.thickness}


def _fineness(unfit: Unfit, ask: Asked) -> Facts:
    put_up = known_put_up(unfit.seen.lot)
    low, high = ask.wish.limits.fineness[ask.role.role]
    return {"m_per_100g": put_up.m_per_100g if put_up else None, "least": low, "most": high}


def _fibre(unfit: Unfit, ask: Asked) -> Facts:
    fibres = content(unfit.seen.lot.lot.fibre).fibres
    return {"fibre": next(f.name for f in fibres if f.name in ask.wish.limits.without)}


def _blend(unfit: Unfit, ask: Asked) -> Facts:
    return {"fibre": unfit.seen.lot.lot.fibre}


def _heat(unfit: Unfit, ask: Asked) -> Facts:
    lot = unfit.seen.lot.lot
    return {"fibre": lot.fibre, "care": lot.care}


def _colour(unfit: Unfit, ask: Asked) -> Facts:
    limits, role = ask.wish.limits, ask.role.role
    return {
        "wanted": tuple(named.word for named in limits.wanted.get(role, ())),
        "unwanted": tuple(named.word for named in limits.unwanted.get(role, ())),
    }


def _barred(unfit: Unfit, ask: Asked) -> Facts:
    barred = ask.wish.limits.barred
    return {"whys": tuple(dict.fromkeys(barred[skein.number] for skein in unfit.seen.lot.skeins))}


_BLOCKERS: dict[Trouble, tuple[str, Callable[[Unfit, Asked], Facts]]] = {
    Trouble.SHORT: ("lot_short", _short),
    Trouble.NO_LENGTH: ("lot_without_length", _none),
    Trouble.NO_CLASS: ("lot_without_class", _none),
    Trouble.NO_COLOUR: ("lot_without_colour", _contrast),
    Trouble.NO_FIBRE: ("lot_without_fibre", _blend),
    Trouble.NO_FINENESS: ("lot_without_fineness", _none),
    Trouble.QUARANTINED: ("lot_quarantined", _none),
    Trouble.WRONG_CLASS: ("lot_of_wrong_class", _class),
    Trouble.WRONG_FINENESS: ("lot_of_wrong_fineness", _fineness),
    Trouble.WRONG_COLOUR: ("lot_of_wrong_colour", _colour),
    Trouble.WRONG_FIBRE: ("lot_of_wrong_fibre", _fibre),
    Trouble.NOT_FOR_HEAT: ("lot_not_for_heat", _heat),
    Trouble.BARRED: ("lot_barred", _barred),
}


def promised_um(seen: Seen, ask: Asked) -> int:
    """How much longer the lot's pieces would be without the promises on them."""
    free = {piece.number: piece.um for piece in ask.of(seen.pieces)}
    return sum(piece.um - free[piece.number] for piece in as_if_free(seen, ask))


def as_if_free(seen: Seen, ask: Asked) -> tuple[Supply, ...]:
    """The pieces for the role as they would be without the promises on them."""
    put_ups = {s.number: (s, put_up_of(s, seen.thickness, seen.assume)) for s in seen.lot.skeins}
    found = []
    for piece in ask.of(seen.pieces):
        skein, put_up = put_ups[piece.number]
        held = skein.held.mg * put_up.length.um // put_up.mass.mg if put_up else piece.um
        found.append(replace(piece, um=held))
    return tuple(found)
