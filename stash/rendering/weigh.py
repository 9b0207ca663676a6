"""What a weighing came to, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page, grams

if TYPE_CHECKING:
    from stash.actions.weigh import Weighing
    from stash.actions.weigh_metre import Measured

#: A pair this far from what was known before is worth a second look (our choice).
FAR_OFF = 0.15


def text(found: Weighing, page: Page) -> str:
    """What was booked, and what the skein holds now."""
    outcome, after = found.outcome, found.after
    if outcome.verdict == "in agreement":
        booked = f"in agreement with the books at {grams(found.before.held)}"
    elif outcome.verdict == "use":
        booked = f"use of {grams(-outcome.change)} booked for item {found.item}"
    elif outcome.restates:
        booked = "correction: its own full weight from now on, the length stays"
    else:
        booked = f"correction of {outcome.change.g:+.1f} g booked"
    now = amounts.amount(after.held_length, after.held)
    return f"{page.strong(f'Skein {after.number}')}: {booked}; holds {now}  (entry {found.entry})"


def metre_text(found: Measured, page: Page) -> str:
    """A skein by its own weighed length."""
    after, length = found.after, amounts.yarn(found.after.held_length)
    weight = grams(after.held) if after.mass_known else "not weighed yet"
    return (
        f"{page.strong(f'Skein {after.number}')}: {found.pair.m_per_100g:.0f} m to 100 g by your "
        f"own weighing; holds {length}, {weight}  (entry {found.entry})"
    )


def second_look(found: Measured) -> str:
    """What to say where a weighed length is far off what was known; else nothing."""
    if not found.was or abs(found.was / found.pair.m_per_100g - 1) <= FAR_OFF:
        return ""
    return f"note: it was reckoned with {found.was:.0f} m to 100 g so far; look at both again"
