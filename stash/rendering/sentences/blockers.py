"""Sentences about what keeps a lot out of a role, and lots from each other."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast, Wished
from stash.matching.rules.blockers import Blocker
from stash.measures.length import Length
from stash.measures.note import Note
from stash.measures.rounding import two_figures
from stash.rendering.amounts import colour_name, counted
from stash.rendering.figures import near
from stash.rendering.sentences.phrases import (
    joined,
    thickness_words,
)
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot


def _of_lot(words: str | Callable[..., str]) -> Callable[..., str]:
    """The words with the role and the lot before them: `A: L3 is quarantined`."""

    def named(*, role: str, lot: Lot, **facts: object) -> str:
        said = words if isinstance(words, str) else words(**facts)
        return f"{role}: {lot.ref} {said}"

    return named


def _short(
    short: Length,
    short_g: float | None,
    short_rows: int | None,
    promised: Length | None = None,
    **of: Any,
) -> str:
    beside = [
        *([f"{two_figures(short_g):g} g"] if short_g is not None else []),
        *([counted(short_rows, "row")] if short_rows is not None else []),
    ]
    missing = f"{near(short)}{', ' if beside else ''}{' or '.join(beside)}"
    more = f"; {near(promised)} more is promised" if promised else ""
    return f"{_short_of(**of)} {missing}{more}"


def _short_of(expected: Length | None = None, printed: bool = False) -> str:
    """Short of what: of all, or only of the margin on top of what is expected."""
    if expected is None:
        return "is short by"
    figure = near(expected)
    if printed:
        return (
            f"holds what the pattern asks for: its own {figure} lies between expected and set "
            "aside, and the margin alone is short by"
        )
    return f"holds the {figure} expected, the margin alone is short by"


def _no_colour(contrast: Wished) -> str:
    if contrast is Contrast.ANY:
        asked = "your wish"
    else:
        named = isinstance(contrast, Contrast)
        asked = f"{contrast} contrast" if named else f"a gap of {contrast}"
    return f"has no known colour, and {asked} asks for one"


def _no_fibre(fibre: str) -> str:
    return f"has a blend that is not all known ({fibre})" if fibre else "has no known fibre"


def _wrong_thickness(thickness: Thickness) -> str:
    return f"is {thickness_words(thickness)}, not the class asked for"


def _wrong_fineness(m_per_100g: float | None, least: float, most: float) -> str:
    has = f"{m_per_100g:.0f}" if m_per_100g is not None else "no"
    return f"has {has} m to 100 g, outside {least:.0f} to {most:.0f}"


def _wrong_fibre(fibre: str) -> str:
    return f"has {fibre} in it"


def _wrong_colour(role: str, lot: Lot, wanted: Sequence[str], unwanted: Sequence[str]) -> str:
    asked = [f"{' or '.join(wanted)} is asked for"] if wanted else []
    asked += [f"not {' nor '.join(unwanted)}"] if unwanted else []
    return f"{role}: {lot.ref} is {colour_name(lot)}, and {', '.join(asked)}"


def _not_for_heat(fibre: str, care: str) -> str:
    return f"is not one for a hot wash ({joined(part for part in (fibre, care) if part)})"


def _barred(whys: Sequence[Note]) -> str:
    return joined(map(sentence, whys))


def _belongs_to(owner: str) -> str:
    return f"belongs to {owner or 'you'}"


_KEPT_OUT = {
    Blocker.WRONG_FINENESS: "too thick or too thin by --per-100g",
    Blocker.WRONG_COLOUR: "not of the colour",
    Blocker.WRONG_FIBRE: "kept out by --without",
    Blocker.NOT_FOR_HEAT: "not for a hot wash",
    Blocker.BARRED: "kept out by --owner or --not-in",
}


def _limits(role: str, lots: Sequence[tuple[Blocker, int]]) -> str:
    kept_out = (f"{counted(count, 'lot')} {_KEPT_OUT[blocker]}" for blocker, count in lots)
    return f"{role}: {', '.join(kept_out)}"


def _nothing_beside(roles: Sequence[str]) -> str:
    return f"nothing on the shelf fits {' or '.join(roles)} beside it"


def _classes(classes: Sequence[Thickness | None]) -> str:
    return f"they are {joined(map(str, (one and thickness_words(one) for one in classes)))}"


def _not_one_hue(gap: float) -> str:
    return f"they are {gap:.0f} apart in lightness and not of one hue"


def _wrong_gap(gap: float, contrast: Contrast | None, least: float, most: float | None) -> str:
    if contrast is not None:
        asked = f"{contrast} asks for {least:.0f}"
    else:
        asked = f"{least:g}{f' to {most:g}' if most is not None else ''} is asked for"
    return f"they are {gap:.0f} apart in lightness, {asked}"


def _no_such_proposal(which: str, last: int | None, blockers: Sequence[Note]) -> str:
    why = f"the last is {last}" if last else "; ".join(map(sentence, blockers))
    reason = f": {why}" if why else ""
    return (
        f"there is no proposal {which} on the shelf as it is now{reason}; ask `stash match` again"
    )


SENTENCES: Mapping[str, Words] = {
    "lies_in": "lies in {place}",
    "belongs_to": _belongs_to,
    "lot_short": _of_lot(_short),
    "lot_without_length": _of_lot("has no length, only a weight"),
    "lot_without_thickness": _of_lot(
        "has no thickness class and no metres per 100 g to tell it by"
    ),
    "lot_without_colour": _of_lot(_no_colour),
    "lot_without_fibre": _of_lot(_no_fibre),
    "lot_without_fineness": _of_lot("has no metres per 100 g to hold against those asked"),
    "lot_quarantined": _of_lot("is quarantined"),
    "lot_of_wrong_thickness": _of_lot(_wrong_thickness),
    "lot_of_wrong_fineness": _of_lot(_wrong_fineness),
    "lot_of_wrong_colour": _wrong_colour,
    "lot_of_wrong_fibre": _of_lot(_wrong_fibre),
    "lot_not_for_heat": _of_lot(_not_for_heat),
    "lot_barred": _of_lot(_barred),
    "limits_keep_out": _limits,
    "nothing_beside": _nothing_beside,
    "no_such_yarn": "{role}: there is no such yarn on the shelf",
    "one_lot_in_two_roles": "one lot cannot serve two roles",
    "thicknesses_too_far": _classes,
    "washed_apart": "one may felt in a wash that the other bears",
    "one_may_bleed": "one may bleed into the other",
    "a_colour_not_known": "a colour is not known",
    "not_of_one_hue": _not_one_hue,
    "wrong_gap": _wrong_gap,
    "no_such_proposal": _no_such_proposal,
}
