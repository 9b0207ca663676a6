"""What so much yarn makes of a design, and one skein or lot of the designs that are kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from stash.measures.note import Note
from stash.rendering import amounts, figures
from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.figures import Figure
from stash.rendering.her_words import named_thickness
from stash.rendering.sentences.designs import band_words
from stash.rendering.sentences.phrases import source_words
from stash.rendering.sentences.say import plain_facts
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout
from stash.requirements.fit.fit_to_yarn import Changed, band_in_cells
from stash.requirements.fit.reach import Grown, Reach, RoleReach
from stash.requirements.fit.rowwise import row_at
from stash.requirements.yarn.by_rows import by_rows, finished
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import RoleNeed

Keys = dict[str, Any]


def keys(found: Reach) -> Keys:
    """All of it with stable keys; None where nothing can be made, or it is not known."""
    plan = found.known.design
    have_m = {one.role: one.have_m for one in found.roles}
    return {
        "design": plan.name or None,
        "enough": not found.short,
        "source": found.need.source.value,
        "short_m": {
            one.role: one.set_aside_m - have_m[one.role]
            for one in found.need.roles
            if one.role in found.short
        },
        "planned": _changed_keys(Changed(plan, found.need)),
        "sizes": _sizes_keys(found),
        "bands": [_band_keys(found.known, at, wide) for at, wide in _bands(found)],
        "without_brim": found.brimless and _changed_keys(found.brimless),
        "roles": {one.role: role_keys(found.known, one) for one in found.roles},
    }


def _sizes_keys(found: Reach) -> list[Keys]:
    return [{"by": grown.side or "all sides", **_grown_keys(grown)} for grown in found.sizes]


def _grown_keys(grown: Grown) -> Keys:
    if grown.changed is None:
        return {"made": None, "ends": [], "no_end": False}
    changed = grown.changed
    return {
        "made": _changed_keys(changed),
        "ends": list(changed.ends),
        "no_end": changed.no_end,
    }


def _changed_keys(changed: Changed) -> Keys:
    rows = by_rows(changed.design)
    sides = zip(changed.design.build.words, finished(changed.design).sides, strict=False)
    return {
        **{f"{word}_cm": side.um / 10_000 for word, side in sides},
        "stitches": rows and rows.layout.body.widest,
        "rows": rows and len(rows.layout.body.rows),
        "set_aside_m": {one.role: one.set_aside_m for one in changed.need.roles},
    }


def _band_keys(known: DesignContext, at: int, wide: Changed | None) -> Keys:
    band = known.design.bands[at]
    count, unit, width = band_in_cells(wide.design, at) if wide else (None, "", None)
    return {
        "role": band.role,
        "planned": str(band),
        "widest_cm": width and width.um / 10_000,
        "widest_stitches": count if unit == "stitches" else None,
        "widest_rows": count if unit == "rows" else None,
        "ends": list(wide.ends) if wide else [],
    }


def role_keys(known: DesignContext, one: RoleReach) -> Keys:
    """What one role's yarn comes to."""
    rows = by_rows(known.design)
    walk = one.walk
    return {
        "have_m": one.have_m,
        "whole_rows": one.rows,
        "whole_stripes": one.stripes,
        "reaches_row": walk and walk.reached,
        "of_rows": walk and walk.rows,
        "left_m": walk.left_m if walk and walk.whole else None,
        "change_after_rows": list(walk.changes) if walk else [],
        "changes": [_at_keys(rows.layout, row) for row in walk.changes] if rows and walk else [],
    }


def _at_keys(layout: Layout, row: int) -> Keys:
    if row == 0:
        return {"item": 1, "part": layout.body.name, "row": 0}
    at = row_at(layout, row)
    return {"item": at.item, "part": at.part, "row": at.row}


def _bands(found: Reach) -> Iterator[tuple[int, Changed | None]]:
    roles = {one.role for one in found.roles}
    ours = [at for at, band in enumerate(found.known.design.bands) if band.role in roles]
    return zip(ours, found.bands, strict=True)


