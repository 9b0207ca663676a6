"""The outline of each shape as it is laid flat, in pixels, from the sizes its rows come to."""

from __future__ import annotations

from dataclasses import dataclass

from stash.rendering.drawing.patches import TUBES
from stash.rendering.drawing.svg import number
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape

#: The sides of a hat are straight up to this share of its height, where its top is gathered and no
#: row is shorter; the gathered top is so much of its width either way.
_STRAIGHT, _TOP = 0.6, 0.075
#: A hat is so much narrower at its brim, each side; how far its lower edge is bowed.
_TUCKED, _BOWED = 0.018, 0.02
#: What is longer than this against its width lies folded in four.
_FOLDED_FROM, _FOLDS = 3.0, 4
#: How far one layer of a folded scarf lies beside the next, against its width.
_STEP = 0.07
#: Where the thumb of a mitten is set in, from its cuff, and how far down a tube's mouth is seen.
_THUMB_AT, _SAG = 0.4, 0.06


@dataclass(frozen=True, slots=True)
class Scale:
    """A layout's stitch and row in pixels, and its body as it is seen, at so many pixels a cm."""

    stitch_px: float
    row_px: float
    width: float
    height: float


def scale_of(shape: Shape, layout: Layout, px_per_cm: float) -> Scale:
    """How large a design is drawn: the front of a tube, half its round."""
    size = layout.size
    half = 2 if shape in TUBES else 1
    return Scale(
        stitch_px=layout.gauge.stitch_m * 100 * px_per_cm,
        row_px=layout.gauge.row_m * 100 * px_per_cm,
        width=size.across.m * 100 * px_per_cm / half,
        height=size.up.m * 100 * px_per_cm,
    )


def path_of(*parts: str | float) -> str:
    """A path of letters and numbers."""
    return "".join(part if isinstance(part, str) else f" {number(part)}" for part in parts).replace(
        "M ", "M"
    )


def is_folded(shape: Shape, scale: Scale) -> bool:
    """Whether a scarf is so long that it is drawn folded in four."""
    return shape is Shape.SCARF and scale.height > _FOLDED_FROM * scale.width


def folded_height(scale: Scale) -> float:
    """How tall a scarf is once it is folded."""
    return scale.height / _FOLDS


def layer_step(scale: Scale) -> float:
    """How far a layer of a folded scarf looks out behind the one before."""
    return scale.width * _STEP


def shoulder(layout: Layout) -> float:
    """From which share of its height a hat slopes: where its rows grow shorter."""
    rows = layout.body.rows[::-1] if layout.from_top else layout.body.rows
    if layout.sideways:
        return _STRAIGHT
    widest = layout.body.widest
    full = sum(1 for row in rows if row.stitches == widest)
    return _STRAIGHT if full == len(rows) else max(0.35, min(0.75, full / len(rows)))


def hat(width: float, height: float, straight: float) -> str:
    """Straight sides, a nearly straight slope, and a top gathered in four small scallops."""
    tucked, bow = width * _TUCKED, height * _BOWED
    top, scallop = width * _TOP, width * _TOP / 4
    middle, low = width / 2, height - bow
    up, turn = scallop * 1.4, height * (1 - straight)
    return path_of(
        "M", tucked, low,
        "C", tucked * 0.6, low - height * 0.2, 0.0, turn + height * 0.12, 0.0, turn,
        "C", width * 0.015, turn * 0.64, width * 0.2, turn * 0.3, middle - top, up,
        *(4 * ("a", scallop, scallop * 1.3, " 0 0 1", 2 * scallop, 0.0)),
        "C", width * 0.8, turn * 0.3, width * 0.985, turn * 0.64, width, turn,
        "C", width, turn + height * 0.12, width - tucked * 0.6, low - height * 0.2,
        width - tucked, low,
        "Q", middle, height + bow, tucked, low, "Z",
    )  # fmt: skip


def takings(width: float, height: float, straight: float) -> str:
    """Where stitches are taken together: lines from the top to where the sides turn."""
    turn = height * (1 - straight)
    lines = []
    for share in (-0.3, -0.17, -0.05, 0.07, 0.19, 0.31):
        end = width * (0.5 + share)
        start = width * (0.5 + share * 0.28)
        lines.append(path_of("M", start, turn * 0.16, "L", end, turn * (0.78 - abs(share) * 0.4)))
    return "".join(lines)


def sag(scale: Scale) -> float:
    """How far the front of a standing tube bows down in its middle."""
    return min(scale.width * _SAG, scale.height * 0.25)


def tube(width: float, height: float, sag: float) -> str:
    """A tube standing: its back edge above, its front bowed down."""
    low = sag + height
    return path_of(
        "M", 0.0, sag, "Q", width / 2, -sag, width, sag,
        "V", low, "Q", width / 2, low + 2 * sag, 0.0, low, "Z",
    )  # fmt: skip


def mouth(width: float, sag: float) -> str:
    """The inside of a tube that is seen above its front edge."""
    return path_of(
        "M", 0.0, sag, "Q", width / 2, -sag, width, sag, "Q", width / 2, 3 * sag, 0.0, sag, "Z"
    )  # fmt: skip


def band(width: float, height: float) -> str:
    """A headband laid flat: rounded where it folds."""
    fold = min(width * 0.03, height * 0.25)
    return path_of(
        "M", fold, 0.0, "H", width - fold, "Q", width, 0.0, width, fold,
        "V", height - fold, "Q", width, height, width - fold, height,
        "H", fold, "Q", 0.0, height, 0.0, height - fold,
        "V", fold, "Q", 0.0, 0.0, fold, 0.0, "Z",
    )  # fmt: skip


