"""The colours of a yarn as they lie along its strand, laid to and fro or round and round."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from math import cos, fsum, pi, sin
from random import Random

from stash.rendering.drawing.svg import element, number
from stash.rendering.drawing.yarn_look import YarnLook
from stash.stock.yarn import Dyed

#: How long a run of one colour is, in centimetres of strand, and how much longer or shorter each
#: may be: by a quarter, so that no false pattern shows.
RUNS_CM = {Dyed.VARIEGATED: (4.0, 20.0), Dyed.STRIPING: (200.0, 520.0)}
_VARIES = 0.25
#: So many runs at most in one drawing, and so many lays of them at least; then they repeat.
_MOST_RUNS, _REPEATED_LAYS = 240, 12
#: Rounds repeat nowhere: where they have more runs than this, these are drawn longer.
_MOST_IN_ROUNDS = 150
#: The least a run is drawn, and from where on to whole pixels, in pixels.
_LEAST_RUN_PX = 1.8
_WHOLE_PX_FROM = 3.0
#: How flecks look: how long they are at least and most, and how thick, against a lay's height; how
#: many lays are drawn before they repeat, and how long those are.
_FLECKS = {
    Dyed.HEATHERED: (1.0, 3.2, 0.32, 3, 8.0),
    Dyed.TWEED: (0.1, 0.5, 0.36, 4, 14.0),
    Dyed.SPECKLED: (0.06, 0.3, 0.3, 3, 8.0),
}


@dataclass(frozen=True, slots=True)
class Lays:
    """The lengths of strand beside one another that fill a drawing, in pixels.

    `lay`: how tall one is. `px_per_cm`: of the strand. `hidden`: how much of each is not seen,
    behind a tube. `turning`: each second one comes back. `transform`: how they lie in the drawing.
    `fleck_tiles`: so many times wider and taller is what repeats of flecks. `sides`: of rounds
    about the middle of a square how many sides each has, 0 of a circle; None where lays are level.
    """

    width: float
    height: float
    lay: float
    px_per_cm: float
    hidden: float = 0.0
    turning: bool = True
    transform: str = ""
    fleck_tiles: float = 1.0
    sides: int | None = None


@dataclass(frozen=True, slots=True)
class Paint:
    """What to fill a shape with, and what must be defined for it."""

    fill: str
    definition: str = ""


def paint(look: YarnLook, lays: Lays, mark: str) -> Paint:
    """The colours of a yarn whose colours are known, to fill a shape; `mark`: its own id."""
    shades = look.shades
    if len(shades) == 1:
        return Paint(shades[0][0])
    laid = _flecks if look.dyed not in RUNS_CM else _runs if lays.sides is None else _rounds
    width, height, paths = laid(look, lays)
    ground = element("rect", width=width, height=height, fill=shades[0][0])
    definition = element(
        "pattern",
        ground,
        *paths,
        id=mark,
        width=width,
        height=height,
        patternUnits="userSpaceOnUse",
        patternTransform=lays.transform,
    )
    return Paint(f"url(#{mark})", definition)


_Laid = tuple[float, float, list[str]]


def _runs(look: YarnLook, lays: Lays) -> _Laid:
    """Runs along the whole strand; of more than can be drawn a part, which repeats."""
    lays = _repeated(look, lays)
    drawn: list[tuple[int, str]] = []
    count = max(1, -(-int(lays.height) // max(1, int(lays.lay))))
    lowest = 0
    for lay, start, length, colour in islice(_pieces(look, lays), 2 * _MOST_RUNS):
        if lay >= count:
            break
        lowest = lay
        y = (lay + 0.5) * lays.lay
        drawn.append((colour, _level_part(start, start + length, y)))
    return lays.width, (lowest + 1) * lays.lay, _by_colour(look, drawn, lays)


def _level_part(left: float, right: float, y: float) -> str:
    """A part of a run: to whole pixels where it is so long that no share of it is lost."""
    if right - left > _WHOLE_PX_FROM:
        left, right = round(left), round(right)
    return f"M{number(left)} {number(y)}h{number(right - left)}"


def _by_colour(look: YarnLook, drawn: list[tuple[int, str]], lays: Lays) -> list[str]:
    """One path for each colour but the ground."""
    fill = "" if lays.sides is None else "none"  # level lines have nothing to fill
    paths = {at: "".join(d for one, d in drawn if one == at) for at in range(1, len(look.shades))}
    return [
        element("path", d=path, fill=fill, stroke=look.shades[at][0], stroke_width=lays.lay + 0.1)
        for at, path in paths.items()
        if path
    ]


def _repeated(look: YarnLook, lays: Lays) -> Lays:
    """As many lays, and as much of each, as there are runs for; the same lays where they are few.

    A part is as wide as it is left by a dozen of lays, so that no column shows where it repeats.
    """
    usual = _usual_run_cm(look)
    lays = replace(lays, px_per_cm=max(lays.px_per_cm, _LEAST_RUN_PX / usual))
    most_px = _MOST_RUNS * usual * lays.px_per_cm
    whole = lays.width + lays.hidden
    if whole * lays.height / lays.lay <= most_px:
        return lays
    rows = int(most_px / whole)
    if rows >= _REPEATED_LAYS:
        return replace(lays, height=rows * lays.lay)
    rows = min(_REPEATED_LAYS, max(1, round(lays.height / lays.lay)))
    width = round(most_px / rows)
    return replace(lays, width=width, height=rows * lays.lay, hidden=0.0, turning=False)


def _rounds(look: YarnLook, lays: Lays) -> _Laid:
    """Runs along rounds about the middle, from there outwards."""
    middle = lays.width / 2
    lengths = [_round_px(lays, at) for at in range(max(1, round(middle / lays.lay)))]
    usual = _usual_run_cm(look)
    scale = max(lays.px_per_cm, fsum(lengths) / (_MOST_IN_ROUNDS * usual))
    runs = run_lengths(look)
    colour, left = 0, 0.0
    drawn: list[tuple[int, str]] = []
    for at, length in enumerate(lengths):
        begun = 0.0
        while begun < length - 0.05:
            if left <= 0:
                colour, cm = next(runs)
                left = cm * scale
            part = min(left, length - begun)
            ends = begun / length, (begun + part) / length
            drawn.append((colour, _part_of_round(lays, at, ends)))
            begun, left = begun + part, left - part
    return lays.width, lays.width, _by_colour(look, drawn, lays)


def _round_px(lays: Lays, at: int) -> float:
    """How long a round is, the innermost first."""
    radius = (at + 0.5) * lays.lay
    return radius * (2.0 * lays.sides if lays.sides else 2 * pi)


def _part_of_round(lays: Lays, at: int, ends: tuple[float, float]) -> str:
    """A part of a round, from one share of it to another, as corners or as an arc."""
    radius, middle = (at + 0.5) * lays.lay, lays.width / 2
    begins, stops = ends
    if lays.sides:
        corners = [one / 4 for one in range(1, 4) if begins < one / 4 < stops]
        points = [_on_square(share) for share in (begins, *corners, stops)]
    else:
        halves = [(begins + stops) / 2] if stops - begins > 0.45 else []  # arcs of half a round
        shares = (begins, *halves, stops)
        points = [(sin(2 * pi * share), -cos(2 * pi * share)) for share in shares]
    placed = [f"{number(middle + x * radius)} {number(middle + y * radius)}" for x, y in points]
    onwards = "L" if lays.sides else f"A{number(radius)} {number(radius)} 0 0 1 "
    return f"M{placed[0]}" + "".join(f"{onwards}{one}" for one in placed[1:])


def _on_square(share: float) -> tuple[float, float]:
    """A place on a square about the middle, each side one away from it, from its upper left on."""
    side, along = divmod(share * 4, 1)
    x, y = 2 * along - 1, -1.0
    for _ in range(int(side) % 4):
        x, y = -y, x
    return x, y


def _pieces(look: YarnLook, lays: Lays) -> Iterator[tuple[int, float, float, int]]:
    """The seen pieces of each run: its lay, where it starts, how long it is, its colour."""
    whole = lays.width + lays.hidden
    at = 0.0
    scale = _px_per_cm(look, lays)
    for colour, length_cm in run_lengths(look):
        end = at + length_cm * scale
        while at < end:
            lay = int(at / whole + 1e-9)
            begins = at - lay * whole
            stops = min(end - lay * whole, whole)
            at = lay * whole + stops
            stops = min(stops, lays.width)
            if stops > begins:
                back = lays.turning and lay % 2
                yield lay, lays.width - stops if back else begins, stops - begins, colour


def run_lengths(look: YarnLook) -> Iterator[tuple[int, float]]:
    """The runs of a yarn without end: which of its colours, and for how many centimetres.

    All colours of one turn are longer or shorter together, so that turns wander and do not pool;
    and what one run is longer by alone, the next of its colour is shorter: their shares are equal.
    """
    chance = Random(look.seed)
    usual = _usual_run_cm(look)
    count = len(look.shades)
    first = chance.randrange(count)
    order = [(first + at) % count for at in range(count)]
    half = _VARIES / 2
    while True:
        alone = [half * (2 * chance.random() - 1) for _ in order]
        together = half * (2 * chance.random() - 1)
        for sign in (1, -1):
            for colour in order:
                yield colour, usual * (1 + together + sign * alone[colour])


def _usual_run_cm(look: YarnLook) -> float:
    """The lot's own, so that the shortest and longest of its runs are usual ones too."""
    least, most = RUNS_CM[look.dyed]
    low, high = least / (1 - _VARIES), most / (1 + _VARIES)
    return low + (high - low) * Random(look.seed).random()


