"""The design editor: bands moved by handles or numbers, the need of each colour following."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any
from zlib import crc32

from markupsafe import Markup
from starlette.responses import Response

from stash.actions import designs
from stash.actions.designs import Kept
from stash.actions.match import propose_made, shelf_today
from stash.errors import FileTrouble, Refusal, StashError
from stash.parsing.design.design import design_name
from stash.rendering import grade as grade_words
from stash.rendering.almost import fixes_shown, lacking
from stash.rendering.designs import size_words
from stash.rendering.typed_design import SHAPES, band_typed, typed
from stash.web.drawn import Drawings
from stash.web.edited import ROLES, Edited
from stash.web.screens import edit_drawn
from stash.web.screens.designs import beginning
from stash.web.screens.designs_drawn import best_of
from stash.web.screens.edit_drawn import Made
from stash.web.screens.pair_limits import PairLimits
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.requirements.design.design import Design
    from stash.stock.holding import HeldLot

#: Where its forms are sent.
_SAVE, _COPY, _ADD = "/design/edit/save", "/design/edit/copy", "/design/edit/add"
_PARTS = {"shown": "edit_shown.html", "rest": "edit_rest.html"}


@dataclass(frozen=True)
class Editor:
    """One visit of the editor: a kept design, or a beginning that is not kept (`row` 0)."""

    visit: Visit
    kept: Kept
    shape: str = ""

    @cached_property
    def edited(self) -> Edited:
        """Its fields: as they were sent with what was refused, else as the address has them."""
        notice = self.visit.notice
        ours = notice and notice.kind != "done" and notice.action in (_SAVE, _COPY, _ADD)
        given = notice.typed if notice and ours else self.visit.query
        return Edited(self.kept.design, given, self.kept.settings)

    @cached_property
    def lots(self) -> Mapping[str, HeldLot]:
        """The lots on the shelf, by number."""
        shelf = self.visit.workshop.kept("shelf of the editor", lambda: shelf_today(self.book))
        return {str(held.lot.id): held for held in shelf.lots}

    @property
    def book(self) -> Any:
        """The open book."""
        return self.visit.book

    @cached_property
    def best(self) -> Mapping[str, HeldLot]:
        """The lots of the best set for the design as it is kept, else of what almost fits."""
        best = best_of(self.visit).get(self.kept.design.name) if self.kept.id else None
        if best is not None:
            return {one.role: self.lots[str(one.lot.lot.id)] for one in best.roles}
        name = ("best set", self.kept.id or self.shape)

        def make() -> dict[str, HeldLot]:
            found = propose_made(self.book, self.kept).match
            if found.proposals:
                filled = {one.role: one.lot.lot.id for one in found.proposals[0].roles}
            else:
                nearest = found.near_misses[0].roles if found.near_misses else ()
                filled = {role[0]: held.lot.id for role, held in nearest}
            return {role: self.lots[str(lot)] for role, lot in filled.items()}

        return self.visit.workshop.kept(name, make)

    def made(self, edited: Edited) -> Made:
        """The design that fields describe, with its need; refused where they cannot be read."""
        design = edited.design()
        known = replace(self.kept.known, margin=edited.margin)
        if design is self.kept.design:
            design = self.kept.known.design
        need = known.need(design)
        chosen = {role: self.lots[lot] for role, lot in edited.yarns.items() if lot in self.lots}
        taken = {held.lot.id for held in chosen.values()}
        best = {role: held for role, held in self.best.items() if held.lot.id not in taken}
        lots = {**best, **chosen}
        return Made(design, known.resized(design), need, {r.role: lots[r.role] for r in need.roles
                                                          if r.role in lots})  # fmt: skip


def edit_design(visit: Visit) -> Response:
    """A kept design in the editor."""
    return _edit(_editor_of(visit, str(visit.names["number"])))


def _editor_of(visit: Visit, number: str) -> Editor:
    row = designs.her_designs(visit.book).row(number)
    kept = visit.workshop.kept(("design", row.id), lambda: designs.show(visit.book, row.name))
    return Editor(visit, kept)


def edit_new(visit: Visit) -> Response:
    """A new design of one of the six shapes in the editor."""
    return _edit(_begun(visit, visit.query.get("begin", "")))


def _begun(visit: Visit, asked: str) -> Editor:
    name, plan = beginning(asked)
    known = designs.her_designs(visit.book).known_for(plan)
    kept = Kept(0, plan, known.need(plan), known, visit.settings)
    return Editor(visit, kept, name)


def _edit(editor: Editor) -> Response:
    visit = editor.visit
    wrong: dict[str, str] = {}
    good = editor.edited
    try:
        made = editor.made(good)
    except FileTrouble:
        raise
    except StashError as why:
        wrong = good.wrong(why)
        good, made = _last_good(editor)
    drawings = Drawings()
    part = visit.part if visit.part in _PARTS else ""
    chosen = _chosen(visit, made)
    drawn = edit_drawn.drawn_board(made, chosen) if part != "rest" else None

    def values() -> Mapping[str, Any]:
        shown = _fields(editor, wrong)
        drawings.once_more()
        if part != "rest":
            shown |= _shown(editor, made, drawings)
            shown |= {"board": drawn and Markup(drawn.drawn), "chosen": chosen}
            shown["handles"] = drawn is not None and not drawn.crowded
        if part != "shown":
            shown |= _rest(editor, made, drawings)
        return {**shown, "good": good.address, "drawings": drawings}

    return visit.page(_PARTS.get(part, "edit.html"), values)


def _last_good(editor: Editor) -> tuple[Edited, Made]:
    """The design as its fields last could be read, else as it is kept."""
    try:
        good = editor.edited.as_good()
        return good, editor.made(good)
    except StashError:
        kept = Edited(editor.kept.design, {}, editor.kept.settings)
        return kept, editor.made(kept)


def _chosen(visit: Visit, made: Made) -> int:
    """The band whose edges a phone shows: as chosen, else the topmost."""
    asked = visit.query.get("band", "")
    there = [band.at + 1 for bands in made.bands for band in bands.bands]
    if asked.isdecimal() and int(asked) in there:
        return int(asked)
    return there[-1] if there else 0


def _fields(editor: Editor, wrong: Mapping[str, str]) -> dict[str, Any]:
    """What stands in the fields."""
    edited = editor.edited
    rows = [*edited.bands]
    used = {row[0] for row in rows}
    free = next((role for role in ROLES[1:] if role not in used), "B")
    return {
        "id": editor.kept.id,
        "as_of": as_of(editor.kept.design),
        "begin": editor.shape,
        "name": editor.kept.design.name,
        "here": f"/design/{editor.kept.id}/edit" if editor.kept.id else "/design/new/edit",
        "fields": edited.fields,
        "band_rows": [*rows, (free, "", "")],
        "shapes": list(SHAPES),
        "sides": SHAPES.get(edited.fields["shape"], ()),
        "unsaved": edited.changed,
        "wrong": wrong,
        "sizes_asked": editor.visit.query.get("sizes", ""),
    }


def _shown(editor: Editor, made: Made, drawings: Drawings) -> dict[str, Any]:
    """The piece on its board and its need: what follows a band that is moved."""
    saved = editor.kept.need if editor.kept.id and editor.edited.changed else None
    lots = sorted(editor.lots.values(), key=lambda held: (str(held.lot.colour), held.lot.id))
    roles = edit_drawn.needs(made, saved, drawings)
    return {
        "roles": roles,
        "rows": edit_drawn.by_rows(made),
        "lacks": [one["lacks"] for one in roles if one["lacks"]],
        "short_need": edit_drawn.short_need(made.need.roles),
        "large_step": edit_drawn.large_step(),
        "lots": [(str(held.lot.id), _lot_words(held)) for held in lots if held.free],
    }


def _lot_words(held: HeldLot) -> str:
    lot = held.lot
    colour = f"{lot.colour}, " if lot.colour else ""
    dye = f", lot {lot.lot}" if lot.lot else ""
    return f"{colour}{lot.yarn}{dye}"


def _rest(editor: Editor, made: Made, drawings: Drawings) -> dict[str, Any]:
    """What may come a moment later: small pictures, fixes, notes, other sizes."""
    asked = editor.visit.query.get("sizes", "").strip()
    own = editor.kept.settings.own_size
    return {
        "beside": edit_drawn.beside(made, drawings),
        "fixes": _fixes(editor, made),
        **edit_drawn.notes_of(made.need),
        "other": edit_drawn.other_sizes(made, asked, own, drawings),
    }


def _fixes(editor: Editor, made: Made) -> list[Mapping[str, Any]]:
    """What the chosen yarns lack, and what would help: each change of the design as a button."""
    if set(made.lots) != {role.role for role in made.need.roles}:
        return []
    chosen = {f"with_{role}": held.lot.ref for role, held in made.lots.items()}
    wish = PairLimits({**chosen, "contrast": "any"}).wish(1)
    kept = replace(editor.kept, design=made.design, need=made.need, known=made.known)
    name = ("fixes", made.design, made.known.margin, tuple(sorted(chosen.items())))
    try:
        found = editor.visit.workshop.kept(name, lambda: propose_made(editor.book, kept, wish))
    except StashError:
        return []
    if found.match.proposals:
        return []
    nearest = found.match.near_misses[:1]
    shown = [fix for miss in nearest for fix in fixes_shown(miss)]
    short = [one for miss in nearest for one in lacking(miss)]
    lacks = [{"head": one.words, "under": one.figures, "address": ""} for one in short]
    helps = [
        {
            "head": one.head,
            "under": one.under,
            "address": one.fix.made and _with(editor, made, one.fix),
        }
        for one in shown
    ]
    return [*lacks, *helps]


def _with(editor: Editor, made: Made, fix: Any) -> str:
    """The editor with a fix in its fields."""
    edited = editor.edited
    now = typed(fix.made)
    given = {n: v for n, v in now.items() if v != edited.usual[n] and n != "name"}
    bands = [band_typed(band) for band in fix.made.bands]
    for at, row in enumerate(bands, 1):
        for part, value in zip(("role", "extent", "place"), row, strict=True):
            given[f"band_{at}_{part}"] = value
    given["bands"] = str(len(bands))
    lots = {**made.lots, **dict(fix.joining)}
    given |= {f"yarn_{role}": str(held.lot.id) for role, held in lots.items()}
    if editor.shape:
        given["begin"] = editor.shape
    return Edited(edited.base, given, edited.settings).address


def as_of(design: Design) -> str:
    """Tells a design as it is saved from one that was changed since."""
    return f"{crc32(repr(design).encode()):08x}"


def save_edited(visit: Visit) -> Done:
    """The design is changed as its fields say, as `design change` does."""
    editor = _pressed(visit)
    if visit.typed.get("as_of", "") != as_of(editor.kept.design):
        raise Refusal("design_changed_meanwhile", name=editor.kept.design.name)
    name = visit.typed.get("name", "").strip()
    plan = _edited(visit, editor).design()
    named = replace(plan, name=design_name(name)) if name else plan
    designs.change_design(visit.book, editor.kept.design.name, named)
    return Done(f"/design/{editor.kept.id}/edit", (f"Changed the design {named.name}.",))


def save_copy(visit: Visit) -> Done:
    """The design as its fields say, under another name as well."""
    editor = _pressed(visit)
    name = design_name(visit.typed.get("copy", ""))
    designs.save_as(visit.book, editor.kept.design.name, name, _edited(visit, editor).design())
    new = designs.her_designs(visit.book).row(name)
    return Done(f"/design/{new.id}/edit", (f"Saved the design {name}.",))


def add_edited(visit: Visit) -> Done:
    """A new design is saved, as `design add` does."""
    editor = _begun(visit, visit.typed.get("begin", ""))
    name = design_name(visit.typed.get("name", ""))
    designs.add_design(visit.book, replace(_edited(visit, editor).design(), name=name))
    new = designs.her_designs(visit.book).row(name)
    return Done(f"/design/{new.id}/edit", (f"Saved the design {name}.",))


def _pressed(visit: Visit) -> Editor:
    return _editor_of(visit, visit.typed.get("design", ""))


def _edited(visit: Visit, editor: Editor) -> Edited:
    return Edited(editor.kept.design, visit.typed, editor.kept.settings)


def plan(visit: Visit) -> Response:
    """A design on paper: drawn, row by row where its colours change, its need by size."""
    editor = _editor_of(visit, str(visit.names["number"]))
    kept = editor.kept
    made = editor.made(editor.edited)
    drawings = Drawings()

    def values() -> Mapping[str, Any]:
        asked = visit.query.get("sizes", "").strip()
        table = edit_drawn.graded_sizes(made, asked, kept.settings.own_size)
        rows = table.rows
        laid = made.need.laid
        return {
            "id": kept.id,
            "name": kept.design.name,
            "now_size": size_words(made.design),
            "fields": typed(made.design),
            "rows": edit_drawn.by_rows(made),
            "piece": drawings.once_more().in_looks(laid, made.looks, 11.0) if laid else "",
            "roles": edit_drawn.needs(made, None, drawings),
            "table": list(grade_words.cells(grade_words.Grading(made.design, rows, ())))
            if rows
            else [],
            **edit_drawn.notes_of(made.need),
            "drawings": drawings,
        }

    return visit.page("plan.html", values)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/design/new/edit": edit_new,
    "/design/{number:int}/edit": edit_design,
    "/design/{number:int}/plan": plan,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    _SAVE: save_edited,
    _COPY: save_copy,
    _ADD: add_edited,
}
