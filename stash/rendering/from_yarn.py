"""What a skein or a lot can become, as keys, rows and text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering import amounts, figures, first_screen, reach
from stash.rendering.columns import columns
from stash.rendering.designs import NO_DESIGN
from stash.rendering.match import lot_words
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from stash.actions.ideas import FromYarn

Keys = dict[str, Any]


def keys(found: FromYarn) -> Keys:
    """A skein or a lot with what it makes of each design; `skein` is None for a whole lot."""
    return {
        "skein": found.skein and found.skein.number,
        "lot_ref": found.lot.ref,
        "free_m": found.free.m,
        "designs": [reach.use_keys(use.reach, use.role, use.steps) for use in found.uses],
    }


def rows(found: FromYarn) -> list[Keys]:
    """One row for each use."""
    lists = ("size", "sizes", "bands", "lacks")
    return [{k: v for k, v in use.items() if k not in lists} for use in keys(found)["designs"]]


def _once_joined(found: FromYarn) -> str:
    """What its skeins make as one length, where the joins take a step of what is shown."""
    if not found.uses:
        return ""
    whole = figures.down(figures.of_metres(found.uses[0].reach.roles[0].have_m))
    return f", {whole} once joined" if whole < figures.down(found.free) else ""


def text(found: FromYarn, *, everything: bool) -> str:
    """The yarn, a line for each use, and how to take it; at a terminal the likeliest uses."""
    what = "The whole lot" if found.skein is None else f"Skein {found.skein.number}"
    head = strong(f"{what}: {figures.down(found.free)} free{_once_joined(found)}")
    lines = [f"{head}, {patch(found.lot)}{lot_words(found.lot)}"]
    if not found.uses:
        return f"{lines[0]}\n{NO_DESIGN}"
    uses = columns([reach.use_row(use.reach, use.role, use.steps) for use in found.uses], "  ")
    shown = uses.split("\n")
    if first_screen.is_shown() and not everything:
        while len(shown) > 1 and first_screen.height([*lines, *shown]) > first_screen.LINES - 2:
            shown.pop()
    lines += shown
    likeliest = found.uses[0]
    if likeliest.enough and not likeliest.steps:
        yarn = found.lot.ref if found.skein is None else found.skein.number
        name = likeliest.reach.known.design.name
        lines.append(f'To make one: `stash match "{name}" --with {likeliest.role}={yarn}`')
    if hidden := len(found.uses) - len(shown):
        lines.append(f"{amounts.counted(hidden, 'more use')}: add --all")
    return "\n".join(lines)