def rows(found: Reach) -> Iterator[Keys]:
    """One row for each size that is reached, for a sheet."""
    facts = keys(found)
    for size in facts["sizes"]:
        made = size["made"] or dict.fromkeys(facts["planned"])
        aside = made["set_aside_m"] or {}
        yield {
            "by": size["by"],
            **{name: value for name, value in made.items() if name != "set_aside_m"},
            **{f"{role}_set_aside_m": aside.get(role) for role in facts["planned"]["set_aside_m"]},
            "ends": size["ends"],
            "no_end": size["no_end"],
        }


def text(found: Reach, page: Page) -> str:
    """The verdict, what each role, size and band comes to, and where lots change."""
    plan = found.known.design
    name, verdict = page.strong(plan.name or f"{plan.shape}"), page.strong(_verdict(found))
    table = columns(list(_lines(found)), "  ")
    walks = walk_lines(found.known, found.roles, None)
    thickness = (found.need.thickness_from, found.need.thickness_to)
    head = f"{name}: {verdict} ({source_words(found.need.source, *thickness)})"
    return "\n".join([head, table, *(f"   {one}" for one in walks)])


def _verdict(found: Reach) -> str:
    """Whether the design as it is can be made, in one line."""
    if not found.short:
        return "enough as planned"
    have = {one.role: one for one in found.roles}
    lacks = (
        f"{one.role} is {needed(one) - had(have[one.role])} short"
        for one in found.need.roles
        if one.role in found.short
    )
    return f"not enough as planned, {', '.join(lacks)}"


def needed(role: RoleNeed) -> Figure:
    """What a role needs, as it is shown."""
    return figures.up(figures.of_metres(role.set_aside_m))


def had(role: RoleReach) -> Figure:
    """What there is for a role, as it is shown."""
    return figures.down(figures.of_metres(role.have_m))


def _lines(found: Reach) -> Iterator[list[str]]:
    """What it comes to for reading: what is looked at, the answer, and what sets the end."""
    needs = {one.role: one for one in found.need.roles}
    for one in found.roles:
        yield [one.role, *_role_words(needs[one.role], one, short=one.role in found.short)]
    for grown in found.sizes:
        yield [_SIZE_WORDS.get(grown.side, f"only {grown.side}"), *_grown_words(grown)]
    for at, wide in _bands(found):
        yield [_band_name(found.known.design, at), *_band_words(at, wide)]
    if found.brimless:
        made = found.brimless
        yield ["without the brim", _sides(made.design), _aside_words(made)]


_SIZE_WORDS = {
    "": "in proportion",
    "tall": "only the height",
    "long": "only the length",
    "wide": "only the width",
}


def _role_words(role: RoleNeed, one: RoleReach, *, short: bool) -> list[str]:
    left = "" if short else f", {had(one) - needed(role)} left"
    return [f"{had(one)}, needs {needed(role)}{left}", ", ".join(_counts(one))]


def _counts(one: RoleReach) -> Iterator[str]:
    if one.rows is not None:
        yield counted(one.rows, "whole row")
    if one.stripes:
        yield counted(one.stripes, "whole stripe")


def _grown_words(grown: Grown) -> list[str]:
    changed = grown.changed
    if changed is None:
        return ["too little yarn, however small", ""]
    if changed.no_end:
        return ["as large as you like", "there is plenty of this yarn"]
    rows = by_rows(changed.design)
    body = rows.layout.body if rows else None
    made = f", {body.widest} sts x {len(body.rows)} rows" if body else ""
    return [f"up to {_sides(changed.design)}{made}", _ends_words(changed)]


def _band_name(design: Design, at: int) -> str:
    """A band by its colour, where the colour has no other band."""
    band = design.bands[at]
    alone = sum(1 for one in design.bands if one.role == band.role) == 1
    return f"band {band.role if alone else band_words(band)}"


def _band_words(at: int, wide: Changed | None) -> list[str]:
    if wide is None:
        return ["too little yarn for one row or stitch", ""]
    count, unit, width = band_in_cells(wide.design, at)
    one = {"stitches": "stitch", "rows": "row"}
    made = "" if unit not in one else f", {count} {one[unit] if count == 1 else unit}"
    return [f"up to {figures.edge(width)}{made}", _ends_words(wide)]


def _ends_words(changed: Changed) -> str:
    if changed.ends:
        return f"then no more {' or '.join(changed.ends)}"
    return "no room for more"


