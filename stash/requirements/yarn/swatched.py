"""A swatch in place of the model's yarn per stitch: how much of it each colour of a piece takes."""

from __future__ import annotations

from collections.abc import Mapping
from statistics import fmean

from stash.requirements.design.evidence import Swatch
from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout
from stash.requirements.design.piece import Piece
from stash.requirements.design.stitches import CHAIN, Craft, diameter_m, tex
from stash.requirements.yarn.model import worked_by_role


def swatched_areas(piece: Piece, layout: Layout, swatch: Swatch) -> Mapping[str, float]:
    """How much of the swatch's fabric the yarn of each role would make, in square metres.

    With fabric, gauge and thickness known the model only says how the yarn is shared: a tall row
    takes more than a low one, and a small swatch has more edge than a piece. How much yarn that
    is, the swatch says. Otherwise the plain areas.
    """
    if not (piece.fabric and piece.gauge and piece.m_per_100g):
        return layout.area_m2
    diameter = diameter_m(tex(piece.m_per_100g, piece.strands))
    per_m2 = _patch_m(piece.fabric, layout.gauge, swatch, diameter) / (
        swatch.wide.m * swatch.tall.m
    )
    worked = worked_by_role(layout, diameter)
    return {role: worked[role] / per_m2 for role in layout.roles}


def _patch_m(fabric: Fabric, gauge: Gauge, swatch: Swatch, diameter: float) -> float:
    """What the model gives for the swatch itself, its edges included."""
    stitches, rows = swatch.wide.m / gauge.stitch_m, swatch.tall.m / gauge.row_m
    each = fmean(row.yarn_m(gauge, diameter) for row in fabric.rows)
    if fabric.craft is Craft.KNIT:
        edge = fmean(stitch.yarn_m(gauge, diameter) for stitch in fabric.stitches)
        return stitches * (rows * each + 2 * edge)
    chains = stitches + rows * fmean(stitch.turning for stitch in fabric.stitches)
    return stitches * rows * each + chains * CHAIN.yarn_m(gauge, diameter)
