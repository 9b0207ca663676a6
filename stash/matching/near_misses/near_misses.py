"""The sets that almost fit: what is wrong, by how much, and what would make them fit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from heapq import nsmallest
from itertools import combinations
from operator import itemgetter

from stash.matching.answer.fix import Fix, in_order
from stash.matching.answer.proposal import NearMiss
from stash.matching.lots.lot_view import Lots, LotView, as_one, order_of
from stash.matching.near_misses.blocked import blockers_of, short_g, short_rows
from stash.matching.near_misses.fixes import covered, fixes_with_lots, remedies
from stash.matching.near_misses.redesigns import Chosen, redesigns
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Contrast, Wash
from stash.matching.rules.blockers import RULED_OUT, Blocker
from stash.matching.rules.contrast import contrast_of, gap_asked, least_gap
from stash.matching.rules.fits import PairRules, RoleQuery, widest_step
from stash.matching.scoring.capacity import holds_expected, lower_margin
from stash.matching.scoring.coverage import RoleFit
from stash.matching.search.best_first import best_first
from stash.matching.search.candidate_list import CandidateList, Costed
from stash.matching.two_lots.couples import Filling
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.yarn.design_context import DesignContext

MOST = 5
#: Of the near misses, so many at most are short ones while lots with unknown facts wait.
SHORT_ONES = 3


@dataclass(frozen=True, slots=True)
class RoleLots:
    """A role with the lots that fill it, and those that do not."""

    query: RoleQuery
    good: CandidateList[Filling]
    unfit: tuple[RoleFit, ...]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A lot put into a role unweighed, to look for partners."""

    lots: Lots
    cost: int = 0


@dataclass(frozen=True, slots=True)
class _Almost:
    """A lot that a single blocker keeps out of one role."""

    at: int
    unfit: RoleFit

    @property
    def short(self) -> bool:
        return _only_short(self.unfit)

    @property
    def order(self) -> tuple[bool, int, int, int]:
        """Short ones first, the least short first."""
        return (not self.short, self.unfit.short_um, self.at, self.unfit.view.id)


@dataclass(frozen=True, slots=True)
class MissContext:
    """Where near misses are looked for: the whole shelf, the rules between lots, the plan."""

    views: Sequence[LotView]
    rules: PairRules
    plan: DesignContext | None = None


def near_misses(
    by_role: Sequence[RoleLots], context: MissContext, any_fits: bool
) -> tuple[NearMiss, ...]:
    """The sets that one blocker keeps out which can be overcome, least short first, with fixes.

    Where she named the yarn of every role, there is one answer: every role's blockers in it.
    """
    if by_role and all(at.query.fixed is not None for at in by_role):
        return () if any_fits else (_verdict(by_role, context),)
    if not any_fits and (hopeless := tuple(_kept_out(filter(_is_hopeless, by_role)))):
        return hopeless  # more yarn for another role would not help
    found = [] if any_fits else _not_together(by_role, context.rules)
    for almost in _nearest(by_role)[: MOST - len(found)]:
        miss = _near_miss(almost, by_role, context)
        if miss.roles not in [other.roles for other in found]:  # two short lots are one near miss
            found.append(miss)
    return tuple(found) or (() if any_fits else tuple(_kept_out(by_role)))


def _is_hopeless(at: RoleLots) -> bool:
    """Whether every lot is known to be other than what she asked for in this role."""
    ruled_out = (not RULED_OUT.isdisjoint(unfit.blockers) for unfit in at.unfit)
    return not at.good and all(ruled_out)


def _kept_out(by_role: Iterable[RoleLots]) -> Iterator[NearMiss]:
    """Where a role has not even a near miss: how many lots each of her limits keeps out.

    Where none is of a colour she asked for, the colours that were asked for.
    """
    for at in by_role:
        tally = Counter(t for unfit in at.unfit for t in unfit.blockers if t in _BY_LIMITS)
        if not tally or at.good:
            continue
        role = at.query.role.role
        colours = at.query.wish.limits.wanted.get(role, ())
        every = at.query.fixed is None and tally[Blocker.WRONG_COLOUR] == len(at.unfit)
        if colours and every:
            words = tuple(named.word for named in colours)
            blocker = Note("no_lot_of_colour", role=role, wanted=words)
            fix = Fix("ask_for_other_colour", role=role, wanted=words)
            yield NearMiss((), (blocker,), (fix,))
        else:
            lots = tuple((t, tally[t]) for t in _BY_LIMITS if tally[t])
            blocker = Note("limits_keep_out", role=role, lots=lots)
            yield NearMiss((), (blocker,), (Fix("ask_for_less"),))


#: What her limits keep out, in the order in which it is counted.
_BY_LIMITS = (
    Blocker.WRONG_FINENESS,
    Blocker.WRONG_COLOUR,
    Blocker.WRONG_FIBRE,
    Blocker.NOT_FOR_HEAT,
    Blocker.BARRED,
)


