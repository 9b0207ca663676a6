"""What each role of a piece is filled with: its yarn's colours, and over them the fabric."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from stash.rendering.drawing.fabric import fabric_tile, in_one_tile
from stash.rendering.drawing.outlines import Scale
from stash.rendering.drawing.patches import TUBES
from stash.rendering.drawing.strand import Lays, Paint, paint
from stash.rendering.drawing.svg import element, mark_of, number
from stash.rendering.drawing.texture import strength_of
from stash.rendering.drawing.yarn_look import YarnLook
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape

#: What a role is drawn in whose yarn, or its colour, is not known.
PLAIN = {"A": "#c6c7c4", "B": "#7f8381", "C": "#a5a8a5", "D": "#5b5f5e"}
#: How thick a yarn is against the stitch it makes, to tell how much of it a stitch takes.
_YARN_OF_STITCH = 0.2
#: A path longer than this is written once and used twice.
_LONG = 120


@dataclass(frozen=True, slots=True)
class Cloth:
    """The fabric of a piece by role; `definitions` must stand before it, `mark` begins its ids."""

    mark: str
    looks: Mapping[str, YarnLook]
    paints: Mapping[str, Paint]
    definitions: tuple[str, ...]

    def covered(self, role: str, path: str) -> list[str]:
        """An area in a role's yarn and fabric."""
        fills = (self.paints[role].fill, f"url(#{self.mark}f{strength_of(self.looks[role])})")
        if len(path) < _LONG:
            return [element("path", d=path, fill=fill) for fill in fills]
        once = mark_of(self.mark, role, path)
        defined = element("defs", element("path", d=path, id=once))
        return [defined, *(element("use", href=f"#{once}", fill=fill) for fill in fills)]


def cloth_of(
    laid: tuple[Shape, Layout],
    looks: Mapping[str, YarnLook],
    drawn: tuple[Scale, str],
    *,
    grey: bool,
) -> Cloth:
    """The cloth of a piece at a scale, its ids beginning with a mark."""
    shape, layout = laid
    scale, mark = drawn
    known = {role: _known(role, look, grey) for role, look in looks.items()}
    lays = {role: _lays(shape, layout, scale) for role in known}
    paints = {role: paint(look, lays[role], mark + role) for role, look in known.items()}
    tile = fabric_tile(layout, scale.stitch_px, scale.row_px)
    turn = f"translate(0 {number(scale.height)})" + ("rotate(-90)" if layout.sideways else "")
    patterns = [
        tile.pattern(f"{mark}f{strength}", strength, turn)
        for strength in sorted({strength_of(look) for look in known.values()})
    ]
    definitions = [one.definition for one in paints.values() if one.definition]
    return Cloth(mark, known, paints, tuple(patterns + definitions))


def _known(role: str, look: YarnLook, grey: bool) -> YarnLook:
    if not look.colours:
        look = replace(look, colours=(PLAIN.get(role, PLAIN["C"]),))
    return look.in_grey() if grey else look


def _lays(shape: Shape, layout: Layout, scale: Scale) -> Lays:
    """Each row as a lay, as much of the strand in it as its stitches take."""
    times = in_one_tile(scale.row_px)
    gauge = layout.gauge
    kind = layout.body.rows[0].kind
    strand_cm = kind.worked_m(gauge, gauge.stitch_m * _YARN_OF_STITCH) * 100
    across, up = scale.width, scale.height
    if layout.sideways:
        across, up = up, across
    tube = shape in TUBES and not layout.sideways
    return Lays(
        width=round(across),
        height=up,
        lay=scale.row_px * times,
        px_per_cm=scale.stitch_px / strand_cm / times,
        hidden=round(across) if tube else 0.0,
        turning=not tube,
        transform="rotate(-90)" if layout.sideways else "",
    )
