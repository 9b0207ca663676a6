"""How many skeins a line brings, what a full one holds, and what is left of those opened."""

from __future__ import annotations

from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.parsing.label.draft import Draft
from stash.parsing.label.full import settle_full, settle_totals
from stash.parsing.label.holding import Holding, Impossible
from stash.parsing.label.how_many import settle_count
from stash.parsing.label.opened import (
    set_share,
    settle_left,
    settle_opened,
    settle_parts,
    settle_tares,
)
from stash.parsing.label.span import Held, Kind

#: Ranking that ounces on a band stand for, rounded.
_ROUND_GRAMS = (25, 50, 100, 150, 200, 250, 300, 400, 500, 1000)


#: No skein holds more (our choice: the largest cones sold are about half of it).
MOST_MASS, MOST_LENGTH = grams(5000), metres(20_000)


#: Metres in 100 g beyond the thickest roving and the finest thread (our choice).
LEAST_FINENESS, MOST_FINENESS = 3, 12_000


def settle_holding(draft: Draft) -> Holding:
    """Everything about amounts, or the question that is left."""
    holding = Holding()
    count, share = settle_count(draft)
    holding.counted = count is not None
    settle_full(draft, holding, count)
    settle_totals(draft, holding, count)
    count = holding.count if holding.count > 1 else count
    holding.count = count or 1
    settle_tares(draft, holding)
    if share is not None:
        set_share(draft, holding, Held(share=share, about=True), "part")
    settle_left(draft, holding)
    settle_parts(draft, holding, count)
    settle_opened(draft, holding)
    _finenesses(draft, holding)
    _possible(holding)
    _understood(draft, holding)
    return holding


# ---------------------------------------------------------------- the rest
def _finenesses(draft: Draft, holding: Holding) -> None:
    """With a weight a fineness gives the length; alone it says nothing of how much there is."""
    for span in draft.of(Kind.FINENESS):
        pair: PutUp = span.value
        what = (
            "yarn count"
            if span.plain and not any(w in span.plain.lower() for w in ("/g", "ypp", "per", "auf"))
            else "fineness"
        )
        draft.keep(what, draft.words(span))
        mass = holding.mass or (holding.left if isinstance(holding.left, Mass) else None)
        if mass is not None and holding.length is None:
            if holding.mass is not None:
                holding.length = pair.length_of(mass)
                draft.learn(Note("read_length_by_fineness", amount=holding.length))
        elif holding.length is not None and holding.mass is None:
            holding.mass = pair.mass_of(holding.length)
            draft.learn(Note("read_weight_by_fineness", amount=holding.mass))
        elif mass is None:
            draft.doubt("fineness_without_amount")


def _possible(holding: Holding) -> None:
    masses = [holding.mass, holding.left, *holding.parts]
    if any(isinstance(m, Mass) and m > MOST_MASS for m in masses):
        raise Impossible
    if holding.mass and holding.length:
        fineness = PutUp(holding.mass, holding.length).m_per_100g
        if not LEAST_FINENESS <= fineness <= MOST_FINENESS:
            raise Impossible
    lengths = [holding.length, holding.left, *holding.parts]
    if any(isinstance(m, Length) and m > MOST_LENGTH for m in lengths):
        raise Impossible


def _understood(draft: Draft, holding: Holding) -> None:
    """Weight, length, count and what is left, as they are understood."""
    about = holding.about and holding.left is None and not holding.parts
    known = {read.kind for read in draft.understood}
    typed = [s.value for s in draft.of(Kind.FULL, Kind.TOTAL)]
    for kind, amount in (("read_weight", holding.mass), ("read_length", holding.length)):
        if amount is None or f"{kind}_by_fineness" in known:
            continue
        usual = "g" if isinstance(amount, Mass) else "m"
        unit = next((t.unit for t in typed if t.value == amount), usual)
        draft.learn(Note(kind, amount=amount, unit=unit, about=about))
        if isinstance(amount, Mass) and unit == "oz":
            _note_ounces(draft, amount)
    if draft.of(Kind.MEASURED):
        draft.learn(Note("read_measured_pair"), measured=True)
    total = holding.count + len(holding.parts)
    if total > 1:
        left = () if holding.left is None or not holding.parts else (holding.left,)
        opened = (*left, *holding.parts)
        draft.learn(Note("read_count", count=total, opened=opened, about=holding.about))
    elif holding.left is not None:
        draft.learn(Note("read_left", amount=holding.left, about=holding.about))


def _note_ounces(draft: Draft, value: Mass) -> None:
    """Bands round metric ranking to ounces; what was typed is kept and the likely figure said."""
    likely = next((g for g in _ROUND_GRAMS if abs(value.mg / 1000 - g) < g / 100), None)
    if likely:
        draft.doubt("rounded_ounces", mass=value, likely_g=likely)
