"""What a design takes by its rows, where it has a fabric and a gauge or at least a class."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from stash.measures.estimate import Estimate
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out
from stash.requirements.design.shapes import WORKED_CLOSE, Shape, Size
from stash.requirements.design.stitches import JAMMED, Craft, diameter_m, tex
from stash.requirements.design.thickness_defaults import in_fabric, thickness_of_gauge, usual_gauge
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.model import GUESSED_GAUGE, Yarn, spread, yarn_by_role
from stash.requirements.yarn.need import ExtraYarn, Source
from stash.requirements.yarn.tails import CARRIED_TAKES, carried_and_cut
from stash.trade.thickness import usual_m_per_100g


@dataclass(frozen=True, slots=True)
class ByRows:
    """A design by its rows: where the gauge came from, the rows, the yarn, the notes.

    `model_spread` is how far off the model is at a measured gauge, `guessed` what a gauge that is
    only usual adds to it, both as shares.
    """

    source: Source
    layout: Layout
    diameter_m: float
    yarn: Mapping[str, Yarn]
    model_spread: float
    guessed: float
    notes: tuple[Note, ...]
    extras: tuple[ExtraYarn, ...] = ()

    @property
    def spread(self) -> float:
        """How far off the figure is, as a share of it (one standard deviation)."""
        return math.hypot(self.model_spread, self.guessed)

    @property
    def said(self) -> dict[str, Estimate]:
        """The estimate of each role, its extras counted in."""
        fabric = {
            role: Estimate(yarn.total_m, self.spread * yarn.total_m)
            for role, yarn in self.yarn.items()
        }
        return with_extras(fabric, self.extras)


@dataclass(frozen=True, slots=True)
class _Worked:
    """A fabric at a gauge in a yarn, and whether that gauge was measured."""

    fabric: Fabric
    gauge: Gauge
    tex_held: float
    measured: bool


@lru_cache(maxsize=128)  # a question put backwards asks for the same design again and again
def by_rows(design: Design) -> ByRows | None:
    """The design by its rows; None where its plan lacks something for it."""
    worked = _worked(design)
    if worked is None:
        return None
    layout = laid_out(design, worked.gauge, worked.fabric)
    diameter = diameter_m(worked.tex_held)
    yarn = yarn_by_role(design, layout, diameter)
    per_m2 = math.fsum(one.fabric_m for one in yarn.values()) / math.fsum(layout.area_m2.values())
    return ByRows(
        source=Source.GAUGE if worked.measured else Source.THICKNESS,
        layout=layout,
        diameter_m=diameter,
        yarn=yarn,
        model_spread=spread(worked.fabric, worked.tex_held),
        guessed=0.0 if worked.measured else GUESSED_GAUGE,
        notes=(*_size_notes(design, layout), *_doubts(design, worked, diameter)),
        extras=extras_yarn(design, Ground(per_m2, 100_000 * design.strands / worked.tex_held)),
    )


def finished(design: Design) -> Size:
    """The size that whole stitches and rows come to, where they are known; else as planned.

    What is measured by more than its body's two sides keeps the planned ones.
    """
    rows = by_rows(design)
    if rows is None or len(design.needed_size.sides) > 2:
        return design.needed_size
    return rows.layout.size


def _worked(design: Design) -> _Worked | None:
    fabric, gauge, fineness = design.fabric, design.gauge, design.m_per_100g
    if not (design.shape and design.size and fabric):
        return None
    if gauge:
        # A class guessed from the gauge is that of all strands together.
        held = (
            tex(fineness, design.strands)
            if fineness
            else tex(usual_m_per_100g(thickness_of_gauge(fabric, gauge)))
        )
        worked = fabric.by_plain_gauge() if gauge.plain else fabric
        return _Worked(worked, in_fabric(fabric, gauge), held, measured=True)
    if design.classes and fineness:
        usual = usual_gauge(
            fabric, design.classes, design.strands, close=design.shape in WORKED_CLOSE
        )
        held = tex(fineness, design.strands)
        return _Worked(fabric.by_plain_gauge(), usual, held, measured=False)
    return None


def _size_notes(design: Design, layout: Layout) -> Iterator[Note]:
    """What was worked out, and what is to be known of how it is made."""
    yield Note(
        "worked_out_as",
        shape=design.shape,
        sides=layout.size.sides,
        # a sock's body is one tube: leg and foot are measured apart, but worked in one go
        asked=layout.size.sides if design.shape is Shape.SOCK else design.needed_size.sides,
        rounds=layout.centred,
        parts=tuple((part.name, part.widest, len(part.rows)) for part in layout.parts),
        made=layout.made,
    )
    if design.fits:
        yield Note("made_to_fit", fits=design.fits)
    if design.folded:
        yield Note("folded_up", folded=design.folded, seen=layout.size.up - design.folded)
    yield from _colour_notes(design, layout)
    yield from _where_it_meets(design, layout)
    if layout.centred and (design.bands or design.stripes):
        yield Note("bands_from_centre")
    if layout.from_top:
        yield Note("begun_from_top", start=design.beginning)


def _colour_notes(design: Design, layout: Layout) -> Iterator[Note]:
    """What becomes of the yarn of colours that come back, and mixed rows."""
    carried, cut = carried_and_cut(design, layout)
    if carried:
        yield Note("colours_carried", times=carried, takes=CARRIED_TAKES)
    if cut:
        yield Note("colours_cut", times=cut)
    mixed = {stretch.mixed[0] for stretch in layout.stretches if stretch.mixed}
    if mixed:
        yield Note("mixed_rows", roles=tuple(sorted(mixed)))


def _where_it_meets(design: Design, layout: Layout) -> Iterator[Note]:
    """A shape whose last row meets its first shows where the repeat of its fabric ends."""
    repeat = len(design.fabric.rows) if design.fabric else 1
    rows = len(layout.body.rows)
    past = rows % repeat
    if design.build.sideways and design.build.seamed and past:
        yield Note("repeat_does_not_meet", repeat=repeat, rows=rows)


def _doubts(design: Design, worked: _Worked, diameter: float) -> Iterator[Note]:
    gauge = worked.gauge
    if not worked.measured:
        yield Note("usual_gauge_taken", stitches=gauge.stitches, rows=gauge.rows)
        if design.shape in WORKED_CLOSE:
            yield Note("worked_close", shape=design.shape)
    for row in dict.fromkeys(worked.fabric.rows):
        if row.more > 1:
            yield Note("more_than_plain", row=row, more=row.extra)
    if worked.fabric.craft is Craft.CROCHET:
        if design.m_per_100g is None:
            yield Note("thickness_guessed")
    elif design.m_per_100g and _loop_m(worked, diameter) < JAMMED * diameter:
        yield Note("too_thick_for_gauge")


def _loop_m(worked: _Worked, diameter: float) -> float:
    return min(stitch.yarn_m(worked.gauge, diameter) for stitch in worked.fabric.stitches)
