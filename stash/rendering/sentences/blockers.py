"""Sentences about what keeps a lot out of a role, and lots from each other."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast, Wished
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.contrast import gap_asked
from stash.measures.length import Length
from stash.measures.note import Note
from stash.rendering.amounts import colour_name, counted
from stash.rendering.figures import Figure, down, near, of_grams, of_metres, up
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import joined, lot_named, thickness_words
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot


def _of_lot(words: str | Callable[..., str]) -> Callable[..., str]:
    """The words with the role and the lot before them: `A: L3 (rust) is quarantined`."""

    def named(*, role: str, lot: Lot, **facts: object) -> str:
        said = words if isinstance(words, str) else words(**facts)
        return f"{role}: {lot_named(lot)} {said}"

    return named


def _short(
    has: Length,
    needs: Length,
    short_g: float | None,
    short_rows: int | None,
    promised: Length | None = None,
    **of: Any,
) -> str:
    """What is there and what is missing of what is to be set aside."""
    there, as_well = down(has), []
    if short_g is not None:
        as_well.append(str(up(of_grams(short_g))))
    if short_rows is not None:
        as_well.append(counted(short_rows, "row"))
    missing = f"{up(needs) - there} short" + (f" ({' or '.join(as_well)})" if as_well else "")
    return f"{_there(there, **of)} {missing}{aside_for_others(promised)}"


def aside_for_others(promised: Length | None) -> str:
    """What of a lot is set aside for other items, where so much is that it shows as some."""
    aside = down(promised) if promised else None
    return f"; {aside} more is set aside for other items" if aside else ""


def _there(
    there: Figure,
    short: Length,
    expected: Length | None = None,
    printed: bool = False,
) -> str:
    """What is there: too little, or what is expected and only the margin is missing."""
    if expected is None:
        return f"has {there},"
    if printed:
        return f"has the {near(expected)} you gave, but for the whole margin it is"
    return f"has the {near(expected)} expected, but for the whole margin it is"


def _no_colour(contrast: Wished) -> str:
    if contrast is Contrast.ANY:
        return hers("has no known colour")
    named = isinstance(contrast, Contrast)
    asked = f"{contrast} contrast" if named else f"a gap of {contrast} in lightness"
    return f"{hers('has no known colour')}, so {asked} cannot be checked"


def _no_fibre(fibre: str) -> str:
    named = f" ({fibre})" if fibre else ""
    return hers("has fibres that are not all known" if fibre else "has no known fibre") + named


def _wrong_thickness(thickness: Thickness) -> str:
    return f"is {thickness_words(thickness)}, not what you asked for"


def _wrong_fineness(m_per_100g: float | None, least: float, most: float) -> str:
    asked = f"outside {near(of_metres(least)).number} to {near(of_metres(most))} per 100 g"
    if m_per_100g is None:
        return f"has no known length, so it may be {asked}"
    return f"has {near(of_metres(m_per_100g)).number}, {asked}"


def _wrong_fibre(fibre: str) -> str:
    return f"has {fibre} in it"


def _wrong_colour(role: str, lot: Lot, wanted: Sequence[str], unwanted: Sequence[str]) -> str:
    asked = [" or ".join(wanted)] if wanted else []
    asked += [f"not {' or '.join(unwanted)}"] if unwanted else []
    return f"{role}: {lot.ref} is {colour_name(lot)}; you asked for {', '.join(asked)}"


def _not_for_heat(fibre: str, care: str) -> str:
    return f"may not take a hot wash ({joined(part for part in (fibre, care) if part)})"


def _barred(whys: Sequence[Note]) -> str:
    return joined(map(sentence, whys))


def _belongs_to(owner: str) -> str:
    return f"belongs to {owner or 'you'}"


_KEPT_OUT = {
    Blocker.WRONG_FINENESS: "too thick or too thin by --per-100g",
    Blocker.WRONG_COLOUR: "of another colour",
    Blocker.WRONG_FIBRE: "left out by --without",
    Blocker.NOT_FOR_HEAT: "not for a hot wash",
    Blocker.BARRED: "left out by --owner or --not-in",
}


def _limits(role: str, lots: Sequence[tuple[Blocker, int]]) -> str:
    kept_out = (f"{counted(count, 'lot')} {hers(_KEPT_OUT[blocker])}" for blocker, count in lots)
    return f"{role}: {', '.join(kept_out)}"


def _no_lot_of_colour(role: str, wanted: Sequence[str]) -> str:
    return f"{role}: none of your yarn is {' or '.join(wanted)}"


def _nothing_beside(roles: Sequence[str]) -> str:
    return f"nothing on the shelf goes with it for {' or '.join(roles)}"


def _classes(classes: Sequence[Thickness | None]) -> str:
    return f"they are {joined(map(str, (one and thickness_words(one) for one in classes)))}"


def _not_one_hue(gap: float) -> str:
    return "they are not of one hue, as tonal asks"


def _wrong_gap(
    gap: float,
    is_now: Contrast | None,
    contrast: Contrast | None,
    least: float,
    most: float | None,
) -> str:
    if contrast is None:
        asked = f"{least:g}{f' to {most:g}' if most is not None else ' or more'}"
        return f"they are {gap:.0f} apart in lightness, you asked for {asked}"
    now = f"their contrast is {is_now}" if is_now else "they are close in lightness"
    if is_now is None and gap >= gap_asked(Contrast.SOFT).least:
        now = hers("some of their colours are further apart than others")
    return f"{now}, you asked for {contrast}"


def _no_such_proposal(which: str, last: int | None, blockers: Sequence[Note]) -> str:
    why = f"the last is {last}" if last else "; ".join(map(sentence, blockers))
    reason = f": {why}" if why else ""
    return f"no set {which} today{reason}; `stash match` shows the sets you have"


SENTENCES: Mapping[str, Words] = {
    "lies_in": "is in {place}",
    "belongs_to": _belongs_to,
    "lot_short": _of_lot(_short),
    "lot_without_length": _of_lot("has a weight but no length"),
    "lot_without_thickness": _of_lot("has no known thickness, and no length to find it by"),
    "lot_without_colour": _of_lot(_no_colour),
    "lot_without_fibre": _of_lot(_no_fibre),
    "lot_without_fineness": _of_lot("has no known length per 100 g to compare"),
    "lot_quarantined": _of_lot("is quarantined"),
    "lot_of_wrong_thickness": _of_lot(_wrong_thickness),
    "lot_of_wrong_fineness": _of_lot(_wrong_fineness),
    "lot_of_wrong_colour": _wrong_colour,
    "lot_of_wrong_fibre": _of_lot(_wrong_fibre),
    "lot_not_for_heat": _of_lot(_not_for_heat),
    "lot_barred": _of_lot(_barred),
    "limits_keep_out": _limits,
    "no_lot_of_colour": _no_lot_of_colour,
    "nothing_beside": _nothing_beside,
    "no_such_yarn": "{role}: no yarn like that on the shelf",
    "one_lot_in_two_roles": "one lot cannot be two colours at once",
    "thicknesses_too_far": _classes,
    "washed_apart": "one may felt where the other is washed",
    "one_may_bleed": "one may bleed into the other",
    "a_colour_not_known": "a colour is not known",
    "not_of_one_hue": _not_one_hue,
    "wrong_gap": _wrong_gap,
    "no_such_proposal": _no_such_proposal,
    "fix_gone": "your shelf has changed, and this is no longer a way to make it fit",
}
