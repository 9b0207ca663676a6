"""What is left of the opened skeins of a line."""

from __future__ import annotations

from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.measures import written
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.parsing.label.amounts import same_kind
from stash.parsing.label.draft import Draft
from stash.parsing.label.holding import (
    ALIKE,
    Holding,
    ShareOfWhat,
    alike,
    amount_like,
    is_put_up,
    size_of,
    times_share,
)
from stash.parsing.label.span import Amount, Held, Kind, Part, Span

#: What may be typed instead, where an amount may be of one skein or beside them all.
_MORE, _AND_MORE = "plus {} of another", "{} plus {} of another"
_ONE_OF_THEM, _ONE_WITH = "one of them {}", "one of them with {} left"
#: How a weight with its core is kept in the yarn's note.
_WITH_CORE = "{} with its core of {}"


# ---------------------------------------------------------------- what is left
def settle_tares(draft: Draft, holding: Holding) -> None:
    """A core or a cone is taken off; a tool still in a reading makes it rough."""
    tare = next(iter(draft.values(Kind.TARE)), None)
    if tare is not None:
        draft.learn(Note("read_tare", tare=tare), tare=tare)
    gross = draft.of(Kind.GROSS)
    if gross and tare is None and any(s.value.amount for s in draft.of(Kind.LEFT)):
        draft.kept.append(draft.words(gross[0]))  # the net weight is said as well
    elif gross:
        weight, tool = gross[0].value
        _take_gross(draft, holding, (weight, tool, draft.words(gross[0])), tare)
    elif tare is not None and holding.mass is not None and not draft.of(Kind.LEFT):
        if tare >= holding.mass:
            raise Unreadable(draft.text.plain, "core_outweighs_all")
        net = holding.mass - tare
        draft.kept.append(_WITH_CORE.format(holding.mass, tare))
        if holding.length is None:
            holding.left, holding.mass = net, None
        else:
            holding.mass = net


def _take_gross(
    draft: Draft, holding: Holding, reading: tuple[Mass, str, str], tare: Mass | None
) -> None:  # fmt: skip
    weight, tool, words = reading
    draft.kept.append(words)
    if tare is not None and tare < weight:
        holding.left = weight - tare
        return
    holding.left, holding.about = weight, True
    draft.doubt("gross_weight", gross=weight, tool=tool)


def settle_left(draft: Draft, holding: Holding) -> None:
    """What is left of the one skein that is opened."""
    spans = draft.of(Kind.LEFT)
    if not spans:
        return
    amounts = [s for s in spans if s.value.amount is not None]
    chosen = amounts[0] if amounts else spans[0]
    for other in spans:
        if other is not chosen and amounts and other.value.amount is not None:
            _refuse_two(draft, chosen, other)
        elif other is not chosen:
            draft.kept.append(draft.words(other))
    held: Held = chosen.value
    if held.share is not None:
        set_share(draft, holding, held, draft.words(chosen))
    else:
        _set_amount(draft, holding, held, chosen)


def _refuse_two(draft: Draft, one: Span, other: Span) -> None:
    """Two amounts that are left, of one kind and not the same, are asked about."""
    amounts = one.value.amount, other.value.amount
    if same_kind(*amounts) and not alike(*map(size_of, amounts)):
        raise draft.question([one, other], [draft.words(one), draft.words(other)])


def _set_amount(draft: Draft, holding: Holding, held: Held, span: Span) -> None:
    assert held.amount is not None
    tare = draft.facts.tare
    amount = held.amount
    if tare is not None and isinstance(amount, Mass) and not held.used:
        amount = amount - tare if tare < amount else amount
    full = holding.full(amount)
    if held.used:
        if full is None or size_of(full) <= size_of(amount):
            raise Unreadable(draft.words(span), "used_of_unknown")
        amount = amount_like(full, size_of(full) - size_of(amount))
    if full is not None and size_of(amount) > size_of(full) * (1 + ALIKE):
        _more_than_full(draft, holding, amount, span)
        return
    if holding.count > 1:
        raise _part_beside(draft, amount, span)
    holding.left, holding.about = amount, holding.about or held.about