def _nearest(by_role: Sequence[RoleLots]) -> list[_Almost]:
    almost = [
        _Almost(i, unfit)
        for i, at in enumerate(by_role)
        for unfit in at.unfit
        if len(unfit.blockers) == 1 and unfit.blockers[0] not in RULED_OUT
    ]
    short = _first(miss for miss in almost if miss.short)
    unknown = _first(miss for miss in almost if not miss.short)
    kept = max(SHORT_ONES, MOST - len(unknown))
    return short[:kept] + unknown[: MOST - len(short[:kept])]


def _first(misses: Iterable[_Almost]) -> list[_Almost]:
    return nsmallest(MOST, misses, key=lambda miss: miss.order)


def _near_miss(miss: _Almost, by_role: Sequence[RoleLots], context: MissContext) -> NearMiss:
    query, unfit = by_role[miss.at].query, miss.unfit
    roles, alone = _with_partners(miss, by_role, context.rules)
    if miss.short:
        roles += _partners_too(roles, alone, by_role, context.rules)
        return _short(dict(roles), by_role, context)
    return _miss(roles, (*blockers_of(unfit, query), *_alone(alone)), remedies(unfit, query), [])


def _alone(roles: Sequence[str]) -> tuple[Note, ...]:
    return (Note("nothing_beside", roles=tuple(roles)),) if roles else ()


def _partners_too(
    roles: Sequence[tuple[str, Lots]],
    alone: Sequence[str],
    by_role: Sequence[RoleLots],
    rules: PairRules,
) -> list[tuple[str, Lots]]:
    """For the roles that stay empty what fills them, else is least short; for all of them or none.

    Each takes the best that those before it leave.
    """
    found: list[tuple[str, Lots]] = []
    for at in by_role:
        if at.query.role.role in alone:
            placed = [lots for _, lots in (*roles, *found)]
            short = sorted(filter(_only_short, at.unfit), key=lambda u: (u.short_um, u.view.id))
            able = (*at.good.lots, *((unfit.view,) for unfit in short))
            suits = next((one for one in able if all(_fit(one, x, rules) for x in placed)), None)
            if suits is None:
                return []
            found.append((at.query.role.role, suits))
    return found


def _only_short(unfit: RoleFit) -> bool:
    return unfit.blockers == (Blocker.SHORT,)


def _short(lots: Mapping[str, Lots], by_role: Sequence[RoleLots], context: MissContext) -> NearMiss:
    """A near miss that only lacks yarn, with every fix of that."""
    queries = [at.query for at in by_role]
    placed = [(lots[query.role.role], query) for query in queries if query.role.role in lots]
    alone = [query.role.role for query in queries if query.role.role not in lots]
    short = [
        (unfit, at.query)
        for at in by_role
        for unfit in at.unfit
        if _is_alone(unfit.view, lots.get(at.query.role.role, ()))
    ]
    margin = lower_margin([(as_one(chosen), query) for chosen, query in placed])
    fixes = [*fixes_with_lots(short), *([margin] if margin else [])]
    if context.plan and not alone and _suit([chosen for chosen, _ in placed], context.rules):
        fixes += redesigns(Chosen(context.plan, lots, queries, context.rules, context.views))
    blockers = [blocker for unfit, query in short for blocker in blockers_of(unfit, query)]
    roles = [(query.role.role, chosen) for chosen, query in placed]
    within = not alone and all(holds_expected(unfit.view, query) for unfit, query in short)
    found = _miss(roles, (*blockers, *_alone(alone)), in_order(fixes) or (covered(short),), short)
    return replace(found, within=within)


def _is_alone(lot: LotView, lots: Lots) -> bool:
    return len(lots) == 1 and lots[0] is lot


def _suit(chosen: Sequence[Lots], rules: PairRules) -> bool:
    return all(_fit(one, other, rules) for one, other in combinations(chosen, 2))


def _fit(one: Lots, other: Lots, rules: PairRules) -> bool:
    return all(rules.fit(x, y) for x in one for y in other)


def _with_partners(
    miss: _Almost, by_role: Sequence[RoleLots], rules: PairRules
) -> tuple[list[tuple[str, Lots]], list[str]]:
    """The lot with the best fitting lots of the other roles, and the roles that stay empty."""
    if Blocker.NO_COLOUR in miss.unfit.blockers:
        rules = replace(rules, contrast=Contrast.ANY)
    names = [at.query.role.role for at in by_role]
    alone: CandidateList[Costed] = CandidateList([(0, (miss.unfit.view,))], _Placed)
    placed = [alone if i == miss.at else at.good for i, at in enumerate(by_role)]
    # itself first: the others are compared with it from the start
    able = [miss.at, *(i for i, lots in enumerate(placed) if lots and i != miss.at)]
    found = next(best_first([placed[i] for i in able], rules.among(able)), None)
    if found is None:
        able, found = [miss.at], (alone.choice(0),)
    in_order = sorted(zip(able, found, strict=True), key=itemgetter(0))
    roles = [(names[i], one.lots) for i, one in in_order]
    return roles, [name for i, name in enumerate(names) if i not in able]


