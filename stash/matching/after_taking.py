"""What a shelf looks like once yarn of it is taken: only lots that changed are looked at again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from stash.matching.answer.proposal import Take
from stash.matching.lots.lot_view import Seen, see_lot
from stash.matching.near_misses.near_misses import Looked
from stash.matching.rules.fits import Asked
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import Unfit, look, weigh
from stash.matching.search.candidate_list import Line
from stash.stock.holding import HeldSkein


def left_by(takes: Sequence[Take], looked: Sequence[Looked]) -> dict[int, Seen]:
    """The lots these takes come from, as they are once their yarn is set aside; by lot number."""
    seen = {lot.id: lot for at in looked for lot in at.good.seen}
    return {lot: less(seen[lot], takes) for lot in sorted({take.lot_id for take in takes})}


def less(seen: Seen, takes: Sequence[Take]) -> Seen:
    """A lot once these takes of it are promised."""
    skeins = tuple(_promised(skein, takes) for skein in seen.lot.skeins)
    return see_lot(replace(seen.lot, skeins=skeins), seen.assume, seen.scale, seen.around)


def _promised(skein: HeldSkein, takes: Sequence[Take]) -> HeldSkein:
    """A skein once these takes of it are promised; all of it where its grams are not known."""
    for take in takes:
        if take.number == skein.number:
            pair = skein.pair.put_up
            mass = min(pair.mass_covering(take.length), skein.free) if pair else skein.free
            skein = replace(skein, promised=skein.promised + mass)
    return skein


def looked_again(at: Looked, changed: Mapping[int, Seen]) -> Looked:
    """The same role with the lots that changed looked at once more."""
    line = at.good
    lots = [(c, s) for c, s in zip(line.least, line.seen, strict=True) if s.id not in changed]
    return replace(at, good=line_of([*lots, *good_of(changed.values(), at.ask)], at.ask))


def good_of(lots: Iterable[Seen], ask: Asked) -> Iterator[tuple[int, Seen]]:
    """The lots that fill the role, each with the least it can cost."""
    for lot in lots:
        found = look(lot, ask)
        if not isinstance(found, Unfit):
            yield found, lot


def line_of(lots: Iterable[tuple[int, Seen]], ask: Asked) -> Line[Candidate]:
    """These lots in order, to be weighed when their turn comes."""
    return Line(lots, partial(weigh, ask=ask))
