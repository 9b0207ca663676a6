"""The one entry: what a design needs of each colour, from the most trusted source there is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra
from stash.requirements.yarn.by_rows import ByRows, by_rows
from stash.requirements.yarn.experience import NOTHING_MADE, Experience, by_her_hands
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.margin import chance_left, margin_for
from stash.requirements.yarn.need import ExtraYarn, Figure, Need, RoleNeed, Source
from stash.requirements.yarn.printed import bought_margin, where_it_lies
from stash.requirements.yarn.sources import (
    Said,
    from_own,
    from_stated,
    from_swatch,
    per_square_metre,
    weighed_item,
)
from stash.trade.thickness import thickness_of_m_per_100g


def need_of(design: Design, margin: float | None = None, made: Experience = NOTHING_MADE) -> Need:
    """What a design needs of each colour: expected, spread, and what to set aside.

    The most trusted source that knows a role gives its number: own items, a swatch, a
    pattern's stated figure, the model at the design's gauge, the model at its class's usual gauge.
    What the others say is kept beside it, and pointed out where it lies more than two spreads away.
    `margin` is a share, used as it is; left out, it covers nine times in ten. `made` is what she
    made before: items of this design, and what others say of her hands.
    """
    rows = by_rows(design)
    extras = _extras(design, rows)
    by_model, learned = by_her_hands(rows, design, made.hands) if rows else ({}, None)
    said = _said(design, {rows.source: by_model} if rows else {}, made)
    _let_extras_speak(said, extras)
    if not said:
        raise _nothing_to_go_by(design)
    roles = sorted({role for each in said.values() for role in each})
    _refuse_unknown(design.extras, roles)
    needs = tuple(_role_need(role, said, design, margin, rows) for role in roles)
    needs = tuple(_in_her_yarn(need, design, made) for need in needs)
    thickness_from, thickness_to = design.classes or (None, None)
    notes = (*_plan_notes(design, rows), *made.notes, *_notes(needs), *_printed(design, needs))
    if rows and learned and any(need.source is rows.source for need in needs):
        notes = (*notes, learned)
    laid = (design.shape, rows.layout) if rows and design.shape else None
    return Need(needs, thickness_from, thickness_to, notes, extras, laid)


def stated_need(
    lengths: Mapping[str, Length],
    margin: float | None = None,
    thickness_from: int | None = None,
    thickness_to: int | None = None,
    strands: int = 1,
) -> Need:
    """The need where a pattern, or the maker, says how much of each colour, over all strands."""
    stated = tuple(sorted(lengths.items()))
    plan = Design(
        stated=stated, thickness_from=thickness_from, thickness_to=thickness_to, strands=strands
    )
    return need_of(plan, margin)


def _said(design: Design, by_model: Mapping[Source, Said], made: Experience) -> dict[Source, Said]:
    """What each source says, the most trusted first."""
    said: dict[Source, Said] = {}
    if design.swatch:
        said[Source.SWATCH] = from_swatch(design, design.swatch)
    if design.stated:
        said[Source.STATED] = from_stated(design)
    said |= by_model
    weighed = weighed_item(design)
    items = [*made.own, weighed] if weighed else [*made.own]
    if items:
        next_best = {role: each[role] for each in reversed(said.values()) for role in each}
        said = {Source.OWN_ITEMS: from_own(design, items, next_best), **said}
    least = LEAST_SPREAD_M * design.strands
    return {source: _no_surer_than(least, each) for source, each in said.items()}


#: However little a colour takes, it is not known better than this: its two ends are cut by eye, a
#: hand longer or shorter each, and a small ball on a kitchen scale tells no finer (half a metre of
#: medium yarn weighs a quarter of a gram). Common practice, no source.
LEAST_SPREAD_M = 0.5


def _no_surer_than(least_m: float, said: Said) -> Said:
    return {
        role: Estimate(one.expected_m, max(least_m, one.spread_m)) for role, one in said.items()
    }


def _extras(design: Design, rows: ByRows | None) -> tuple[ExtraYarn, ...]:
    """What goes beside the fabric, by the most trusted of what is known of it."""
    if design.swatch:
        per_m2 = per_square_metre(design, design.swatch)
        return extras_yarn(design, Ground(per_m2, design.m_per_100g))
    return rows.extras if rows else extras_yarn(design, Ground(m_per_100g=design.m_per_100g))


def _let_extras_speak(said: dict[Source, Said], extras: Sequence[ExtraYarn]) -> None:
    """A colour that only an extra has takes what the extra takes, trusted least."""
    known = {role for each in said.values() for role in each}
    alone = with_extras({}, (one for one in extras if one.role not in known))
    if alone:
        said[Source.THICKNESS] = {**said.get(Source.THICKNESS, {}), **alone}


def _refuse_unknown(extras: Sequence[Extra], roles: Sequence[str]) -> None:
    for extra in extras:
        if extra.role not in roles:
            raise Refusal("extra_not_known", extra=extra)


def _nothing_to_go_by(design: Design) -> Refusal:
    """What would help most, the first thing first."""
    if design.shape is None:
        return Refusal("need_not_known")
    if design.size is None:
        return Refusal("design_has_no_size", shape=design.shape, sides=design.build.words)
    return Refusal("design_has_no_fabric" if design.fabric is None else "design_has_no_gauge")


def _role_need(
    role: str,
    said: Mapping[Source, Said],
    design: Design,
    margin: float | None,
    rows: ByRows | None,
) -> RoleNeed:
    best, *others = (Figure(source, each[role]) for source, each in said.items() if role in each)
    return RoleNeed(
        role=role,
        estimate=best.estimate,
        margin=_margin(best, design, role, margin),
        source=best.source,
        strands=design.strands,
        m_per_100g=design.m_per_100g,
        row_m=_row_m(role, best, rows),
        others=tuple(others),
    )


def _margin(best: Figure, design: Design, role: str, asked: float | None) -> float:
    """As asked, else enough nine times in ten; of whole skeins that are enough, what they hold."""
    skeins = dict(design.bought).get(role) if best.source is Source.STATED else None
    if skeins is None or asked is not None:
        return margin_for(best.estimate, asked)
    return bought_margin(dict(design.stated)[role], skeins)


def _in_her_yarn(need: RoleNeed, design: Design, made: Experience) -> RoleNeed:
    """The need with grams of the yarn that her newest item was weighed in.

    Only where no put-up is named, and her own items give the figure.
    """
    if design.put_up or need.source is not Source.OWN_ITEMS:
        return need
    known = (one.m_per_100g(need.role) for one in reversed(made.own))
    hers = next((m_per_100g for m_per_100g in known if m_per_100g), need.m_per_100g)
    return replace(need, m_per_100g=hers)


def _row_m(role: str, best: Figure, rows: ByRows | None) -> float | None:
    """One row by the model, put right by as much as the chosen figure differs from it."""
    if rows is None or role not in rows.yarn:
        return None
    return rows.yarn[role].row_m * best.estimate.expected_m / rows.said[role].expected_m


def _plan_notes(design: Design, rows: ByRows | None) -> Iterator[Note]:
    if rows:
        yield from rows.notes
    yield from cautions(design)
    if design.classes is None:
        yield Note("any_thickness_fits")
    elif design.thickness_from is None:
        yield Note("thickness_by_put_up", thickness=design.classes[0])
    if design.strands > 1:
        yield from _strands_note(design)
    if design.put_up is None and design.m_per_100g and (design.swatch or design.weighed):
        yield Note("usual_put_up_taken", m_per_100g=design.m_per_100g)


def _strands_note(design: Design) -> Iterator[Note]:
    """Tex adds, so metres to 100 g are divided; what such a yarn is called is only a hint."""
    if design.m_per_100g:
        together = design.m_per_100g / design.strands
        yield Note(
            "strands_together",
            strands=design.strands,
            m_per_100g=together,
            thickness=thickness_of_m_per_100g(together),
        )


def _printed(design: Design, needs: Sequence[RoleNeed]) -> Iterator[Note]:
    """What a pattern's figure means, and where it lies beside what others say."""
    stated, bought = dict(design.stated), dict(design.bought)
    if any(n.source is Source.STATED and n.role not in bought for n in needs):
        yield Note("printed_figure_may_hold_margin")
    for need in needs:
        if need.role in bought:
            yield Note("figure_for_buying", role=need.role, skeins=bought[need.role])
        if need.role in stated and (place := where_it_lies(need, stated[need.role])):
            yield place


def _notes(needs: Sequence[RoleNeed]) -> Iterator[Note]:
    for need in needs:
        chance = chance_left(need.estimate, need.margin)
        if chance is not None:
            yield Note(
                "margin_leaves_chance",
                role=need.role,
                margin=need.margin,
                spread=need.estimate.relative,
                chance=chance,
            )
        yield from _far_apart(need)


def _far_apart(need: RoleNeed) -> Iterator[Note]:
    for other in need.others:
        apart = abs(other.estimate.expected_m - need.estimate.expected_m)
        if apart > 2 * math.hypot(other.estimate.spread_m, need.estimate.spread_m):
            yield Note(
                "sources_far_apart",
                role=need.role,
                source=need.source,
                expected_m=need.estimate.expected_m,
                other_source=other.source,
                other_expected_m=other.estimate.expected_m,
            )
