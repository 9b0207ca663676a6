"""What a weighing came to, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.measures.mass import NO_MASS
from stash.rendering import amounts, figures
from stash.rendering.amounts import Page, grams
from stash.stock.weighing import Verdict, WeighingOutcome

if TYPE_CHECKING:
    from stash.actions.weigh import Meaning, Weighing
    from stash.actions.weigh_metre import Measured

#: A length of 100 g this far from what was known before is worth a second look (our choice).
FAR_OFF = 0.15


def text(found: Weighing, page: Page) -> str:
    """What the scale showed, what that means, and what is left of the skein."""
    head, after = page.strong(f"Skein {found.after.number}"), found.after
    said = [f"{_on_scale(found.outcome)}, {_meaning(found)}"]
    if not after.held:
        said.append("nothing left")
    elif after.held_length is not None and not found.outcome.restates:
        said.append(f"{amounts.yarn(after.held_length)} left")
    return f"{head}: {'; '.join(said)}  (entry {found.entry})"


def _on_scale(outcome: WeighingOutcome) -> str:
    """The reading as it was, and what is left of it without its tare."""
    if not outcome.tare:
        return f"{grams(outcome.net)} on the scale"
    reading, tare = figures.near(outcome.net + outcome.tare), figures.near(outcome.tare)
    return f"{reading} on the scale less {tare} tare is {reading - tare}"


def before_saving(found: Meaning) -> str:
    """What a reading would change, for who has not saved it yet: `17.5 g less: 163 m left`."""
    outcome, after = found.outcome, found.after
    if outcome.verdict is Verdict.IN_AGREEMENT:
        head = "as expected"
    elif outcome.change:
        more = outcome.change > NO_MASS
        by = figures.near(outcome.change if more else -outcome.change)
        head = f"{by} {'more' if more else 'less'}"
    else:
        head = f"{grams(outcome.net)}, weighed for the first time"
    if not after.held:
        return f"{head}: nothing left"
    if after.held_length is None:
        return f"{head}: its length is not known"
    length = amounts.yarn(after.held_length)
    if not outcome.restates:
        return f"{head}: {length} left"
    return f"{head}: a full skein may weigh that; its length stays {length}"


def _meaning(found: Weighing) -> str:
    outcome = found.outcome
    if outcome.verdict is Verdict.IN_AGREEMENT:
        noted = grams(found.before.held)
        return "just as noted" if noted == grams(outcome.net) else f"close enough to {noted} noted"
    if outcome.verdict is Verdict.USE:
        return f"so {grams(-outcome.change)} went into item {found.item}"
    if outcome.restates:
        length = found.after.held_length
        stays = f"its length stays {amounts.yarn(length)}" if length else "its length is not known"
        return f"kept as its own full weight; {stays}"
    if outcome.change > NO_MASS:
        return f"{grams(outcome.change)} more than noted: corrected"
    return f"{grams(-outcome.change)} less than noted: corrected, not counted as used"


def metre_text(found: Measured, page: Page) -> str:
    """A skein by its own weighed length."""
    after, length = found.after, amounts.yarn(found.after.held_length)
    weight = grams(after.held) if after.mass_known else "not weighed yet"
    return (
        f"{page.strong(f'Skein {after.number}')}: {_per_100g(found.pair.m_per_100g)} by your own "
        f"weighing; it holds {length}, {weight}  (entry {found.entry})"
    )


def second_look(found: Measured) -> str:
    """What to say where a weighed length is far off what was known; else nothing."""
    if not found.was or abs(found.was / found.pair.m_per_100g - 1) <= FAR_OFF:
        return ""
    return f"note: until now it counted as {_per_100g(found.was)}; measure once more to be sure"


def _per_100g(m_per_100g: float) -> str:
    return f"{figures.near(figures.of_metres(m_per_100g))} per 100 g"
