"""What all drawings of a page share, defined once."""

from __future__ import annotations

from collections.abc import Iterable

from stash.rendering.drawing.svg import element
from stash.rendering.drawing.texture import OTHER_LAYS, USUAL_LAY, lay_pattern, strength_of
from stash.rendering.drawing.yarn_look import YarnLook


def page_defs(looks: Iterable[YarnLook]) -> str:
    """The patterns and filters that drawings of these yarns refer to, as an SVG without a size.

    It stands once on a page, anywhere but in what is hidden.
    """
    wanted = {(look.surface, strength_of(look)) for look in looks if look.colours}
    patterns = [
        lay_pattern(surface, lay, strength)
        for surface, strength in sorted(wanted)
        for lay in (USUAL_LAY, *OTHER_LAYS)
    ]
    blur = element("feGaussianBlur", stdDeviation="3")
    halo = element("filter", blur, id="halo", x="-10%", y="-20%", width="120%", height="140%")
    defs = element("defs", *patterns, halo)
    return element("svg", defs, class_="defs", width=0, height=0, aria_hidden="true")
