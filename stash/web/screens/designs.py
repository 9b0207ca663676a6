"""Designs: what she makes, one design by itself, and a new one of six shapes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions import designs
from stash.actions.grade import graded
from stash.actions.match import NeedAsked, propose
from stash.actions.shelf_choices import most_usual
from stash.errors import StashError
from stash.parsing.design import design as design_typed
from stash.parsing.design import runs
from stash.parsing.design.design import DesignWords
from stash.rendering import figures, set_card, several
from stash.rendering import grade as grade_words
from stash.rendering import need as need_words
from stash.rendering.designs import size_words
from stash.rendering.held import thickness
from stash.rendering.sentences.phrases import source_words
from stash.web.drawn import Drawings
from stash.web.pages import lines_said, said
from stash.web.screens.designs_drawn import UNDYED, DrawnIn, best_of, drawn_in
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.designs import Kept
    from stash.actions.match import Answer
    from stash.requirements.design.design import Design
    from stash.requirements.yarn.need import Need, RoleNeed
    from stash.stock.yarn import Lot

#: The room of a design among others, by itself, and of a shape to begin with, in pixels.
_AMONG, _ALONE, _SHAPE = (180, 150), (420, 340), (120, 96)
_AXIS = 268
#: Six shapes to begin one: what it is called, the shape it is, a size of it, a gauge in its rows.
BEGINNINGS: Mapping[str, DesignWords] = {
    "hat": DesignWords(shape="round hat", size="woman"),
    "mittens": DesignWords(shape="mitten", size="woman"),
    "headband": DesignWords(shape="headband", size="woman", tall="9cm"),
    "cowl": DesignWords(shape="cowl", around="60cm", tall="25cm"),
    "scarf": DesignWords(shape="scarf", wide="20cm", long="150cm"),
    "blanket": DesignWords(shape="blanket", wide="90cm", long="120cm"),
}
#: What each of them is drawn with until she says: rows of one stitch, a worsted yarn, a band.
_SAMPLE = DesignWords(fabric="1 hdc", thickness="4", bands=("B 4cm bottom",))
#: The fields of a new design, as its form has them.
_FIELDS = ("size", "around", "tall", "wide", "long", "gauge", "fabric", "thickness")


def designs_page(visit: Visit) -> Response:
    """Every design as its piece, drawn in her yarns, with the yarn it takes."""
    kept = visit.workshop.kept("designs listed", lambda: designs.listed(visit.book))
    shown = [(one, drawn_in(visit, one)) for one in kept]
    drawings = Drawings()
    return visit.page("designs.html", lambda: _listed(shown, drawings.once_more()))


def _listed(shown: Sequence[tuple[Kept, DrawnIn]], drawings: Drawings) -> Mapping[str, Any]:
    scale = drawings.mostly_together([one.need.laid for one, _ in shown], *_AMONG)
    return {
        "drawings": drawings,
        "designs": [_card(one, yarns, scale, drawings) for one, yarns in shown],
        "shapes": [] if shown else _beginnings(drawings),
    }


def _card(one: Kept, yarns: DrawnIn, scale: float, drawings: Drawings) -> Mapping[str, Any]:
    """A design among others; where its rows are not known, its yarns by themselves."""
    own = drawings.together([one.need.laid], *_AMONG)
    chips = yarns.lots.values() if one.need.laid is None else ()
    return {
        "smaller": own < scale,
        "id": one.id,
        "name": one.design.name,
        "size": size_words(one.design),
        "piece": yarns.piece(one.need, min(scale, own), drawings),
        "chips": [drawings.chip(lot) for lot in chips],
        "yarns": yarns.words,
        "need": set_card.need_in_words(one.need),
        "one": len(one.need.roles) == 1,
    }


def _beginnings(drawings: Drawings) -> list[Mapping[str, Any]]:
    needs = {name: designs.HerDesigns().known_for(_sample(name)) for name in BEGINNINGS}
    laid = {name: known.need(known.design) for name, known in needs.items()}
    return [
        {
            "name": name,
            "piece": UNDYED.piece(need, drawings.together([need.laid], *_SHAPE), drawings),
        }
        for name, need in laid.items()
    ]


def _sample(name: str) -> Design:
    words = BEGINNINGS[name]
    sample = replace(_SAMPLE, bands=("B 6cm bottom",)) if name == "blanket" else _SAMPLE
    words = replace(words, fabric=sample.fabric, thickness=sample.thickness, bands=sample.bands)
    return design_typed.design(words)


def beginning(asked: str) -> tuple[str, Design]:
    """One of the six shapes by its name, the first for any other, and the design it begins as."""
    name = asked if asked in BEGINNINGS else next(iter(BEGINNINGS))
    return name, _sample(name)


def new_design(visit: Visit) -> Response:
    """A form for a new design of a shape."""
    name = visit.query.get("shape", "")
    name = name if name in BEGINNINGS else next(iter(BEGINNINGS))
    usual = visit.workshop.kept("usual", lambda: most_usual(visit.book))
    return visit.page("new_design.html", lambda: _new(name, usual))


def _new(name: str, usual: Lot | None) -> Mapping[str, Any]:
    """The form; its thickness is that of most of her yarn."""
    words = BEGINNINGS[name]
    drawings = Drawings()
    return {
        "drawings": drawings,
        "shape": name,
        "shapes": _beginnings(drawings),
        "sides": _sample(name).build.words,
        "usual": {field: getattr(words, field) for field in _FIELDS},
        "thickness": "worsted" if usual is None else thickness(usual),
    }


def add_design(visit: Visit) -> Done:
    """A new design is saved, as `design add` does."""
    typed = visit.typed
    name = design_typed.design_name(typed.get("name", ""))
    given: dict[str, Any] = {field: typed.get(field, "").strip() for field in _FIELDS}
    shape = typed.get("shape", "")
    shape = BEGINNINGS[shape].shape if shape in BEGINNINGS else shape
    bands = tuple(one.strip() for one in typed.get("band", "").split(";") if one.strip())
    words = DesignWords(name=name, shape=shape, bands=bands, **given)
    plan = design_typed.design(in_her_words(visit, words))
    designs.add_design(visit.book, plan)
    new = designs.her_designs(visit.book).row(name)
    return Done(f"/design/{new.id}", (f"Saved the design {name}.",))


def in_her_words(visit: Visit, words: DesignWords) -> DesignWords:
    """Her names of stitches, and the sides of a size of her own where none is typed beside it."""
    return design_typed.in_her_words(
        words, visit.settings.terms, visit.settings.scale_step, visit.settings.own_size
    )


def design_page(visit: Visit) -> Response:
    """One design to scale, the yarn it takes, what the shelf has, its other sizes."""
    row = designs.her_designs(visit.book).row(str(visit.names["number"]))
    kept = visit.workshop.kept(("design", row.id), lambda: designs.show(visit.book, row.name))
    answer = visit.workshop.kept(
        ("pairs of", row.id), lambda: propose(visit.book, NeedAsked(design=row.name))
    )
    yarns = drawn_in(visit, kept)
    return visit.page("design.html", lambda: _one(visit, kept, answer, yarns))


def _one(visit: Visit, kept: Kept, answer: Answer, yarns: DrawnIn) -> Mapping[str, Any]:
    drawings, need = Drawings(), kept.need
    scale = drawings.together([need.laid], *_ALONE)
    proposals = answer.match.proposals
    groups = set_card.arrangements(proposals)
    best = best_of(visit).get(kept.design.name)
    first = {filled.role: filled for filled in best.roles} if best else {}
    return {
        "drawings": drawings,
        "id": kept.id,
        "name": kept.design.name,
        "size": size_words(kept.design),
        "piece": yarns.piece(need, scale, drawings, kept.design.name),
        "yarns": yarns.words,
        "roles": [_role(role, need, first.get(role.role), drawings) for role in need.roles],
        "notes": [said(words) for words in need_words.detail_lines(need)],
        "cautions": need_words.caution_lines(need.notes),
        "count": set_card.set_called(len(need.roles), len(groups)) if proposals else "",
        **_sizes(visit, kept),
    }


def _role(role: RoleNeed, need: Need, filled: Any, drawings: Drawings) -> Mapping[str, Any]:
    """A colour: about so much, what to set aside, and what the best set has of it."""
    most = max(one.set_aside_m for one in need.roles) * 1.1
    weight = role.set_aside_g
    return {
        "role": role.role,
        "about": figures.near(figures.of_metres(role.estimate.expected_m)),
        "spread": figures.near(figures.of_metres(role.estimate.spread_m)).number,
        "aside": figures.up(figures.of_metres(role.set_aside_m)),
        "weight": "" if weight is None else figures.up(figures.of_grams(weight)),
        "source": source_words(role.source, need.thickness_from, need.thickness_to),
        "axis": drawings.axis(
            (role.estimate.expected_m, role.estimate.spread_m, role.set_aside_m), most, _AXIS
        ),
        "has": filled
        and f"{figures.down(figures.of_metres(filled.free_m))} of "
        f"{set_card.set_name([filled.lot.lot])} free",
    }


def _sizes(visit: Visit, kept: Kept) -> Mapping[str, Any]:
    """The table of other sizes, for those that were asked for."""
    asked = visit.query.get("sizes", "").strip()
    if not asked:
        return {"sizes": "", "table": (), "not_made": (), "wrong": ""}
    try:
        run = runs.run(runs.RunWords(asked, "", "", ""), kept.known.design, visit.settings.own_size)
        rows, not_made = graded(kept.known, run)
    except StashError as why:
        return {"sizes": asked, "table": (), "not_made": (), "wrong": said(why)}
    table = grade_words.Grading(kept.known.design, rows, not_made)
    return {
        "sizes": asked,
        "table": list(grade_words.cells(table)),
        "not_made": [grade_words.not_made(no) for no in not_made],
        "wrong": "",
    }


def copy_design(visit: Visit) -> Done:
    """The design under another name as well."""
    name = design_typed.design_name(visit.typed.get("name", ""))
    row = designs.her_designs(visit.book).row(visit.typed.get("design", ""))
    designs.copy_design(visit.book, row.name, name)
    new = designs.her_designs(visit.book).row(name)
    return Done(f"/design/{new.id}", (f"Saved the design {name}.",))


def drop_design(visit: Visit) -> Done:
    """The design is no longer listed; its items stay."""
    row = designs.her_designs(visit.book).row(visit.typed.get("design", ""))
    dropped = designs.drop_design(visit.book, row.name)
    return Done("/designs", lines_said(several.design_dropped(*dropped, visit.shown_on)))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/designs": designs_page,
    "/designs/new": new_design,
    "/design/{number:int}": design_page,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/designs/add": add_design,
    "/design/copy": copy_design,
    "/design/drop": drop_design,
}
