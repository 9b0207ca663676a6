"""The changes that would let a lot into a role, each worked out for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from stash.matching.answer.fix import EACH_LOT, Fix, in_order
from stash.matching.lots.lot_view import LotView
from stash.matching.near_misses.blocked import as_if_free, promised_um
from stash.matching.near_misses.second_lot import second_lot
from stash.matching.question.wish import Contrast
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.fits import RoleQuery, without_length
from stash.matching.scoring.capacity import lower_margin, skeins_to_add
from stash.matching.scoring.coverage import RoleFit
from stash.measures.length import Length
from stash.stock.picking import Supply, shortage_um


def remedies(unfit: RoleFit, query: RoleQuery) -> tuple[Fix, ...]:
    """What would let the lot in: a fix for each blocker, all of them needed."""
    return tuple(_remedy(blocker, unfit, query) for blocker in unfit.blockers)


def _remedy(blocker: Blocker, unfit: RoleFit, query: RoleQuery) -> Fix:
    if blocker is Blocker.SHORT:
        found = _alone(unfit, query)
        return found[0] if len(found) == 1 else Fix("one_of", fixes=found)
    if blocker is Blocker.NO_LENGTH:
        may_assume = not query.wish.assume
        return Fix("give_length", thickness=unfit.view.thickness if may_assume else None)
    if blocker is Blocker.NO_COLOUR and query.wish.contrast_or_any is Contrast.ANY:
        return Fix("give_colour")
    return Fix(_REMEDIES[blocker])


_REMEDIES = {
    Blocker.NO_CLASS: "give_thickness",
    Blocker.NO_COLOUR: "give_colour_or_any_contrast",
    Blocker.NO_FIBRE: "give_fibre",
    Blocker.NO_FINENESS: "give_fineness",
    Blocker.QUARANTINED: "let_quarantined_in",
    Blocker.WRONG_CLASS: "widen_tolerance",
    Blocker.WRONG_FINENESS: "widen_fineness",
    Blocker.WRONG_COLOUR: "name_other_colour",
    Blocker.WRONG_FIBRE: "allow_fibre",
    Blocker.NOT_FOR_HEAT: "choose_for_heat",
    Blocker.BARRED: "allow_owner_and_place",
}


def _alone(unfit: RoleFit, query: RoleQuery) -> tuple[Fix, ...]:
    margin = lower_margin([(unfit.view, query)])
    found = in_order([*fixes_with_lots([(unfit, query)]), *([margin] if margin else [])])
    return found or (covered([(unfit, query)]),)


def fixes_with_lots(short: Sequence[tuple[RoleFit, RoleQuery]]) -> Iterator[Fix]:
    """What can be done with the lots that are short so that the design stays as it is.

    Of several short ones together, only what helps each of them.
    """
    for fix_for in _WITH_LOTS:
        found = [fix for unfit, query in short if (fix := fix_for(unfit.view, query))]
        if found and len(found) == len(short):
            yield _for_each(found)


def _for_each(fixes: Sequence[Fix]) -> Fix:
    return fixes[0] if len(fixes) == 1 else Fix(EACH_LOT, fixes=tuple(fixes))


def covered(short: Sequence[tuple[RoleFit, RoleQuery]]) -> Fix:
    """Where nothing helps: how much of the design is there."""
    return _for_each([_part_covered(unfit, query) for unfit, query in short])


def _part_covered(unfit: RoleFit, query: RoleQuery) -> Fix:
    um = query.wanted.um - unfit.short_um
    return (
        Fix("covers_part", role=query.role.role, covered=Length(um)) if um else Fix("another_lot")
    )


def _other_skeins(view: LotView, query: RoleQuery) -> Fix | None:
    tied = query.fixed is not None and query.fixed.skeins
    covers = tied and not shortage_um(view.supplies, query.wanted)
    return Fix("other_skeins", lot=view.lot.lot) if covers else None


def _remnants_too(view: LotView, query: RoleQuery) -> Fix | None:
    covers = query.fixed is None and not shortage_um(view.supplies, query.wanted)
    return Fix("remnants_too", role=query.role.role, lot=view.lot.lot) if covers else None


def _barred_too(view: LotView, query: RoleQuery) -> Fix | None:
    """The skeins that were kept out and would make it do."""
    barred = query.wish.limits.barred
    kept_out = [s.number for s in view.lot.skeins if s.number in barred]
    if not kept_out or shortage_um(_as_if_let_in(view, query), query.wanted):
        return None
    return Fix("let_skein_in", skein=kept_out[0], why=barred[kept_out[0]])


def _as_if_let_in(view: LotView, query: RoleQuery) -> tuple[Supply, ...]:
    limits = replace(query.wish.limits, barred={})
    return replace(query, wish=replace(query.wish, limits=limits)).of(view.supplies)


def _release(view: LotView, query: RoleQuery) -> Fix | None:
    promised = promised_um(view, query)
    if not promised or shortage_um(as_if_free(view, query), query.wanted):
        return None
    return Fix("release_promised", promised=Length(promised), lot=view.lot.lot)


def _more_skeins(view: LotView, query: RoleQuery) -> Fix | None:
    """How many whole skeins of the same dye lot would do; of an unknown lot none can be had."""
    put_up = view.lot.lot.pair.put_up
    if not view.known_lot or put_up is None:
        return None
    count = skeins_to_add(query.of(view.supplies), put_up.length.um, query.wanted)
    if count is None:
        return None
    return Fix("more_skeins", count=count, lot=view.lot.lot, put_up=put_up)


def _measure(view: LotView, query: RoleQuery) -> Fix | None:
    unknown = without_length(view, query)
    return Fix("measure_skeins", skeins=unknown) if unknown else None


#: Each asks one lot in one role for what would do, and gets nothing where it would not.
_WITH_LOTS: tuple[Callable[[LotView, RoleQuery], Fix | None], ...] = (
    _other_skeins,
    _remnants_too,
    _barred_too,
    _measure,
    _release,
    second_lot,
    _more_skeins,
)