def _sides(design: Design) -> str:
    """The finished sides."""
    return figures.sizes(finished(design).sides[: len(design.build.words)], " x ")


def _aside_words(changed: Changed) -> str:
    return f"needs {', '.join(f'{one.role} {needed(one)}' for one in changed.need.roles)}"


def walk_lines(known: DesignContext, roles: Sequence[RoleReach], done: int | None) -> Iterator[str]:
    """Where each role's lots change, and how far they go from after the rows that are done."""
    rows = by_rows(known.design)
    for one in roles:
        walk = one.walk
        if rows is None or walk is None:
            continue
        for at, row in enumerate(walk.changes, start=2):
            yield f"{one.role}: change to lot {at} after row {_row_words(rows.layout, row)}"
        if done is not None or (walk.changes and not walk.whole):
            yield f"{one.role}: {_reached_words(rows.layout, one, done)}"


def _reached_words(layout: Layout, one: RoleReach, done: int | None) -> str:
    walk = one.walk
    if walk is None or walk.whole:
        left = figures.down(figures.of_metres(walk.left_m if walk else 0.0))
        return f"lasts to the last row, {left} left"
    further = counted(walk.reached - (done or 0), "more row" if done else "row")
    return f"lasts {further}, to row {_row_words(layout, walk.reached)} of {walk.rows}"


def _row_words(layout: Layout, row: int) -> str:
    """A row's number over all; of what has parts or is made twice, where that is as well."""
    if row == 0 or (layout.made == 1 and len(layout.parts) == 1):
        return f"{row}"
    at = row_at(layout, row)
    which = f" of item {at.item}" if layout.made > 1 else ""
    return f"{row} (row {at.row} of the {at.part}{which})"


def use_keys(found: Reach, role: str, steps: int) -> Keys:
    """One role of a design worked from a skein or a lot.

    `size` is the design as large as the yarn makes it, `band` its widest band of the role; None
    where nothing can be made, or it is not known.
    """
    (need,) = [one for one in found.need.roles if one.role == role]
    have = found.roles[0]
    sizes = _sizes_keys(found)
    bands = [_band_keys(found.known, *one) for one in _bands(found)] if found.bands else []
    return {
        "design": found.known.design.name or None,
        "role": role,
        "enough": not found.short,
        "size": sizes[0]["made"] if sizes else None,
        "band": bands[0] if bands else None,
        "lacks": [plain_facts(_lacks(need, have))] if found.short else [],
        "set_aside_m": need.set_aside_m,
        "short_m": need.set_aside_m - have.have_m if found.short else None,
        "thickness_steps": steps,
        "whole_rows": have.rows,
        "whole_stripes": have.stripes,
        "sizes": sizes,
        "bands": bands,
    }


def _lacks(need: RoleNeed, have: RoleReach) -> Note:
    length = figures.of_metres(need.set_aside_m - have.have_m)
    return Note("role_lacks", role=need.role, length=length)


def use_row(found: Reach, role: str, steps: int) -> list[str]:
    """The same for reading: enough or not, and else how large or how wide.

    Yarn of another thickness is that first; how much there is of it decides nothing then.
    """
    have = found.roles[0]
    (need,) = [one for one in found.need.roles if one.role == role]
    if role in found.short:
        only_margin = have.have_m >= need.estimate.expected_m
        verdict = f"{needed(need) - had(have)} short{' of the margin' if only_margin else ''}"
        reached = list(_grows_to(found))
    else:
        verdict, reached = f"enough, {had(have) - needed(need)} left", []
    classes = found.known.design.classes
    if steps and classes:
        verdict, reached = f"wrong thickness: for {named_thickness(*classes)}", []
    bar = amounts.bar(have.have_m / need.set_aside_m if need.set_aside_m else 1.0)
    needs = f"needs {needed(need)}"
    return [found.known.design.name, role, bar, needs, verdict, "; ".join(reached)]


def _grows_to(found: Reach) -> Iterator[str]:
    for grown in found.sizes[:1]:
        if grown.changed and not grown.changed.no_end:
            yield f"up to {_sides(grown.changed.design)}"
    for at, wide in _bands(found) if found.bands else ():
        if wide:
            _, _, width = band_in_cells(wide.design, at)
            yield f"a band up to {figures.edge(width)}"
