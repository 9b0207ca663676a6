"""The edge of a piece: a line in the room's ink, fainter under the fibres of a brushed yarn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

from stash.rendering.drawing.cloth import Cloth
from stash.rendering.drawing.svg import OUTLINE, OUTLINE_SHOWS, element, mark_of
from stash.stock.yarn import Surface

#: How much of the edge shows under fibres.
FAINT = 0.3
#: How far a halo reaches beyond the edge, in centimetres, and at least and most in pixels.
_HALO_CM, _LEAST_HALO_PX, _MOST_HALO_PX = 0.45, 2.0, 6.0
#: A halo is so many lines over one another, each so thick against how far it reaches.
_SOFT = (0.6, 1.2, 2.0)
#: Fibres that stand out of the edge: how far against the halo, and where they are along it.
_HAIRS = ((2.0, ".4 5.1 .3 7.3 .4 3.2"), (1.2, ".4 2.9 .3 3.7 .4 1.9"))


@dataclass(frozen=True)
class Edge:
    """An outline; `reach` gives a path for each role that comes to it, with its part of the edge.

    It is asked for only where a yarn is brushed.
    """

    path: str
    reach: Callable[[], Mapping[str, str]]

    @cached_property
    def _parts(self) -> Mapping[str, str]:
        return self.reach()

    def before(self, cloth: Cloth) -> str:
        """What lies behind the piece: the halo of each brushed yarn, in its own colours."""
        if not cloth.is_brushed:
            return ""
        fuzzy, crisp = self._fuzzy(cloth), self._crisp(cloth)
        parts = [element("path", d=self.path, id=self._name(cloth))]
        if len(self._parts) > 1:
            parts += [self._clip(cloth, roles) for roles in (*fuzzy, crisp) if roles]
        halos = [
            element(
                "g",
                *(self._line(cloth, stroke_width=_halo_px(cloth) * wide) for wide in _SOFT),
                fill="none",
                stroke=cloth.paints[role].fill,
                stroke_opacity=".22",
                clip_path=self._held(cloth, role),
            )
            for role in fuzzy
        ]
        return "".join((element("defs", *parts), *halos))

    def after(self, cloth: Cloth) -> str:
        """What lies over it: the line, and fibres that stand out of it."""
        if not cloth.is_brushed:
            return element("path", d=self.path, **_ink(OUTLINE_SHOWS))
        fuzzy, crisp = self._fuzzy(cloth), self._crisp(cloth)
        drawn = [
            element(
                "g",
                element("g", *self._hairs(cloth), stroke=cloth.paints[role].fill),
                self._line(cloth, **_ink(FAINT)),
                fill="none",
                clip_path=self._held(cloth, role),
            )
            for role in fuzzy
        ]
        if crisp:
            line = self._line(cloth, **_ink(OUTLINE_SHOWS))
            drawn.append(element("g", line, clip_path=self._held(cloth, crisp)))
        return "".join(drawn)

    def _fuzzy(self, cloth: Cloth) -> list[str]:
        return [role for role in self._parts if _is_brushed(cloth, role)]

    def _crisp(self, cloth: Cloth) -> str:
        return "".join(role for role in self._parts if not _is_brushed(cloth, role))

    def _name(self, cloth: Cloth) -> str:
        return mark_of(cloth.mark, "edge", self.path)

    def _line(self, cloth: Cloth, **how: str | float) -> str:
        return element("use", href=f"#{self._name(cloth)}", **how)

    def _hairs(self, cloth: Cloth) -> list[str]:
        return [
            self._line(cloth, stroke_width=_halo_px(cloth) * far, stroke_dasharray=dash)
            for far, dash in _HAIRS
        ]

    def _clip(self, cloth: Cloth, roles: str) -> str:
        path = "".join(self._parts[role] for role in roles)
        return element("clipPath", element("path", d=path), id=self._name(cloth) + roles)

    def _held(self, cloth: Cloth, roles: str) -> str:
        """How to refer to the part of the edge in these roles; nothing for all of it."""
        return f"url(#{self._name(cloth)}{roles})" if len(self._parts) > 1 else ""


def _halo_px(cloth: Cloth) -> float:
    return min(_MOST_HALO_PX, max(_LEAST_HALO_PX, _HALO_CM * cloth.px_per_cm))


def _is_brushed(cloth: Cloth, role: str) -> bool:
    return cloth.looks[role].surface is Surface.BRUSHED


def _ink(shows: float) -> dict[str, str | float]:
    return {
        "fill": "none",
        "class_": "yarn-outline",
        "stroke": OUTLINE,
        "stroke_opacity": f"{shows:g}",
        "stroke_linejoin": "round",
    }
