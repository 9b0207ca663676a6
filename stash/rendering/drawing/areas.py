"""A body's patches as areas in pixels: what is drawn in each role, the lower ones first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stash.rendering.drawing.cloth import Area
from stash.rendering.drawing.outlines import Scale, foot_of, path_of
from stash.rendering.drawing.patches import Patch, patches
from stash.rendering.drawing.svg import number
from stash.requirements.design.bands import MAIN
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape

_Drawn = Callable[[Patch], str]


def levels(
    laid: tuple[Shape, Layout], scale: Scale, bottom: float, *, hanging: bool = False
) -> list[Area]:
    """The colours of a body up from a line, or down from it where it is `hanging`.

    The role that most of it is in lies below all others, so that no seam shows through.
    """
    found = patches(*laid)
    unit = _units(laid[1], scale)

    def drawn(patch: Patch) -> str:
        tall = patch.tall * unit[1]
        top = bottom + patch.y * unit[1] if hanging else bottom - patch.y * unit[1] - tall
        return oblong_at((patch.x * unit[0], top), (patch.wide * unit[0], tall))

    top = bottom if hanging else bottom - scale.height
    return _by_role(found, oblong_at((0.0, top), (scale.width, scale.height)), drawn)


def reaches(
    laid: tuple[Shape, Layout], scale: Scale, bottom: float, *, hanging: bool = False
) -> dict[str, str]:
    """For each role that comes to the edge of a body, a path with its part of the edge.

    Patches at a side, at the bottom or at the top go on beyond it.
    """
    found = patches(*laid)
    unit = _units(laid[1], scale)
    room = max(one.x + one.wide for one in found), max(one.y + one.tall for one in found)
    beyond = scale.width + scale.height
    reach: dict[str, str] = {}
    for one in found:
        left, right = one.x * unit[0], (one.x + one.wide) * unit[0]
        low, high = one.y * unit[1], (one.y + one.tall) * unit[1]
        far = one.x <= 0, one.x + one.wide >= room[0], one.y <= 0, one.y + one.tall >= room[1]
        if not any(far):
            continue
        left, right = left - far[0] * beyond, right + far[1] * beyond
        low, high = low - far[2] * beyond, high + far[3] * beyond
        top = bottom + low if hanging else bottom - high
        path = oblong_at((left, top), (right - left, high - low))
        reach[one.role] = reach.get(one.role, "") + path
    return reach


def sock_reaches(layout: Layout, scale: Scale) -> dict[str, str]:
    """The same of a sock: level down its leg, upright along its foot, its heel in the main colour.

    As fine as an edge needs it, which is seen only where a role comes to it.
    """
    foot = foot_of(layout, scale)
    far = scale.width + scale.height
    reach = {MAIN: oblong_at((-far, foot.leg), (far + 1.2 * foot.heel, far))}
    for one in patches(Shape.SOCK, layout):
        starts, ends = one.y * scale.row_px, (one.y + one.tall) * scale.row_px
        path = ""
        if starts < foot.leg:
            top = -far if one.y <= 0 else starts
            path = oblong_at((-far, top), (far + 1.05 * foot.wide, min(ends, foot.leg) - top))
        first = 1.2 * foot.heel
        left, right = (max(first, at - foot.leg + foot.heel) for at in (starts, ends))
        if right > first:
            last = ends >= scale.height - 0.5
            wide = (far if last else right) - left
            path += oblong_at((left, foot.leg - 0.3 * foot.wide), (wide, far))
        reach[one.role] = reach.get(one.role, "") + path
    return {role: path for role, path in reach.items() if path}


def bowed_levels(laid: tuple[Shape, Layout], scale: Scale, sag: float) -> list[Area]:
    """The colours of a standing tube: its rows bow with the front of it, lowest in the middle."""
    found = patches(*laid)
    unit = _units(laid[1], scale)

    def low(x: float) -> float:
        return sag * (1 - (2 * x / scale.width - 1) ** 2)

    def drawn(patch: Patch) -> str:
        left, wide, tall = patch.x * unit[0], patch.wide * unit[0], patch.tall * unit[1]
        top = sag + scale.height - patch.y * unit[1] - tall
        right, middle = left + wide, left + wide / 2
        pull = 2 * low(middle) - (low(left) + low(right)) / 2
        return path_of(
            "M", left, top + low(left), "Q", middle, top + pull, right, top + low(right),
            "v", tall, "Q", middle, top + tall + pull, left, top + tall + low(left), "z",
        )  # fmt: skip

    return _by_role(found, oblong_at((0.0, 0.0), (scale.width, scale.height + 2 * sag)), drawn)


def _by_role(found: Sequence[Patch], whole: str, drawn: _Drawn) -> list[Area]:
    """The whole in the role that most is in, each other role as one path, then what is mixed."""
    size: dict[str, float] = {}
    for patch in found:
        size[patch.role] = size.get(patch.role, 0.0) + patch.wide * patch.tall
    most = max(sorted(size), key=lambda role: size[role])
    areas = [Area(most, whole)]
    for role in sorted(set(size) - {most}):
        own = (drawn(patch) for patch in found if patch.role == role and not patch.mixed)
        areas.append(Area(role, "".join(own)))
    areas += [Area(patch.role, drawn(patch), patch.mixed) for patch in found if patch.mixed]
    return [area for area in areas if area.path]


def _units(layout: Layout, scale: Scale) -> tuple[float, float]:
    """How many pixels a patch of one is across and up."""
    unit = (scale.stitch_px, scale.row_px)
    return unit[::-1] if layout.sideways else unit


def oblong_at(at: tuple[float, float], size: tuple[float, float]) -> str:
    """A rectangle as a path."""
    x, y, wide, tall = (number(one) for one in (*at, *size))
    return f"M{x} {y}h{wide}v{tall}h-{wide}z"
