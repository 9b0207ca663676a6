"""The limits a maker sets beside length and class, each answering yes or what is in the way."""

from __future__ import annotations

import re

from stash.matching.lots.lot_view import Seen, known_put_up
from stash.matching.question.wish import Limits, Named, Wash
from stash.matching.rules.blockers import Trouble
from stash.measures.colour import ciede2000, family
from stash.stock.yarn import Condition
from stash.trade.fibres import content
from stash.trade.washing import bears_hot_wash, felts

#: A colour this near to the value of a word is called by it (CIEDE2000, our choice: shades of one
#: name on different labels lie about so far apart).
CALLED_WITHIN = 12.0


#: The conditions that keep a lot out until she asks for it.
KEPT_OUT = frozenset({Condition.QUARANTINED})


def limit_troubles(seen: Seen, role: str, limits: Limits) -> list[Trouble]:
    """What her limits say against the lot in this role."""
    conditions = seen.lot.lot.conditions
    found = [
        Trouble.QUARANTINED if KEPT_OUT.intersection(conditions) - limits.let_in else None,
        _fineness_trouble(seen, limits.fineness.get(role)),
        *_fibre_troubles(seen, limits),
        _colour_trouble(seen, role, limits),
        Trouble.BARRED if all_barred(seen, limits) else None,
    ]
    return [trouble for trouble in dict.fromkeys(found) if trouble is not None]


def all_barred(seen: Seen, limits: Limits) -> bool:
    """Whether none of the lot's skeins may be taken."""
    return bool(limits.barred) and all(s.number in limits.barred for s in seen.lot.skeins)


def _fineness_trouble(seen: Seen, span: tuple[float, float] | None) -> Trouble | None:
    if span is None:
        return None
    put_up = known_put_up(seen.lot)
    if put_up is None:
        return Trouble.NO_FINENESS
    return None if span[0] <= put_up.m_per_100g <= span[1] else Trouble.WRONG_FINENESS


def _fibre_troubles(seen: Seen, limits: Limits) -> list[Trouble | None]:
    lot = seen.lot.lot
    found: list[Trouble | None] = []
    if limits.without:
        made_of = content(lot.fibre)
        unwanted = limits.without & made_of.names
        found.append(Trouble.WRONG_FIBRE if unwanted else _unless(made_of.whole))
    if limits.wash is Wash.HOT:
        bears = bears_hot_wash(lot.fibre, lot.care)
        found.append(Trouble.NOT_FOR_HEAT if bears is False else _unless(bears is True))
    if limits.wash is Wash.TOGETHER:
        found.append(_unless(felts(lot.fibre, lot.care) is not None))
    return found


def _unless(known: bool) -> Trouble | None:
    return None if known else Trouble.NO_FIBRE


def _colour_trouble(seen: Seen, role: str, limits: Limits) -> Trouble | None:
    wanted, unwanted = limits.wanted.get(role, ()), limits.unwanted.get(role, ())
    answers = [is_called(seen, named) for named in wanted]
    if wanted and True not in answers:
        return Trouble.NO_COLOUR if None in answers else Trouble.WRONG_COLOUR
    against = [is_called(seen, named) for named in unwanted]
    if True in against:
        return Trouble.WRONG_COLOUR
    return Trouble.NO_COLOUR if None in against else None


def is_called(seen: Seen, named: Named) -> bool | None:
    """Whether any colour of the lot goes by that word: by its band, its family or its value.

    None where the band does not say it and no colour is known.
    """
    if f" {named.word} " in f" {_plain(seen.lot.lot.colour)} ":
        return True
    if named.family:
        return any(family(shade) == named.word for shade in seen.shades) if seen.shades else None
    if named.near is None:
        return False
    near = named.near
    if not seen.shades:
        return None
    return any(ciede2000(shade, near) <= CALLED_WITHIN for shade in seen.shades)


def _plain(words: str) -> str:
    return " ".join(re.findall(r"\w+", words.casefold())).replace("gray", "grey")
