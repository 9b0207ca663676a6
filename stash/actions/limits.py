"""What a person narrows the shelf by, held against the shelf and the design as they are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from stash.actions.designs import refuse_unknown_roles
from stash.errors import NotFound, Refusal
from stash.matching.question.strands import colour_of
from stash.matching.question.wish import Fineness, Limits, Named
from stash.measures.note import Note
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot, HeldSkein
from stash.trade.colour_words import PLAIN

#: What is typed for a skein that nobody else's name stands on.
MINE = ("mine", "me", "my own")


def held_against(
    limits: Limits, need: Need, lots: Sequence[HeldLot], usual: Fineness | None
) -> Limits:
    """The limits by role and skein; a name, a place or a role that is not there is refused.

    `usual` is her setting for the fineness: where it is a share and the design has no put-up to
    hold it against, it says nothing; where she typed it for this once, that is refused.
    """
    if limits == Limits() and usual is None:
        return limits
    colours = {"", *(colour_of(role.role) for role in need.roles)}
    refuse_unknown_roles(need, sorted({*limits.wanted, *limits.unwanted} - colours))
    named = (*limits.wanted.values(), *limits.unwanted.values())
    refuse_strange_colours([one for words in named for one in words], lots)
    return replace(
        limits,
        fineness=dict(_spans(limits.asked_fineness, need, usual)),
        wanted=_by_role(limits.wanted, need),
        unwanted=_by_role(limits.unwanted, need),
        barred=dict(_barred(limits, [skein for held in lots for skein in held.skeins])),
    )


def _by_role(named: Mapping[str, tuple[Named, ...]], need: Need) -> dict[str, tuple[Named, ...]]:
    for_all = named.get("", ())
    asked = {role.role: named.get(colour_of(role.role), ()) for role in need.roles}
    return {role: (*for_all, *mine) for role, mine in asked.items() if for_all or mine}


def refuse_strange_colours(asked: Iterable[Named], lots: Sequence[HeldLot]) -> None:
    """A word that is no colour here must at least be on some band of the shelf."""
    known = [held.lot.colour for held in lots]
    for named in asked:
        strange = not named.family and named.near is None
        if strange and not any(named.word in colour.casefold() for colour in known):
            raise _no_colour(named.word, known)


def _no_colour(word: str, known: Sequence[str]) -> NotFound:
    """The colours of the shelf, or plain ones, it may be a slip for; else those of the shelf."""
    from stash.parsing import names

    meant = names.closest(word, [*dict.fromkeys((*known, *PLAIN))])
    return (
        NotFound("colour_on_shelf", word, meant) if meant else _none("colour_on_shelf", word, known)
    )


def _spans(
    asked: Fineness | None, need: Need, usual: Fineness | None
) -> Iterator[tuple[str, tuple[float, float]]]:
    """The least and the most metres per 100 g, by role."""
    fineness = usual if asked is None else asked
    for role in need.roles:
        if isinstance(fineness, tuple):
            yield role.role, fineness
        elif fineness is not None and role.m_per_100g is not None:
            middle = role.m_per_100g
            yield role.role, (middle * (1 - fineness), middle * (1 + fineness))
        elif asked is not None:
            raise Refusal("no_put_up_for_share", role=role.role)


def _barred(limits: Limits, skeins: Sequence[HeldSkein]) -> Iterator[tuple[int, Note]]:
    """The skeins kept out by owner or place, each with why."""
    for place in limits.not_in:
        part = place.casefold()
        here = [skein for skein in skeins if part in skein.place.casefold()]
        if not here:
            raise _none("place_on_shelf", place, [skein.place for skein in skeins])
        yield from ((skein.number, Note("lies_in", place=skein.place)) for skein in here)
    if limits.owner:
        hers = _owned_by(limits.owner)
        if not any(hers(skein) for skein in skeins):
            raise _none("owner_on_shelf", limits.owner, [skein.owner for skein in skeins])
        yield from ((s.number, Note("belongs_to", owner=s.owner)) for s in skeins if not hers(s))


def _owned_by(owner: str) -> Callable[[HeldSkein], bool]:
    plain = owner.strip().casefold()
    wanted = "" if plain in MINE else plain
    return lambda skein: skein.owner.casefold() == wanted


def _none(kind: str, asked: str, known: Iterable[str]) -> NotFound:
    from stash.parsing import names

    there = sorted({one for one in known if one})
    return NotFound(kind, asked, names.nearest(asked, there) or there[:4])
