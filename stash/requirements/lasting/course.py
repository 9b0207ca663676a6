"""How a ball runs down: what was weighed, and what is likely of the rows to come."""

from __future__ import annotations

import math
from dataclasses import dataclass

from stash.requirements.lasting.lasting import SURE_SPREADS, Left, Weighings

#: So many points of what is to come are enough for a curve.
_POINTS = 40


@dataclass(frozen=True, slots=True)
class Course:
    """How a ball runs down: (row, grams) as it was weighed, and (row, grams, spread) from the last
    weighing to the last row that is to be made."""

    weighed: tuple[tuple[float, float], ...]
    ahead: tuple[tuple[float, float, float], ...]

    @property
    def likely(self) -> list[tuple[float, float]]:
        """The rows to come with what is then left, to the last one at which something is."""
        return [(row, left) for row, left, _ in self.ahead if left >= 0]

    @property
    def band(self) -> list[tuple[float, float, float]]:
        """Between what it lies nine times in ten; where its lower edge meets what is kept back at
        the last row, the answer turns from *yes*."""
        room = [(row, left, SURE_SPREADS * spread) for row, left, spread in self.ahead]
        return [(row, max(0.0, left - r), left + r) for row, left, r in room if left + r >= 0]


def course(weighings: Weighings, left: Left) -> Course:
    """What was weighed, and what is likely of every row to come, or of every second or third."""
    step = max(1, math.ceil(left.rows / _POINTS))
    rows = [*range(0, math.ceil(left.rows), step), left.rows]
    done, ahead = weighings.done, []
    for row in rows:
        taken, spread = weighings.need(weighings.ahead(row))
        both = math.hypot(spread, left.have_spread_g)
        ahead.append((done + row, weighings.have_g - taken, both))
    return Course(tuple((one.rows, one.net_g) for one in weighings.readings), tuple(ahead))
