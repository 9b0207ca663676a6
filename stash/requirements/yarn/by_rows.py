"""What a piece takes by its rows, where it has a fabric and a gauge or at least a class."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from stash.measures.estimate import Estimate
from stash.measures.note import Note
from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out
from stash.requirements.design.piece import Piece
from stash.requirements.design.shapes import WORKED_CLOSE, Shape, Size
from stash.requirements.design.stitches import JAMMED, Craft, diameter_m, tex
from stash.requirements.design.thickness_defaults import class_of_gauge, in_fabric, usual_gauge
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.model import GUESSED_GAUGE, Yarn, spread, yarn_by_role
from stash.requirements.yarn.need import ExtraYarn, Source
from stash.requirements.yarn.tails import CARRIED_TAKES, carried_and_cut
from stash.trade.thickness import usual_m_per_100g


@dataclass(frozen=True, slots=True)
class ByRows:
    """A piece by its rows: where the gauge came from, the rows, the yarn, the notes.

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


@lru_cache(maxsize=128)  # a question put backwards asks for the same piece again and again
def by_rows(piece: Piece) -> ByRows | None:
    """The piece by its rows; None where its plan lacks something for it."""
    worked = _worked(piece)
    if worked is None:
        return None
    layout = laid_out(piece, worked.gauge, worked.fabric)
    diameter = diameter_m(worked.tex_held)
    yarn = yarn_by_role(piece, layout, diameter)
    per_m2 = math.fsum(one.fabric_m for one in yarn.values()) / math.fsum(layout.area_m2.values())
    return ByRows(
        source=Source.GAUGE if worked.measured else Source.CLASS,
        layout=layout,
        diameter_m=diameter,
        yarn=yarn,
        model_spread=spread(worked.fabric, worked.tex_held),
        guessed=0.0 if worked.measured else GUESSED_GAUGE,
        notes=(*_size_notes(piece, layout), *_doubts(piece, worked, diameter)),
        extras=extras_yarn(piece, Ground(per_m2, 100_000 * piece.strands / worked.tex_held)),
    )


def finished(piece: Piece) -> Size:
    """The size that whole stitches and rows come to, where they are known; else as planned.

    What is measured by more than its body's two sides keeps the planned ones.
    """
    rows = by_rows(piece)
    if rows is None or len(piece.needed_size.sides) > 2:
        return piece.needed_size
    return rows.layout.size


def _worked(piece: Piece) -> _Worked | None:
    fabric, gauge, fineness = piece.fabric, piece.gauge, piece.m_per_100g
    if not (piece.shape and piece.size and fabric):
        return None
    if gauge:
        # A class guessed from the gauge is that of all strands together.
        held = (
            tex(fineness, piece.strands)
            if fineness
            else tex(usual_m_per_100g(class_of_gauge(fabric, gauge)))
        )
        worked = fabric.by_plain_gauge() if gauge.plain else fabric
        return _Worked(worked, in_fabric(fabric, gauge), held, measured=True)
    if piece.classes and fineness:
        usual = usual_gauge(fabric, piece.classes, piece.strands, close=piece.shape in WORKED_CLOSE)
        held = tex(fineness, piece.strands)
        return _Worked(fabric.by_plain_gauge(), usual, held, measured=False)
    return None


def _size_notes(piece: Piece, layout: Layout) -> Iterator[Note]:
    """What was worked out, and what is to be known of how it is made."""
    yield Note(
        "worked_out_as",
        shape=piece.shape,
        sides=layout.size.sides,
        # a sock's body is one tube: leg and foot are measured apart, but worked in one go
        asked=layout.size.sides if piece.shape is Shape.SOCK else piece.needed_size.sides,
        rounds=layout.centred,
        parts=tuple((part.name, part.widest, len(part.rows)) for part in layout.parts),
        made=layout.made,
    )
    if piece.fits:
        yield Note("made_to_fit", fits=piece.fits)
    if piece.folded:
        yield Note("folded_up", folded=piece.folded, seen=layout.size.up - piece.folded)
    yield from _colour_notes(piece, layout)
    yield from _where_it_meets(piece, layout)
    if layout.centred and (piece.bands or piece.stripes):
        yield Note("bands_from_centre")
    if layout.from_top:
        yield Note("begun_from_top", start=piece.beginning)


def _colour_notes(piece: Piece, layout: Layout) -> Iterator[Note]:
    """What becomes of the yarn of colours that come back, and mixed rows."""
    carried, cut = carried_and_cut(piece, layout)
    if carried:
        yield Note("colours_carried", times=carried, takes=CARRIED_TAKES)
    if cut:
        yield Note("colours_cut", times=cut)
    mixed = {stretch.mixed[0] for stretch in layout.stretches if stretch.mixed}
    if mixed:
        yield Note("mixed_rows", roles=tuple(sorted(mixed)))


def _where_it_meets(piece: Piece, layout: Layout) -> Iterator[Note]:
    """A shape whose last row meets its first shows where the repeat of its fabric ends."""
    repeat = len(piece.fabric.rows) if piece.fabric else 1
    rows = len(layout.body.rows)
    past = rows % repeat
    if piece.build.sideways and piece.build.seamed and past:
        yield Note("repeat_does_not_meet", repeat=repeat, rows=rows)


def _doubts(piece: Piece, worked: _Worked, diameter: float) -> Iterator[Note]:
    gauge = worked.gauge
    if not worked.measured:
        yield Note("usual_gauge_taken", stitches=gauge.stitches, rows=gauge.rows)
        if piece.shape in WORKED_CLOSE:
            yield Note("worked_close", shape=piece.shape)
    for row in dict.fromkeys(worked.fabric.rows):
        if row.more > 1:
            yield Note("more_than_plain", row=row, more=row.extra)
    if worked.fabric.craft is Craft.CROCHET:
        if piece.m_per_100g is None:
            yield Note("thickness_guessed")
    elif piece.m_per_100g and _loop_m(worked, diameter) < JAMMED * diameter:
        yield Note("too_thick_for_gauge")


def _loop_m(worked: _Worked, diameter: float) -> float:
    return min(stitch.yarn_m(worked.gauge, diameter) for stitch in worked.fabric.stitches)
