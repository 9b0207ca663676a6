"""The figure from rows: a piece with a fabric and a gauge, or at least a class, reckoned out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from stash.measures.estimate import Estimate
from stash.measures.length import Length
from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out
from stash.requirements.design.piece import Piece
from stash.requirements.design.shapes import WORKED_CLOSE, Shape, Size
from stash.requirements.design.stitches import JAMMED, Craft, diameter_m, tex
from stash.requirements.design.thickness_defaults import class_of_gauge, in_fabric, usual_gauge
from stash.requirements.yarn.extras_yarn import Ground, lines_of, with_lines
from stash.requirements.yarn.model import GUESSED_GAUGE, Yarn, spread, yarn_by_role
from stash.requirements.yarn.need import Line, Source
from stash.requirements.yarn.tails import CARRIED_TAKES, carried_over
from stash.trade.thickness import usual_m_per_100g


@dataclass(frozen=True, slots=True)
class ByRows:
    """A piece reckoned by its rows: where the gauge came from, the rows, the yarn, the notes.

    `model_spread` is how far off the model is at a measured gauge, `guessed` what a gauge that is
    only usual adds to it, both as shares.
    """

    source: Source
    layout: Layout
    diameter_m: float
    yarn: Mapping[str, Yarn]
    model_spread: float
    guessed: float
    notes: tuple[str, ...]
    lines: tuple[Line, ...] = ()

    @property
    def spread(self) -> float:
        """How far off the figure is, as a share of it (one standard deviation)."""
        return math.hypot(self.model_spread, self.guessed)

    @property
    def said(self) -> dict[str, Estimate]:
        """The estimate of each role, its lines counted in."""
        fabric = {
            role: Estimate(yarn.total_m, self.spread * yarn.total_m)
            for role, yarn in self.yarn.items()
        }
        return with_lines(fabric, self.lines)


@dataclass(frozen=True, slots=True)
class _Worked:
    """A fabric at a gauge in a yarn, and whether that gauge was measured."""

    fabric: Fabric
    gauge: Gauge
    tex_held: float
    measured: bool


@lru_cache(maxsize=128)  # a question put backwards asks for the same piece again and again
def by_rows(piece: Piece) -> ByRows | None:
    """The piece reckoned by its rows; None where its plan lacks something for it."""
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
        lines=lines_of(piece, Ground(per_m2, 100_000 * piece.strands / worked.tex_held)),
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


def _size_notes(piece: Piece, layout: Layout) -> Iterator[str]:
    """What was worked out, and what is to be known of how it is made."""
    yield "worked out as " + "; ".join((_body_words(piece, layout), *_further_parts(layout)))
    if piece.fits:
        yield f"to fit {piece.fits}"
    if piece.folded:
        seen = layout.size.up - piece.folded
        yield f"{_cm(piece.folded)} of it are folded up: {_cm(seen)} are seen"
    yield from _colour_words(piece, layout)
    yield from _where_it_meets(piece, layout)
    if layout.centred and (piece.bands or piece.stripes):
        yield "bands are placed from the centre outwards: bottom is the centre, top the rim"
    if layout.from_top:
        yield f"begun from the {piece.beginning}: row 1 is there, bands are still placed from below"


def _colour_words(piece: Piece, layout: Layout) -> Iterator[str]:
    """What becomes of the yarn of colours that come back, and mixed rows."""
    carried, cut = carried_over(piece, layout)
    if carried:
        yield f"a colour is carried up the edge {carried} times, {CARRIED_TAKES:g} x what it passes"
    if cut:
        yield f"a colour is cut and begun anew {cut} times, with two tails each time"
    mixed = {stretch.mixed[0] for stretch in layout.stretches if stretch.mixed}
    if mixed:
        yield f"{', '.join(sorted(mixed))} and what is there go along unworked in mixed rows"


def _where_it_meets(piece: Piece, layout: Layout) -> Iterator[str]:
    """A shape whose last row meets its first shows where the repeat of its fabric ends."""
    repeat = len(piece.fabric.rows) if piece.fabric else 1
    rows = len(layout.body.rows)
    past = rows % repeat
    if piece.build.sideways and piece.build.seamed and past:
        fewer = f"{rows - past} or " if rows > past else ""
        yield (
            f"the repeat of {repeat} rows ends after row {past} where the last row meets the "
            f"first: {fewer}{rows - past + repeat} rows close it"
        )


def _body_words(piece: Piece, layout: Layout) -> str:
    rows = "rounds" if layout.centred else "rows"
    words = _SOCK_SIDES if piece.shape is Shape.SOCK else piece.build.words
    asked = layout.size.sides if piece.shape is Shape.SOCK else piece.needed_size.sides
    sides = ", ".join(map(_side_words, layout.size.sides, words, asked))
    return f"{layout.body.widest} stitches by {len(layout.body.rows)} {rows}: {sides}"


def _side_words(side: Length, word: str, asked: Length) -> str:
    """What whole stitches or rows come to, and what was asked where that shows."""
    other = _cm(asked) != _cm(side)
    return f"{_cm(side)} {word}" + (f" ({_cm(asked)} asked)" if other else "")


#: A sock's body is one tube: leg and foot are measured apart, but worked in one go.
_SOCK_SIDES = ("around", "from cuff to toe")


def _further_parts(layout: Layout) -> Iterator[str]:
    for part in layout.parts[1:]:
        yield f"{part.name} {part.widest} by {len(part.rows)}"
    if layout.made > 1:
        yield f"{layout.made} of them"


def _cm(length: Length) -> str:
    return f"{length.m * 100:.1f} cm"


def _doubts(piece: Piece, worked: _Worked, diameter: float) -> Iterator[str]:
    gauge = worked.gauge
    if not worked.measured:
        yield (
            f"no gauge given: the usual {float(gauge.stitches):.3g} stitches by "
            f"{float(gauge.rows):.3g} rows to 4 in are taken; a swatch makes this surer"
        )
        if piece.shape in WORKED_CLOSE:
            yield f"a {piece.shape} is worked closer than a scarf: the closest stitches are taken"
    for row in dict.fromkeys(worked.fabric.rows):
        if row.more > 1:
            yield (
                f"{row.extra:.0%} more than plain fabric is taken for {row}: "
                "the fabric's own relaxed gauge makes this surer"
            )
    if worked.fabric.craft is Craft.CROCHET:
        if piece.m_per_100g is None:
            yield "no put-up or class given: the yarn's thickness is guessed from the gauge"
    elif piece.m_per_100g and _loop_m(worked, diameter) < JAMMED * diameter:
        yield "this yarn is too thick to knit at this gauge: look at the gauge and the put-up again"


def _loop_m(worked: _Worked, diameter: float) -> float:
    return min(stitch.yarn_m(worked.gauge, diameter) for stitch in worked.fabric.stitches)
