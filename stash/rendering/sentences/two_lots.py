"""Sentences about two lots that share a role: which rows from which, where the change lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.note import Note
from stash.rendering.sentences.phrases import joined
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.requirements.fit.splitting import Leg, Split, Way
from stash.stock.yarn import Lot

_IN_TURN = "both carried up the edge"


def _shared(split: Split, lots: Sequence[Lot]) -> str:
    """`rows 1-24 from L3, from row 25 on L9: the change is under the fold`."""
    first, other = (lot.ref for lot in lots)
    if split.way is Way.BRIM:
        return f"{other} {_place(split)}, {_odd_rows(split)}; {first} for all the rest"
    if split.way is Way.CHANGE:
        one, last = split.legs
        begins = _number(split, last.start)
        place = f"the change is {_place(split)}"
        return f"{_rows(split, one)} from {first}, from row {begins} on {other}: {place}"
    if split.rows is None:
        return f"half from {first} and half from {other}, two rows of each in turn, {_IN_TURN}"
    if len(split.legs) == 1:
        return f"two rows of {first} and two of {other} in turn, {_IN_TURN}"
    lead, blend = split.legs
    begins = _number(split, blend.start)
    return (
        f"{_rows(split, lead)} from {first}, from row {begins} on two rows of {first} and two of "
        f"{other} in turn, {_IN_TURN}"
    )


def _rows_for(split: Split, lot: int) -> str:
    """Which rows the balls of one of the lots are for: `rows 1-24`, `all other rows`."""
    if split.way is Way.BRIM:
        return f"{_place(split)}, {_odd_rows(split)}" if lot else "all the rest"
    if split.way is Way.CHANGE:
        last = split.legs[1]
        return f"from row {_number(split, last.start)} on" if lot else _rows(split, split.legs[0])
    turns = f"{'the second' if lot else 'the first'} two rows of every four"
    if len(split.legs) < 2:
        return turns
    lead, blend = split.legs
    begins = f"from row {_number(split, blend.start)} on {turns}"
    return begins if lot else f"{_rows(split, lead)}, {begins}"


def _odd_rows(split: Split) -> str:
    """The rows of the odd lot; where rows run up the design, its stitches in each of them."""
    legs = [leg for leg in split.legs if leg.lot]
    if legs[0].stitches:
        runs = dict.fromkeys(leg.stitches for leg in legs if leg.stitches)
        return f"stitches {joined(f'{a}-{b}' for a, b in runs)} of each row"
    return joined(_rows(split, leg) for leg in legs)


def _place(split: Split) -> str:
    place: str | Note = split.place
    return sentence(place)


def _rows(split: Split, leg: Leg) -> str:
    """The rows of a leg from the first to the last; of what is made twice, in each."""
    first, last = _number(split, leg.start), _number(split, leg.stop - 1)
    named = f"row {first}" if first == last else f"rows {first}-{last}"
    return f"{named} of each" if split.rows and split.rows.made > 1 else named


def _number(split: Split, at: int) -> int:
    """The number of the role's row at this place, in one item."""
    return split.rows.numbers[at] if split.rows else at + 1


SENTENCES: Mapping[str, Words] = {"two_lots": _shared, "rows_for_lot": _rows_for}
