"""What keeps a lot out of a role, in words and figures, and the changes that would let it in."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from stash.matching.amounts import counted, m_and_yd
from stash.matching.answer.fix import Kind, Way, in_order, in_words
from stash.matching.lots.lot_view import Seen, mass_of_um, put_up_of
from stash.matching.near_misses.limit_words import WAYS, WHY
from stash.matching.near_misses.second_lot import second_lot
from stash.matching.question.wish import Contrast
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.fits import Asked, without_length
from stash.matching.scoring.capacity import holds_expected, lower_margin, skeins_to_add
from stash.matching.scoring.coverage import Unfit
from stash.measures.length import Length
from stash.measures.rounding import two_figures
from stash.requirements.yarn.need import Source
from stash.requirements.yarn.printed import whole_m_and_yd
from stash.stock.picking import Supply, shortage_um


def short_g(unfit: Unfit, ask: Asked) -> float | None:
    """What is missing, in grams of this lot, else of the yarn the piece was planned in."""
    mass = mass_of_um(unfit.seen, unfit.short_um)
    if mass is not None:
        return mass.g
    per_100g = ask.role.m_per_100g
    return 100 * Length(unfit.short_um).m / per_100g if per_100g else None


def short_rows(unfit: Unfit, ask: Asked) -> int | None:
    """What is missing, in whole rows of the piece, each at what is to be set aside for it."""
    if not ask.role.row_m:
        return None
    return math.ceil(Length(unfit.short_um).m / (ask.role.row_m * (1 + ask.role.margin)) - 1e-9)


def why_out(unfit: Unfit, ask: Asked) -> str:
    """Everything that is in the way: `A: L3 is short by 12 m (13 yd), 5.2 g or 3 rows`."""
    named = f"{ask.role.role}: {unfit.seen.lot.lot.ref}"
    return "; ".join(f"{named} {_trouble_words(t, unfit, ask)}" for t in unfit.troubles)


def _trouble_words(trouble: Trouble, unfit: Unfit, ask: Asked) -> str:
    if trouble is Trouble.SHORT:
        promised = _promised_um(unfit.seen, ask)
        more = f"; {m_and_yd(promised)} more is promised" if promised else ""
        return f"{_short_of(unfit, ask)} {_shortage(unfit, ask)}{more}"
    if trouble in WHY:
        return WHY[trouble](unfit.seen, ask)
    return {
        Trouble.NO_LENGTH: "has no length, only a weight",
        Trouble.NO_CLASS: "has no thickness class and no metres per 100 g to tell it by",
        Trouble.NO_COLOUR: f"has no known colour, and {_colour_asked(ask)} asks for one",
        Trouble.WRONG_CLASS: f"is {unfit.seen.thickness}, not the class asked for",
    }[trouble]


def _short_of(unfit: Unfit, ask: Asked) -> str:
    """Short of what: of all, or only of the margin on top of what is expected."""
    if not holds_expected(unfit.seen, ask):
        return "is short by"
    expected = whole_m_and_yd(ask.role.estimate.expected_m)
    if ask.role.source is Source.STATED:
        return (
            f"holds what the pattern asks for: its own {expected} lies between expected and set "
            "aside, and the margin alone is short by"
        )
    return f"holds the {expected} expected, the margin alone is short by"


def _colour_asked(ask: Asked) -> str:
    wished = ask.wish.contrast_or_any
    if wished is Contrast.ANY:
        return "your wish"
    return f"{wished} contrast" if isinstance(wished, Contrast) else f"a gap of {wished}"


def _shortage(unfit: Unfit, ask: Asked) -> str:
    """What is missing by length, on the scale, and in rows where the piece is known by its rows."""
    grams, rows = short_g(unfit, ask), short_rows(unfit, ask)
    beside = [
        *([f"{two_figures(grams):g} g"] if grams is not None else []),
        *([counted(rows, "row")] if rows is not None else []),
    ]
    return f"{m_and_yd(unfit.short_um)}{', ' if beside else ''}{' or '.join(beside)}"


def way_out(unfit: Unfit, ask: Asked) -> str:
    """The changes that would let the lot in, each worked out for it."""
    return "; and ".join(_mend(trouble, unfit, ask) for trouble in unfit.troubles)


def _mend(trouble: Trouble, unfit: Unfit, ask: Asked) -> str:
    if trouble is Trouble.SHORT:
        return in_words(_alone(unfit, ask))
    if trouble is Trouble.NO_LENGTH:
        usual = unfit.seen.thickness is not None and not ask.wish.assume
        assume = f", or assume the usual length of {unfit.seen.thickness}" if usual else ""
        return f"give the band or measure a metre{assume}"
    if trouble in WAYS:
        return WAYS[trouble]
    if trouble is Trouble.NO_COLOUR and ask.wish.contrast_or_any is Contrast.ANY:
        return "give its colour with `stash change`"
    return {
        Trouble.NO_CLASS: "give the class, the band, or measure a metre",
        Trouble.NO_COLOUR: "give its colour, or ask for any contrast and look in daylight",
        Trouble.WRONG_CLASS: "allow a wider class tolerance, or choose another lot",
    }[trouble]


def _alone(unfit: Unfit, ask: Asked) -> tuple[Way, ...]:
    margin = lower_margin([(unfit.seen, ask)])
    found = in_order([*ways_with_lots([(unfit, ask)]), *([margin] if margin else [])])
    return found or (covered([(unfit, ask)]),)


def ways_with_lots(short: Sequence[tuple[Unfit, Asked]]) -> Iterator[Way]:
    """What can be done with the lots that are short so that the piece stays as it is.

    Of several short ones together, only what helps each of them.
    """
    for kind, mend in _WITH_LOTS:
        words = [mend(unfit.seen, ask) for unfit, ask in short]
        if all(words):
            yield Way(kind, " and ".join(words))


def covered(short: Sequence[tuple[Unfit, Asked]]) -> Way:
    """Where nothing helps: how much of the piece is there."""
    return Way(Kind.COVERS, " and ".join(_smaller(unfit, ask) for unfit, ask in short))


def _other_skeins(seen: Seen, ask: Asked) -> str:
    tied = ask.fixed is not None and ask.fixed.skeins
    covers = tied and not shortage_um(seen.pieces, ask.wanted)
    return f"let other skeins of {seen.lot.lot.ref} help" if covers else ""


def _remnants_too(seen: Seen, ask: Asked) -> str:
    covers = ask.fixed is None and not shortage_um(seen.pieces, ask.wanted)
    ref, role = seen.lot.lot.ref, ask.role.role
    return f"take its remnants too, with --with {role}={ref}" if covers else ""


def _barred_too(seen: Seen, ask: Asked) -> str:
    """The skeins that were kept out and would make it do."""
    barred = ask.wish.limits.barred
    kept_out = [s.number for s in seen.lot.skeins if s.number in barred]
    if not kept_out or shortage_um(_as_if_let_in(seen, ask), ask.wanted):
        return ""
    return f"let skein {kept_out[0]} in, which {barred[kept_out[0]]}"


def _as_if_let_in(seen: Seen, ask: Asked) -> tuple[Supply, ...]:
    limits = replace(ask.wish.limits, barred={})
    return replace(ask, wish=replace(ask.wish, limits=limits)).of(seen.pieces)


def _release(seen: Seen, ask: Asked) -> str:
    promised = _promised_um(seen, ask)
    if not promised or shortage_um(_as_if_free(seen, ask), ask.wanted):
        return ""
    return f"release what is promised, {m_and_yd(promised)} of {seen.lot.lot.ref}"


def _promised_um(seen: Seen, ask: Asked) -> int:
    """How much longer the lot's pieces would be without the promises on them."""
    free = {piece.number: piece.um for piece in ask.of(seen.pieces)}
    return sum(piece.um - free[piece.number] for piece in _as_if_free(seen, ask))


