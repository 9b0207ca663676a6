"""What the surface of a yarn is in a fabric: what is left of its stitches, and what lies over them.

A smooth yarn shows its stitches plainly. In a soft single they are softer, in long waves; a cabled
cord has small chevrons and a sharp line of light along each row; of a brushed or a looped one the
stitches are hardly seen under fibres or loops. All of it is measured in centimetres, as fibres and
loops are as long in a small drawing as in a large one.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin
from random import Random

from stash.rendering.drawing.svg import fine, number
from stash.rendering.drawing.texture import BLACK, WHITE, Stroke, Tile, arch, ring
from stash.stock.yarn import Surface

#: How much of the light and shade of its stitches is seen.
STITCHES_SEEN = {
    Surface.SMOOTH: 1.0,
    Surface.SINGLE: 0.6,
    Surface.CABLED: 0.75,
    Surface.BRUSHED: 0.35,
    Surface.LOOPED: 0.15,
}
#: How long a fibre is and how large a loop, in centimetres; the least either is drawn, in pixels.
_FIBRE_CM, _LOOP_CM = 1.8, 0.8
_LEAST_FIBRE_PX, _LEAST_LOOP_PX = 12.0, 7.0
#: So many fibres, and so many loops each way, are drawn before they repeat.
_FIBRES, _LOOPS = 22, 3


@lru_cache(maxsize=256)
def over_stitches(surface: Surface, cell: tuple[float, float], px_per_cm: float) -> Tile | None:
    """What lies over stitches that are drawn as large as `cell`, in pixels; None where nothing."""
    if surface is Surface.SINGLE:
        return _waves(*cell)
    if surface is Surface.CABLED:
        return _chevrons(*cell)
    if surface is Surface.BRUSHED:
        return _fibres(max(_LEAST_FIBRE_PX, _FIBRE_CM * px_per_cm))
    if surface is Surface.LOOPED:
        return _loops(max(_LEAST_LOOP_PX, _LOOP_CM * px_per_cm))
    return None


def _waves(w: float, h: float) -> Tile:
    """Over five stitches of every row one low soft wave, the next row's not quite under it."""
    long = 5 * w
    wave = f"q{fine(long / 4)} {fine(-h * 0.34)} {fine(long / 2)} 0t{fine(long / 2)} 0"
    strokes: list[Stroke] = []
    for ink, shows, up, thick in ((BLACK, 0.14, 0.84, 0.26), (WHITE, 0.17, 0.45, 0.3)):
        path = f"M0 {fine(up * h)}{wave}M{fine(-long * 0.3)} {fine((1 + up) * h)}{wave}{wave}"
        strokes.append(Stroke(ink, shows, path, h * thick))
    return Tile(long, 2 * h, tuple(strokes))


def _chevrons(w: float, h: float) -> Tile:
    """Two small chevrons to a stitch, and a sharp line of light along the row."""
    half, deep = w / 2, h * 0.26
    thin = max(0.6, min(w, h) * 0.08)
    dark, light = "", ""
    for at in (0.0, half):
        point = f"l{fine(half * 0.5)} {fine(deep)}l{fine(-half * 0.5)} {fine(deep)}"
        dark += f"M{fine(at + half * 0.1)} {fine(h * 0.36)}{point}"
        light += f"M{fine(at + half * 0.45)} {fine(h * 0.36)}{point}"
    line = f"M0 {fine(h * 0.2)}h{fine(w)}"
    strokes = (
        Stroke(BLACK, 0.34, dark, thin * 1.3),
        Stroke(WHITE, 0.24, light, thin),
        Stroke(WHITE, 0.36, line, thin),
    )
    return Tile(w, h, strokes)


def _fibres(long: float) -> Tile:
    """Long soft fibres that lie every way, most of them more across than up."""
    wide, tall = long * 2.3, long * 1.35
    chance = Random(17)
    thin = {WHITE: "", BLACK: ""}
    for at in range(_FIBRES):
        x, y = (at * 0.618 % 1) * wide, (at + 0.5) / _FIBRES * tall
        turn = (chance.random() - 0.5) * pi * 0.6
        along = long * (0.45 + 0.55 * chance.random())
        dx, dy = along * cos(turn), along * sin(turn)
        bow = (chance.random() - 0.5) * along * 0.4
        bend = f"q{number(dx / 2 - bow * sin(turn))} {number(dy / 2 + bow * cos(turn))} "
        bend += f"{number(dx)} {number(dy)}"
        lefts = (x, x - wide) if x + dx > wide else (x,)
        tops = (y, y - tall) if y + dy > tall else (y, y + tall) if y + dy < 0 else (y,)
        for left in lefts:
            for top in tops:
                thin[WHITE if at % 2 else BLACK] += f"M{number(left)} {number(top)}{bend}"
    strokes = []
    for ink, shows in ((BLACK, 0.2), (WHITE, 0.24)):
        strokes.append(Stroke(ink, shows * 0.4, thin[ink], max(1.6, long * 0.12)))
        strokes.append(Stroke(ink, shows, thin[ink], 0.6))
    return Tile(wide, tall, tuple(strokes))


def _loops(size: float) -> Tile:
    """Rings a little out of their rows, each with light on its upper half."""
    chance = Random(5)
    wide, tall = round(size * _LOOPS, 1), round(size * (_LOOPS + 1), 1)
    rings, lights = "", ""
    for row in range(_LOOPS + 1):
        for at in range(_LOOPS):
            x = round((at + 0.5 * (row % 2) + 0.36 + 0.2 * (chance.random() - 0.5)) * size, 1)
            y = round((row + 0.5 + 0.2 * (chance.random() - 0.5)) * size, 1)
            radius = round(size * (0.3 + 0.08 * chance.random()), 1)
            for left in (x, x - wide) if x + radius > wide else (x,):
                rings += ring((left, y), radius)
                lights += arch((left, y), round(radius * 0.8, 1))
    strokes = (
        Stroke(BLACK, 0.3, rings, size * 0.15),
        Stroke(WHITE, 0.48, lights, size * 0.17),
    )
    return Tile(wide, tall, strokes)
