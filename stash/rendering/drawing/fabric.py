"""Light and shade of a fabric: a tile is a stitch by a row, or several where those are small."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from functools import lru_cache
from math import ceil

from stash.rendering.drawing.svg import fine
from stash.rendering.drawing.texture import BLACK, WHITE, Stroke, Tile
from stash.requirements.design.layout import Layout
from stash.requirements.design.stitches import Craft, Knit, Stitch

#: The least width or height of a tile that is still seen, in pixels.
LEAST_PX = 4.6


def in_one_tile(size_px: float) -> int:
    """How many stitches, or rows, of a size one tile stands for, so that it can be seen."""
    return max(1, ceil(LEAST_PX / size_px))


def fabric_tile(layout: Layout, stitch_px: float, row_px: float) -> Tile:
    """The tile of what most rows of the body are worked in, in pixels."""
    worked = Counter(row.kind.stitch for row in layout.body.rows)
    stitch = max(worked, key=lambda one: (worked[one], one.name))
    wide, tall = stitch_px * in_one_tile(stitch_px), row_px * in_one_tile(row_px)
    return _tile(stitch, wide, tall)


@lru_cache(maxsize=256)
def _tile(stitch: Stitch, wide: float, tall: float) -> Tile:
    return _tile_of(stitch)(wide, tall)


_Tiled = Callable[[float, float], Tile]


def _tile_of(stitch: Stitch) -> _Tiled:
    if stitch.craft is Craft.CROCHET:
        return _crochet
    ribbed = re.fullmatch(r"(\d)x(\d) rib", stitch.name)
    if ribbed:
        knit, purl = (int(count) for count in ribbed.groups())
        return lambda w, h: _rib(w, h, knit, purl)
    return _NAMED.get(stitch.name, _stockinette) if isinstance(stitch, Knit) else _stockinette


def _path(*points: tuple[float, float]) -> str:
    return "M" + "L".join(f"{fine(x)} {fine(y)}" for x, y in points)


def _level(width: float, top: float, bottom: float) -> str:
    """A level bar."""
    return f"M0 {fine(top)}h{fine(width)}v{fine(bottom - top)}H0z"


def _crochet(w: float, h: float) -> Tile:
    """Posts that lean, the other way in each second row, and lines between the rows."""
    strokes: list[Stroke] = []
    for row in (0, 1):
        top = row * h
        strokes += [
            Stroke(BLACK, 0.3, _level(w, top + h * 0.9, top + h)),
            Stroke(BLACK, 0.12, _level(w, top + h * 0.78, top + h * 0.9)),
            Stroke(WHITE, 0.18, _level(w, top + h * 0.03, top + h * 0.2)),
            Stroke(BLACK, 0.26, _post(w, h, row, 0.08), w * 0.13),
            Stroke(WHITE, 0.2, _post(w, h, row, 0.3), w * 0.17),
        ]
    return Tile(w, 2 * h, tuple(strokes))


def _post(w: float, h: float, row: int, at: float) -> str:
    """One leaning line of a post, from the row's foot to under its top."""
    low, high, lean = (row + 0.9) * h, (row + 0.2) * h, 0.5
    start, end = (at, at + lean) if row == 0 else (1 - at, 1 - at - lean)
    bend = (start * 0.75 + end * 0.25, (row + 0.42) * h)
    return (
        f"M{fine(start * w)} {fine(low)}Q{fine(bend[0] * w)} {fine(bend[1])} "
        f"{fine(end * w)} {fine(high)}"
    )


def _legs(x: float, w: float, top: float, h: float) -> str:
    """A V, its point at the foot of the stitch."""
    return _path((x, top), (x + w / 2, top + h * 0.9), (x + w, top))


def _stockinette(w: float, h: float) -> Tile:
    """Vs, one in the other."""
    return Tile(w, h, (*_column(0, w, h), Stroke(BLACK, 0.12, f"M0 0V{fine(h)}", w * 0.1)))


def _column(x: float, w: float, h: float) -> tuple[Stroke, ...]:
    """A column of Vs from x on; those that begin in the tile above are drawn too."""
    dark = "".join(_legs(x, w, (up + 0.28) * h, h) for up in (-1, 0, 1))
    light = "".join(_legs(x, w, (up - 0.18) * h, h) for up in (-1, 0, 1, 2))
    return Stroke(BLACK, 0.21, dark, h * 0.17), Stroke(WHITE, 0.165, light, h * 0.22)


def _rib(w: float, h: float, knit: int, purl: int) -> Tile:
    """Columns of Vs, and between them columns in shade."""
    width = w * (knit + purl)
    strokes: list[Stroke] = []
    for at in range(knit):
        strokes += _column(at * w, w, h)
    left, wide = knit * w, purl * w
    lit = f"M0 0h{fine(left)}v{fine(h)}H0z"
    strokes.append(Stroke(WHITE, 0.1, lit))
    shade = f"M{fine(left)} 0h{fine(wide)}v{fine(h)}h{fine(-wide)}z"
    bump = f"M{fine(left)} {fine(h * 0.6)}h{fine(wide)}"
    strokes += [Stroke(BLACK, 0.13, shade), Stroke(WHITE, 0.13, bump, h * 0.22)]
    strokes.append(Stroke(BLACK, 0.18, f"M{fine(left)} 0V{fine(h)}M0 0V{fine(h)}", w * 0.14))
    return Tile(width, h, tuple(strokes))


def _garter(w: float, h: float) -> Tile:
    """Low waves, a ridge for every two rows, each ridge half a stitch on."""
    strokes: list[Stroke] = []
    for row in (0, 1):
        for x, y, ink, shows, thick in (
            (0.0, 0.42, WHITE, 0.26, 0.26), (0.0, 0.72, BLACK, 0.3, 0.24),
        ):  # fmt: skip
            start = (x - 0.5 * row) * w
            wave = f"q{fine(w / 4)} {fine(-h * 0.42)} {fine(w / 2)} 0t{fine(w / 2)} 0"
            path = f"M{fine(start)} {fine((row + y) * h)}{wave}{wave}"
            strokes.append(Stroke(ink, shows, path, h * thick))
    return Tile(w, 2 * h, tuple(strokes))


_NAMED: dict[str, _Tiled] = {"garter": _garter, "seed stitch": _garter}