def _px_per_cm(look: YarnLook, lays: Lays) -> float:
    """Of the strand, about as asked: so that every colour has its share of the drawing."""
    total_px = (lays.width + lays.hidden) * lays.height / lays.lay
    turn = 2 * len(look.shades)
    turns = max(1, round(total_px / lays.px_per_cm / (turn * _usual_run_cm(look))))
    return total_px / fsum(length for _, length in islice(run_lengths(look), turns * turn))


def _flecks(look: YarnLook, lays: Lays) -> _Laid:
    """Flecks in a tile that repeats, each lay with offsets of its own."""
    least, most, thick, rows, long = _FLECKS[look.dyed]
    chance = Random(look.seed)
    lay = lays.lay
    width = round(long * lay * lays.fleck_tiles)
    rows = round(rows * lays.fleck_tiles)
    others = look.shades[1:]
    drawn: list[list[str]] = [[] for _ in others]
    round_ends = 0.0 if look.dyed is Dyed.HEATHERED else thick * lay
    mean = (least + most) / 2 * lay + round_ends * 0.8
    counts = [share * width / (mean * thick) for _, share in others]
    for row in range(rows):
        order = _in_order(counts, row, chance)
        step = width / max(1, len(order))
        start = chance.random() * step
        for place, colour in enumerate(order):
            length = lay * (least + (most - least) * chance.random())
            x = start + place * step + (chance.random() - 0.5) * 0.5 * step
            y = (row + 0.5 + (chance.random() - 0.5) * 0.8 * (1 - thick)) * lay
            for left in (x, x - width) if x + length > width else (x,):
                drawn[colour].append(f"M{round(left)} {number(y)}h{number(length)}")
    paths = [
        element(
            "path",
            d="".join(one),
            stroke=shade,
            stroke_width=thick * lay,
            stroke_linecap="round" if round_ends else "",
        )
        for one, (shade, _) in zip(drawn, others, strict=True)
        if one
    ]
    return width, rows * lay, paths


def _in_order(counts: list[float], row: int, chance: Random) -> list[int]:
    """Which colour each fleck of a lay is in: so many of each, in the mean of the lays."""
    whole = [round(count * (row + 1)) - round(count * row) for count in counts]
    order = [at for at, count in enumerate(whole) for _ in range(count)]
    chance.shuffle(order)
    return order
