"""The changes that would let a lot into a role, each worked out for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from stash.matching.answer.fix import EACH_LOT, Fix, in_order
from stash.matching.lots.lot_view import Seen
from stash.matching.near_misses.blocked import as_if_free, promised_um
from stash.matching.near_misses.second_lot import second_lot
from stash.matching.question.wish import Contrast
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.fits import Asked, without_length
from stash.matching.scoring.capacity import lower_margin, skeins_to_add
from stash.matching.scoring.coverage import Unfit
from stash.measures.length import Length
from stash.stock.picking import Supply, shortage_um


def remedies(unfit: Unfit, ask: Asked) -> tuple[Fix, ...]:
    """What would let the lot in: a fix for each blocker, all of them needed."""
    return tuple(_remedy(trouble, unfit, ask) for trouble in unfit.troubles)


def _remedy(trouble: Trouble, unfit: Unfit, ask: Asked) -> Fix:
    if trouble is Trouble.SHORT:
        found = _alone(unfit, ask)
        return found[0] if len(found) == 1 else Fix("one_of", fixes=found)
    if trouble is Trouble.NO_LENGTH:
        may_assume = not ask.wish.assume
        return Fix("give_length", thickness=unfit.seen.thickness if may_assume else None)
    if trouble is Trouble.NO_COLOUR and ask.wish.contrast is Contrast.ANY:
        return Fix("give_colour")
    return Fix(_REMEDIES[trouble])


_REMEDIES = {
    Trouble.NO_CLASS: "give_class",
    Trouble.NO_COLOUR: "give_colour_or_any_contrast",
    Trouble.NO_FIBRE: "give_fibre",
    Trouble.NO_FINENESS: "give_fineness",
    Trouble.QUARANTINED: "let_quarantined_in",
    Trouble.WRONG_CLASS: "widen_tolerance",
    Trouble.WRONG_FINENESS: "widen_fineness",
    Trouble.WRONG_COLOUR: "name_other_colour",
    Trouble.WRONG_FIBRE: "allow_fibre",
    Trouble.NOT_FOR_HEAT: "choose_for_heat",
    Trouble.BARRED: "allow_owner_and_place",
}


def _alone(unfit: Unfit, ask: Asked) -> tuple[Fix, ...]:
    margin = lower_margin([(unfit.seen, ask)])
    found = in_order([*fixes_with_lots([(unfit, ask)]), *([margin] if margin else [])])
    return found or (covered([(unfit, ask)]),)


def fixes_with_lots(short: Sequence[tuple[Unfit, Asked]]) -> Iterator[Fix]:
    """What can be done with the lots that are short so that the piece stays as it is.

    Of several short ones together, only what helps each of them.
    """
    for fix_for in _WITH_LOTS:
        found = [fix for unfit, ask in short if (fix := fix_for(unfit.seen, ask))]
        if found and len(found) == len(short):
            yield _for_each(found)


def _for_each(fixes: Sequence[Fix]) -> Fix:
    return fixes[0] if len(fixes) == 1 else Fix(EACH_LOT, fixes=tuple(fixes))


def covered(short: Sequence[tuple[Unfit, Asked]]) -> Fix:
    """Where nothing helps: how much of the piece is there."""
    return _for_each([_part_covered(unfit, ask) for unfit, ask in short])


def _part_covered(unfit: Unfit, ask: Asked) -> Fix:
    um = ask.wanted.um - unfit.short_um
    return Fix("covers_part", role=ask.role.role, covered=Length(um)) if um else Fix("another_lot")


def _other_skeins(seen: Seen, ask: Asked) -> Fix | None:
    tied = ask.fixed is not None and ask.fixed.skeins
    covers = tied and not shortage_um(seen.pieces, ask.wanted)
    return Fix("other_skeins", lot=seen.lot.lot) if covers else None


def _remnants_too(seen: Seen, ask: Asked) -> Fix | None:
    covers = ask.fixed is None and not shortage_um(seen.pieces, ask.wanted)
    return Fix("remnants_too", role=ask.role.role, lot=seen.lot.lot) if covers else None


def _barred_too(seen: Seen, ask: Asked) -> Fix | None:
    """The skeins that were kept out and would make it do."""
    barred = ask.wish.limits.barred
    kept_out = [s.number for s in seen.lot.skeins if s.number in barred]
    if not kept_out or shortage_um(_as_if_let_in(seen, ask), ask.wanted):
        return None
    return Fix("let_skein_in", skein=kept_out[0], why=barred[kept_out[0]])


def _as_if_let_in(seen: Seen, ask: Asked) -> tuple[Supply, ...]:
    limits = replace(ask.wish.limits, barred={})
    return replace(ask, wish=replace(ask.wish, limits=limits)).of(seen.pieces)


def _release(seen: Seen, ask: Asked) -> Fix | None:
    promised = promised_um(seen, ask)
    if not promised or shortage_um(as_if_free(seen, ask), ask.wanted):
        return None
    return Fix("release_promised", promised=Length(promised), lot=seen.lot.lot)


def _more_skeins(seen: Seen, ask: Asked) -> Fix | None:
    """How many whole skeins of the same dye lot would do; of an unknown lot none can be had."""
    put_up = seen.lot.lot.pair.put_up
    if not seen.known_lot or put_up is None:
        return None
    count = skeins_to_add(ask.of(seen.pieces), put_up.length.um, ask.wanted)
    if count is None:
        return None
    return Fix("more_skeins", count=count, lot=seen.lot.lot, put_up=put_up)


def _measure(seen: Seen, ask: Asked) -> Fix | None:
    unknown = without_length(seen, ask)
    return Fix("measure_skeins", skeins=unknown) if unknown else None


#: Each asks one lot in one role for what would do, and gets nothing where it would not.
_WITH_LOTS: tuple[Callable[[Seen, Asked], Fix | None], ...] = (
    _other_skeins,
    _remnants_too,
    _barred_too,
    _measure,
    _release,
    second_lot,
    _more_skeins,
)
