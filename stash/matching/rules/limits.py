"""The limits a maker sets besides length and class: what each of them keeps out."""

from __future__ import annotations

import re

from stash.matching.lots.lot_view import LotView, known_put_up
from stash.matching.question.wish import Limits, Named, Wash
from stash.matching.rules.blockers import Blocker
from stash.measures.colour import ciede2000, family
from stash.stock.yarn import Condition
from stash.trade.fibres import content
from stash.trade.washing import bears_hot_wash, felts

#: A colour this near to the value of a word is called by it (CIEDE2000, our choice: shades of one
#: name on different labels lie about so far apart).
CALLED_WITHIN = 12.0


#: The conditions that keep a lot out until she asks for it.
KEPT_OUT = frozenset({Condition.QUARANTINED})


def limit_blockers(view: LotView, role: str, limits: Limits) -> list[Blocker]:
    """What her limits say against the lot in this role."""
    conditions = view.lot.lot.conditions
    found = [
        Blocker.QUARANTINED if KEPT_OUT.intersection(conditions) - limits.let_in else None,
        _fineness_blocker(view, limits.fineness.get(role)),
        *_fibre_blockers(view, limits),
        _colour_blocker(view, role, limits),
        Blocker.BARRED if all_barred(view, limits) else None,
    ]
    return [blocker for blocker in dict.fromkeys(found) if blocker is not None]


def all_barred(view: LotView, limits: Limits) -> bool:
    """Whether none of the lot's skeins may be taken."""
    return bool(limits.barred) and all(s.number in limits.barred for s in view.lot.skeins)


def _fineness_blocker(view: LotView, span: tuple[float, float] | None) -> Blocker | None:
    if span is None:
        return None
    put_up = known_put_up(view.lot)
    if put_up is None:
        return Blocker.NO_FINENESS
    return None if span[0] <= put_up.m_per_100g <= span[1] else Blocker.WRONG_FINENESS


def _fibre_blockers(view: LotView, limits: Limits) -> list[Blocker | None]:
    lot = view.lot.lot
    found: list[Blocker | None] = []
    if limits.without:
        made_of = content(lot.fibre)
        unwanted = limits.without & made_of.names
        found.append(Blocker.WRONG_FIBRE if unwanted else _unless(made_of.whole))
    if limits.wash is Wash.HOT:
        bears = bears_hot_wash(lot.fibre, lot.care)
        found.append(Blocker.NOT_FOR_HEAT if bears is False else _unless(bears is True))
    if limits.wash is Wash.TOGETHER:
        found.append(_unless(felts(lot.fibre, lot.care) is not None))
    return found


def _unless(known: bool) -> Blocker | None:
    return None if known else Blocker.NO_FIBRE


def _colour_blocker(view: LotView, role: str, limits: Limits) -> Blocker | None:
    wanted, unwanted = limits.wanted.get(role, ()), limits.unwanted.get(role, ())
    answers = [is_called(view, named) for named in wanted]
    if wanted and True not in answers:
        return Blocker.NO_COLOUR if None in answers else Blocker.WRONG_COLOUR
    against = [is_called(view, named) for named in unwanted]
    if True in against:
        return Blocker.WRONG_COLOUR
    return Blocker.NO_COLOUR if None in against else None


def is_called(view: LotView, named: Named) -> bool | None:
    """Whether any colour of the lot goes by that word: by its band, its family or its value.

    None where the band does not say it and no colour is known.
    """
    if f" {named.word} " in f" {_plain(view.lot.lot.colour)} ":
        return True
    if named.family:
        return any(family(shade) == named.word for shade in view.shades) if view.shades else None
    if named.near is None:
        return False
    near = named.near
    if not view.shades:
        return None
    return any(ciede2000(shade, near) <= CALLED_WITHIN for shade in view.shades)


def _plain(words: str) -> str:
    return " ".join(re.findall(r"\w+", words.casefold())).replace("gray", "grey")
