"""Colours as sRGB values, their CIE Lab coordinates and the CIEDE2000 difference."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

#: Linear sRGB to XYZ, as printed in IEC 61966-2-1:1999.
TO_XYZ = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
#: D65 as that matrix gives it (its row sums), so that every grey comes out without a hue.
_WHITE = tuple(math.fsum(row) for row in TO_XYZ)
#: The straight part of the Lab curve (CIE 15): where it ends, and its slope.
_CURVE_FROM, _SLOPE = 216 / 24389, 24389 / 27
_SEVENTH_POWER_OF_25 = 25.0**7
#: Below this chroma an eye names no hue (our choice).
GREY_BELOW = 5.0


@dataclass(frozen=True, slots=True, order=True)
class Colour:
    """An sRGB colour, written `#rrggbb`, as near as a screen comes to a yarn."""

    hex: str

    def __post_init__(self) -> None:
        if len(self.hex) != 7 or self.hex[0] != "#" or self.hex != self.hex.lower():
            raise ValueError("no colour")
        int(self.hex[1:], 16)


@dataclass(frozen=True, slots=True, order=True)
class Lab:
    """A colour as an eye orders it: how light (0 black to 100 white), and its two hue axes."""

    lightness: float
    a: float
    b: float

    @property
    def chroma(self) -> float:
        """How far from grey."""
        return math.hypot(self.a, self.b)

    @property
    def hue(self) -> float | None:
        """The hue angle in degrees from 0 up to 360; None for a grey, which has none."""
        return None if self.chroma < GREY_BELOW else _angle(self.a, self.b)


def lab(colour: Colour) -> Lab:
    """Where a screen colour lies for the eye: CIE Lab under D65, 2 degree observer.

    Source: IEC 61966-2-1:1999 for sRGB to XYZ, CIE 15 for XYZ to Lab.
    """
    return lab_of_light(light(colour))


def light(colour: Colour) -> tuple[float, ...]:
    """How much red, green and blue light a screen gives for a colour, each from 0 to 1."""
    return linear_of(bytes.fromhex(colour.hex[1:]))


def linear_of(pixel: bytes) -> tuple[float, ...]:
    """The same of a pixel: sRGB channels, a byte each."""
    return tuple(_LINEAR[channel] for channel in pixel)


def colour_of_light(linear: Sequence[float]) -> Colour:
    """The screen colour nearest to so much red, green and blue light; what is over 1 is cut."""
    steps = (round(255 * _encoded(min(1.0, max(0.0, part)))) for part in linear)
    return Colour("#" + "".join(f"{step:02x}" for step in steps))


def lab_of_light(linear: Sequence[float]) -> Lab:
    """Where so much red, green and blue light lies for the eye."""
    red, green, blue = linear
    x, y, z = (
        _curve((of_red * red + of_green * green + of_blue * blue) / white)
        for (of_red, of_green, of_blue), white in zip(TO_XYZ, _WHITE, strict=True)
    )
    return Lab(116 * y - 16, 500 * (x - y), 200 * (y - z))


def lightness_gap(one: Lab, other: Lab) -> float:
    """How far apart two colours are in a grey photograph, in L*."""
    return abs(one.lightness - other.lightness)


def hue_difference(one: Lab, other: Lab) -> float | None:
    """The angle between two hues, 0 to 180 degrees; None where either is a grey."""
    if one.hue is None or other.hue is None:
        return None
    apart = abs(one.hue - other.hue)
    return min(apart, 360 - apart)


def ciede2000(one: Lab, other: Lab) -> float:
    """How different two colours look: about 1 is just seen, 100 is black against white.

    Source: CIE 142-2001 in the formulation of Sharma, Wu and Dalal, Color Res. Appl. 30 (2005),
    all weighting factors 1.
    """
    stretch = 1 + 0.5 * (1 - _leaning((one.chroma + other.chroma) / 2))
    chroma_1, hue_1 = _polar(one.a * stretch, one.b)
    chroma_2, hue_2 = _polar(other.a * stretch, other.b)
    turn = _turn(hue_1, hue_2) if chroma_1 * chroma_2 else 0.0
    lightness = (one.lightness + other.lightness) / 2
    chroma = (chroma_1 + chroma_2) / 2
    hue = _mean_hue(hue_1, hue_2) if chroma_1 * chroma_2 else hue_1 + hue_2
    from_middle = (lightness - 50) ** 2
    by_lightness = (other.lightness - one.lightness) / (
        1 + 0.015 * from_middle / math.sqrt(20 + from_middle)
    )
    by_chroma = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    by_hue = (
        2
        * math.sqrt(chroma_1 * chroma_2)
        * math.sin(math.radians(turn / 2))
        / (1 + 0.015 * chroma * _hue_weight(hue))
    )
    squares = by_lightness**2 + by_chroma**2 + by_hue**2
    return math.sqrt(squares + _rotation(chroma, hue) * by_chroma * by_hue)


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def _encoded(part: float) -> float:
    return 12.92 * part if part <= 0.0031308 else 1.055 * part ** (1 / 2.4) - 0.055


_LINEAR = tuple(_linear(step / 255) for step in range(256))


def _curve(share: float) -> float:
    return math.cbrt(share) if share > _CURVE_FROM else (_SLOPE * share + 16) / 116


def _angle(a: float, b: float) -> float:
    return math.degrees(math.atan2(b, a)) % 360 if a or b else 0.0


def _polar(a: float, b: float) -> tuple[float, float]:
    return math.hypot(a, b), _angle(a, b)


def _leaning(chroma: float) -> float:
    return math.sqrt(chroma**7 / (chroma**7 + _SEVENTH_POWER_OF_25))


def _turn(hue_1: float, hue_2: float) -> float:
    """From the first hue to the second the short way round, -180 to 180 degrees."""
    apart = hue_2 - hue_1
    if apart > 180:
        return apart - 360
    return apart + 360 if apart < -180 else apart


def _mean_hue(hue_1: float, hue_2: float) -> float:
    total = hue_1 + hue_2
    if abs(hue_1 - hue_2) <= 180:
        return total / 2
    return (total + 360) / 2 if total < 360 else (total - 360) / 2


def _hue_weight(hue: float) -> float:
    return (
        1
        - 0.17 * math.cos(math.radians(hue - 30))
        + 0.24 * math.cos(math.radians(2 * hue))
        + 0.32 * math.cos(math.radians(3 * hue + 6))
        - 0.20 * math.cos(math.radians(4 * hue - 63))
    )


def _rotation(chroma: float, hue: float) -> float:
    """The term that turns the ellipses in the blues."""
    angle = 30 * math.exp(-(((hue - 275) / 25) ** 2))
    return -2 * _leaning(chroma) * math.sin(math.radians(2 * angle))


#: Where one family of hues ends and the next begins, in degrees of CIE Lab (our choice, set so that
#: plain colour words fall into their own family).
_HUES = (
    (45.0, "red"),
    (72.0, "orange"),
    (108.0, "yellow"),
    (210.0, "green"),
    (290.0, "blue"),
    (345.0, "purple"),
    (360.0, "red"),
)


def family(colour: Lab) -> str:
    """The plain word for a colour: red, orange, yellow, green, blue, purple, pink, brown and greys.

    Greys by lightness; a light red is pink, and a dark or dull orange or yellow is brown.
    """
    if colour.chroma < 9:
        return "black" if colour.lightness < 25 else "white" if colour.lightness > 88 else "grey"
    hue = math.degrees(math.atan2(colour.b, colour.a)) % 360
    word = next(word for end, word in _HUES if hue < end)
    dull = colour.lightness < 52 or (colour.chroma < 36 and colour.lightness < 70)
    if word == "red" and colour.lightness > 55:
        return "pink"
    if word == "yellow" and dull:
        return "green" if hue > 98 else "brown"
    if word == "orange" and dull:
        return "brown"
    if word == "red" and colour.chroma < 30 and colour.lightness < 45:
        return "brown"
    return word
