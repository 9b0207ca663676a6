"""What each role of a piece is filled with: its yarn's colours, and over them the fabric."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from stash.rendering.drawing.fabric import fabric_tile, in_one_tile
from stash.rendering.drawing.outlines import Scale
from stash.rendering.drawing.patches import TUBES
from stash.rendering.drawing.strand import RUNS_CM, Lays, Paint, paint
from stash.rendering.drawing.surface import STITCHES_SEEN, over_stitches
from stash.rendering.drawing.svg import element, fine, mark_of, number
from stash.rendering.drawing.texture import strength_of
from stash.rendering.drawing.yarn_look import YarnLook
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape
from stash.stock.yarn import Dyed, Surface

#: What a role is drawn in whose yarn, or its colour, is not known.
PLAIN = {"A": "#c6c7c4", "B": "#7f8381", "C": "#a5a8a5", "D": "#5b5f5e"}
#: How thick a yarn is against the stitch it makes, to tell how much of it a stitch takes.
_YARN_OF_STITCH = 0.2
#: What stands for each surface in an id.
_LETTERS: dict[Surface, str] = {
    Surface.SMOOTH: "", Surface.SINGLE: "w", Surface.CABLED: "c", Surface.BRUSHED: "b",
    Surface.LOOPED: "l",
}  # fmt: skip
#: A path longer than this is written once and used twice.
_LONG = 120
#: Flecks repeat after more of a piece than of a swatch, which has many beside it on a page.
_FLECK_TILES = 1.7
#: The least a stitch among others of another colour is drawn, in pixels, and of how many at most
#: some are of that colour before they repeat.
_LEAST_DOT, _MOST_TURNS = 2.0, 9


@dataclass(frozen=True, slots=True)
class Area:
    """A path in one role; `mixed`: a share of its stitches in another role."""

    role: str
    path: str
    mixed: tuple[str, float] | None = None


@dataclass(frozen=True, slots=True)
class Cloth:
    """The fabric of a piece by role; `definitions` must stand before it, `mark` begins its ids.

    `stitch`: how large one is, in pixels, `turn`: how rows of them lie in the piece. `shades`: what
    lies over the colours of each role, its stitches and its surface.
    """

    mark: str
    looks: Mapping[str, YarnLook]
    paints: Mapping[str, Paint]
    definitions: tuple[str, ...]
    stitch: tuple[float, float]
    turn: str
    shades: Mapping[str, tuple[str, ...]]
    px_per_cm: float
    open_: bool = False

    @property
    def is_brushed(self) -> bool:
        """Whether fibres of any of its yarns stand out of its edge."""
        return any(look.surface is Surface.BRUSHED for look in self.looks.values())

    def moved(self, name: str = "o") -> list[str]:
        """Where a script may draw what moves, in these fills; in the body of an open piece only."""
        if not self.open_ or name != "o":
            return []
        fills = {role: (one.fill, *self.shades[role]) for role, one in self.paints.items()}
        return [element("g", id="moved", data_fills=json.dumps(fills))]

    def covered(self, area: Area) -> list[str]:
        """An area in its role's yarn and fabric."""
        fills = [self.paints[area.role].fill, *self.shades[area.role]]
        if not area.mixed:
            return self._filled(area, fills)
        dotted = f"{mark_of(self.mark, area)}"
        fills.insert(1, f"url(#{dotted})")
        return [self._dots(dotted, *area.mixed), *self._filled(area, fills)]

    def coloured(self, area: Area) -> list[str]:
        """An area in its yarn's colours alone, as they lie in its rounds."""
        return self._filled(area, [self.paints[area.role].fill])

    def shaded(self, area: Area) -> list[str]:
        """What goes round with rounds: flecks, which are level in a tile, and light and shade."""
        paint = self.paints[area.role]
        flecks = [paint.fill] if self.looks[area.role].dyed not in (Dyed.SOLID, *RUNS_CM) else []
        return self._filled(area, [*flecks, *self.shades[area.role]])

    def _filled(self, area: Area, fills: list[str]) -> list[str]:
        path = area.path
        if len(path) < _LONG:
            return [element("path", d=path, fill=fill) for fill in fills]
        once = mark_of(self.mark, area.role, path)
        known = element("defs", element("path", d=path, id=once))
        return [known, *(element("use", href=f"#{once}", fill=fill) for fill in fills)]

    def _dots(self, mark: str, role: str, share: float) -> str:
        """Stitches of a role here and there, by its share to the nearest of few, in a tile."""
        wide, tall = (size * max(1, ceil(_LEAST_DOT / size)) for size in self.stitch)
        turns = Fraction(share).limit_denominator(_MOST_TURNS)
        few, total = turns.numerator, turns.denominator
        path = ""
        for row in (0, 1):
            shift = row * (total // 2)
            for at in range(total):
                place = (at + shift) % total
                if place * few // total != (place + 1) * few // total:
                    left, top = number(at * wide), number(row * tall)
                    path += f"M{left} {top}h{number(wide)}v{number(tall)}h-{number(wide)}z"
        return element(
            "pattern",
            element("path", d=path, fill=self.paints[role].fill),
            id=mark,
            width=fine(total * wide),
            height=fine(2 * tall),
            patternUnits="userSpaceOnUse",
            patternTransform=self.turn,
        )


def cloth_of(
    laid: tuple[Shape, Layout],
    looks: Mapping[str, YarnLook],
    drawn: tuple[Scale, str],
    *,
    grey: bool,
    open_: bool = False,
) -> Cloth:
    """The cloth of a piece at a scale, its ids beginning with a mark."""
    shape, layout = laid
    scale, mark = drawn
    known = {role: _known(role, look, grey) for role, look in looks.items()}
    lays = {role: _lays(shape, layout, scale) for role in known}
    paints = {role: paint(look, lays[role], mark + role) for role, look in known.items()}
    turn = f"translate(0 {number(scale.height)})" + ("rotate(-90)" if layout.sideways else "")
    px_per_cm = scale.row_px / (layout.gauge.row_m * 100)
    shades, patterns = _shades(layout, scale, known, (mark, turn))
    definitions = [one.definition for one in paints.values() if one.definition]
    stitch = (scale.stitch_px, scale.row_px)
    return Cloth(
        mark, known, paints, (*patterns, *definitions), stitch, turn, shades, px_per_cm, open_
    )


def _shades(
    layout: Layout, scale: Scale, looks: Mapping[str, YarnLook], drawn: tuple[str, str]
) -> tuple[dict[str, tuple[str, ...]], list[str]]:
    """What lies over the colours of each role, and the patterns for it, each kind once."""
    mark, turn = drawn
    size = (scale.stitch_px, scale.row_px)
    tile = fabric_tile(layout, *size)
    cell = (size[0] * in_one_tile(size[0]), size[1] * in_one_tile(size[1]))
    px_per_cm = scale.row_px / (layout.gauge.row_m * 100)
    shades: dict[str, tuple[str, ...]] = {}
    patterns: dict[str, str] = {}
    for role, look in looks.items():
        strength = strength_of(look)
        kinds = {"f": tile.softened(STITCHES_SEEN[look.surface])}
        over = over_stitches(look.surface, cell, px_per_cm)
        if over:
            kinds["s"] = over
        names = {kind: f"{mark}{kind}{strength}{_LETTERS[look.surface]}" for kind in kinds}
        patterns |= {names[k]: kinds[k].pattern(names[k], strength, turn) for k in kinds}
        shades[role] = tuple(f"url(#{name})" for name in names.values())
    return shades, [*patterns.values()]


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
    lay = scale.row_px * times
    across, up = max(1.0, scale.width), max(lay, scale.height)
    if layout.sideways:
        across, up = up, across
    tube = shape in TUBES and not layout.sideways
    return Lays(
        width=round(across),
        height=up,
        lay=lay,
        px_per_cm=scale.stitch_px / strand_cm / times,
        hidden=round(across) if tube else 0.0,
        turning=not tube,
        transform="rotate(-90)" if layout.sideways else "",
        fleck_tiles=_FLECK_TILES,
        sides=(0 if shape is Shape.CIRCLE else 4) if layout.centred else None,
    )
