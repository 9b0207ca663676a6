"""What the design editor shows of a design: on its board, its need by colour, and beside these."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from stash.actions.grade import graded
from stash.errors import StashError
from stash.parsing.design import runs
from stash.rendering import figures
from stash.rendering import need as need_words
from stash.rendering.band_edges import EdgeShown, Ruled, ruled, ruled_upright
from stash.rendering.designs import size_words
from stash.rendering.drawing.board import Board, BoardShown, board
from stash.rendering.drawing.piece import px_per_cm_for
from stash.rendering.drawing.yarn_look import look_of
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import source_words
from stash.rendering.typed_design import WITH_BRIM
from stash.web.drawn import Drawings
from stash.web.pages import said
from stash.web.screens.designs_drawn import PLAIN_LOOKS

if TYPE_CHECKING:
    from stash.requirements.design.design import Design
    from stash.requirements.fit.grading import Graded
    from stash.requirements.yarn.design_context import DesignContext
    from stash.requirements.yarn.need import Need, RoleNeed
    from stash.stock.holding import HeldLot

#: Room for the piece on its board, for a small one, for one of another size, in pixels.
_BOARD, _SMALL, _SIZE = (400, 340), (150, 110), (64, 60)
_MOST_PX_PER_CM = 14.0
_AXIS, _CHIP = 268, (36, 26)
#: How much of a hat is folded up to show it with a brim, where it has none.
_FOLDED_CM, _FOLDED_IN = 6.0, 6.35


@dataclass(frozen=True)
class Made:
    """A design as it would be made, its need, and the yarn chosen for each colour."""

    design: Design
    known: DesignContext
    need: Need
    lots: Mapping[str, HeldLot]

    @cached_property
    def bands(self) -> tuple[Ruled, ...]:
        """Its level bands in whole rows, then its upright ones; none where rows are not known."""
        if self.need.laid is None:
            return ()
        layout = self.need.laid[1]
        return ruled(self.design, layout), ruled_upright(self.design, layout)

    @property
    def looks(self) -> Mapping[str, Any]:
        """How each colour looks."""
        return {**PLAIN_LOOKS, **{role: look_of(held.lot) for role, held in self.lots.items()}}


def drawn_board(made: Made, chosen: int) -> Board | None:
    """The piece on its board; None where its rows are not known."""
    laid = made.need.laid
    if laid is None:
        return None
    scale = min(_MOST_PX_PER_CM, px_per_cm_for([laid], *_BOARD, open_=True))
    title = ", ".join(part for part in (made.design.name, size_words(made.design)) if part)
    shown = BoardShown(scale, title or "Your design", chosen)
    return board(laid, made.looks, made.bands, shown)


def by_rows(made: Made) -> list[Mapping[str, Any]]:
    """Each band with its two edges, and what each becomes one row or stitch on or back."""
    return [
        {
            "at": band.at + 1,
            "role": band.role,
            "from": bands.places[band.start].rpartition(" ")[0],
            "to": bands.places[band.end],
            "edges": [_steps(made, bands, one) for one in bands.edges if one.band == band.at + 1],
        }
        for bands in made.bands
        for band in bands.bands
    ]


def _steps(made: Made, bands: Ruled, one: EdgeShown) -> Mapping[str, Any]:
    def move(at: int) -> str:
        words = bands.moved(one, at)
        return "|".join((str(one.band), *words)) if words else ""

    less, more = _back_and_on(made, bands)
    return {
        "edge": one,
        "back": move(one.at - 1),
        "on": move(one.at + 1),
        "less": f"{one.name} one {bands.one} {less}",
        "more": f"{one.name} one {bands.one} {more}",
        "one": bands.one,
    }


def _back_and_on(made: Made, bands: Ruled) -> tuple[str, str]:
    """Where an edge goes in the picture, one row back and one row on."""
    assert made.need.laid is not None
    shape, layout = made.need.laid
    if bands.upright:
        return "farther left", "farther right"
    if layout.centred:
        return "farther in", "farther out"
    return ("nearer the top", "nearer the toe") if shape == "sock" else ("lower", "higher")


def large_step() -> str:
    """How far a handle goes with Shift, in her units."""
    return "1/2 in" if figures.screen().units.size == "in" else "1 cm"


def needs(made: Made, saved: Need | None, drawings: Drawings) -> list[Mapping[str, Any]]:
    """Each colour: to set aside, expected, its axis, what the shelf has of the chosen yarn."""
    before = {role.role: role for role in saved.roles} if saved else {}
    every = [*made.need.roles, *before.values()]
    most = max(role.set_aside_m for role in every) * 1.05
    return [
        _role(role, made, before.get(role.role) if saved else None, most, drawings)
        for role in made.need.roles
    ]


def _role(
    role: RoleNeed, made: Made, saved: RoleNeed | None, most: float, drawings: Drawings
) -> Mapping[str, Any]:
    aside = figures.up(figures.of_metres(role.set_aside_m))
    before = figures.up(figures.of_metres(saved.set_aside_m)) if saved else None
    weight = role.set_aside_g
    held = made.lots.get(role.role)
    amounts = (role.estimate.expected_m, role.estimate.spread_m, role.set_aside_m)
    return {
        "role": role.role,
        "aside": aside,
        "weight": "" if weight is None else figures.up(figures.of_grams(weight)),
        "about": figures.near(figures.of_metres(role.estimate.expected_m)),
        "spread": figures.near(figures.of_metres(role.estimate.spread_m)).number,
        "source": source_words(role.source, made.need.thickness_from, made.need.thickness_to),
        "axis": drawings.axis(amounts, most, _AXIS),
        "saved": before if before is not None and before != aside else "",
        "chip": drawings.chip(held.lot, size=_CHIP) if held else "",
        "lot": held.lot.id if held else "",
        **_shelf(role, held),
    }


def _shelf(role: RoleNeed, held: HeldLot | None) -> dict[str, Any]:
    """What the shelf has of the chosen yarn, with its verdict."""
    length = held.free_length if held else None
    if held is None or length is None:
        words = "Its length is not known" if held else "No yarn chosen"
        return {"verdict": "", "word": "", "has": words, "lacks": ""}
    free, aside = figures.down(length), figures.up(figures.of_metres(role.set_aside_m))
    if length.m >= role.set_aside_m:
        return {"verdict": "enough", "word": "Enough", "has": f"{free} free", "lacks": ""}
    lacks = f"{role.role} lacks {aside - free}"
    if length.m >= role.estimate.expected_m:
        has = f"{free} free, {aside - free} short of the margin"
        return {"verdict": "tight", "word": "Tight", "has": has, "lacks": f"{role.role} tight"}
    return {
        "verdict": "lacks",
        "word": f"Lacks {aside - free}",
        "has": f"{free} free",
        "lacks": lacks,
    }


def beside(made: Made, drawings: Drawings) -> list[Mapping[str, Any]]:
    """The same in grey, with colours swapped, and with a brim folded up."""
    laid = made.need.laid
    if laid is None:
        return []
    scale = drawings.together([laid], *_SMALL)
    shown: list[Mapping[str, Any]] = [
        {
            "piece": drawings.in_looks(laid, made.looks, scale, grey=True),
            "words": hers("in grey"),
            "press": "",
        }
    ]
    if "B" in made.looks and len(made.need.roles) > 1:
        swapped = {**made.looks, "A": made.looks["B"], "B": made.looks["A"]}
        piece = drawings.in_looks(laid, swapped, scale)
        words, press = "A and B swapped", "swap" if {"A", "B"} <= made.lots.keys() else ""
        shown.append({"piece": piece, "words": words, "press": press, "value": "1"})
    if made.design.shape in WITH_BRIM:
        shown.append(_brimmed(made, drawings, scale))
    return shown


def _brimmed(made: Made, drawings: Drawings, scale: float) -> Mapping[str, Any]:
    assert made.need.laid is not None
    brim = made.design.brim
    inches = figures.screen().units.size == "in"
    tall_cm = made.need.laid[1].size.up.m * 100
    usual_cm = min(_FOLDED_IN if inches else _FOLDED_CM, tall_cm / 3)
    folded = brim.m * 100 if brim else usual_cm
    usual = "2 1/2 in" if inches else "6 cm"
    much = figures.edge(brim) if brim else usual
    return {
        "piece": drawings.in_looks(made.need.laid, made.looks, scale, folded_cm=folded),
        "words": f"with its {much} brim" if brim else f"with a {much} brim",
        "press": "" if brim or usual_cm < _FOLDED_CM else "with_brim",
        "value": usual,
    }


#: What other sizes are shown until she asks for some, where somebody wears it.
_SIZES = "child 4 years, woman, man"
OwnSize = Callable[[str], Any]


@dataclass(frozen=True, slots=True)
class Sizes:
    """A run of sizes of a design; `wrong` says why there is none, where she asked for it."""

    rows: tuple[Graded, ...] = ()
    wrong: str = ""


def graded_sizes(made: Made, asked: str, own: OwnSize) -> Sizes:
    """The design in the sizes that are asked for, else in the usual ones."""
    try:
        run = runs.run(runs.RunWords(asked or _SIZES), made.known.design, own)
        return Sizes(graded(made.known, run)[0])
    except StashError as why:
        return Sizes(wrong=said(why) if asked else "")


def other_sizes(made: Made, asked: str, own: OwnSize, drawings: Drawings) -> Mapping[str, Any]:
    """The same design in other sizes: each as its piece with what to set aside of each colour."""
    found = graded_sizes(made, asked, own)
    scale = drawings.together([row.need.laid for row in found.rows], *_SIZE)
    return {
        "wrong": found.wrong,
        "sizes": [
            {
                "words": row.choice.size.words,
                "need": short_need(row.need.roles),
                "piece": row.need.laid and drawings.in_looks(row.need.laid, made.looks, scale),
            }
            for row in found.rows
        ],
    }


def short_need(roles: Sequence[RoleNeed]) -> str:
    """What to set aside on one line: `A 85 m, B 34 m`."""
    return ", ".join(
        f"{one.role} {figures.up(figures.of_metres(one.set_aside_m))}" for one in roles
    )


def notes_of(need: Need) -> Mapping[str, Any]:
    """What is to be known of a need, and its cautions."""
    return {
        "notes": [said(words) for words in need_words.detail_lines(need)],
        "cautions": need_words.caution_lines(need.notes),
    }
