"""Made-up photographs of yarn and paper of known colour, under lights that are published.

A reflectance for each colour comes from `colour-science` (H. Otsu, M. Yamamoto and T. Hachisuka,
Reproducing spectral reflectances from tristimulus colours, Comput. Graph. Forum 37 (2018)); its
light under an illuminant of CIE 15 is what the 2 degree observer takes of it. The truth is that
reflectance under D65. A camera takes out a part of a light's cast, exposes for the brightest, and
adds noise; strands are rounded, twisted and lie to and fro, in the shade at one side.
"""

from __future__ import annotations

import struct
import warnings
import zlib
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from stash.measures.colour import Lab

warnings.filterwarnings("ignore", module="colour")
#: Average daylight, a tungsten lamp, and a cool white fluorescent tube, which is greenish (CIE 15).
LIGHTS = ("D65", "A", "FL2")
#: So wide a disc as the page takes round a tap, in pixels of the shrunk picture.
RADIUS = 40


@cache
def _colour() -> Any:
    import colour

    return colour


@cache
def _observer() -> Any:
    colour = _colour()
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy()
    return observer.align(colour.SpectralShape(380, 730, 10))


@cache
def _light(name: str) -> Any:
    return _colour().SDS_ILLUMINANTS[name].copy().align(_observer().shape)


@cache
def _reflectance(hex_value: str) -> Any:
    from colour.recovery import XYZ_to_sd_Otsu2018

    colour = _colour()
    xyz = colour.sRGB_to_XYZ(colour.notation.HEX_to_RGB(hex_value))
    return XYZ_to_sd_Otsu2018(xyz, _observer(), _light("D65"))


@cache
def _seen(hex_value: str, light: str) -> Any:
    """Linear sRGB of a colour under a light: above 1 or below 0 where a screen cannot show it."""
    colour = _colour()
    flat = colour.sd_ones(_observer().shape)
    sd = flat * 0.89 if hex_value == "paper" else flat if hex_value == "white" else None
    sd = _reflectance(hex_value) if sd is None else sd
    xyz = colour.sd_to_XYZ(sd, _observer(), _light(light)) / 100
    return colour.XYZ_to_sRGB(xyz, apply_cctf_encoding=False)


@cache
def truth(hex_value: str) -> Lab:
    """What the reflectance of a colour is in daylight."""
    colour = _colour()
    xyz = colour.sd_to_XYZ(_reflectance(hex_value), _observer(), _light("D65")) / 100
    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    return Lab(*map(float, colour.XYZ_to_Lab(xyz, white)))


@dataclass(frozen=True, slots=True)
class Photograph:
    """Discs of yarn and of paper out of one picture, as RGBA bytes, and what was in it."""

    yarn: bytes
    paper: bytes
    colours: tuple[str, ...]
    light: str


def photograph(
    colours: tuple[str, ...], light: str, seed: int, *, balanced: float = 0.7
) -> Photograph:
    """A picture of a yarn of these colours; `balanced`: how much of the cast a camera takes out."""
    yarn, paper = _taken(colours, light, np.random.default_rng(seed), balanced)
    return Photograph(_disc(yarn, RADIUS), _disc(paper, 20), colours, light)


def _taken(colours: tuple[str, ...], light: str, chance: Any, balanced: float) -> tuple[Any, Any]:
    """A square of the yarn and one of paper, as one camera took them."""
    white = _seen("white", light)
    gains = (white / white[1]) ** -balanced
    exposure = 0.92 * gains / max(white * gains)
    flat = np.stack([np.clip(_seen(name, light), 0, None) * exposure for name in colours])
    strand, shade = _strands(len(colours), chance)
    # a strand is not of one width: where two colours meet, a pixel has some of both
    flat = flat[strand]
    blurred = (flat + sum(np.roll(flat, step, axis) for axis in (0, 1) for step in (1, -1))) / 5
    paper = np.broadcast_to(_seen("paper", light) * exposure, (40, 40, 3))
    return _developed(blurred * shade[..., None], chance), _developed(paper, chance)


def png(colours: tuple[str, ...], light: str, seed: int) -> bytes:
    """A picture to choose, 320 by 240: the yarn left of its middle, white paper at its right."""
    yarn, paper = _taken(colours, light, np.random.default_rng(seed), 0.7)
    picture = np.full((240, 320, 3), 90, np.uint8)
    picture[40:200, 40:200] = np.tile(yarn, (2, 2, 1))
    picture[40:200, 230:310] = np.tile(paper, (4, 2, 1))
    rows = b"".join(b"\0" + row.tobytes() for row in picture)
    head = struct.pack(">IIBBBBB", 320, 240, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_part(*one) for one in parts)


def _part(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def _strands(colours: int, chance: Any) -> tuple[Any, Any]:
    """Which colour each pixel has, and how much light falls on it, 0 to 1."""
    size = 2 * RADIUS
    y, x = np.mgrid[0:size, 0:size].astype(float)
    lean = chance.uniform(-0.5, 0.5)
    across, along = y + lean * x, x - lean * y
    height = chance.uniform(6, 10)
    lay = np.floor(across / height).astype(int)
    in_lay = across / height - lay
    run = chance.uniform(16, 30)
    offsets = chance.uniform(0, 1000, 400)
    strand = np.floor((along + offsets[lay % 400]) / run).astype(int) % colours
    rounded = 0.45 + 0.55 * np.sin(np.pi * in_lay)
    twist = 1 - 0.18 * (np.sin(2 * np.pi * (along + 2 * across) / 7) > 0.5)
    side = 1 - chance.uniform(0.05, 0.3) * x / size
    return strand, rounded * twist * side


def _developed(linear: Any, chance: Any) -> Any:
    """With the noise of a sensor, encoded as sRGB in bytes."""
    grain = np.sqrt(0.0012**2 + 0.00008 * linear)  # of the dark, and of the light itself
    noisy = np.clip(linear + grain * chance.normal(0, 1, linear.shape), 0, 1)
    encoded = np.where(noisy <= 0.0031308, 12.92 * noisy, 1.055 * noisy ** (1 / 2.4) - 0.055)
    return np.round(255 * encoded).astype(np.uint8)


def _disc(picture: Any, radius: int) -> bytes:
    """The pixels of a disc, row by row, all of them opaque."""
    size = picture.shape[0]
    y, x = np.mgrid[0:size, 0:size] - (size - 1) / 2
    inside = picture[(x * x + y * y) <= radius * radius]
    opaque = np.full((len(inside), 1), 255, np.uint8)
    return np.concatenate([inside, opaque], axis=1).tobytes()
