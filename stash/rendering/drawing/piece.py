"""A design as the piece it becomes, in the yarns it takes, to scale."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from math import pi, tan

from stash.rendering.drawing import outlines
from stash.rendering.drawing.areas import bowed_levels, levels, oblong_at, reaches, sock_reaches
from stash.rendering.drawing.cloth import Area, Cloth, cloth_of
from stash.rendering.drawing.edge import Edge
from stash.rendering.drawing.fabric import in_one_tile
from stash.rendering.drawing.outlines import Scale, scale_of
from stash.rendering.drawing.patches import TUBES, rings
from stash.rendering.drawing.svg import (
    element,
    mark_of,
    number,
    picture_of,
)
from stash.rendering.drawing.yarn_look import YarnLook
from stash.requirements.design.bands import MAIN
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import HATS, Shape

#: A shape with its rows, as `Need.laid` has it.
Laid = tuple[Shape, Layout]

#: Room for the edge around a piece, in pixels; a fold-up brim is so much wider than its hat.
_EDGE, _BRIM_WIDER = 1.0, 0.03
#: Between the two of a pair, against the width of one.
_APART = 0.06
#: What several rows in one tile are called; more are "many".
_TOGETHER = {2: "twos", 3: "threes", 4: "fours", 5: "fives", 6: "sixes"}


@dataclass(frozen=True, slots=True)
class PieceShown:
    """How a piece is shown: its scale, in grey or not, how many centimetres are folded up.

    `title`: design and size in words; without one the drawing is silent. `again`: tells apart the
    ids of one piece drawn twice on a page. `open_`: to be worked on, so a long scarf is not folded,
    and what moves may be drawn in its group `moved`, between its colours and its edge.
    """

    px_per_cm: float
    grey: bool = False
    folded_cm: float = 0.0
    title: str = ""
    again: str = ""
    open_: bool = False


def piece(laid: Laid, looks: Mapping[str, YarnLook], shown: PieceShown) -> str:
    """A design as SVG, each role in its yarn's looks; a role without one in a plain grey.

    Needs nothing else on its page. One of the squares of a patchwork; both of a pair of mittens.
    """
    shape, layout = laid
    worn = {role: looks.get(role, YarnLook()) for role in layout.roles}
    scale = scale_of(shape, layout, shown.px_per_cm)
    facts = (shape.value, layout.size, len(layout.body.rows), layout.stretches)
    mark = mark_of(facts, layout.body.upright, [*worn.items()], shown) + shown.again
    cloth = cloth_of(laid, worn, (scale, mark), grey=shown.grey, open_=shown.open_)
    body = _drawn(laid, scale, cloth, shown)
    size = size_px(laid, shown.px_per_cm, shown.folded_cm, open_=shown.open_)
    title = f"{shown.title}: {_in_words(worn, scale)}" if shown.title else ""
    whole = element("g", *body, transform=f"translate({_EDGE:g} {_EDGE:g})")
    return picture_of(
        size, title, (element("defs", *cloth.definitions), whole), overflows=cloth.is_brushed
    )


def size_px(
    laid: Laid, px_per_cm: float, folded_cm: float = 0.0, *, open_: bool = False
) -> tuple[float, float]:
    """How much room a piece takes at a scale: width and height, its edge included."""
    width, height = _room(laid, scale_of(*laid, px_per_cm), folded_cm * px_per_cm, open_=open_)
    return round(width + 2 * _EDGE, 1), round(height + 2 * _EDGE, 1)


def px_per_cm_for(
    pieces: Iterable[Laid], width: float, height: float, *, open_: bool = False
) -> float:
    """The one scale at which each of several pieces fits a box of this size, in pixels."""
    rooms = [_room(laid, scale_of(*laid, 1.0), 0.0, open_=open_) for laid in pieces]
    inner = (width - 2 * _EDGE, height - 2 * _EDGE)
    return min((min(inner[0] / w, inner[1] / h) for w, h in rooms), default=1.0)


def _room(laid: Laid, scale: Scale, folded: float, *, open_: bool) -> tuple[float, float]:
    shape, layout = laid
    width, height = scale.width, scale.height
    if shape in HATS and folded:
        return width * (1 + _BRIM_WIDER), height - folded
    if shape is Shape.SOCK:
        return outlines.foot_of(layout, scale).size
    if shape is Shape.MITTEN:
        one = width + _thumb_size(layout, scale)[0]
        return (2 * one + width * _APART, height) if layout.made > 1 else (one, height)
    if shape is Shape.COWL:
        return width, height + 2 * outlines.sag(scale)
    if outlines.is_folded(shape, scale) and not open_:
        step = outlines.layer_step(scale)
        return width + 2 * step, outlines.folded_height(scale) + step
    return width, height


def _in_words(worn: Mapping[str, YarnLook], scale: Scale) -> str:
    said = ", ".join(f"{role} {look.name}".strip() for role, look in worn.items())
    times = in_one_tile(scale.row_px)
    return f"{said}; rows drawn in {_TOGETHER.get(times, 'many')}" if times > 1 else said


def _drawn(laid: Laid, scale: Scale, cloth: Cloth, shown: PieceShown) -> list[str]:
    shape, layout = laid
    if shape is Shape.MITTEN:
        return _mittens(layout, scale, cloth)
    if shape is Shape.SOCK:
        return _sock(layout, scale, cloth)
    if shape in HATS:
        return _hat(laid, scale, cloth, shown.folded_cm * shown.px_per_cm)
    if layout.centred:
        return _rounds(laid, scale, cloth)
    if outlines.is_folded(shape, scale) and not shown.open_:
        return _folded(laid, scale, cloth)
    if shape is Shape.COWL:
        return _tube(laid, scale, cloth)
    outline = outlines.outline_of(shape, scale)
    return _levels(laid, scale, cloth, outline, _sides(laid, scale))


def _levels(laid: Laid, scale: Scale, cloth: Cloth, outline: str, over: Sequence[str]) -> list[str]:
    edge = Edge(outline, lambda: reaches(laid, scale, scale.height))
    return _clipped(levels(laid, scale, scale.height), edge, cloth, over)


def _all_in(role: str) -> Callable[[], Mapping[str, str]]:
    return lambda: {role: ""}


def _clipped(
    areas: Sequence[Area], edge: Edge, cloth: Cloth, over: Sequence[str] = (), name: str = "o"
) -> list[str]:
    """Areas inside an edge, what lies over them, and the edge; `name` tells its clip apart."""
    clip = element("clipPath", element("path", d=edge.path), id=cloth.mark + name)
    inside = [*(part for area in areas for part in cloth.covered(area)), *cloth.moved(name)]
    clipped = element("g", *inside, *over, clip_path=f"url(#{cloth.mark}{name})")
    return [edge.before(cloth), clip, clipped, edge.after(cloth)]


def _shade(path: str, shows: float) -> str:
    return element("path", d=path, fill="#000", fill_opacity=f"{shows:g}")


def _sides(laid: Laid, scale: Scale) -> list[str]:
    """The last centimetre at each side of a tube, where it turns away."""
    shape, layout = laid
    if shape not in TUBES:
        return []
    one_cm = scale.row_px / (layout.gauge.row_m * 100)
    wide = min(one_cm, scale.width * 0.12) / 3
    steps = []
    for part in (1, 2, 3):
        for x in (0.0, scale.width - wide * part):
            steps.append(oblong_at((x, -scale.height), (wide * part, 3 * scale.height)))
    return [_shade(step, 0.05) for step in steps]


def _hat(laid: Laid, scale: Scale, cloth: Cloth, folded: float) -> list[str]:
    layout = laid[1]
    height = scale.height - folded
    straight = outlines.shoulder(layout)
    straight = max(0.3, (straight * scale.height - folded) / height)
    taken = element(
        "path", d=outlines.takings(scale.width, height, straight), fill="none",
        stroke="#000", stroke_opacity="0.3", stroke_dasharray="3 2.5",
    )  # fmt: skip
    outline = outlines.hat(scale.width, height, straight)
    over = [*_sides(laid, scale), taken]
    drawn = _levels(laid, scale, cloth, outline, over)
    if not folded:
        return drawn
    wider = scale.width * _BRIM_WIDER
    hat = element("g", *drawn, transform=f"translate({number(wider / 2)} 0)")
    return [hat, *_brim(laid, scale, cloth, (height, folded))]


def _brim(laid: Laid, scale: Scale, cloth: Cloth, at: tuple[float, float]) -> list[str]:
    """The second layer, its first row on top, with a dark line above."""
    low, tall = at
    width = scale.width * (1 + _BRIM_WIDER)
    reach = partial(reaches, laid, scale, 0.0, hanging=True)
    edge = Edge(outlines.band(width, tall), reach)
    areas = levels(laid, scale, 0.0, hanging=True)
    narrow = Edge(outlines.band(scale.width, tall), reach)
    _, clip, layer, _ = _clipped(areas, narrow, cloth, _sides(laid, scale), "b")
    stretched = element("g", layer, transform=f"scale({1 + _BRIM_WIDER:g} 1)")
    over = (width - scale.width) / 2
    line = _shade(oblong_at((over, -2.5), (scale.width, 3.0)), 0.35)
    inside = (clip, edge.before(cloth), line, stretched, edge.after(cloth))
    return [element("g", *inside, transform=f"translate(0 {number(low - tall)})")]


def _tube(laid: Laid, scale: Scale, cloth: Cloth) -> list[str]:
    """A tube standing: its rows bow towards one, and its dark inside is seen."""
    sag = outlines.sag(scale)
    areas = bowed_levels(laid, scale, sag)
    reach = partial(reaches, laid, scale, sag + scale.height)
    edge = Edge(outlines.tube(scale.width, scale.height, sag), reach)
    inside = outlines.mouth(scale.width, sag)
    dark = [*cloth.covered(Area(areas[0].role, inside)), _shade(inside, 0.5)]
    drawn = _clipped(areas, edge, cloth, [*_sides(laid, scale), *dark])
    mouth = Edge(inside, reach)
    return [*drawn, element("g", mouth.before(cloth), mouth.after(cloth))]


def _rounds(laid: Laid, scale: Scale, cloth: Cloth) -> list[str]:
    """Rounds as frames, the outermost first and each smaller one over it."""
    shape, layout = laid
    ring = outlines.disc if shape is Shape.CIRCLE else outlines.square
    rounds = len(layout.body.rows)
    areas, hollow = [], []
    out = rounds
    for role, count in rings(layout)[::-1]:
        inset, inner = (scale.width / 2 * (1 - at / rounds) for at in (out, out - count))
        path = ring(scale.width, inset)
        areas.append(Area(role, path))
        hole = ring(scale.width, inner, hole=True) if count < out else ""
        hollow.append(Area(role, path + hole))
        out -= count
    whole = Edge(ring(scale.width), _all_in(areas[0].role))
    colours = [part for area in areas for part in cloth.coloured(area)]
    shades = [part for area in hollow for part in cloth.shaded(area)]
    round_about = _turned(
        [*shades, *cloth.moved()], scale.width, cloth.mark, 16 if shape is Shape.CIRCLE else 4
    )
    return _clipped([], whole, cloth, [*colours, *round_about], "r")


def _turned(drawn: Sequence[str], width: float, mark: str, times: int) -> list[str]:
    """What is drawn level at the lower edge of a square, turned about its middle to every side."""
    middle, low = width / 2, width + 2
    half = (low - middle) * tan(pi / times)
    wedge = outlines.path_of(
        "M", middle, middle, "L", middle - half, low, "H", middle + half, "Z"
    )  # fmt: skip
    clip = element("clipPath", element("path", d=wedge), id=f"{mark}w")
    group, turn = element("g", *drawn, clip_path=f"url(#{mark}w)", id=f"{mark}w1"), 1
    while turn < times:
        by = f"rotate({360 * turn / times:g} {number(middle)} {number(middle)})"
        again = element("use", href=f"#{mark}w{turn}", transform=by)
        turn *= 2
        group = element("g", group, again, id=f"{mark}w{turn}")
    return [clip, group]


def _folded(laid: Laid, scale: Scale, cloth: Cloth) -> list[str]:
    """A long scarf in four: its beginning in front, two layers seen behind it."""
    step, tall = outlines.layer_step(scale), outlines.folded_height(scale)
    front = outlines.oblong(scale.width, tall)
    drawn: list[str] = []
    for layer in (2, 1, 0):
        areas = levels(laid, scale, tall) if layer == 0 else [Area(MAIN, front)]
        reach = partial(reaches, laid, scale, tall) if layer == 0 else _all_in(MAIN)
        shade = [_shade(front, 0.14 * layer)] if layer else []
        inside = _clipped(areas, Edge(front, reach), cloth, shade, f"l{layer}")
        across, down = layer * step, step - layer * step * 0.5
        place = f"translate({number(across)} {number(down)})"
        drawn.append(element("g", *inside, transform=place))
    return drawn


def _thumb_size(layout: Layout, scale: Scale) -> tuple[float, float]:
    part = layout.parts[1]
    return part.widest / 2 * scale.stitch_px, len(part.rows) * scale.row_px


def _mittens(layout: Layout, scale: Scale, cloth: Cloth) -> list[str]:
    """A mitten with its thumb, and where they are a pair the other one, turned over."""
    hand_size = (scale.width, scale.height)
    size = _thumb_size(layout, scale)
    thumb = outlines.thumb(hand_size, size)
    laid = (Shape.MITTEN, layout)
    one = element(
        "g",
        *_clipped([Area(MAIN, thumb)], Edge(thumb, _all_in(MAIN)), cloth, (), "t"),
        *_levels(laid, scale, cloth, outlines.hand(*hand_size), _sides(laid, scale)),
        id=f"{cloth.mark}pair",
    )
    if layout.made < 2:
        return [one]
    whole = 2 * (scale.width + size[0]) + scale.width * _APART
    other = f"translate({number(whole)} 0)scale(-1 1)"
    return [one, element("use", href=f"#{cloth.mark}pair", transform=other)]


def _sock(layout: Layout, scale: Scale, cloth: Cloth) -> list[str]:
    """A sock from the side: its rows go down the leg, and turn to go along the foot to the toe."""
    foot = outlines.foot_of(layout, scale)
    areas = levels((Shape.SOCK, layout), scale, 0.0, hanging=True)
    tube, along = f"{cloth.mark}tube", f"{cloth.mark}along"
    leg = [*(part for area in areas for part in cloth.covered(area)), *cloth.moved()]
    place = f"translate({number(foot.heel - foot.leg)} {number(foot.leg + foot.wide)})rotate(-90)"
    clip = element("clipPath", element("path", d=outlines.foot_area(foot)), id=along)
    again = element("use", href=f"#{tube}", transform=place)
    over = [
        element("g", *leg, id=tube),
        clip,
        element("g", again, clip_path=f"url(#{along})"),
        *cloth.covered(Area(MAIN, outlines.heel(foot))),
        element("path", d=outlines.instep(foot), fill="none", stroke="#000", stroke_opacity="0.35"),
    ]
    return _clipped(
        [], Edge(outlines.sock(foot), lambda: sock_reaches(layout, scale)), cloth, over, "s"
    )
