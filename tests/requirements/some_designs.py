"""Invented designs that the tests of this package begin from."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

from hypothesis import strategies as st

from stash.measures.length import Length, inches, metres
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.design.bands import Band, Place, Rows, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN, Fabric, FabricRow, Loop
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.shapes import BUILDS, Shape, Size
from stash.requirements.design.stitches import STITCHES

CHECKS = Path(__file__).parents[2] / "fixtures" / "checks"

MEDIUM = PutUp(grams(120), metres(210))
SC = Fabric((FabricRow(STITCHES["sc"]),))
SLIP_RIB = Fabric((FabricRow(STITCHES["hdc"]),) + 2 * (FabricRow(STITCHES["sl st"], Loop.BACK),))


def cm(count: float) -> Length:
    return Length(round(count * 10_000))


def gauge(stitches: float, rows: float) -> Gauge:
    return Gauge(Fraction(stitches), Fraction(rows))


TWENTY_INCHES = inches(20)


def sideways_hat(rows_per_4in: int = 18, across: Length = TWENTY_INCHES) -> Design:
    """A two-colour hat worked sideways: rows of 33 stitches of A and 5 of B."""
    return Design(
        name="sideways hat",
        shape=Shape.SIDEWAYS_HAT,
        size=Size(across, inches(Fraction(38 * 4, 13))),
        gauge=gauge(13, rows_per_4in),
        fabric=SLIP_RIB,
        bands=(Band("B", Stitches(5)),),
        thickness_from=4,
        thickness_to=4,
        put_up=MEDIUM,
    )


def plain_scarf(wide_cm: float = 20, long_cm: float = 150) -> Design:
    """A stockinette scarf in a medium yarn."""
    return Design(
        shape=Shape.SCARF,
        size=Size(cm(wide_cm), cm(long_cm)),
        gauge=gauge(20, 28),
        fabric=PLAIN,
        put_up=MEDIUM,
    )


def rows_of(name: str) -> list[dict[str, str]]:
    with (CHECKS / name).open(encoding="utf-8") as sheet:
        return list(csv.DictReader(sheet))


_FABRICS = st.sampled_from(
    [PLAIN, SC, SLIP_RIB, Fabric((FabricRow(STITCHES["garter"]),)),
     Fabric((FabricRow(STITCHES["dc"]), FabricRow(STITCHES["sc"])))]
)  # fmt: skip


@st.composite
def designs(draw: st.DrawFn) -> Design:
    """Any design that can be made, begun anywhere: tall enough for its crown and its bands."""
    shape = draw(st.sampled_from(list(Shape)))
    across = draw(st.integers(150, 700))
    even = len(BUILDS[shape].words) == 1  # a square or a circle: one side says all
    up = across if even else draw(st.integers(max(100, across // 4), 700))
    band = draw(st.sampled_from(
        [(), (Band("B", cm(2)),), (Band("B", cm(3), Place.MIDDLE), Band("C", cm(1), Place.TOP))]
    ))  # fmt: skip
    build = BUILDS[shape]
    foot = (cm(draw(st.integers(100, 300)) / 10),) if "long" in build.words[2:] else ()
    return Design(
        shape=shape,
        size=Size(cm(across / 10), cm(up / 10), *foot),
        start=draw(st.sampled_from([None, *build.starts])),
        count=draw(st.sampled_from([None, 1, 5])) if build.counted else None,
        gauge=gauge(draw(st.integers(8, 30)), draw(st.integers(8, 40))),
        fabric=draw(_FABRICS),
        bands=band,
        thickness_from=4,
        thickness_to=4,
        strands=draw(st.integers(1, 3)),
    )


def counted_band(sideways: bool) -> Band:
    return Band("B", Stitches(5) if sideways else Rows(3))
