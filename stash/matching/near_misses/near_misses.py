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
from stash.matching.lots.lot_view import Seen
from stash.matching.near_misses.blocked import blockers_of, short_g, short_rows
from stash.matching.near_misses.fixes import covered, fixes_with_lots, remedies
from stash.matching.near_misses.redesigns import Chosen, redesigns
from stash.matching.question.planned_design import PlannedDesign
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Contrast, Wash
from stash.matching.rules.blockers import RULED_OUT, Trouble
from stash.matching.rules.contrast import gap_asked, least_gap
from stash.matching.rules.fits import Asked, Together, widest_step
from stash.matching.scoring.capacity import holds_expected, lower_margin
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import Unfit
from stash.matching.search.best_first import best_first
from stash.matching.search.candidate_list import Costed, Line
from stash.measures.length import Length
from stash.measures.note import Note

MOST = 5
#: Of the near misses, so many at most are short ones while lots with unknown facts wait.
SHORT_ONES = 3


@dataclass(frozen=True, slots=True)
class Looked:
    """A role with the lots that fill it, and those that do not."""

    ask: Asked
    good: Line[Candidate]
    unfit: tuple[Unfit, ...]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A lot set into a role as it stands, to look for partners."""

    seen: Seen
    cost: int = 0


@dataclass(frozen=True, slots=True)
class _Almost:
    """A lot that a single trouble keeps out of one role."""

    at: int
    unfit: Unfit

    @property
    def short(self) -> bool:
        return _only_short(self.unfit)

    @property
    def order(self) -> tuple[bool, int, int, int]:
        """Short ones first, the least short first."""
        return (not self.short, self.unfit.short_um, self.at, self.unfit.seen.id)


@dataclass(frozen=True, slots=True)
class Ground:
    """Where near misses are looked for: the whole shelf, the rules between lots, the plan."""

    seen: Sequence[Seen]
    rules: Together
    plan: PlannedDesign | None = None


def near_misses(looked: Sequence[Looked], ground: Ground, any_fits: bool) -> tuple[NearMiss, ...]:
    """The sets that one blocker keeps out which can be overcome, least short first, with fixes.

    Where she named the yarn of every role, there is one answer: every role's trouble in it.
    """
    if looked and all(at.ask.fixed is not None for at in looked):
        return () if any_fits else (_verdict(looked, ground),)
    found = [] if any_fits else _not_together(looked, ground.rules)
    for almost in _nearest(looked)[: MOST - len(found)]:
        miss = _near_miss(almost, looked, ground)
        if miss.roles not in [other.roles for other in found]:  # two short lots are one near miss
            found.append(miss)
    return tuple(found) or (() if any_fits else tuple(_kept_out(looked)))


def _kept_out(looked: Sequence[Looked]) -> Iterator[NearMiss]:
    """Where not even a near miss is left: how many lots each of her limits keeps out."""
    for at in looked:
        tally = Counter(t for unfit in at.unfit for t in unfit.troubles if t in _BY_LIMITS)
        if tally and not at.good:
            lots = tuple((t, tally[t]) for t in _BY_LIMITS if tally[t])
            blocker = Note("limits_keep_out", role=at.ask.role.role, lots=lots)
            yield NearMiss((), (blocker,), (Fix("ask_for_less"),))


#: What her limits keep out, in the order in which it is counted.
_BY_LIMITS = (
    Trouble.WRONG_FINENESS,
    Trouble.WRONG_COLOUR,
    Trouble.WRONG_FIBRE,
    Trouble.NOT_FOR_HEAT,
    Trouble.BARRED,
)


def _nearest(looked: Sequence[Looked]) -> list[_Almost]:
    almost = [
        _Almost(i, unfit)
        for i, at in enumerate(looked)
        for unfit in at.unfit
        if len(unfit.troubles) == 1 and unfit.troubles[0] not in RULED_OUT
    ]
    short = _first(miss for miss in almost if miss.short)
    unknown = _first(miss for miss in almost if not miss.short)
    kept = max(SHORT_ONES, MOST - len(unknown))
    return short[:kept] + unknown[: MOST - len(short[:kept])]


def _first(misses: Iterable[_Almost]) -> list[_Almost]:
    return nsmallest(MOST, misses, key=lambda miss: miss.order)


def _near_miss(miss: _Almost, looked: Sequence[Looked], ground: Ground) -> NearMiss:
    ask, unfit = looked[miss.at].ask, miss.unfit
    roles, alone = _with_partners(miss, looked, ground.rules)
    if miss.short:
        roles += _partners_too(roles, alone, looked, ground.rules)
        return _short(dict(roles), looked, ground)
    return _miss(roles, (*blockers_of(unfit, ask), *_alone(alone)), remedies(unfit, ask), [])


def _alone(roles: Sequence[str]) -> tuple[Note, ...]:
    return (Note("nothing_beside", roles=tuple(roles)),) if roles else ()


def _partners_too(
    roles: Sequence[tuple[str, Seen]],
    alone: Sequence[str],
    looked: Sequence[Looked],
    rules: Together,
) -> list[tuple[str, Seen]]:
    """For the roles that stay empty what fills them, else is least short; for all of them or none.

    Each takes the best that those before it leave.
    """
    found: list[tuple[str, Seen]] = []
    for at in looked:
        if at.ask.role.role in alone:
            placed = [seen for _, seen in (*roles, *found)]
            short = sorted(filter(_only_short, at.unfit), key=lambda u: (u.short_um, u.seen.id))
            able = (seen for seen in (*at.good.seen, *(unfit.seen for unfit in short)))
            suits = next((seen for seen in able if _fits_all(seen, placed, rules)), None)
            if suits is None:
                return []
            found.append((at.ask.role.role, suits))
    return found


def _only_short(unfit: Unfit) -> bool:
    return unfit.troubles == (Trouble.SHORT,)


def _fits_all(seen: Seen, others: Sequence[Seen], rules: Together) -> bool:
    return all(rules.fit(seen, other) for other in others)


def _short(lots: Mapping[str, Seen], looked: Sequence[Looked], ground: Ground) -> NearMiss:
    """A near miss that only lacks yarn, with every fix of that."""
    asks = [at.ask for at in looked]
    placed = [(lots[ask.role.role], ask) for ask in asks if ask.role.role in lots]
    alone = [ask.role.role for ask in asks if ask.role.role not in lots]
    short = [
        (unfit, at.ask)
        for at in looked
        for unfit in at.unfit
        if unfit.seen is lots.get(at.ask.role.role)
    ]
    margin = lower_margin(placed)
    fixes = [*fixes_with_lots(short), *([margin] if margin else [])]
    if ground.plan and not alone and _suit([seen for seen, _ in placed], ground.rules):
        fixes += redesigns(Chosen(ground.plan, lots, asks, ground.rules, ground.seen))
    blockers = [blocker for unfit, ask in short for blocker in blockers_of(unfit, ask)]
    roles = [(ask.role.role, seen) for seen, ask in placed]
    within = not alone and all(holds_expected(unfit.seen, ask) for unfit, ask in short)
    found = _miss(roles, (*blockers, *_alone(alone)), in_order(fixes) or (covered(short),), short)
    return replace(found, within=within)


def _suit(seen: Sequence[Seen], rules: Together) -> bool:
    return all(rules.fit(one, other) for one, other in combinations(seen, 2))


def _with_partners(
    miss: _Almost, looked: Sequence[Looked], rules: Together
) -> tuple[list[tuple[str, Seen]], list[str]]:
    """The lot with the best fitting lots of the other roles, and the roles that stay empty."""
    if Trouble.NO_COLOUR in miss.unfit.troubles:
        rules = replace(rules, contrast=Contrast.ANY)
    names = [at.ask.role.role for at in looked]
    alone: Line[Costed] = Line([(0, miss.unfit.seen)], _Placed)
    placed = [alone if i == miss.at else at.good for i, at in enumerate(looked)]
    # itself first: the others are held against it from the start
    able = [miss.at, *(i for i, lots in enumerate(placed) if lots and i != miss.at)]
    found = next(best_first([placed[i] for i in able], rules.among(able)), None)
    if found is None:
        able, found = [miss.at], (alone.choice(0),)
    in_order = sorted(zip(able, found, strict=True), key=itemgetter(0))
    roles = [(names[i], lot.seen) for i, lot in in_order]
    return roles, [name for i, name in enumerate(names) if i not in able]


def _miss(
    roles: Iterable[tuple[str, Seen]],
    blockers: tuple[Note, ...],
    fixes: tuple[Fix, ...],
    short: Sequence[tuple[Unfit, Asked]],
) -> NearMiss:
    """A near miss with the figures of the role that lacks most."""
    found = NearMiss(tuple((name, seen.lot) for name, seen in roles), blockers, fixes)
    lacking = [(unfit, ask) for unfit, ask in short if unfit.short_um]
    if not lacking:
        return found
    unfit, ask = max(lacking, key=lambda pair: pair[0].short_um)
    return replace(
        found,
        short_m=Length(unfit.short_um).m,
        short_g=short_g(unfit, ask),
        short_rows=short_rows(unfit, ask),
    )


def _not_together(looked: Sequence[Looked], rules: Together) -> list[NearMiss]:
    """Where every role can be filled but no lots suit each other: the best of those that do not."""
    loose = replace(rules, contrast=Contrast.ANY)
    looser = replace(loose, wash=Wash.ANY, no_bleeding=False)
    for relaxed in dict.fromkeys((loose, looser, replace(looser, tolerance=7))):
        found = next(best_first([at.good for at in looked], relaxed), None)
        if found is not None:
            seen = [lot.seen for lot in found]
            names = [at.ask.role.role for at in looked]
            return [_clashing(zip(names, seen, strict=True), seen, rules)]
    return []


def _clashing(roles: Iterable[tuple[str, Seen]], seen: Sequence[Seen], rules: Together) -> NearMiss:
    blocker, fix = _clash(seen, rules)
    return _miss(roles, (blocker,), (fix,), [])


def _clash(seen: Sequence[Seen], rules: Together) -> tuple[Note, Fix]:
    """Why these lots do not suit each other, and the wish that would let them."""
    if len({lot.id for lot in seen}) < len(seen):
        return Note("one_lot_in_two_roles"), Fix("other_lot_for_one")
    steps = widest_step(seen)
    if steps > rules.tolerance:
        classes = tuple(lot.thickness for lot in seen)
        return Note("classes_too_far", classes=classes), Fix("allow_steps", steps=steps)
    pairs = [*combinations(seen, 2)]
    if not all(rules.wash_together(one, other) for one, other in pairs):
        return Note("washed_apart"), Fix("wash_as_wool")
    if any(rules.would_bleed(one, other) for one, other in pairs):
        return Note("one_may_bleed"), Fix("allow_bleeding")
    gap = least_gap(by_colour([lot.shades for lot in seen], rules.colours))
    if gap is None:
        return Note("a_colour_not_known"), Fix("give_it_or_any_contrast")
    if rules.contrast is Contrast.TONAL:
        return Note("not_of_one_hue", gap=gap), Fix("any_contrast")
    asked = gap_asked(rules.contrast)
    wished = rules.contrast if isinstance(rules.contrast, Contrast) else None
    blocker = Note("wrong_gap", gap=gap, contrast=wished, least=asked.least, most=asked.most)
    return blocker, Fix("other_contrast", contrast=_answered_by(gap))


def _answered_by(gap: float) -> Contrast:
    """The strongest wish in words that this gap answers."""
    able = (w for w in Contrast if w is not Contrast.TONAL and gap_asked(w).least <= gap)
    return next(able)


def _verdict(looked: Sequence[Looked], ground: Ground) -> NearMiss:
    """The one answer where every role's yarn was named: all that is wrong with it."""
    worst = [(_least_wrong(at), at.ask) for at in looked if not at.good and at.unfit]
    absent = [at.ask.role.role for at in looked if not at.good and not at.unfit]
    rules = ground.rules
    roles = [(at.ask.role.role, _named(at, rules)) for at in looked if at.good or at.unfit]
    if not worst and not absent:
        return _clashing(roles, [seen for _, seen in roles], rules)
    if not absent and all(_only_short(unfit) for unfit, _ in worst):
        return _short(dict(roles), looked, ground)
    blockers = [blocker for unfit, ask in worst for blocker in blockers_of(unfit, ask)]
    fixes = [
        Fix("for_role", role=ask.role.role, fixes=remedies(unfit, ask)) for unfit, ask in worst
    ]
    blockers += [Note("no_such_yarn", role=role) for role in absent]
    fixes += [Fix("name_another", role=role) for role in absent]
    return _miss(roles, tuple(blockers), (Fix("all_of", fixes=tuple(fixes)),), worst)


def _named(at: Looked, rules: Together) -> Seen:
    best = next(best_first([at.good], rules.among(())), None)
    return best[0].seen if best else _least_wrong(at).seen


def _least_wrong(at: Looked) -> Unfit:
    return min(at.unfit, key=lambda u: (len(u.troubles), u.short_um, u.seen.id))