def _more_than_full(draft: Draft, holding: Holding, amount: Amount, span: Span) -> None:
    """More is left than one skein holds: of several, it is what is left of all of them."""
    full = holding.full(amount)
    assert full is not None
    whole, rest = divmod(size_of(amount), size_of(full))
    if holding.count > 1 and whole + bool(rest) == holding.count:
        holding.count = whole
        holding.parts = (amount_like(full, rest),) if rest else ()
        return
    unit = "g" if isinstance(amount, Mass) else "m"
    more = written.show(amount_like(full, rest), unit)
    skeins = "skein" if whole == 1 and rest else "skeins"
    full_ones = f"{whole} full {skeins}"
    readings = [_AND_MORE.format(full_ones, more) if rest else full_ones]
    readings.append(f"{written.show(full, unit)} left")
    raise Ambiguous(draft.words(span), readings)


def _part_beside(draft: Draft, amount: Amount, span: Span) -> Ambiguous:
    """So much is left of one of several, or beside them all."""
    left = written.show(amount, "g" if isinstance(amount, Mass) else "m")
    return Ambiguous(draft.words(span), [_MORE.format(left), _ONE_WITH.format(left)])


def set_share(draft: Draft, holding: Holding, held: Held, words: str) -> None:
    """A share of a skein becomes an amount, once it is known what a full one holds."""
    assert held.share is not None
    if holding.count > 1:
        raise Ambiguous(words, [_ONE_OF_THEM.format(words), _MORE.format(words)])
    full = holding.full()
    if full is None:
        raise ShareOfWhat(words, "share_of_unknown")
    spans = draft.of(Kind.FULL)
    sure = any(s.value.each for s in spans) or len(spans) != 1
    if isinstance(full, Mass) and holding.length is None and not sure and not is_put_up(full):
        typed = spans[0].value.words
        raise Ambiguous(draft.words(spans[0]), [f"{typed} left", f"{typed} each"])
    holding.left, holding.about = times_share(full, held.share), True
    draft.kept.append(words)
    draft.doubt("guessed_share", words=words)


def settle_parts(draft: Draft, holding: Holding, count: int | None) -> None:
    """Opened balls beside whole ones, or among those that were counted."""
    parts: list[Amount] = []
    for span in draft.of(Kind.PART):
        if span.value == "bit" and holding.full() is not None:
            bit = Part(Held(share=Fraction(1, 8), about=True), within=False)
            parts.append(_part_amount(draft, holding, bit, draft.words(span)))
            continue
        if span.value == "bit":
            draft.doubt("uncounted_bit")
            draft.kept.append(draft.words(span))
            continue
        part: Part = span.value
        if part.within and not any(c.whole for c in draft.values(Kind.COUNT) if c.number == count):
            if count is None or holding.count <= part.times - 1:
                raise Unreadable(draft.text.plain, "opened_of_how_many")
            holding.count -= part.times
        parts += [_part_amount(draft, holding, part, draft.words(span))] * part.times
    holding.parts = (*holding.parts, *parts)
    if holding.count == 0 and holding.parts:
        holding.count, holding.left, holding.parts = 1, holding.parts[0], holding.parts[1:]


def _part_amount(draft: Draft, holding: Holding, part: Part, words: str) -> Amount:
    held = part.held
    if held is not None and held.amount is not None and not held.used:
        full = holding.full(held.amount)
        if full is not None and size_of(held.amount) > size_of(full) * (1 + ALIKE):
            raise Unreadable(words, "left_more_than_full")
        return held.amount
    full = holding.full(held.amount if held else None)
    if full is None:
        raise ShareOfWhat(words, "part_of_unknown")
    if held is not None and held.amount is not None:
        if size_of(held.amount) >= size_of(full):
            raise Unreadable(words, "used_more_than_full")
        return amount_like(full, size_of(full) - size_of(held.amount))
    holding.about = True
    share = held.share if held and held.share is not None else Fraction(1, 2)
    draft.doubt("guessed_share", words=words)
    draft.kept.append(words)
    return times_share(full, share)


def settle_opened(draft: Draft, holding: Holding) -> None:
    """A word of being opened forbids whole: an amount with its doubt, or a question."""
    spans = [s for s in draft.of(Kind.OPENED) if s.value]
    if not spans or holding.left is not None or holding.parts:
        return
    words = draft.words(spans[0])
    alone = (holding.mass is None) != (holding.length is None)
    remnant = any(
        w in s.value for s in spans for w in ("left", "scrap", "remnant", "oddment", "odds", "rest")
    )
    if remnant and alone and holding.count == 1:
        holding.left = holding.full()
        holding.mass = holding.length = None
        return
    raise Unreadable(words, "opened_without_amount")
