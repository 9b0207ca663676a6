"""Sentences about a design that is made otherwise, with the figure that changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from stash.measures.length import Length
from stash.rendering.amounts import counted
from stash.rendering.figures import edge, size, sizes
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import joined, lot_named, yarn_called
from stash.rendering.sentences.words import FixWords, Words
from stash.requirements.design.shapes import TOPS, Shape, Start
from stash.stock.yarn import Lot

_ORDINALS = ("first", "second", "third", "fourth")
#: What a band is counted in; millimetres, where no gauge is known, are not shown.
_ONE_OF = {"rows": "row", "stitches": "stitch"}


def _bands(
    *,
    role: str,
    widths: Sequence[Length],
    counts: Sequence[int],
    planned_widths: Sequence[Length],
    planned_counts: Sequence[int],
    unit: str,
) -> str:
    """`make the band 1.5 cm (4 rows) instead of 1.8 cm (5)`."""
    named = "the band" if len(widths) == 1 else f"the bands of {role}"
    now, planned = _edges(widths), _edges(planned_widths)
    if unit in _ONE_OF:
        one = _ONE_OF[unit] if tuple(counts) == (1,) else unit
        now = f"{now} ({joined(map(str, counts))} {one})"
        planned = f"{planned} ({joined(map(str, planned_counts))})"
    return f"make {named} {now} instead of {planned}"


def _no_brim(brim: Length) -> str:
    return f"leave out the fold-up brim of {size(brim)}"


def _top(
    *,
    shape: Shape,
    role: str,
    count: int,
    unit: str,
    above: Length,
    lot: Lot | None,
    **_: object,
) -> str:
    """`work from 15 cm to the top in B (6 rows)`, of another lot if need be."""
    other = f", with {lot_named(lot)} as {role}" if lot else ""
    tip = f"the {TOPS[shape]}" if TOPS[shape] is not Start.CROWN else "the top"
    return f"work from {edge(above)} to {tip} in {role} ({_cells(count, unit)}){other}"


def _stripe(
    *,
    role: str,
    count: int,
    unit: str,
    above: Length,
    upright: bool,
    lot: Lot,
    colours: int,
    **_: object,
) -> str:
    """`add a third colour: 6 rows of C in L7 (rust), 8 cm up`."""
    begins = "" if upright else f", {edge(above)} up"
    what = f"add a {_ORDINALS[colours - 1]} {hers('colour')}"
    return f"{what}: {_cells(count, unit)} of {role} in {lot_named(lot)}{begins}"


def _shorter(
    *, side: str, length: Length, planned: Length, fewer: int | None, unit: str | None
) -> str:
    """`make it 19 cm tall instead of 21 cm (5 rows fewer)`."""
    less = ""
    if fewer is not None and unit == "rows":
        less = f" ({counted(fewer, 'row')} fewer)"
    elif fewer is not None:
        less = f" ({_stitches(fewer)} fewer in each row)"
    return f"make it {size(length)} {side} instead of {size(planned)}{less}"


def _smaller(sides: Sequence[str], lengths: Sequence[Length], planned: Sequence[Length]) -> str:
    """`make it 51 cm around and 19 cm tall instead of 56 and 21 cm`."""
    pairs = zip(lengths, sides, strict=False)
    now = joined(f"{size(length)} {side}" for length, side in pairs)
    return f"make it {now} instead of {sizes(planned)}"


def _edges(lengths: Sequence[Length]) -> str:
    """Several widths with the unit once: `2.1 and 1.4 cm`."""
    *first, last = map(edge, lengths)
    unit = last[last.rindex(" ") :]
    return joined([*(one.removesuffix(unit) for one in first), last])


def _cells(count: int, unit: str) -> str:
    return counted(count, "row") if unit == "rows" else f"{_stitches(count)} in each row"


def _stitches(count: int) -> str:
    return "1 stitch" if count == 1 else f"{count} stitches"


def _bands_pressed(
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
    if unit not in _ONE_OF:
        return f"{head} {now}", ""
    one = _ONE_OF[unit] if tuple(counts) == (1,) else unit
    told = f"{joined(map(str, counts))} {one}, not {joined(map(str, planned_counts))}"
    return f"{head} {now}", told


def _top_pressed(
    *, shape: Shape, role: str, count: int, unit: str, above: Length, lot: Lot | None, **_: Any
) -> tuple[str, str]:
    tip = "Top" if TOPS[shape] is Start.CROWN else f"{TOPS[shape]}".capitalize()
    other = f" in {yarn_called(lot)}" if lot else ""
    return f"{tip} in {role}{other}", f"{_cells_pressed(count, unit)}, from {edge(above)}"


def _stripe_pressed(
    *, role: str, count: int, unit: str, above: Length, upright: bool, lot: Lot, **_: Any
) -> tuple[str, str]:
    begins = "" if upright else f", {edge(above)} up"
    return f"{yarn_called(lot)} as {role}", f"{_cells_pressed(count, unit)}{begins}"


def _cells_pressed(count: int, unit: str) -> str:
    if unit == "rows":
        return counted(count, "row")
    return f"{_stitches(count)} a row"


def _shorter_pressed(
    *, side: str, length: Length, planned: Length, fewer: int | None, unit: str | None
) -> tuple[str, str]:
    less = f", {counted(fewer, 'row')} fewer" if fewer is not None and unit == "rows" else ""
    return f"{size(length)} {side}", f"not {size(planned)}{less}"


def _smaller_pressed(
    *, sides: Sequence[str], lengths: Sequence[Length], planned: Sequence[Length]
) -> tuple[str, str]:
    pairs = zip(lengths, sides, strict=False)
    return joined(f"{size(one)} {side}" for one, side in pairs), f"not {sizes(planned)}"


FIXES: Mapping[str, FixWords] = {
    "narrower_bands": FixWords(_bands, _bands_pressed),
    "no_brim": FixWords(_no_brim, lambda brim: ("No brim", f"without the {size(brim)} to fold up")),
    "top_in_other_colour": FixWords(_top, _top_pressed),
    "one_colour_more": FixWords(_stripe, _stripe_pressed),
    "shorter": FixWords(_shorter, _shorter_pressed),
    "smaller": FixWords(_smaller, _smaller_pressed),
}
SENTENCES: Mapping[str, Words] = {kind: words.typed for kind, words in FIXES.items()}
