"""What of a plan could be otherwise so that these lots cover it: worked out, never guessed.

Each change is the nearest of its kind: the calculator finds it for what the lots really give, and
the matcher's own conditions are asked again for the design as it would be made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from stash.errors import Refusal
from stash.matching.answer.fix import Fix
from stash.matching.lots.lot_view import Lots, LotView, as_one
from stash.matching.near_misses import redesign_facts
from stash.matching.rules.fits import PairRules, RoleQuery, role_query
from stash.matching.scoring.capacity import most_m
from stash.matching.scoring.coverage import role_fit
from stash.requirements.design.bands import MAIN
from stash.requirements.design.design import Design
from stash.requirements.fit.fit_to_yarn import (
    Changed,
    Have,
    lacking,
    narrower_band,
    shorter,
    smaller,
    without_brim,
)
from stash.requirements.fit.recoloured import with_stripe, with_top
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need

#: A design of which a side comes out shorter than this share of its plan is another (our choice).
LEAST_SHARE = Fraction(3, 4)
#: The roles a design may have, in order.
ROLES = "ABCD"


@dataclass(frozen=True, slots=True)
class Chosen:
    """A lot for every role of a plan, at least one of them short, and the shelf they lie on."""

    plan: DesignContext
    lots: Mapping[str, Lots]
    queries: Sequence[RoleQuery]
    rules: PairRules
    shelf: Sequence[LotView]

    @property
    def need(self) -> Need:
        """The need they are short for."""
        return self.queries[0].need

    @property
    def roles(self) -> list[str]:
        """The roles, A first."""
        return [query.role.role for query in self.queries]

    def have(self) -> dict[str, float]:
        """What each lot gives its role at most, in metres."""
        roles = [(query.role.role, query) for query in self.queries]
        return {role: most_m(as_one(self.lots[role]), query) for role, query in roles}

    def fits(self, need: Need, also: Mapping[str, Lots] | None = None) -> bool:
        """Whether the lots cover what the design needs when it is made otherwise."""
        lots = {**self.lots, **(also or {})}
        wish = self.queries[0].wish
        if not all(one.role in lots for one in need.roles):
            return False
        queries = [(lots[one.role], role_query(one, need, wish)) for one in need.roles]
        return not any(role_fit(as_one(chosen), query).blockers for chosen, query in queries)


def redesigns(chosen: Chosen) -> Iterator[Fix]:
    """Every change of the plan that lets the lots fit, the nearest of each kind."""
    have = chosen.have()
    for redesign in _REDESIGNS:
        try:
            fix = redesign(chosen, have)
        except Refusal:  # a plan of stated figures alone can only be made as it is
            continue
        if fix is not None:
            yield fix


def _narrower(chosen: Chosen, have: Have) -> Fix | None:
    for role in lacking(chosen.need, have)[:1]:
        found = narrower_band(chosen.plan, role, have)
        if found is not None and chosen.fits(found.need):
            facts = redesign_facts.bands(chosen.plan, role, found.design)
            return Fix("narrower_bands", made=found.design, **facts)
    return None


def _brimless(chosen: Chosen, have: Have) -> Fix | None:
    found, brim = without_brim(chosen.plan), chosen.plan.design.brim
    if found is None or brim is None or lacking(found.need, have) or not chosen.fits(found.need):
        return None
    return Fix("no_brim", made=found.design, brim=brim)


def _topped(chosen: Chosen, have: Have) -> Fix | None:
    """The top in another colour of the design, from its lot, else from one with enough."""
    others = chosen.roles[1:] if MAIN in lacking(chosen.need, have) else []
    for role in others:
        found = with_top(chosen.plan, role, have)
        if found is None:
            continue
        facts = redesign_facts.recoloured(chosen.plan, found)
        if chosen.fits(found.changed.need):
            return Fix("top_in_other_colour", made=found.changed.design, **facts, lot=None)
        if joining := _joining(chosen, found.changed.need, role):
            return Fix(
                "top_in_other_colour",
                made=found.changed.design,
                joining=((role, joining.lot),),
                **facts,
                lot=joining.lot.lot,
            )
    return None


def _shorter(chosen: Chosen, have: Have) -> Fix | None:
    found = shorter(chosen.plan, have)
    if found is None or _too_small(chosen, found) or not chosen.fits(found.need):
        return None
    facts = redesign_facts.side(chosen.plan, found.design, 1)
    return Fix("shorter", made=found.design, **facts)


def _smaller(chosen: Chosen, have: Have) -> Fix | None:
    found = smaller(chosen.plan, have)
    if found is None or _too_small(chosen, found) or not chosen.fits(found.need):
        return None
    return Fix("smaller", made=found.design, **redesign_facts.sides(chosen.plan, found.design))


def _striped(chosen: Chosen, have: Have) -> Fix | None:
    """A stripe of a colour more in place of the one that is short, from the lot that suits best."""
    roles, short = chosen.roles, lacking(chosen.need, have)
    role = ROLES[len(roles) : len(roles) + 1]
    if not role or len(short) != 1 or role in roles:
        return None
    wider = _with_one_more(chosen, short[0], role)
    found = with_stripe(chosen.plan, short[0], role, wider.have())
    joining = found and _joining(wider, found.changed.need, role)
    if not found or not joining:
        return None
    return Fix(
        "one_colour_more",
        made=found.changed.design,
        joining=((role, joining.lot),),
        **redesign_facts.recoloured(chosen.plan, found),
        lot=joining.lot.lot,
        colours=len(roles) + 1,
    )


#: One function for each kind of change; each gives one fix, or none where it does not help.
_REDESIGNS: tuple[Callable[[Chosen, Have], Fix | None], ...] = (
    _narrower,
    _brimless,
    _topped,
    _shorter,
    _striped,
    _smaller,
)


def _too_small(chosen: Chosen, found: Changed) -> bool:
    planned: Design = chosen.plan.design
    pairs = zip(found.design.needed_size.sides, planned.needed_size.sides, strict=True)
    return any(now.um < LEAST_SHARE * before.um for now, before in pairs)


def _with_one_more(chosen: Chosen, like: str, role: str) -> Chosen:
    """The question asked with one colour more, which may be as fine as the one it replaces.

    Its own colour is open, but for those that are not wanted. The main one of several colours takes
    no remnants, so that its lot may give less than alone.
    """
    wish, limits = chosen.queries[0].wish, chosen.queries[0].wish.limits
    limits = replace(
        limits,
        fineness=_for_both(limits.fineness, like, role),
        unwanted=_for_both(limits.unwanted, like, role),
    )
    need = replace(
        chosen.need, roles=(*chosen.need.roles, replace(chosen.need.roles[0], role=role))
    )
    queries = [
        role_query(query.role, need, replace(wish, limits=limits)) for query in chosen.queries
    ]
    return replace(chosen, queries=queries)


_Limit = TypeVar("_Limit")


def _for_both(limit: Mapping[str, _Limit], like: str, role: str) -> Mapping[str, _Limit]:
    return {**limit, role: limit[like]} if like in limit else limit


def _joining(chosen: Chosen, need: Need, role: str) -> LotView | None:
    """The lot that fits beside the others and costs least in its role, the first of equal ones."""
    wanted = next((one for one in need.roles if one.role == role), None)
    if wanted is None:
        return None
    query = role_query(wanted, need, chosen.queries[0].wish)
    others = [lot for other, lots in chosen.lots.items() if other != role for lot in lots]
    best: tuple[int, int] | None = None
    found = None
    for view in chosen.shelf:
        if query.allows(view.id) and all(chosen.rules.fit(view, other) for other in others):
            fit = role_fit(view, query)
            if not fit.blockers and (best is None or (fit.least, view.id) < best):
                best, found = (fit.least, view.id), view
    return found if found and chosen.fits(need, {role: (found,)}) else None
