"""What stands in the fields of the design editor, and the design that it describes.

Only what differs from the design as it was is read, as `design change` does: so what is not touched
stays exactly as it was, however its field shows it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl, urlencode

from stash.errors import Ambiguous, StashError, Unreadable
from stash.parsing.choices import place_of
from stash.parsing.design import design as design_typed
from stash.parsing.design.design import DesignWords
from stash.rendering.typed_design import SHAPES, band_typed, typed
from stash.web.pages import said

if TYPE_CHECKING:
    from stash.actions.her_settings import Settings
    from stash.requirements.design.design import Design

_SIDES = ("around", "tall", "wide", "long")
#: Fields that are words of a design, as its options are called.
_WORDS = (
    "shape", "size", *_SIDES, "brim", "gauge", "fabric", "swatch", "thickness",
)  # fmt: skip
#: What an empty field takes away; any other one that is emptied stays as it was.
_TAKEN_AWAY = frozenset({"brim"})
_LISTS = ("extras", "stripes")
ROLES = "ABCD"
#: So many bands at most: more are stripes.
_MOST_BANDS = 24
_BARE = re.compile(r"[0-9.,/ ]+")
Row = tuple[str, str, str]


@dataclass(frozen=True)
class Edited:
    """The fields over a design: `given` as they were sent, nothing of one that was not."""

    base: Design
    given: Mapping[str, str]
    settings: Settings

    @cached_property
    def usual(self) -> dict[str, str]:
        """What each field holds while nothing is changed."""
        return {**typed(self.base), "terms": "us", "margin": ""}

    @cached_property
    def fields(self) -> dict[str, str]:
        """What each field holds now; a side that follows from a size typed is empty."""
        now = {name: self.given.get(name, usual).strip() for name, usual in self.usual.items()}
        now["shape"] = now["shape"] or self.usual["shape"]
        sized = now["size"] and now["size"] != self.usual["size"]
        for side in _SIDES:
            if sized and now[side] == self.usual[side]:
                now[side] = ""
            elif not sized and not now[side] and side in SHAPES.get(now["shape"], ()):
                now[side] = self.usual[side]
        if self.given.get("with_brim"):
            now["brim"] = self.given["with_brim"]
        return now

    @cached_property
    def bands(self) -> list[Row]:
        """Its bands as colour, how much and where; those that are empty are left out."""
        count = self.given.get("bands", "")
        if not count.isdecimal():
            rows = [band_typed(band) for band in self.base.bands]
        else:
            rows = [self._row(at) for at in range(1, min(int(count), _MOST_BANDS) + 1)]
        moved = self.given.get("move", "").split("|")
        if len(moved) == 3 and moved[0].isdecimal() and 0 < int(moved[0]) <= len(rows):
            at = int(moved[0]) - 1
            rows[at] = (rows[at][0], moved[1], moved[2])
        gone = self.given.get("without", "")
        return [row for at, row in enumerate(rows, 1) if row[1] and str(at) != gone]

    def _row(self, at: int) -> Row:
        role, extent, place = (
            self.given.get(f"band_{at}_{part}", "").strip() for part in ("role", "extent", "place")
        )
        return role, extent, place

    @property
    def _band_words(self) -> tuple[str, ...]:
        """As they are typed; one that is untouched exactly as it was."""
        exact = {band_typed(band): str(band) for band in self.base.bands}
        return tuple(exact.get(row) or " ".join(row).strip() for row in self.bands)

    @cached_property
    def words(self) -> DesignWords:
        """What differs from the design, as options of `design change`."""
        now, usual = self.fields, self.usual
        changed: dict[str, Any] = {n: now[n] for n in _WORDS if now[n] != usual[n]}
        if now["terms"] != usual["terms"]:
            changed["fabric"] = now["fabric"]
        for name in _TAKEN_AWAY & changed.keys():
            changed[name] = changed[name] or "none"
        for name in _LISTS:
            if now[name] != usual[name]:
                parts = tuple(one.strip() for one in now[name].split(";") if one.strip())
                changed[name] = parts or ("none",)
        if self._band_words != tuple(map(str, self.base.bands)):
            changed["bands"] = self._band_words or ("none",)
        return DesignWords(**changed, terms=now["terms"])

    @property
    def changed(self) -> bool:
        """Whether anything differs from what is saved."""
        return self.words != DesignWords(terms=self.fields["terms"])

    def design(self) -> Design:
        """The design that the fields describe; refused where they cannot be read."""
        if not self.changed:
            return self.base
        mine = self.settings
        words = design_typed.in_her_words(
            self.words, self.fields["terms"], mine.scale_step, mine.own_size
        )
        return design_typed.put_right(self.base, words)

    @property
    def margin(self) -> float | None:
        """The margin that is typed; refused where it cannot be read."""
        text = self.fields["margin"]
        return design_typed.margin(text) if text else self.settings.margin

    @property
    def yarns(self) -> dict[str, str]:
        """The number of the lot chosen for each colour, where one is."""
        found = {role: self.given.get(f"yarn_{role}", "") for role in ROLES}
        if self.given.get("swap"):
            found["A"], found["B"] = found["B"], found["A"]
        return {role: one for role, one in found.items() if one}

    @property
    def address(self) -> str:
        """All of it as the query of an address."""
        return urlencode([*self._pairs()])

    def _pairs(self) -> Iterator[tuple[str, str]]:
        for name, value in self.fields.items():
            if value != self.usual[name]:
                yield name, value
        yield "bands", str(len(self.bands))
        for at, row in enumerate(self.bands, 1):
            for part, value in zip(("role", "extent", "place"), row, strict=True):
                yield f"band_{at}_{part}", value
        for role, lot in self.yarns.items():
            yield f"yarn_{role}", lot

    def as_good(self) -> Edited:
        """The fields as they last could be read."""
        return replace(self, given=dict(parse_qsl(self.given.get("good", ""))))

    def wrong(self, why: StashError) -> dict[str, str]:
        """What is wrong by the name of its field; "" for what is of no one field."""
        text = why.text if isinstance(why, Ambiguous | Unreadable) else None
        if text is None:
            return {"": said(why)}
        for at, row in enumerate(self.bands, 1):
            if text.strip() and text.strip().lower() in " ".join(row).lower():
                part = "place" if row[2] and text.strip() == row[2] else "extent"
                bare = next((p for p in (1, 2) if row[p] and _BARE.fullmatch(row[p])), None)
                if bare is not None:
                    ways = "cm, in or rows" if bare == 1 else "cm or in"
                    named = f"band_{at}_{('role', 'extent', 'place')[bare]}"
                    return {named: f"{row[bare]} what? {ways}"}
                return {f"band_{at}_{part}": said(why)}
        place = place_of(text, {name: value for name, value in self.fields.items() if value})
        if isinstance(why, Ambiguous) and f"{text} cm" in why.readings:
            return {place[0] if place else "": f"{text} what? cm or in"}
        return {place[0] if place else "": said(why)}
