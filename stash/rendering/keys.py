"""Answers as scripts and the page read them: stable keys with the unit in the name.

Fractions are plain, a thing not known is None, lists are empty and never None.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from stash.matching.answer.proposal import Filled, Match, NearMiss, Proposal, Take
from stash.matching.answer.reason import Reason
from stash.measures.colour import lab
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering.need import keys as need_keys
from stash.rendering.pairs import pairs
from stash.rendering.reasons import why_not
from stash.rendering.sentences.say import plain_facts
from stash.requirements.fit.splitting import Span
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.looks import looks_dyed, looks_surface
from stash.stock.spread import Scale, spread_m
from stash.stock.yarn import Lot

Keys = dict[str, Any]


def lot_facts(lot: Lot) -> Keys:
    """What is known of a lot's yarn."""
    return {
        "lot_ref": lot.ref,
        "yarn": str(lot.yarn),
        "maker": lot.yarn.maker or None,
        "colour": lot.colour or None,
        "colour_hex": lot.colours[0].hex if lot.colours else None,
        "colours_hex": [colour.hex for colour in lot.colours],
        "dyed": looks_dyed(lot),
        "surface": looks_surface(lot),
        "lot": lot.lot or None,
        "lot_state": lot.lot_state.value,
        "thickness": lot.thickness_from,
        "thickness_to": lot.thickness_to,
        "fibre": lot.fibre or None,
        "conditions": [condition.value for condition in lot.conditions],
        "daylight": lot.daylight,
    }


def held_lot(held: HeldLot, scale: Scale) -> Keys:
    """A lot on the shelf with its skeins; sums of what is known, None where nothing is."""
    skeins = held.skeins
    weighed = [s for s in skeins if s.mass_known]
    return {
        **lot_facts(held.lot),
        "held_g": _sum_g(s.held for s in weighed),
        "held_m": _sum_m(s.held_length for s in skeins),
        "free_g": _sum_g(s.free for s in weighed),
        "free_m": _sum_m(s.free_length for s in skeins),
        "set_aside_g": _sum_g(s.set_aside for s in weighed),
        "set_aside_m": _sum_m(s.length(s.set_aside) for s in skeins),
        "short_g": _sum_g(s.short for s in skeins) or 0.0,
        "spread_m": spread_m(skeins, held.lot, scale),
        "skeins": [held_skein(skein) for skein in skeins],
    }


def held_skein(skein: HeldSkein) -> Keys:
    """One skein; its grams are None while they are only inferred from a length."""
    known = skein.mass_known
    return {
        "number": skein.number,
        "state": skein.state.value,
        **_full(skein),
        "held_g": skein.held.g if known else None,
        "held_m": metres(skein.held_length),
        "free_g": skein.free.g if known else None,
        "free_m": metres(skein.free_length),
        "set_aside_g": skein.set_aside.g if known else None,
        "place": skein.place or None,
    }


def _full(skein: HeldSkein) -> Keys:
    """What a full one holds, and by what that is known."""
    full = skein.pair.put_up
    return {
        "full_g": full and full.mass.g,
        "full_m": full and full.length.m,
        "full_from": skein.pair.origin.value,
    }


def metres(length: Length | None) -> float | None:
    """Metres, or None."""
    return None if length is None else length.m


def _sum_g(masses: Iterable[Mass]) -> float | None:
    known = [mass.mg for mass in masses]
    return sum(known) / 1000 if known else None


def _sum_m(lengths: Iterable[Length | None]) -> float | None:
    known = [length.um for length in lengths if length is not None]
    return sum(known) / 1_000_000 if known else None


def match(answer: Match) -> Keys:
    """The matcher's whole answer."""
    return {
        "need": need_keys(answer.need),
        "as_of": answer.as_of.isoformat(),
        "proposals": [proposal(found) for found in answer.proposals],
        "near_misses": [near_miss(miss) for miss in answer.near_misses],
        "looked_at": answer.looked_at,
    }


def proposal(found: Proposal) -> Keys:
    """A set of lots with what speaks for and against it."""
    return {
        "rank": found.rank,
        "key": found.key,
        "cost": found.cost,
        "roles": {filled.role: _filled(filled) for filled in found.roles},
        "lightness_gap": found.lightness_gap,
        "colour_difference": found.colour_difference,
        "pairs": pairs(found.roles),
        "reasons": [_reason(reason) for reason in found.reasons],
    }


def _reason(reason: Reason) -> Keys:
    return {**plain_facts(reason), "cost": reason.cost}


def _filled(filled: Filled) -> Keys:
    lot = filled.lot.lot
    return {
        **lot_name(lot),
        "colours_hex": [colour.hex for colour in lot.colours],
        "lightness": [lab(colour).lightness for colour in lot.colours],
        "free_m": filled.free_m,
        "coverage": filled.coverage,
        "chance": filled.chance,
        "left_m": filled.left_m,
        "joins": filled.joins,
        "reasons": [_reason(reason) for reason in filled.reasons],
        "skeins": [_take(take, filled.lots) for take in filled.takes],
        **_shared(filled),
    }


def _shared(filled: Filled) -> Keys:
    """Which rows are from which lot, only where two share the role."""
    if filled.second is None:
        return {}
    refs = [held.lot.ref for held in filled.lots]
    return {
        "other_lots": refs[1:],
        "strategy": filled.second.split.way.value,
        "rows": [_span(span, refs) for span in filled.second.split.spans()],
    }


def _span(span: Span, refs: Sequence[str]) -> Keys:
    """Rows of one lot; with its stitches from the bottom where rows are worked from both."""
    stitches = dict(zip(("stitches_from", "stitches_to"), span.stitches or (), strict=False))
    return {"from": span.first, "to": span.last, "lot_ref": refs[span.lot], **stitches}


def _take(take: Take, lots: Sequence[HeldLot]) -> Keys:
    skein = next(s for lot in lots for s in lot.skeins if s.number == take.number)
    pair = skein.pair.put_up if skein.mass_known else None
    return {
        "number": take.number,
        "lot_ref": f"L{take.lot_id}",
        "place": take.place or None,
        "strand": take.strand,
        "take_m": take.length.m,
        "take_g": pair.mass_covering(take.length).g if pair else None,
    }


def near_miss(miss: NearMiss) -> Keys:
    """A set that almost fits."""
    return {
        "roles": {role: named(lot) for role, lot in miss.roles},
        "why": why_not(miss),
        "blockers": [plain_facts(blocker) for blocker in miss.blockers],
        "fixes": [plain_facts(fix) for fix in miss.fixes],
        "short_m": miss.short_m,
        "short_g": miss.short_g,
        "short_rows": miss.short_rows,
        "holds_expected": miss.within,
    }


def named(held: HeldLot) -> Keys:
    """A lot by what it is called."""
    return lot_name(held.lot)


def lot_name(lot: Lot) -> Keys:
    """The same of the lot itself."""
    return {
        "lot_ref": lot.ref,
        "yarn": str(lot.yarn),
        "colour": lot.colour or None,
        "lot": lot.lot or None,
    }
