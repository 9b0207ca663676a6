"""What a reading of the kitchen scale says about the books.

A reading is gross: net = reading - tare. A whole skein settles its own full mass and keeps its
length (dry wool reads 4-8 % light with every metre there). An opened skein's length is its net mass
times its pair, so a fall is yarn used, or the books are wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein, SkeinState

#: A whole skein further than this off its band is a question, not a reading (our choice: the
#: lawful shortage of one pack is 9 % at 50-100 g by 76/211/EEC, and a dry room takes the rest).
FAR_OFF_PERCENT = 12
#: Within this, or one step of the scale, scale and books agree (our choice).
AGREES_PERCENT = 1


class Verdict(StrEnum):
    """What a weighing booked."""

    USE = "use"
    CORRECTION = "correction"
    IN_AGREEMENT = "in agreement"


@dataclass(frozen=True, slots=True)
class Reading:
    """What the scale said and what the person said of it.

    `tare` as given now (None: the skein's own, else nothing). `opened` says the skein was broken
    into; `recount` that the books are wrong; `item` whom a fall is for; `closing` that it is
    being finished, so that every gram of a fall went into it. `full` is what a full skein of it
    weighs, where that is known.
    """

    gross: Mass
    tare: Mass | None = None
    opened: bool = False
    recount: bool = False
    item: int | None = None
    closing: bool = False
    full: Mass | None = None


@dataclass(frozen=True, slots=True)
class WeighingOutcome:
    """What a reading comes to.

    `change` is what to book on the skein, as *use* for `item`, as *correction*, or (with
    `own_pair`) as a restatement: the grams change, the metres do not.
    """

    net: Mass
    tare: Mass
    tare_from: str
    verdict: Verdict
    change: Mass = NO_MASS
    item: int | None = None
    own_pair: PutUp | None = None
    restates: bool = False
    opens: bool = False


def weighed(
    skein: HeldSkein, reading: Reading, step: Mass, claimants: Sequence[tuple[int, str]]
) -> WeighingOutcome:
    """Scale against books for one skein.

    `step` is the scale's step. `claimants` are the begun items the skein is set aside for, as
    (number, name). Raises Refusal where the reading alone cannot tell what happened.
    """
    tare, tare_from = _tare(skein, reading)
    net = reading.gross - tare
    if net.mg < 0:
        raise Refusal("tare_above_reading", tare=tare, reading=reading.gross)
    settled = WeighingOutcome(net, tare, tare_from, Verdict.IN_AGREEMENT, opens=reading.opened)
    if _counts_as_whole(skein, reading, net, claimants):
        return _whole(skein, settled, step)
    if not skein.mass_known and net:
        return _restated(skein, settled)
    _refuse_more_than_full(skein, reading, net)
    return _opened(skein, reading, settled, step, claimants)


def _tare(skein: HeldSkein, reading: Reading) -> tuple[Mass, str]:
    if reading.tare is not None:
        return reading.tare, "given"
    if skein.tare is not None:
        return skein.tare, "skein"
    return NO_MASS, "none"


def _counts_as_whole(
    skein: HeldSkein, reading: Reading, net: Mass, claimants: Sequence[tuple[int, str]]
) -> bool:
    """Whether this is a full skein on the scale.

    A whole skein set aside for one begun item and far too light has been worked from: asking
    "opened?" then would only cost typing.
    """
    worked_from = reading.item is not None and net < skein.held
    said_opened = reading.opened or reading.recount or worked_from
    if skein.state is not SkeinState.WHOLE or said_opened:
        return False
    if skein.by_metre:
        return False  # its grams tell its length, like an opened one's
    return not (len(claimants) == 1 and net < skein.held and _far_off(skein.held, net))


def _whole(skein: HeldSkein, settled: WeighingOutcome, step: Mass) -> WeighingOutcome:
    if not settled.net:
        raise Refusal("whole_skein_weighs_nothing", skein=skein.number)
    if skein.mass_known and _far_off(skein.held, settled.net):
        raise Refusal(
            "whole_skein_far_off",
            skein=skein.number,
            held=skein.held,
            weighs=settled.net,
            percent=FAR_OFF_PERCENT,
        )
    if skein.mass_known and _agrees(skein.held, settled.net, step):
        return settled
    return _restated(skein, settled)


def _restated(skein: HeldSkein, settled: WeighingOutcome) -> WeighingOutcome:
    """The skein's own pair from now on: this mass for the length it has; no length changes."""
    length = skein.held_length
    own = PutUp(settled.net, length) if length else None
    return WeighingOutcome(
        settled.net,
        settled.tare,
        settled.tare_from,
        Verdict.CORRECTION,
        settled.net - skein.held,
        own_pair=own,
        restates=True,
        opens=settled.opens,
    )


def _refuse_more_than_full(skein: HeldSkein, reading: Reading, net: Mass) -> None:
    """A rise above what a full skein can hold: a bowl or a second ball is likelier than yarn."""
    full = reading.full
    if full is None or reading.recount or not more_than_full(skein, net, full):
        return
    raise Refusal(
        "more_than_full",
        skein=skein.number,
        net=net,
        full=full,
        risen=reading.gross - skein.held,
        closing=reading.closing,
    )


def _opened(
    skein: HeldSkein,
    reading: Reading,
    settled: WeighingOutcome,
    step: Mass,
    claimants: Sequence[tuple[int, str]],
) -> WeighingOutcome:
    change = settled.net - skein.held
    all_used = reading.closing and change.mg < 0
    if not all_used and _agrees(skein.held, settled.net, step):
        return settled
    item = reading.item if change.mg < 0 else None
    if change.mg < 0 and item is None and not reading.recount:
        item = _only(skein.number, claimants)
    verdict = Verdict.USE if item is not None else Verdict.CORRECTION
    return WeighingOutcome(
        settled.net,
        settled.tare,
        settled.tare_from,
        verdict,
        change,
        item,
        opens=settled.opens,
    )


def _only(skein: int, claimants: Sequence[tuple[int, str]]) -> int | None:
    if len(claimants) > 1:
        raise Refusal("several_items_under_way", skein=skein, items=tuple(claimants))
    return claimants[0][0] if claimants else None


def more_than_full(skein: HeldSkein, net: Mass, full: Mass) -> bool:
    """Whether that is more than it holds, and well above what a full one does."""
    return net > skein.held and 100 * (net - full).mg > FAR_OFF_PERCENT * full.mg


def _far_off(held: Mass, net: Mass) -> bool:
    return 100 * abs((net - held).mg) > FAR_OFF_PERCENT * held.mg


def _agrees(held: Mass, net: Mass, step: Mass) -> bool:
    return abs((net - held).mg) <= max(step.mg, held.mg * AGREES_PERCENT // 100)
