"""How many skeins the spans of a line count."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.measures.mass import Mass
from stash.parsing import numbers
from stash.parsing.label.cover import Cover
from stash.parsing.label.draft import Draft
from stash.parsing.label.span import Held, Kind, Part, Span
from stash.parsing.label.vocabulary import LEFT

#: So many balls are still counted by a bare figure before "left"; more may be grams (our choice).
MANY_LEFT = 9


# ---------------------------------------------------------------- how many
def settle_count(draft: Draft) -> tuple[int | None, Fraction | None]:
    """The number of skeins, and a share of one where it is less than one."""
    spans = draft.of(Kind.COUNT)
    within = [s.value for s in draft.of(Kind.PART) if isinstance(s.value, Part) and s.value.within]
    _grams_or_balls(draft, spans)
    plain = [s for s in spans if not s.value.whole] or spans
    full = [s.value.number for s in spans if s.value.whole and s not in plain]
    numbers = {span.value.number for span in plain}
    if len(numbers) > 1:
        numbers = _packs_of(draft, plain) or numbers
    if len(numbers) > 1:
        readings = [f"{n} {'skein' if n == 1 else 'skeins'}" for n in sorted(numbers)]
        raise draft.question(plain, readings)
    number = next(iter(numbers), None)
    if number is None and full:
        number = sum(full)
    elif number is not None and full and number != sum(full) + sum(p.times for p in within):
        number = number + sum(full) if number == sum(p.times for p in within) else number
    number = _less_used(draft, number)
    prices = draft.values(Kind.PRICE)
    if number is None and not any(price.of == "each" for price in prices):
        number = next((Fraction(price.count) for price in prices if price.of == "deal"), None)
    if number is None:
        return None, None
    if not number:
        raise Unreadable(draft.text.plain, "skeins_below_one")
    whole = int(number)
    if not whole:
        return None, number
    if number != whole:
        draft.cover = _with_part(draft, Part(Held(share=number - whole, about=True), within=False))
    return whole, None


def _grams_or_balls(draft: Draft, spans: Sequence[Span]) -> None:
    """`20 left` of a 50 g ball: grams as likely as balls."""
    for span in spans:
        number, words = span.value.number, draft.words(span)
        bare = re.fullmatch(rf"{numbers.PATTERN}\s+(?:still\s+)?{LEFT}", words, re.IGNORECASE)
        full = [s.value.value for s in draft.of(Kind.FULL)]
        if bare and number > MANY_LEFT and any(isinstance(f, Mass) for f in full):
            raise Ambiguous(words, [f"{number} g left", f"{number} skeins"])


def _with_part(draft: Draft, part: Part) -> Cover:
    """The cover with an opened ball beside the whole ones."""
    last = draft.of(Kind.COUNT)[-1]
    more = Span(last.first, last.end, Kind.PART, 0.0, part, draft.words(last))
    return replace(draft.cover, spans=(*draft.cover.spans, more))


def _packs_of(draft: Draft, spans: Sequence[Span]) -> set[Fraction] | None:
    """`2 packs of 5`: so many times as many; a count said twice over is said once."""
    packs = [s.value.number for s in spans if s.value.pack]
    others = [s.value.number for s in spans if not s.value.pack]
    if len(packs) == 1 and others and set(others) == {packs[0]}:
        return {packs[0]}
    return None


def _less_used(draft: Draft, number: Fraction | None) -> Fraction | None:
    """`bought 8, used 3` leaves five; `bought 8, 5 left` says so itself."""
    spans = draft.of(Kind.BOUGHT_COUNT)
    had = [s.value for s in spans if s.value > 0]
    used = [-s.value for s in spans if s.value < 0]
    if number is None and had:
        number = Fraction(had[0])
    elif not used or (had and number is not None and number <= had[0]):
        return number
    if used and number is not None:
        if used[0] >= number:
            raise Unreadable(draft.text.plain, "all_is_used")
        number -= used[0]
    return number
