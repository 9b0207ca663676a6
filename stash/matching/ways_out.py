"""The sets that almost fit: what is wrong, by how much, and what would make them fit."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stash.matching.amounts import counted, m_and_yd
from stash.matching.answer import NearMiss
from stash.matching.contrast import LEAST_GAP, least_gap
from stash.matching.coverage import Unfit
from stash.matching.fits import Asked, Together, Trouble, widest_step, without_length
from stash.matching.search import Costed, best_first
from stash.matching.sight import Seen, mass_of_um, put_up_of
from stash.matching.standing import Candidate
from stash.matching.wish import Contrast
from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.measures.put_up import PutUp
from stash.stock.picking import Piece, shortage_um

MOST = 5
#: Of the near misses, so many at most are short ones while lots with unknown facts wait.
SHORT_ONES = 3


@dataclass(frozen=True, slots=True)
class Looked:
    """A role with the lots that fill it, cheapest first, and those that do not."""

    ask: Asked
    good: tuple[Candidate, ...]
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
        return self.unfit.troubles == (Trouble.SHORT,)

    @property
    def order(self) -> tuple[bool, int, int, int]:
        """Short ones first, the least short first."""
        return (not self.short, self.unfit.short_um, self.at, self.unfit.seen.id)


def near_misses(looked: Sequence[Looked], rules: Together, any_fits: bool) -> tuple[NearMiss, ...]:
    """The sets that one mendable trouble keeps out, least short first, each with its way out.

    Where she named the yarn of every role, there is one answer: every role's trouble in it.
    """
    if looked and all(at.ask.fixed is not None for at in looked):
        return () if any_fits else (_verdict(looked, rules),)
    found = [] if any_fits else _not_together(looked, rules)
    almost = _nearest(looked)[: MOST - len(found)]
    return (*found, *(_near_miss(miss, looked, rules) for miss in almost))


def _nearest(looked: Sequence[Looked]) -> list[_Almost]:
    almost = sorted(
        (
            _Almost(i, unfit)
            for i, at in enumerate(looked)
            for unfit in at.unfit
            if len(unfit.troubles) == 1 and Trouble.WRONG_CLASS not in unfit.troubles
        ),
        key=lambda miss: miss.order,
    )
    short = [miss for miss in almost if miss.short]
    unknown = [miss for miss in almost if not miss.short]
    kept = max(SHORT_ONES, MOST - len(unknown))
    return short[:kept] + unknown[: MOST - len(short[:kept])]


def _near_miss(miss: _Almost, looked: Sequence[Looked], rules: Together) -> NearMiss:
    ask, unfit = looked[miss.at].ask, miss.unfit
    roles, alone = _with_partners(miss, looked, rules)
    why = _why(unfit, ask) + (
        f"; nothing on the shelf fits {' or '.join(alone)} beside it" if alone else ""
    )
    return _told(roles, why, _way_out(unfit, ask), [(unfit, ask)])


def _with_partners(
    miss: _Almost, looked: Sequence[Looked], rules: Together
) -> tuple[list[tuple[str, Seen]], list[str]]:
    """The lot with the best fitting lots of the other roles, and the roles that stay empty."""
    if Trouble.NO_COLOUR in miss.unfit.troubles:
        rules = replace(rules, contrast=Contrast.ANY)
    names = [at.ask.role.role for at in looked]
    placed: list[Sequence[Costed]] = [
        [_Placed(miss.unfit.seen)] if i == miss.at else at.good for i, at in enumerate(looked)
    ]
    able = [i for i, lots in enumerate(placed) if lots]
    found = next(best_first([placed[i] for i in able], rules), None)
    if found is None:
        able, found = [miss.at], (placed[miss.at][0],)
    roles = [(names[i], lot.seen) for i, lot in zip(able, found, strict=True)]
    return roles, [name for i, name in enumerate(names) if i not in able]


def _told(
    roles: Iterable[tuple[str, Seen]], why: str, way_out: str, short: Sequence[tuple[Unfit, Asked]]
) -> NearMiss:
    """A near miss with the figures of the role that lacks most."""
    lots = tuple((name, seen.lot) for name, seen in roles)
    lacking = [(unfit, ask) for unfit, ask in short if unfit.short_um]
    if not lacking:
        return NearMiss(lots, why, way_out)
    unfit, ask = max(lacking, key=lambda pair: pair[0].short_um)
    return NearMiss(
        lots,
        why,
        way_out,
        short_m=Length(unfit.short_um).m,
        short_g=_short_g(unfit, ask),
        short_rows=_rows(unfit, ask),
    )


def _short_g(unfit: Unfit, ask: Asked) -> float | None:
    mass = mass_of_um(unfit.seen, unfit.short_um)
    if mass is not None:
        return mass.g
    per_100g = ask.role.m_per_100g
    return 100 * Length(unfit.short_um).m / per_100g if per_100g else None


def _rows(unfit: Unfit, ask: Asked) -> int | None:
    """What is missing, in whole rows of the piece."""
    if not ask.role.row_m:
        return None
    return math.ceil(Length(unfit.short_um).m / ask.role.row_m - 1e-9)


def _why(unfit: Unfit, ask: Asked) -> str:
    named = f"{ask.role.role}: {unfit.seen.lot.lot.ref}"
    return "; ".join(f"{named} {_trouble_words(t, unfit, ask)}" for t in unfit.troubles)


def _trouble_words(trouble: Trouble, unfit: Unfit, ask: Asked) -> str:
    if trouble is Trouble.SHORT:
        promised = _promised_um(unfit.seen, ask)
        more = f"; {m_and_yd(promised)} more is promised" if promised else ""
        return f"is short by {m_and_yd(unfit.short_um)}{more}"
    return {
        Trouble.NO_LENGTH: "has no length, only a weight",
        Trouble.NO_CLASS: "has no thickness class and no metres per 100 g to tell it by",
        Trouble.NO_COLOUR: f"has no known colour, and {ask.wish.contrast} contrast asks for one",
        Trouble.WRONG_CLASS: f"is {unfit.seen.thickness}, not the class asked for",
    }[trouble]


def _way_out(unfit: Unfit, ask: Asked) -> str:
    return "; and ".join(_mend(trouble, unfit, ask) for trouble in unfit.troubles)


def _mend(trouble: Trouble, unfit: Unfit, ask: Asked) -> str:
    if trouble is Trouble.SHORT:
        return ", or ".join(_ways_if_short(unfit, ask))
    if trouble is Trouble.NO_LENGTH:
        usual = unfit.seen.thickness is not None and not ask.wish.assume
        assume = f", or assume the usual length of {unfit.seen.thickness}" if usual else ""
        return f"give the band or measure a metre{assume}"
    return {
        Trouble.NO_CLASS: "give the class, the band, or measure a metre",
        Trouble.NO_COLOUR: "give its colour, or ask for any contrast and look in daylight",
        Trouble.WRONG_CLASS: "allow a wider class tolerance, or choose another lot",
    }[trouble]


def _ways_if_short(unfit: Unfit, ask: Asked) -> list[str]:
    ways = [
        way
        for way in (
            _lower_margin(unfit, ask),
            _fewer_rows(unfit, ask),
            _other_skeins(unfit.seen, ask),
            _release(unfit.seen, ask),
            _more_skeins(unfit.seen, ask),
            _measure(unfit.seen, ask),
        )
        if way
    ]
    return ways or [_smaller(unfit, ask)]


def _lower_margin(unfit: Unfit, ask: Asked) -> str:
    """The whole percent that is still left over what is expected."""
    expected_m = ask.role.estimate.expected_m
    covered_m = Length(ask.wanted.um - unfit.short_um).m
    if expected_m <= 0 or covered_m < expected_m:
        return ""
    percent = math.floor(100 * (covered_m / expected_m - 1))
    return f"lower the margin to {percent} %" if _covers_at(percent, unfit.seen, ask) else ""


def _covers_at(percent: int, seen: Seen, ask: Asked) -> bool:
    um = to_books(ask.role.estimate.expected_m * (1 + percent / 100)).um
    return not shortage_um(ask.of(seen.pieces), replace(ask.wanted, um=um))


def _fewer_rows(unfit: Unfit, ask: Asked) -> str:
    rows = _rows(unfit, ask)
    if not rows or not ask.role.row_m or rows * ask.role.row_m >= ask.role.estimate.expected_m:
        return ""
    if ask.role is ask.need.roles[0]:
        return f"{counted(rows, 'row')} fewer of {ask.role.role}"
    return f"a band {counted(rows, 'row')} narrower"


def _other_skeins(seen: Seen, ask: Asked) -> str:
    tied = ask.fixed is not None and ask.fixed.skeins
    covers = tied and not shortage_um(seen.pieces, ask.wanted)
    return f"let other skeins of {seen.lot.lot.ref} help" if covers else ""


def _release(seen: Seen, ask: Asked) -> str:
    promised = _promised_um(seen, ask)
    if not promised or shortage_um(_as_if_free(seen, ask), ask.wanted):
        return ""
    return f"release what is promised, {m_and_yd(promised)} of {seen.lot.lot.ref}"


def _promised_um(seen: Seen, ask: Asked) -> int:
    """How much longer the lot's pieces would be without the promises on them."""
    free = {piece.number: piece.um for piece in ask.of(seen.pieces)}
    return sum(piece.um - free[piece.number] for piece in _as_if_free(seen, ask))


