"""What is left of many lots gathered into few: items change lots until something more fits.

A lot is filled by changing one of its parts for a longer one out of a lot with more left over. The
sum of the squares of what is left rises with each change, so it comes to an end.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from stash.planning.optimiser.draft_plan import DraftPlan
from stash.planning.optimiser.plan import sets_lacking

#: How many lengths, and parts of each, are weighed for a place in a lot; how many are tried.
LENGTHS, OF_A_LENGTH, TRIED = 24, 3, 12
#: Less than this left over is as good as nothing.
LITTLE_UM = 300_000

Slot = tuple[int, int]


def consolidate(bench: DraftPlan, lots: list[int]) -> int:
    """Go once through these lots, the fullest first; how many changes were made."""
    groups = _Groups(bench, lots)
    done = 0
    for lot in sorted(lots, key=lambda lot: (bench.room[lot], lot)):
        while bench.room[lot] > LITTLE_UM and _filled(bench, groups, lot):
            done += 1
    return done


class _Groups:
    """The parts in these lots by length, apart for parts that may not come from the same lots.

    Of parts of one length those stand first that lie where most is left over.
    """

    def __init__(self, bench: DraftPlan, lots: list[int]) -> None:
        self.bench = bench
        self._key: dict[int, int] = {}
        known: dict[tuple[int, ...], int] = {}
        for want in bench.problem.wants:
            for part in want.parts:
                self._key[id(part)] = known.setdefault(tuple(part.places), len(known))
        self._slots: dict[int, dict[int, list[Slot]]] = {}
        for lot in sorted(lots, key=lambda lot: (-bench.room[lot], lot)):
            for slot in bench.at(lot):
                part = bench.part(slot)
                lengths = self._slots.setdefault(self._key[id(part)], {})
                lengths.setdefault(part.um, []).append(slot)
        self._lengths = {key: sorted(lengths) for key, lengths in self._slots.items()}

    def longer(self, slot: Slot, room: int) -> Iterator[tuple[int, Slot]]:
        """Parts that are longer than this one by at most so much, the longest first."""
        part = self.bench.part(slot)
        key = self._key[id(part)]
        lengths = self._lengths[key]
        start = bisect_right(lengths, part.um + LITTLE_UM // 2)
        end = bisect_right(lengths, part.um + room)
        for um in reversed(lengths[max(start, end - LENGTHS) : end]):
            for other in self._slots[key][um][:OF_A_LENGTH]:
                yield um, other


def _filled(bench: DraftPlan, groups: _Groups, lot: int) -> bool:
    """Change the part of this lot that fills it best for a longer one out of another lot."""
    room = bench.room[lot]
    choices = []
    for slot in bench.at(lot):
        um = bench.part(slot).um
        for longer, other in groups.longer(slot, room):
            source = bench.items[other[0]].lots[other[1]]
            if source != lot and bench.room[source] + (longer - um) > room:
                more = longer - um
                choices.append((more * (room - bench.room[source] - more), slot, other))
    return any(_changed(bench, slot, other) for _, slot, other in sorted(choices)[:TRIED])


def _changed(bench: DraftPlan, slot: Slot, other: Slot) -> bool:
    """Let two parts change lots, where all that they stand beside allows it."""
    one, two = bench.items[slot[0]], bench.items[other[0]]
    lot, source = one.lots[slot[1]], two.lots[other[1]]
    if one is two or not (_may(bench, slot, source) and _may(bench, other, lot)):
        return False
    if not bench.gives(lot, [(*other, bench.part(other))], [slot]):
        return False
    if not bench.gives(source, [(*slot, bench.part(slot))], [other]):
        return False
    before = _lacking(bench)
    bench.move(slot, source)
    bench.move(other, lot)
    if before < _lacking(bench):
        bench.move(other, source)
        bench.move(slot, lot)
        return False
    return True


def _lacking(bench: DraftPlan) -> int:
    """How many different sets of yarns the plan lacks."""
    varieties = bench.problem.varieties
    columns = bench.columns if varieties else []
    return sum(sets_lacking(variety, columns) for variety in varieties)


def _may(bench: DraftPlan, slot: Slot, lot: int) -> bool:
    """Whether a part may come from that lot, beside the other lots of its item."""
    number, at = slot
    item = bench.items[number]
    want = bench.problem.wants[item.want]
    if lot not in want.parts[at].places:
        return False
    row = want.beside.row(lot)
    if not all(row >> other & 1 for i, other in enumerate(item.lots) if i != at):
        return False
    lots = [*item.lots]
    lots[at] = lot
    after = item.column._replace(lots=tuple(lots))
    limit = bench.problem.per_pair
    if limit is not None and bench.pairs.get(after.pair, 0) >= limit:
        return False
    mixes = [mix for mix in bench.problem.mixes if mix.lots is not None]
    return all(mix.holds(after) == mix.holds(item.column) for mix in mixes)
