"""What a full skein of a line holds, alone or out of a total."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from stash.errors import Ambiguous, Unreadable
from stash.measures import written
from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.parsing import quantities
from stash.parsing.label.amounts import TypedAmount
from stash.parsing.label.draft import Draft
from stash.parsing.label.holding import Holding, alike, amount_like, is_put_up, size_of
from stash.parsing.label.span import Amount, Count, Kind, Span

#: What may be typed for two weights, where one is what is left.
_LEFT_OF = "{} left of {}"


# ---------------------------------------------------------------- a full skein
def settle_full(draft: Draft, holding: Holding, count: int | None) -> None:
    """What a full skein weighs and measures, or the question which of two figures it is."""
    totals = _joined_to_totals(draft)
    spans = [s for s in draft.of(Kind.FULL) if s not in totals]
    holding.about = any(s.value.about for s in spans)
    for kind in (Mass, Length):
        alike = [s for s in spans if isinstance(s.value.value, kind)]
        if not alike:
            continue
        amount = _one_of(draft, alike, count)
        if isinstance(amount, Mass):
            holding.mass = amount
        else:
            holding.length = amount
        if not amount:
            measure = "weight" if kind is Mass else "length"
            raise Unreadable(draft.text.plain, "full_skein_of_nothing", measure=measure)
    _of_a_pack(draft, holding, count, spans)


def _one_of(draft: Draft, spans: Sequence[Span], count: int | None) -> Amount:
    """The one amount that figures of a kind stand for; a total beside it is no other."""
    found = [quantities.Found(s.value.value, s.value.unit, s.first, s.end) for s in spans]
    try:
        return quantities.one_of(found, draft.text.plain)
    except Ambiguous:
        pass
    sizes = sorted({size_of(f.value) for f in found})
    if count and count > 1 and alike(sizes[-1], count * sizes[0]) and len(_groups(sizes)) == 2:
        return next(f.value for f in found if size_of(f.value) == sizes[0])
    raise _which_of_two(draft, spans)


def _groups(sizes: Sequence[int]) -> list[int]:
    """Sizes that differ by more than printed rounding."""
    out: list[int] = []
    for size in sizes:
        if not out or not alike(out[-1], size):
            out.append(size)
    return out


def _which_of_two(draft: Draft, spans: Sequence[Span]) -> Ambiguous:
    ordered = sorted(spans, key=lambda s: size_of(s.value.value))
    small, large = ordered[0].value, ordered[-1].value
    readings = [
        _LEFT_OF.format(small.words, large.words),
        f"{large.words} alone",
        f"{small.words} alone",
    ]
    if isinstance(small.value, Mass) and draft.between(*spans[:2]).strip() == "/":
        number = written.show(large.value, large.unit).split()[0]
        first = spans[0].value.words
        readings = [f"{first}/{number} m", f"{first}/{number} yd", *readings[1:]]
    if draft.of(Kind.COUNT):
        readings = [r for r in readings if " left of " not in r]
    return draft.question(spans, [r.removesuffix(" alone") for r in readings])


def _of_a_pack(draft: Draft, holding: Holding, count: int | None, spans: Sequence[Span]) -> None:
    """One weight beside several balls: of each, unless it is too much for that."""
    counts: list[Count] = draft.values(Kind.COUNT)
    amount = holding.full()
    if not count or count < 2 or amount is None or any(c.bound for c in counts):
        return
    if any(s.value.each for s in spans):
        return
    pack = any(c.pack for c in counts)
    share = _divided(amount, count)
    if not isinstance(amount, Mass):
        if pack and holding.mass is None:
            return
        return
    mass_share = share if isinstance(share, Mass) else None
    assert mass_share is not None
    if any(c.divides for c in counts):
        holding.mass = mass_share
        return
    if amount > grams(500) and is_put_up(mass_share):  # no ball is so heavy: it is of all
        holding.mass = mass_share
        return
    huge = amount >= grams(300) and count >= 3 and is_put_up(mass_share)
    if pack and amount >= grams(150) and mass_share >= grams(10):
        holding.mass = mass_share
        if holding.length is not None and holding.length >= metres(60 * count):
            holding.length = _share_of_length(holding.length, count)
        draft.doubt("weight_of_a_pack", pack=amount, each=mass_share)
    elif huge or (pack and is_put_up(mass_share) and amount > grams(50)):
        words = draft.words(next(s for s in spans if isinstance(s.value.value, Mass)))
        raise Ambiguous(words, [f"{words} each", f"{words} in all"])


def _share_of_length(length: Length, count: int) -> Length:
    return Length(round(length.um / count))


def _divided(amount: Amount, count: int) -> Amount:
    part = round(size_of(amount) / count)
    return Mass(part) if isinstance(amount, Mass) else Length(part)


def _joined_to_totals(draft: Draft) -> list[Span]:
    """Amounts joined by a slash to a total are of all balls too: `400 g/1600 m in all`."""
    spans = draft.of(Kind.FULL, Kind.TOTAL)
    out = []
    for one, other in pairwise(spans):
        if {one.kind, other.kind} == {Kind.FULL, Kind.TOTAL} and draft.between(
            one, other
        ).strip() in ("/", "="):
            out.append(one if one.kind is Kind.FULL else other)
    return out


def settle_totals(draft: Draft, holding: Holding, count: int | None) -> None:
    """A total is divided over the balls, or says how many there are; it is never multiplied."""
    spans = [*draft.of(Kind.TOTAL), *_joined_to_totals(draft)]
    holding.count = count or 1
    for span in spans:
        total: TypedAmount = span.value
        full = holding.full(total.value)
        if full is None:
            each = _divided(total.value, count or 1)
            if isinstance(each, Mass):
                holding.mass = each
            else:
                holding.length = each
            holding.about = holding.about or total.about
            continue
        _total_beside_full(draft, holding, count, (span, full))


def _total_beside_full(
    draft: Draft, holding: Holding, count: int | None, found: tuple[Span, Amount]
) -> None:  # fmt: skip
    span, full = found
    total, size = size_of(span.value.value), size_of(full)
    if count and alike(total, count * size):
        return
    whole, rest = divmod(total, size)
    if alike(total, round(total / size) * size):
        whole, rest = round(total / size), 0
    if count in (None, whole) and not rest and whole:
        holding.count = whole
    elif count in (None, whole + 1) and whole and rest:
        holding.count = whole
        holding.parts = (amount_like(full, rest),)
    elif count in (None, 1) and not whole:
        holding.left = span.value.value
    else:
        words = draft.words(span)
        unit = "g" if isinstance(full, Mass) else "m"
        each = written.show(full, unit)
        raise Ambiguous(words, [f"{each} each", f"{span.value.words} left"])
