"""What lies over the colour of a strand: light and shade in white and black, once a page a kind.

How strong they are follows the lightness of the yarn, so that what is drawn stays as light as the
yarn is: black takes much from a light colour and little from a dark one, white the other way round.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from stash.rendering.drawing.svg import element, fine, number
from stash.rendering.drawing.yarn_look import YarnLook
from stash.stock.yarn import Surface

#: The steps of strength: their letter, up to which L*, how much of the white and of the black.
STRENGTHS = (("d", 35.0, 0.3, 1.15), ("m", 68.0, 1.12, 1.0), ("l", 101.0, 1.25, 0.33))
#: The height of a lay, in pixels, at which textures are drawn; at others they are scaled.
USUAL_LAY = 8
OTHER_LAYS = (5, 6, 10)
#: How far a lay leans, in degrees.
LEAN = -1.5
WHITE, BLACK = "#fff", "#000"


@dataclass(frozen=True, slots=True)
class Stroke:
    """One piece of light or shade: its path, filled or, where it has a width, drawn along."""

    ink: str
    shows: float
    path: str
    width: float = 0.0

    def drawn(self, white: float, black: float) -> str:
        """As an element, in so much of its strength."""
        shows = fine(min(0.5, self.shows * (white if self.ink == WHITE else black)))
        if not self.width:
            return element("path", d=self.path, fill=self.ink, fill_opacity=shows)
        width = fine(self.width)
        return element(
            "path", d=self.path, fill="none", stroke=self.ink, stroke_opacity=shows,
            stroke_width=width,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Tile:
    """A tile of light and shade that repeats, in pixels or, for fabric, stitches by rows."""

    width: float
    height: float
    strokes: tuple[Stroke, ...]

    def softened(self, share: float) -> Tile:
        """The same with so much of its light and shade."""
        if share == 1:
            return self
        strokes = (replace(stroke, shows=stroke.shows * share) for stroke in self.strokes)
        return replace(self, strokes=tuple(strokes))

    def pattern(self, mark: str, strength: str, transform: str = "") -> str:
        """As a definition."""
        return element(
            "pattern",
            _strokes(self.strokes, strength),
            id=mark,
            width=fine(self.width),
            height=fine(self.height),
            patternUnits="userSpaceOnUse",
            patternTransform=transform,
        )


@lru_cache(maxsize=256)
def _strokes(strokes: tuple[Stroke, ...], strength: str) -> str:
    """Kept, as every piece in one fabric at one scale has the same."""
    white, black = next((w, b) for letter, _, w, b in STRENGTHS if letter == strength)
    return "".join(stroke.drawn(white, black) for stroke in strokes)


def strength_of(look: YarnLook) -> str:
    """The letter of the strength that suits how light a yarn is."""
    lightness = look.lightness or 0.0
    return next(letter for letter, most, *_ in STRENGTHS if lightness < most)


def lay_height(thickness: int | None) -> int:
    """How tall one lay of a swatch is, in pixels: 6 fine, 8 medium or not known, 10 thick."""
    if thickness is None:
        return 8
    return 6 if thickness <= 2 else 8 if thickness <= 4 else 10


def lay_id(surface: Surface, lay: int, strength: str) -> str:
    """The id of the texture of a surface at a height of its lays."""
    return f"lay-{surface.value}-{lay}-{strength}"


def lay_pattern(surface: Surface, lay: int, strength: str) -> str:
    """The texture of a surface at a height of its lays, to be defined once a page."""
    mark = lay_id(surface, lay, strength)
    if lay == USUAL_LAY:
        return LAYS[surface](lay).pattern(mark, strength, f"rotate({LEAN})")
    scaled = f"rotate({LEAN})scale({fine(lay / USUAL_LAY)})"
    like = "#" + lay_id(surface, USUAL_LAY, strength)
    return element("pattern", id=mark, href=like, patternTransform=scaled)


def _gap(width: float, lay: float, deep: float) -> tuple[Stroke, ...]:
    """The shade between two lays and the light along the upper half of each."""
    w, h = number(width), number(-lay / 8)
    return (
        Stroke(BLACK, deep, f"M0 {number(lay)}h{w}v{h}h-{w}z"),
        Stroke(BLACK, deep * 0.45, f"M0 {number(lay * 7 / 8)}h{w}v{number(-lay / 6)}h-{w}z"),
        Stroke(WHITE, deep * 0.42, f"M0 {number(lay * 0.14)}h{w}v{number(lay / 4)}h-{w}z"),
    )


def _smooth(lay: int) -> Tile:
    """Plied: ticks that lean the way the plies turn."""
    width = lay * 0.9
    up = f"c{number(lay * 0.18)} {number(-lay * 0.5)} {number(lay * 0.35)} {number(-lay * 0.6)} "
    up += f"{number(lay * 0.55)} {number(-lay * 0.78)}"
    low = number(lay * 0.88)
    return Tile(
        width,
        lay,
        (
            *_gap(width, lay, 0.26),
            Stroke(BLACK, 0.2, f"M{number(lay * 0.08)} {low}{up}", lay * 0.11),
            Stroke(WHITE, 0.26, f"M{number(lay * 0.26)} {low}{up}", lay * 0.13),
        ),
    )


def _single(lay: int) -> Tile:
    """One ply: long soft waves along the lay."""
    width = lay * 6.0
    wave = f"c{number(lay)} {number(-lay * 0.25)} {number(2 * lay)} {number(-lay * 0.25)} "
    wave += f"{number(3 * lay)} 0s{number(2 * lay)} {number(lay * 0.25)} {number(3 * lay)} 0"
    return Tile(
        width,
        lay,
        (
            *_gap(width, lay, 0.26),
            Stroke(WHITE, 0.2, f"M0 {number(lay * 0.38)}{wave}", lay * 0.16),
            Stroke(BLACK, 0.15, f"M0 {number(lay * 0.66)}{wave}", lay * 0.14),
            Stroke(WHITE, 0.12, f"M{number(lay)} {number(lay * 0.62)}h{number(3 * lay)}", 0.7),
        ),
    )


def _cabled(lay: int) -> Tile:
    """Plies of plies: small chevrons, and a sharp line of light."""
    width = lay * 0.7
    half, third = number(width / 2), number(lay * 0.3)
    back = f"l{half} {third}l-{half} {third}"
    return Tile(
        width,
        lay,
        (
            *_gap(width, lay, 0.24),
            Stroke(WHITE, 0.34, f"M0 {number(lay * 0.3)}h{number(width)}", 0.9),
            Stroke(BLACK, 0.26, f"M{number(width * 0.15)} {number(lay * 0.18)}{back}", lay * 0.1),
            Stroke(WHITE, 0.2, f"M{number(width * 0.42)} {number(lay * 0.18)}{back}", lay * 0.1),
        ),
    )


#: Where long fibres lie over the lays, as shares of a tile: from, how far along and up.
_FIBRES = (
    (0.02, 0.14, 0.3, -0.05), (0.36, 0.06, 0.36, 0.06), (0.64, 0.22, 0.34, -0.06),
    (0.12, 0.33, 0.4, 0.05), (0.5, 0.4, 0.36, -0.07), (0.02, 0.5, 0.3, 0.06),
    (0.28, 0.6, 0.42, -0.05), (0.66, 0.56, 0.3, 0.07), (0.06, 0.74, 0.36, -0.06),
    (0.46, 0.8, 0.34, 0.05), (0.62, 0.92, 0.36, -0.06), (0.16, 0.93, 0.34, -0.03),
)  # fmt: skip


def _brushed(lay: int) -> Tile:
    """Long soft fibres over lays that are hardly seen."""
    width, height = lay * 9.0, lay * 4.0
    thin, soft = {WHITE: "", BLACK: ""}, {WHITE: "", BLACK: ""}
    for at, (x, y, along, up) in enumerate(_FIBRES):
        dx, dy = along * width, up * height
        bend = f"q{number(dx / 2)} {number(dy * 2)} {number(dx)} {number(dy)}"
        ink = WHITE if at % 2 == 0 else BLACK
        thin[ink] += f"M{number(x * width)} {number(y * height)}{bend}"
        soft[ink] += f"M{number(x * width)} {number(y * height + lay * 0.2)}{bend}"
    shade = "".join(f"M0 {number((row + 0.9) * lay)}h{number(width)}" for row in range(4))
    strokes = [Stroke(BLACK, 0.09, shade, lay * 0.22)]
    for ink in (WHITE, BLACK):
        strokes += [Stroke(ink, 0.3, thin[ink], 0.7), Stroke(ink, 0.09, soft[ink], lay * 0.45)]
    return Tile(width, height, tuple(strokes))


def _looped(lay: int) -> Tile:
    """Rings in rows, each row half a ring on."""
    size = lay * 1.3
    spots = ((0.28, 0.3), (0.78, 0.8))
    strokes: list[Stroke] = []
    for x, y in spots:
        at = (x * size, y * size)
        strokes += [
            Stroke(BLACK, 0.3, ring(at, size * 0.24), lay * 0.17),
            Stroke(WHITE, 0.42, arch(at, size * 0.21), lay * 0.18),
        ]
    strokes.append(Stroke(BLACK, 0.16, ring((0.78 * size, 0.3 * size), size * 0.11)))
    strokes.append(Stroke(WHITE, 0.18, ring((0.28 * size, 0.8 * size), size * 0.15)))
    return Tile(size, size, tuple(strokes))


def ring(at: tuple[float, float], radius: float) -> str:
    """A whole ring about a place."""
    r, across = fine(radius), fine(2 * radius)
    start = f"M{fine(at[0] - radius)} {fine(at[1])}"
    return f"{start}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0 -{across} 0z"


def arch(at: tuple[float, float], radius: float) -> str:
    """The upper half of a ring."""
    r = fine(radius)
    return f"M{fine(at[0] - radius)} {fine(at[1])}a{r} {r} 0 0 1 {fine(2 * radius)} 0"


LAYS = {
    Surface.SMOOTH: _smooth,
    Surface.SINGLE: _single,
    Surface.CABLED: _cabled,
    Surface.BRUSHED: _brushed,
    Surface.LOOPED: _looped,
}