def _miss(
    roles: Iterable[tuple[str, Lots]],
    blockers: tuple[Note, ...],
    fixes: tuple[Fix, ...],
    short: Sequence[tuple[RoleFit, RoleQuery]],
) -> NearMiss:
    """A near miss with the figures of the role that lacks most."""
    found = NearMiss(tuple((name, lots[0].lot) for name, lots in roles), blockers, fixes)
    lacking = [(unfit, query) for unfit, query in short if unfit.short_um]
    if not lacking:
        return found
    unfit, query = max(lacking, key=lambda pair: pair[0].short_um)
    return replace(
        found,
        short_m=Length(unfit.short_um).m,
        short_g=short_g(unfit, query),
        short_rows=short_rows(unfit, query),
    )


def _not_together(by_role: Sequence[RoleLots], rules: PairRules) -> list[NearMiss]:
    """Where every role can be filled but no lots suit each other: the best of those that do not."""
    loose = replace(rules, contrast=Contrast.ANY)
    looser = replace(loose, wash=Wash.ANY, no_bleeding=False)
    for relaxed in dict.fromkeys((loose, looser, replace(looser, tolerance=7))):
        found = next(best_first([at.good for at in by_role], relaxed), None)
        if found is not None:
            names = [at.query.role.role for at in by_role]
            return [_clashing([*zip(names, (one.lots for one in found), strict=True)], rules)]
    return []


def _clashing(roles: Sequence[tuple[str, Lots]], rules: PairRules) -> NearMiss:
    blocker, fix = _clash([lots for _, lots in roles], rules)
    return _miss(roles, (blocker,), (fix,), [])


def _clash(chosen: Sequence[Lots], rules: PairRules) -> tuple[Note, Fix]:
    """Why these lots do not suit each other, and the wish that would let them."""
    if len(set(map(order_of, chosen))) < len(chosen):
        return Note("one_lot_in_two_roles"), Fix("other_lot_for_one")
    views = [as_one(lots) for lots in chosen]
    steps = widest_step(views)
    if steps > rules.tolerance:
        classes = tuple(lot.thickness for lot in views)
        return Note("thicknesses_too_far", classes=classes), Fix("allow_steps", steps=steps)
    pairs = [*combinations(chosen, 2)]
    if not all(rules.wash_together(x, y) for one, other in pairs for x in one for y in other):
        return Note("washed_apart"), Fix("wash_as_wool")
    if any(rules.would_bleed(one, other) for one, other in combinations(views, 2)):
        return Note("one_may_bleed"), Fix("allow_bleeding")
    shades = by_colour([lot.shades for lot in views], rules.colours)
    gap = least_gap(shades)
    if gap is None:
        return Note("a_colour_not_known"), Fix("give_it_or_any_contrast")
    asked, answered = gap_asked(rules.contrast), contrast_of(shades)
    if rules.contrast is Contrast.TONAL and asked.least <= gap and answered is None:
        return Note("not_of_one_hue", gap=gap), Fix("any_contrast")
    wished = rules.contrast if isinstance(rules.contrast, Contrast) else None
    blocker = Note(
        "wrong_gap",
        gap=gap,
        is_now=answered,
        contrast=wished,
        least=asked.least,
        most=asked.most,
    )
    return blocker, Fix("other_contrast", contrast=answered) if answered else Fix("any_contrast")


def _verdict(by_role: Sequence[RoleLots], context: MissContext) -> NearMiss:
    """The one answer where every role's yarn was named: all that is wrong with it."""
    worst = [(_least_wrong(at), at.query) for at in by_role if not at.good and at.unfit]
    absent = [at.query.role.role for at in by_role if not at.good and not at.unfit]
    rules = context.rules
    roles = [(at.query.role.role, _named(at, rules)) for at in by_role if at.good or at.unfit]
    if not worst and not absent:
        return _clashing(roles, rules)
    if not absent and all(_only_short(unfit) for unfit, _ in worst):
        return _short(dict(roles), by_role, context)
    blockers = [blocker for unfit, query in worst for blocker in blockers_of(unfit, query)]
    fixes = [
        Fix("for_role", role=query.role.role, fixes=remedies(unfit, query))
        for unfit, query in worst
    ]
    blockers += [Note("no_such_yarn", role=role) for role in absent]
    fixes += [Fix("name_another", role=role) for role in absent]
    return _miss(roles, tuple(blockers), (Fix("all_of", fixes=tuple(fixes)),), worst)


def _named(at: RoleLots, rules: PairRules) -> Lots:
    best = next(best_first([at.good], rules.among(())), None)
    return best[0].lots if best else (_least_wrong(at).view,)


def _least_wrong(at: RoleLots) -> RoleFit:
    return min(at.unfit, key=lambda u: (len(u.blockers), u.short_um, u.view.id))