def _as_if_free(seen: Seen, ask: Asked) -> tuple[Piece, ...]:
    put_ups = {s.number: (s, put_up_of(s, seen.thickness, seen.assume)) for s in seen.lot.skeins}
    found = []
    for piece in ask.of(seen.pieces):
        skein, put_up = put_ups[piece.number]
        held = skein.held.mg * put_up.length.um // put_up.mass.mg if put_up else piece.um
        found.append(replace(piece, um=held))
    return tuple(found)


def _more_skeins(seen: Seen, ask: Asked) -> str:
    """How many whole skeins of the same dye lot would do; of an unknown lot none can be had."""
    put_up = seen.lot.lot.pair.put_up
    if not seen.known_lot or put_up is None:
        return ""
    count = _skeins_to_add(ask.of(seen.pieces), put_up, ask)
    return f"{counted(count, 'more skein')} of {seen.lot.lot.ref}, {seen.lot.lot.lot_words}"


def _skeins_to_add(pieces: tuple[Piece, ...], put_up: PutUp, ask: Asked) -> int:
    count = 0
    while short := shortage_um(_with_new(pieces, put_up, count), ask.wanted):
        count += -(-short // put_up.length.um)
    return count


def _with_new(pieces: tuple[Piece, ...], put_up: PutUp, count: int) -> tuple[Piece, ...]:
    return (*pieces, *(Piece(-n, put_up.length.um, True) for n in range(1, count + 1)))


def _measure(seen: Seen, ask: Asked) -> str:
    unknown = without_length(seen, ask)
    if not unknown:
        return ""
    numbers = ", ".join(str(number) for number in unknown)
    return f"give the band of skein {numbers} or measure a metre, its length is not known"


def _smaller(unfit: Unfit, ask: Asked) -> str:
    covered = ask.wanted.um - unfit.short_um
    return (
        f"a smaller piece: it covers {m_and_yd(covered)} of {ask.role.role}"
        if covered
        else "another lot"
    )


def _not_together(looked: Sequence[Looked], rules: Together) -> list[NearMiss]:
    """Where every role can be filled but no lots suit each other: the best of those that do not."""
    loose = replace(rules, contrast=Contrast.ANY)
    for relaxed in (loose, replace(loose, tolerance=7)):
        found = next(best_first([at.good for at in looked], relaxed), None)
        if found is not None:
            seen = [lot.seen for lot in found]
            names = [at.ask.role.role for at in looked]
            return [_told(zip(names, seen, strict=True), *_clash(seen, rules), [])]
    return []


def _clash(seen: Sequence[Seen], rules: Together) -> tuple[str, str]:
    """Why these lots do not suit each other, and the wish that would let them."""
    if len({lot.id for lot in seen}) < len(seen):
        return "one lot cannot serve two roles", "choose another lot for one of them"
    steps = widest_step([rules.kind(lot)[0] for lot in seen])
    if steps > rules.tolerance:
        named = " and ".join(str(lot.thickness) for lot in seen)
        return f"they are {named}", f"allow a class tolerance of {steps}"
    gap = least_gap([lot.shades for lot in seen])
    if gap is None:
        return "a colour is not known", "give it, or ask for any contrast and look in daylight"
    if rules.contrast is Contrast.TONAL:
        return f"they are {gap:.0f} apart in lightness and not of one hue", "ask for any contrast"
    asked_for = f"{rules.contrast} asks for {LEAST_GAP[rules.contrast]:.0f}"
    softer = [w for w, least in LEAST_GAP.items() if w is not Contrast.TONAL and least <= gap]
    return f"they are {gap:.0f} apart in lightness, {asked_for}", f"ask for {softer[0]} contrast"


def _verdict(looked: Sequence[Looked], rules: Together) -> NearMiss:
    """The one answer where every role's yarn was named: all that is wrong with it."""
    worst = [(_least_wrong(at), at.ask) for at in looked if not at.good and at.unfit]
    absent = [at.ask.role.role for at in looked if not at.good and not at.unfit]
    roles = [(at.ask.role.role, _named(at)) for at in looked if at.good or at.unfit]
    if not worst and not absent:
        return _told(roles, *_clash([seen for _, seen in roles], rules), [])
    whys = [_why(unfit, ask) for unfit, ask in worst]
    ways = [f"{ask.role.role}: {_way_out(unfit, ask)}" for unfit, ask in worst]
    whys += [f"{role}: there is no such yarn on the shelf" for role in absent]
    ways += [f"{role}: name another" for role in absent]
    return _told(roles, "; ".join(whys), "; ".join(ways), worst)


def _named(at: Looked) -> Seen:
    return at.good[0].seen if at.good else _least_wrong(at).seen


def _least_wrong(at: Looked) -> Unfit:
    return min(at.unfit, key=lambda u: (len(u.troubles), u.short_um, u.seen.id))
