"""What is taken of the skeins that she chooses for one role."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.errors import NotFound, Refusal
from stash.matching.answer.proposal import Take
from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.yarn.need import RoleNeed, Source
from stash.requirements.yarn.tails import JOIN_M
from stash.stock import picking
from stash.stock.holding import HeldSkein


def cut_from(
    held: Mapping[int, HeldSkein], need: RoleNeed, numbers: Sequence[int], taken: Sequence[Take]
) -> tuple[list[Take], list[Note]]:
    """The takes from the skeins named for one role, and what is worth saying of them."""
    numbers = list(dict.fromkeys(numbers))
    skeins = {number: held[number] for number in sorted(numbers) if number in held}
    for number in numbers:
        if number not in skeins:
            raise NotFound("skein", str(number))
        if number in {take.number for take in taken}:
            raise Refusal("skein_in_two_roles", skein=number)
        if skeins[number].free_length is None:
            raise Refusal("skein_without_length", skein=number)
    free = {n: s.free_length for n, s in skeins.items()}
    ends = [
        picking.Supply(n, free_length.um, not skeins[n].opened)
        for n in numbers
        if (free_length := free[n]) is not None
    ]
    join_um = to_books(JOIN_M).um
    tries = [(need.set_aside_m, True, join_um), (need.estimate.expected_m, False, join_um)]
    if need.source is Source.STATED:  # a pattern's figure has the joins of its balls in it
        tries.append((need.estimate.expected_m, False, 0))
    for amount_m, enough, lost_um in tries:
        wanted = picking.Wanted(to_books(amount_m).um, need.strands, lost_um)
        cuts, short_um = picking.laid_out(ends, wanted)
        if not short_um:
            return _takes(cuts, skeins), _said(need, enough, list(skeins.values()))
    raise Refusal("choice_too_short", role=need.role, missing=Length(short_um))


def _takes(cuts: Sequence[picking.Cut], skeins: Mapping[int, HeldSkein]) -> list[Take]:
    return [
        Take(c.number, skeins[c.number].lot_id, skeins[c.number].place, c.strand, Length(c.um))
        for c in cuts
    ]


def _said(need: RoleNeed, enough: bool, skeins: Sequence[HeldSkein]) -> list[Note]:
    said = []
    if not enough:
        said.append(Note("margin_not_whole", role=need.role))
    if len({skein.lot_id for skein in skeins}) > 1:
        said.append(Note("different_lots", role=need.role))
    return said
