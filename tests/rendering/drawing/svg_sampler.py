"""What colour a drawing has at many places: a small reader of the SVG that is drawn here.

It knows rect, circle, path, g, use, nested svg, clip paths, patterns and solid fills and strokes,
each place either in a shape or not: no soft edges, no filters, no dashes, no text.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Element = ElementTree.Element
_NUMBER = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?")
#: What a group says of all that is in it.
_INHERITED = {"fill", "stroke", "stroke-width", "stroke-opacity", "stroke-dasharray"}
#: How many straight pieces stand for one bend.
_PIECES = 10


class Sampler:
    """Drawings of one page, by the ids they define for one another."""

    def __init__(self, *drawings: str) -> None:
        self.roots = [ElementTree.fromstring(drawing) for drawing in drawings]
        self.ids = {
            one.attrib["id"]: one
            for root in self.roots
            for one in root.iter()
            if "id" in one.attrib
        }

    def colours(self, points: Points) -> tuple[Points, Points]:
        """Red, green, blue (0 to 255) of the first drawing, and how much of it is at places."""
        painted = self._inside(self.roots[0], points, {})
        shows = painted[:, 3:]
        return np.divide(
            painted[:, :3], shows, where=shows > 0, out=np.zeros_like(painted[:, :3])
        ), shows[:, 0]

    def _inside(self, parent: Element, points: Points, inherited: dict[str, str]) -> Points:
        painted = np.zeros((len(points), 4))
        for one in parent:
            painted = _over(self._drawn(one, points, inherited), painted)
        return painted

    def _drawn(self, one: Element, points: Points, inherited: dict[str, str]) -> Points:
        name = one.tag.rpartition("}")[2]
        if name in ("defs", "clipPath", "title", "pattern", "text") or one.get("filter"):
            return np.zeros((len(points), 4))
        points = _back(one.get("transform", ""), points)
        said = {**inherited, **{k: v for k, v in one.attrib.items() if k in _INHERITED}}
        if name == "use":
            return self._drawn(self.ids[one.attrib["href"][1:]], points, said)
        if name in ("g", "svg"):
            offset = np.array([float(one.get("x", 0)), float(one.get("y", 0))])
            painted = self._inside(one, points - offset, said)
            if name == "svg":
                size = np.array([float(one.get("width", 0)), float(one.get("height", 0))])
                local = points - offset
                painted[((local < 0) | (local > size)).any(axis=1)] = 0
            if clip := one.get("clip-path"):
                (shape,) = self.ids[clip[5:-1]]
                painted[~_within(_lines(shape), points)] = 0
            return painted * float(one.get("opacity", 1))
        return self._shape(one, points, said)

    def _shape(self, one: Element, points: Points, said: dict[str, str]) -> Points:
        lines = _lines(one)
        painted = np.zeros((len(points), 4))
        fill = said.get("fill", "#000")
        if fill != "none":
            there = _within(lines, points)
            painted[there] = self._paint(fill, points[there]) * float(one.get("fill-opacity", 1))
        stroke = said.get("stroke", "none")
        if stroke != "none" and "stroke-dasharray" not in said:
            width = float(said.get("stroke-width", 1))
            on = _along(lines, points, width / 2, one.get("stroke-linecap") == "round")
            edge = np.zeros((len(points), 4))
            edge[on] = self._paint(stroke, points[on]) * float(said.get("stroke-opacity", 1))
            painted = _over(edge, painted)
        return painted

    def _paint(self, paint: str, points: Points) -> Points:
        """Premultiplied colours at places."""
        if not paint.startswith("url("):
            short = paint[1:] if len(paint) == 7 else "".join(2 * c for c in paint[1:])
            return np.tile([*bytes.fromhex(short), 1.0], (len(points), 1))
        one = self.ids[paint[5:-1]]
        like = self.ids[one.attrib["href"][1:]] if "href" in one.attrib else one
        tile = np.array([float(like.attrib["width"]), float(like.attrib["height"])])
        return self._inside(like, np.mod(_back(one.get("patternTransform", ""), points), tile), {})


def _over(upper: Points, lower: Points) -> Points:
    return upper + lower * (1 - upper[:, 3:])


def _back(transform: str, points: Points) -> Points:
    """Places in the coordinates inside a transform."""
    for kind, said in re.findall(r"(\w+)\(([^)]*)\)", transform):
        values = [float(v) for v in said.replace(",", " ").split()]
        if kind == "translate":
            points = points - np.array([values[0], values[1] if len(values) > 1 else 0.0])
        elif kind == "scale":
            points = points / np.array([values[0], values[-1]])
        else:
            assert kind == "rotate"
            turn = math.radians(values[0])
            c, s = math.cos(turn), math.sin(turn)
            points = points @ np.array([[c, -s], [s, c]])
    return points


def _lines(shape: Element) -> list[list[complex]]:
    """The outlines of a shape as straight pieces; corners are taken as square."""
    name = shape.tag.rpartition("}")[2]

    def get(key: str) -> float:
        return float(shape.get(key, 0))

    if name == "rect":
        x, y, w, h = (get(key) for key in ("x", "y", "width", "height"))
        return [[x + y * 1j, x + w + y * 1j, x + w + (y + h) * 1j, x + (y + h) * 1j, x + y * 1j]]
    if name == "circle":
        turns = np.linspace(0, 2 * math.pi, 33)
        return [[complex(get("cx"), get("cy")) + get("r") * complex(np.exp(1j * t)) for t in turns]]
    assert name == "path", name
    return list(outlines(shape.attrib["d"]))


def outlines(path: str) -> Iterator[list[complex]]:
    """The strokes of a path as straight pieces."""
    tokens = _NUMBER.findall(path)
    at, start, command, before = 0j, 0j, "M", 0j
    points: list[complex] = []
    take = iter(tokens)
    pending = next(take, None)

    def number() -> float:
        nonlocal pending
        value = float(pending or "nan")
        pending = next(take, None)
        return value

    def pair(base: complex) -> complex:
        return base + number() + 1j * number()

    while pending is not None:
        if pending.isalpha():
            command, pending = pending, next(take, None)
        kind, base = command.upper(), at if command.islower() else 0j
        if kind == "M":
            if len(points) > 1:
                yield points
            at = start = pair(base)
            points, command = [at], "l" if command == "m" else "L"
            continue
        if kind == "Z":
            points.append(start)
            at, bend = start, []
        elif kind == "H":
            bend = [complex(number() + base.real, at.imag)]
        elif kind == "V":
            bend = [complex(at.real, number() + base.imag)]
        elif kind == "L":
            bend = [pair(base)]
        elif kind in "CS":
            first = pair(base) if kind == "C" else 2 * at - before
            before, end = pair(base), pair(base)
            bend = _bent([at, first, before, end])
        elif kind in "QT":
            before = pair(base) if kind == "Q" else 2 * at - before
            bend = _bent([at, before, pair(base)])
        else:
            assert kind == "A"
            radii, _, large, sweep = (number(), number()), number(), number(), number()
            bend = _arc(at, pair(base), radii, (bool(large), bool(sweep)))
        points += bend
        at = points[-1]
        if kind not in "CSQT":
            before = at
    if len(points) > 1:
        yield points


def _bent(ends: list[complex]) -> list[complex]:
    found = []
    for step in range(1, _PIECES + 1):
        t = step / _PIECES
        row = ends
        while len(row) > 1:
            row = [a + (b - a) * t for a, b in pairwise(row)]
        found.append(row[0])
    return found


def _arc(
    at: complex, end: complex, radii: tuple[float, float], flags: tuple[bool, bool]
) -> list[complex]:
    """An arc of an upright ellipse (SVG 1.1, appendix F.6)."""
    rx, ry = radii
    a, b = complex(at.real / rx, at.imag / ry), complex(end.real / rx, end.imag / ry)
    half = (b - a) / 2
    far = max(0.0, 1 - abs(half) ** 2)
    scale = max(1.0, abs(half))
    middle = (a + b) / 2
    if abs(half) > 0:
        side = half / abs(half) * 1j * math.sqrt(far)
        middle += -side if flags[0] == flags[1] else side
    first = np.angle(a - middle)
    turn = (np.angle(b - middle) - first) % (2 * math.pi)
    if not flags[1]:
        turn -= 2 * math.pi
    steps = [first + turn * k / _PIECES for k in range(1, _PIECES + 1)]
    round_ = [middle + scale * complex(np.exp(1j * t)) for t in steps]
    return [complex(p.real * rx, p.imag * ry) for p in round_]


def _pieces(lines: list[list[complex]]) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    begins = np.array([a for line in lines for a in line[:-1]])
    ends = np.array([b for line in lines for b in line[1:]])
    return begins, ends


def _within(lines: list[list[complex]], points: Points) -> NDArray[np.bool_]:
    """Whether places are inside, by the windings around them."""
    closed = [[*line, line[0]] for line in lines]
    winding = np.zeros(len(points))
    x, y = points[:, 0], points[:, 1]
    for a, b in zip(*_pieces(closed), strict=True):
        if a.imag == b.imag:
            continue
        crosses = (y >= min(a.imag, b.imag)) & (y < max(a.imag, b.imag))
        at = a.real + (y - a.imag) * (b.real - a.real) / (b.imag - a.imag)
        winding += np.where(crosses & (at > x), np.sign(b.imag - a.imag), 0)
    return winding != 0


def _along(
    lines: list[list[complex]], points: Points, reach: float, round_ends: bool
) -> NDArray[np.bool_]:
    """Whether places are no further from a line than its half width."""
    z = points[:, 0] + 1j * points[:, 1]
    on = np.zeros(len(points), dtype=bool)
    for a, b in zip(*_pieces(lines), strict=True):
        way = b - a
        if way == 0:
            continue
        local = (z - a) / (way / abs(way))
        beyond = np.maximum(0, np.maximum(-local.real, local.real - abs(way)))
        near = np.abs(local.imag) <= reach
        on |= near & (beyond == 0)
        if round_ends:
            on |= np.hypot(beyond, local.imag) <= reach
    return on
