"""A design as its maker would type it, field by field; in her units, bands exactly."""

from __future__ import annotations

from fractions import Fraction

from stash.measures.length import INCH_UM
from stash.measures.mass import Mass
from stash.rendering.figures import edge, near
from stash.rendering.sentences.designs import extent
from stash.requirements.design.bands import Band, Place, Stripes
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.shapes import BUILDS, HATS, Shape

_UPRIGHT = {Place.BOTTOM: "left", Place.MIDDLE: "middle", Place.TOP: "right"}


def typed(design: Design) -> dict[str, str]:
    """Each field by its name in a form of designs; "" for what is not known."""
    sides: dict[str, str] = {}
    if design.shape is not None and design.size is not None:
        pairs = zip(design.build.words, design.size.sides, strict=False)
        sides = {name: edge(side) for name, side in pairs}
    return {
        "name": design.name,
        "shape": design.shape.value if design.shape else "",
        "size": design.fits if isinstance(design.fits, str) else "",
        **dict.fromkeys(("around", "tall", "wide", "long"), ""),
        **sides,
        "brim": edge(design.brim) if design.brim else "",
        "gauge": _gauge(design.gauge) if design.gauge else "",
        "fabric": str(design.fabric) if design.fabric else "",
        "swatch": _swatch(design),
        "thickness": _thickness(design),
        "extras": "; ".join(map(extra_typed, design.extras)),
        "stripes": "; ".join(map(_stripes, design.stripes)),
    }


def _thickness(design: Design) -> str:
    low, high = design.thickness_from, design.thickness_to
    if low is None:
        return ""
    return str(low) if low == high else f"{low}-{high}"


def _count(number: Fraction) -> str:
    return f"{float(number):g}"


def _gauge(gauge: Gauge) -> str:
    um = gauge.over.um
    over = f"{um // INCH_UM} in" if um % INCH_UM == 0 else f"{um / 10_000:g} cm"
    counted = f"{_count(gauge.stitches)} sts x {_count(gauge.rows)} rows per {over}"
    return f"{counted} in plain" if gauge.plain else counted


def _swatch(design: Design) -> str:
    swatch = design.swatch
    if swatch is None:
        return ""
    mass: Mass = swatch.mass
    return f"{near(mass)}, {edge(swatch.wide)} x {edge(swatch.tall)}"


def extra_typed(extra: Extra) -> str:
    """An extra with its colour: `pompom B 6 cm`."""
    kind, _, rest = str(extra).partition(" ")
    return f"{kind} {extra.role} {rest}".strip()


def _stripes(stripes: Stripes) -> str:
    return str(stripes)


def band_typed(band: Band) -> tuple[str, str, str]:
    """A band as colour, how much and where."""
    mixed = "" if band.share is None else f"{float(100 * band.share):g}% of "
    turned = " upright" if band.upright else ""
    return band.role, f"{mixed}{extent(band.extent)}{turned}", _place(band)


def _place(band: Band) -> str:
    if isinstance(band.place, Place):
        return _UPRIGHT[band.place] if band.upright else band.place.value
    return f"{edge(band.place)} {'in' if band.upright else 'up'}"


#: The shapes there are, and by which sides each is measured.
SHAPES = {shape.value: BUILDS[shape].words for shape in Shape}
#: Those with a brim to fold up.
WITH_BRIM = frozenset(shape.value for shape in HATS)
