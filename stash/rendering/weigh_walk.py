"""What is asked at the scale, ball by ball, and what came of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stash.rendering import weigh
from stash.rendering.amounts import Page, colour_name, counted, grams

if TYPE_CHECKING:
    from stash.actions.weigh import Weighing
    from stash.actions.weigh_walk import WorkedFrom

HOW = "Type the weight, then the row. Enter: next; q: save; Ctrl-C: save nothing."
READING = "  weight > "
ROW = "  row > "
NO_BALLS = "no ball of a begun item to weigh; `stash items --open` shows what is under way"
NOTHING_GIVEN = "no weight was given, so nothing was saved"


def ball_on_scale(ball: WorkedFrom, place: tuple[int, int], page: Page) -> str:
    """The ball to put on the scale, and what it should hold: `2 of 3  skein 8, oatmeal …`."""
    at, of = place
    role = f"{ball.role} of " if ball.role else ""
    head = page.strong(f"skein {ball.skein.number}")
    where = f", {ball.skein.place}" if ball.skein.place else ""
    return (
        f"{at} of {of}  {head} ({colour_name(ball.lot)}{where}), {role}item {ball.item}: "
        f"{grams(ball.skein.held)} so far"
    )


def weighed_all(found: Sequence[Weighing], page: Page) -> str:
    """What each reading came to, and how many were written."""
    lines = [weigh.text(one, page) for one in found]
    if len(found) > 1:
        lines.append(f"{counted(len(found), 'ball')} weighed in entry {found[0].entry}")
    return "\n".join(lines)