def oblong(width: float, height: float) -> str:
    """What is flat and has corners."""
    return path_of("M", 0.0, 0.0, "H", width, "V", height, "H", 0.0, "Z")


def point_down(width: float, height: float) -> str:
    """A shawl, its point below."""
    return path_of("M", 0.0, 0.0, "H", width, "L", width / 2, height, "Z")


def disc(width: float, inset: float = 0.0, *, hole: bool = False) -> str:
    """A circle in a square of so much width, so far in from its edge; drawn backwards as a hole."""
    radius = round(width / 2 - inset, 1)  # an arc of more than half a circle would bulge
    across = ("a", radius, radius, f" 0 1 {hole:d}")
    return path_of(
        "M", inset, width / 2, *across, 2 * radius, 0.0, *across, -2 * radius, 0.0, "Z"
    )  # fmt: skip


def square(width: float, inset: float = 0.0, *, hole: bool = False) -> str:
    """A square of so much width, so far in from its edge; drawn backwards as a hole."""
    side = width - 2 * inset
    first, then = "vh" if hole else "hv"
    return path_of("M", inset, inset, first, side, then, side, first, -side, "Z")


def hand(width: float, height: float) -> str:
    """A mitten without its thumb: a tube with a rounded tip, a little closer at its cuff."""
    tip, close = width * 0.62, width * 0.03
    return path_of(
        "M", close, height, "L", close, height * 0.78,
        "C", 0.0, height * 0.7, 0.0, height * 0.6, 0.0, tip,
        "C", 0.0, tip * 0.3, width * 0.2, 0.0, width / 2, 0.0,
        "S", width, tip * 0.3, width, tip,
        "C", width, height * 0.6, width, height * 0.7, width - close, height * 0.78,
        "L", width - close, height, "Z",
    )  # fmt: skip


def thumb(hand_size: tuple[float, float], thumb_size: tuple[float, float]) -> str:
    """The thumb of a mitten at its right side, leaning outwards."""
    width, height = hand_size
    wide, tall = thumb_size
    foot = height * (1 - _THUMB_AT) + tall * 0.1
    inner, top = width - wide * 0.3, foot - tall
    out = width + wide * 0.72
    return path_of(
        "M", inner, foot + wide * 0.5, "L", inner, foot - tall * 0.35,
        "C", inner + wide * 0.2, foot - tall * 0.6, out - wide * 0.95, top + tall * 0.25,
        out - wide * 0.72, top + wide * 0.35,
        "C", out - wide * 0.5, top - wide * 0.12, out + wide * 0.1, top, out, top + wide * 0.5,
        "C", out - wide * 0.05, foot - tall * 0.4, width + wide * 0.3, foot, inner,
        foot + wide * 0.5, "Z",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Foot:
    """A sock from the side, in pixels: its leg down to the heel, and its foot from heel to toe."""

    wide: float
    leg: float
    heel: float
    foot: float

    @property
    def size(self) -> tuple[float, float]:
        """How much room it takes."""
        return max(self.foot, self.wide), self.leg + self.wide


def foot_of(layout: Layout, scale: Scale) -> Foot:
    """A sock's measures: its body is leg and foot without the heel, a fifth of the foot."""
    heel = sum(len(part.rows) for part in layout.parts[1:]) * scale.row_px
    leg = max(scale.height - 4 * heel, scale.row_px)
    return Foot(scale.width, leg, heel, scale.height - leg + heel)


def sock(foot: Foot) -> str:
    """Its outline: a rounded heel and a rounded toe, all of it within its leg and its foot."""
    w, low, long = foot.wide, foot.leg + foot.wide, foot.foot
    bend = w * 0.5
    return path_of(
        "M", 0.0, 0.0, "H", w, "V", foot.leg,
        "Q", w, foot.leg + w * 0.15, w + bend * 0.7, foot.leg + w * 0.18,
        "L", long - bend, foot.leg + w * 0.26,
        "C", long, foot.leg + w * 0.3, long + w * 0.02, low, long - bend * 0.8, low,
        "H", w * 0.45, "C", w * 0.1, low, 0.0, low - w * 0.25, 0.0, foot.leg + w * 0.2, "Z",
    )  # fmt: skip


def heel(foot: Foot) -> str:
    """The heel as an area of its own."""
    low = foot.leg + foot.wide
    return path_of(
        "M", 0.0, foot.leg + foot.wide * 0.1, "L", foot.heel * 1.3, foot.leg + foot.wide * 0.55,
        "L", foot.heel * 1.1, low, "H", 0.0, "Z",
    )  # fmt: skip


def foot_area(foot: Foot) -> str:
    """What of a sock is foot: before the heel, from where leg and foot meet in front."""
    low, long = foot.leg + foot.wide, foot.foot + foot.wide
    return path_of(
        "M", foot.wide, foot.leg, "L", foot.heel * 1.3, foot.leg + foot.wide * 0.55,
        "L", foot.heel * 1.1, low, "H", long, "V", foot.leg, "Z",
    )  # fmt: skip


def instep(foot: Foot) -> str:
    """Where the heel is set in and where the toe begins."""
    low = foot.leg + foot.wide
    toe = foot.foot - foot.wide * 0.62
    return path_of(
        "M", 0.0, foot.leg + foot.wide * 0.1, "L", foot.heel * 1.3, foot.leg + foot.wide * 0.55,
        "L", foot.heel * 1.1, low, "M", toe, foot.leg + foot.wide * 0.2, "L", toe, low,
    )  # fmt: skip


def outline_of(shape: Shape, scale: Scale) -> str:
    """The outline of a body that is no more than that; what has parts of its own has its own."""
    plain = {Shape.HEADBAND: band, Shape.TRIANGLE: point_down}
    return plain.get(shape, oblong)(scale.width, scale.height)
