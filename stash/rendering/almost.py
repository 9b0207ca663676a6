"""A near miss as the page shows it: what is lacking, and each fix in a few words for a button."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from stash.matching.answer.fix import EACH_LOT, Fix
from stash.matching.answer.proposal import NearMiss
from stash.measures.length import Length
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.rendering.amounts import chance as shown_chance
from stash.rendering.amounts import counted, dye_lot
from stash.rendering.figures import down, edge, near, size, sizes, up
from stash.rendering.sentences.blockers import aside_for_others
from stash.rendering.sentences.fixes import first_fixes
from stash.rendering.sentences.matching import lot_in_passing
from stash.rendering.sentences.phrases import joined
from stash.rendering.sentences.redesigns import ONE_OF
from stash.rendering.sentences.say import sentence
from stash.requirements.design.shapes import TOPS, Shape, Start
from stash.requirements.fit.splitting import Way
from stash.stock.yarn import Lot


@dataclass(frozen=True, slots=True)
class Lacking:
    """One thing that keeps a set from fitting: in few words, then with its figures.

    `tight` where only the margin is short.
    """

    words: str
    figures: str = ""
    tight: bool = False


def lacking(miss: NearMiss) -> list[Lacking]:
    """All that keeps a set from fitting, each by itself."""
    return [_lacking(blocker) for blocker in miss.blockers]


def _lacking(blocker: Note) -> Lacking:
    if blocker.kind != "lot_short":
        return Lacking(sentence(blocker))
    facts = blocker.facts
    has, needs = down(facts["has"]), up(facts["needs"])
    missing, role = needs - has, facts["role"]
    rows = facts.get("short_rows")
    of_need = f"{has.number} of {needs}"
    few = f", {counted(rows, 'row')} too few" if rows else ""
    more = aside_for_others(facts.get("promised"))
    if facts.get("expected") is not None:
        enough = f"{of_need}, enough for what is expected; {missing} short of the margin"
        return Lacking(f"{role} is tight", f"{enough}{more}", tight=True)
    return Lacking(f"{role} lacks {missing}", f"{of_need}{few}{more}")


@dataclass(frozen=True, slots=True)
class FixShown:
    """A fix for a button: what is done, then its figures."""

    fix: Fix
    head: str
    under: str = ""


def fixes_shown(miss: NearMiss, *, everything: bool = False) -> list[FixShown]:
    """The first few fixes of a near miss, or all of them; of several in one, each by itself."""
    flat = [one for fix in miss.fixes for one in _each(fix)]
    return [_shown(fix) for fix in (flat if everything else first_fixes(flat))]


def _each(fix: Fix) -> Sequence[Fix]:
    return fix.facts["fixes"] if fix.kind == "one_of" else (fix,)


def _shown(fix: Fix) -> FixShown:
    words = _WORDS.get(fix.kind)
    if words is None:
        return FixShown(fix, sentence(fix))
    return FixShown(fix, *words(**fix.facts))


def short_name(fix: Fix) -> str:
    """A fix as a part of a name: `band 2.3 cm`."""
    head = _shown(fix).head
    return head[:1].lower() + head[1:]


def _bands(
    *,
    role: str,
    widths: Sequence[Length],
    counts: Sequence[int],
    planned_counts: Sequence[int],
    unit: str,
    **_: Any,
) -> tuple[str, str]:
    head = "Band" if len(widths) == 1 else f"Bands of {role}"
    now = joined(edge(width) for width in widths)
    if unit not in ONE_OF:
        return f"{head} {now}", ""
    one = ONE_OF[unit] if tuple(counts) == (1,) else unit
    told = f"{joined(map(str, counts))} {one}, not {joined(map(str, planned_counts))}"
    return f"{head} {now}", told


def _top(
    *, shape: Shape, role: str, count: int, unit: str, above: Length, lot: Lot | None, **_: Any
) -> tuple[str, str]:
    tip = "Top" if TOPS[shape] is Start.CROWN else f"{TOPS[shape]}".capitalize()
    other = f" in {lot_in_passing(lot)}" if lot else ""
    return f"{tip} in {role}{other}", f"{_cells(count, unit)}, from {edge(above)}"


def _stripe(
    *, role: str, count: int, unit: str, above: Length, upright: bool, lot: Lot, **_: Any
) -> tuple[str, str]:
    begins = "" if upright else f", {edge(above)} up"
    return f"{lot.colour or lot.yarn} as {role}", f"{_cells(count, unit)}{begins}"


def _cells(count: int, unit: str) -> str:
    if unit == "rows":
        return counted(count, "row")
    return f"{'1 stitch' if count == 1 else f'{count} stitches'} a row"


def _shorter(
    *, side: str, length: Length, planned: Length, fewer: int | None, unit: str | None
) -> tuple[str, str]:
    less = f", {counted(fewer, 'row')} fewer" if fewer is not None and unit == "rows" else ""
    return f"{size(length)} {side}", f"not {size(planned)}{less}"


def _smaller(
    *, sides: Sequence[str], lengths: Sequence[Length], planned: Sequence[Length]
) -> tuple[str, str]:
    pairs = zip(lengths, sides, strict=False)
    return joined(f"{size(one)} {side}" for one, side in pairs), f"not {sizes(planned)}"


def _more_skeins(*, count: int, lot: Lot, put_up: PutUp) -> tuple[str, str]:
    full = f"{near(put_up.mass)} / {near(put_up.length)}"
    return f"Buy {counted(count, 'skein')}", f"{full}, {dye_lot(lot)}"


def _lower_margin(*, margin: float, chance: float) -> tuple[str, str]:
    return f"Margin {round(100 * margin)}%", f"{shown_chance(chance)} sure to be enough"


def _release(*, promised: Length, lot: Lot) -> tuple[str, str]:
    return f"Free {down(promised)} of {lot_in_passing(lot)}", "set aside for other items"


def _second_lot(*, role: str, lot: Lot, way: Way, place: str | Note, **_: Any) -> tuple[str, str]:
    where = sentence(place)
    if way is Way.CHANGE:
        where = f"changed {where}"
    if way is Way.ALTERNATE:
        where = "in alternating rows"
    return f"{role} from two lots", f"{dye_lot(lot)} of the same colour, {where}"


_WORDS: Mapping[str, Callable[..., tuple[str, str]]] = {
    "narrower_bands": _bands,
    "no_brim": lambda brim: ("No brim", f"without the {size(brim)} to fold up"),
    "top_in_other_colour": _top,
    "one_colour_more": _stripe,
    "shorter": _shorter,
    "smaller": _smaller,
    "more_skeins": _more_skeins,
    "lower_margin": _lower_margin,
    "release_promised": _release,
    "second_lot": _second_lot,
    "remnants_too": lambda role, lot: ("Use its remnants", f"{role}, {lot_in_passing(lot)}"),
    "other_skeins": lambda lot: ("Use its other skeins", lot_in_passing(lot)),
    "let_skein_in": lambda skein, why: (f"Use no. {skein} too", f"it {sentence(why)}"),
    "measure_skeins": lambda skeins: (
        "Measure it",
        f"no. {', '.join(map(str, skeins))} has no length yet",
    ),
    "covers_part": lambda role, covered: (
        "Something smaller",
        f"enough for {down(covered)} of {role}",
    ),
    "another_lot": lambda: ("Another yarn", ""),
    "give_length": lambda thickness: ("Look up its length", "on the band, or measure some"),
    "give_thickness": lambda: ("Add its thickness", "from the band"),
    "give_colour": lambda: ("Add its colour", ""),
    "give_colour_or_any_contrast": lambda: ("Any contrast", "and look in daylight"),
    "give_fibre": lambda: ("Add its fibre", "from the band"),
    "give_fineness": lambda: ("Any length per 100 g", "or add what the band says"),
    "let_quarantined_in": lambda: ("Use it all the same", "though it is in quarantine"),
    "widen_tolerance": lambda: ("Allow one thickness more", "in your settings"),
    "allow_steps": lambda steps: ("Let them differ in thickness", counted(steps, "step")),
    "widen_fineness": lambda: ("Any length per 100 g", ""),
    "name_other_colour": lambda: ("Any colour", ""),
    "allow_fibre": lambda: ("Any fibre", ""),
    "choose_for_heat": lambda: ("No hot wash", "check the band and your local rules"),
    "allow_owner_and_place": lambda: ("Any owner, any place", ""),
    "ask_for_less": lambda: ("Without these limits", ""),
    "wash_as_wool": lambda: ("Wash both as wool", ""),
    "allow_bleeding": lambda: ("Let them be", "wash a swatch first"),
    "give_it_or_any_contrast": lambda: ("Any contrast", "and look in daylight"),
    "any_contrast": lambda: ("Any contrast", ""),
    "other_contrast": lambda contrast: (f"{contrast} contrast".capitalize(), ""),
    "name_another": lambda role: (f"Another yarn for {role}", ""),
    EACH_LOT: lambda fixes: (
        joined(_shown(fix).head for fix in fixes),
        joined(_shown(fix).under for fix in fixes),
    ),
}
