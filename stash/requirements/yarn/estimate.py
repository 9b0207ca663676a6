"""The one entry: what a piece needs of each colour, from the most trusted source there is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions
from stash.requirements.design.extras import Extra
from stash.requirements.design.piece import Piece
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
    weighed_article,
)
from stash.trade.thickness import class_of_m_per_100g


def need_of(piece: Piece, margin: float | None = None, made: Experience = NOTHING_MADE) -> Need:
    """What a piece needs of each colour: expected, spread, and what to set aside.

    The most trusted source that knows a role gives its number: own articles, a swatch, a
    pattern's stated figure, the model at the piece's gauge, the model at its class's usual gauge.
    What the others say is kept beside it, and pointed out where it lies more than two spreads away.
    `margin` is a share, used as it is; left out, it covers nine times in ten. `made` is what she
    made before: articles of this piece, and what others say of her hands.
    """
    rows = by_rows(piece)
    extras = _extras(piece, rows)
    by_model, learned = by_her_hands(rows, piece, made.hands) if rows else ({}, None)
    said = _said(piece, {rows.source: by_model} if rows else {}, made)
    _let_extras_speak(said, extras)
    if not said:
        raise _nothing_to_go_by(piece)
    roles = sorted({role for each in said.values() for role in each})
    _refuse_unknown(piece.extras, roles)
    needs = tuple(_role_need(role, said, piece, margin, rows) for role in roles)
    needs = tuple(_in_her_yarn(need, piece, made) for need in needs)
    class_from, class_to = piece.classes or (None, None)
    notes = (*_plan_notes(piece, rows), *made.notes, *_notes(needs), *_printed(piece, needs))
    if rows and learned and any(need.source is rows.source for need in needs):
        notes = (*notes, learned)
    laid = (piece.shape, rows.layout) if rows and piece.shape else None
    return Need(needs, class_from, class_to, notes, extras, laid)


def stated_need(
    lengths: Mapping[str, Length],
    margin: float | None = None,
    class_from: int | None = None,
    class_to: int | None = None,
    strands: int = 1,
) -> Need:
    """The need where a pattern, or the maker, says how much of each colour, over all strands."""
    stated = tuple(sorted(lengths.items()))
    plan = Piece(stated=stated, class_from=class_from, class_to=class_to, strands=strands)
    return need_of(plan, margin)


def _said(piece: Piece, by_model: Mapping[Source, Said], made: Experience) -> dict[Source, Said]:
    """What each source says, the most trusted first."""
    said: dict[Source, Said] = {}
    if piece.swatch:
        said[Source.SWATCH] = from_swatch(piece, piece.swatch)
    if piece.stated:
        said[Source.STATED] = from_stated(piece)
    said |= by_model
    weighed = weighed_article(piece)
    articles = [*made.own, weighed] if weighed else [*made.own]
    if articles:
        next_best = {role: each[role] for each in reversed(said.values()) for role in each}
        said = {Source.OWN_ARTICLE: from_own(piece, articles, next_best), **said}
    least = LEAST_SPREAD_M * piece.strands
    return {source: _no_surer_than(least, each) for source, each in said.items()}


#: However little a colour takes, it is not known better than this: its two ends are cut by eye, a
#: hand longer or shorter each, and a small ball on a kitchen scale tells no finer (half a metre of
#: medium yarn weighs a quarter of a gram). Common practice, no source.
LEAST_SPREAD_M = 0.5


def _no_surer_than(least_m: float, said: Said) -> Said:
    return {
        role: Estimate(one.expected_m, max(least_m, one.spread_m)) for role, one in said.items()
    }


def _extras(piece: Piece, rows: ByRows | None) -> tuple[ExtraYarn, ...]:
    """What goes beside the fabric, by the most trusted of what is known of it."""
    if piece.swatch:
        per_m2 = per_square_metre(piece, piece.swatch)
        return extras_yarn(piece, Ground(per_m2, piece.m_per_100g))
    return rows.extras if rows else extras_yarn(piece, Ground(m_per_100g=piece.m_per_100g))


def _let_extras_speak(said: dict[Source, Said], extras: Sequence[ExtraYarn]) -> None:
    """A colour that only an extra has takes what the extra takes, trusted least."""
    known = {role for each in said.values() for role in each}
    alone = with_extras({}, (one for one in extras if one.role not in known))
    if alone:
        said[Source.CLASS] = {**said.get(Source.CLASS, {}), **alone}


def _refuse_unknown(extras: Sequence[Extra], roles: Sequence[str]) -> None:
    for extra in extras:
        if extra.role not in roles:
            raise Refusal("extra_not_known", extra=extra)


def _nothing_to_go_by(piece: Piece) -> Refusal:
    """What would help most, the first thing first."""
    if piece.shape is None:
        return Refusal("need_not_known")
    if piece.size is None:
        return Refusal("design_has_no_size", shape=piece.shape, sides=piece.build.words)
    return Refusal("design_has_no_fabric" if piece.fabric is None else "design_has_no_gauge")


def _role_need(
    role: str,
    said: Mapping[Source, Said],
    piece: Piece,
    margin: float | None,
    rows: ByRows | None,
) -> RoleNeed:
    best, *others = (Figure(source, each[role]) for source, each in said.items() if role in each)
    return RoleNeed(
        role=role,
        estimate=best.estimate,
        margin=_margin(best, piece, role, margin),
        source=best.source,
        strands=piece.strands,
        m_per_100g=piece.m_per_100g,
        row_m=_row_m(role, best, rows),
        others=tuple(others),
    )


def _margin(best: Figure, piece: Piece, role: str, asked: float | None) -> float:
    """As asked, else enough nine times in ten; of whole skeins that are enough, what they hold."""
    skeins = dict(piece.bought).get(role) if best.source is Source.STATED else None
    if skeins is None or asked is not None:
        return margin_for(best.estimate, asked)
    return bought_margin(dict(piece.stated)[role], skeins)


def _in_her_yarn(need: RoleNeed, piece: Piece, made: Experience) -> RoleNeed:
    """The need with grams of the yarn that her newest article was weighed in.

    Only where no put-up is named, and her own articles give the figure.
    """
    if piece.put_up or need.source is not Source.OWN_ARTICLE:
        return need
    known = (one.m_per_100g(need.role) for one in reversed(made.own))
    hers = next((m_per_100g for m_per_100g in known if m_per_100g), need.m_per_100g)
    return replace(need, m_per_100g=hers)


def _row_m(role: str, best: Figure, rows: ByRows | None) -> float | None:
    """One row by the model, put right by as much as the chosen figure differs from it."""
    if rows is None or role not in rows.yarn:
        return None
    return rows.yarn[role].row_m * best.estimate.expected_m / rows.said[role].expected_m


def _plan_notes(piece: Piece, rows: ByRows | None) -> Iterator[Note]:
    if rows:
        yield from rows.notes
    yield from cautions(piece)
    if piece.classes is None:
        yield Note("any_class_fits")
    elif piece.class_from is None:
        yield Note("class_by_put_up", thickness=piece.classes[0])
    if piece.strands > 1:
        yield from _strands_note(piece)
    if piece.put_up is None and piece.m_per_100g and (piece.swatch or piece.weighed):
        yield Note("usual_put_up_taken", m_per_100g=piece.m_per_100g)


def _strands_note(piece: Piece) -> Iterator[Note]:
    """Tex adds, so metres to 100 g are divided; what such a yarn is called is only a hint."""
    if piece.m_per_100g:
        together = piece.m_per_100g / piece.strands
        yield Note(
            "strands_together",
            strands=piece.strands,
            m_per_100g=together,
            thickness=class_of_m_per_100g(together),
        )


def _printed(piece: Piece, needs: Sequence[RoleNeed]) -> Iterator[Note]:
    """What a pattern's figure means, and where it lies beside what others say."""
    stated, bought = dict(piece.stated), dict(piece.bought)
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