def _as_if_free(seen: Seen, ask: Asked) -> tuple[Supply, ...]:
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
    count = skeins_to_add(ask.of(seen.pieces), put_up.length.um, ask.wanted)
    if count is None:
        return ""
    lot = seen.lot.lot
    return f"{counted(count, 'more skein')} of {lot.ref} ({put_up}), {lot.lot_words}"


def _measure(seen: Seen, ask: Asked) -> str:
    unknown = without_length(seen, ask)
    if not unknown:
        return ""
    numbers = ", ".join(str(number) for number in unknown)
    return f"give the band of skein {numbers} or measure a metre, its length is not known"


#: Each asks one lot in one role for what would do, and gets nothing where it would not.
_WITH_LOTS: tuple[tuple[Kind, Callable[[Seen, Asked], str]], ...] = (
    (Kind.LET_IN, _other_skeins),
    (Kind.LET_IN, _remnants_too),
    (Kind.LET_IN, _barred_too),
    (Kind.LET_IN, _measure),
    (Kind.RELEASE, _release),
    (Kind.SECOND_LOT, second_lot),
    (Kind.SKEINS, _more_skeins),
)


def _smaller(unfit: Unfit, ask: Asked) -> str:
    covered = ask.wanted.um - unfit.short_um
    return (
        f"a smaller piece: it covers {m_and_yd(covered)} of {ask.role.role}"
        if covered
        else "another lot"
    )
