"""The yarn that a design takes of each colour."""

from __future__ import annotations

from typing import Any

from stash.rendering import amounts
from stash.rendering.amounts import Page, grams_up
from stash.rendering.columns import columns
from stash.rendering.drawing import drawing
from stash.rendering.sentences.requirements import basis, extra_words
from stash.rendering.sentences.say import plain_facts, sentence
from stash.requirements.yarn.need import Need, RoleNeed


def keys(need: Need) -> dict[str, Any]:
    """A need with stable keys, role by role."""
    return {
        "roles": {role.role: _role_keys(role) for role in need.roles},
        "source": need.source.value,
        "margin": need.margin,
        "notes": list(map(sentence, need.notes)),
        "note_facts": list(map(plain_facts, need.notes)),
        "lines": [
            {
                "what": extra_words(line),
                "role": line.role,
                "expected_m": line.expected_m,
                "source": basis(line),
            }
            for line in need.extras
        ],
    }


def _role_keys(role: RoleNeed) -> dict[str, Any]:
    return {
        "expected_m": role.estimate.expected_m,
        "spread_m": role.estimate.spread_m,
        "set_aside_m": role.set_aside_m,
        "expected_g": role.expected_g,
        "set_aside_g": role.set_aside_g,
        "strands": role.strands,
        "source": role.source.value,
        "margin": role.margin,
        "others": [
            {
                "source": figure.source.value,
                "expected_m": figure.estimate.expected_m,
                "spread_m": figure.estimate.spread_m,
            }
            for figure in role.others
        ],
    }


def rows(need: Need) -> list[dict[str, Any]]:
    """One row for each role."""
    return [
        {"role": role.role, **{k: v for k, v in _role_keys(role).items() if k != "others"}}
        for role in need.roles
    ]


def text(need: Need, page: Page) -> str:
    """For reading: a line for each colour, what to know of it, and a drawing where rows are known.

    Other sources than the one that counts are named with what they would say.
    """
    lines = [columns([_role_row(role, page) for role in need.roles])]
    for role in need.roles:
        lines += [
            f"   {role.role} by {figure.source}: {amounts.estimate(figure.estimate.expected_m)}"
            f" ± {amounts.estimate(figure.estimate.spread_m)}"
            for figure in role.others
        ]
    lines += [
        f"   of it {line.role} for {extra_words(line)}: "
        f"{amounts.estimate(line.expected_m)} ({basis(line)})"
        for line in need.extras
    ]
    lines += [f"   {sentence(note)}" for note in need.notes]
    drawn = drawing(need, page.encoding)
    return "\n".join([*lines, *(["", *(f"   {row}" for row in drawn)] if drawn else [])])


def _role_row(role: RoleNeed, page: Page) -> list[str]:
    weight = "" if role.set_aside_g is None else f", {grams_up(role.set_aside_g)}"
    each = amounts.set_aside(role.set_aside_m / role.strands)
    strands = f" ({role.strands} strands of {each})" if role.strands > 1 else ""
    return [
        page.strong(role.role),
        f"{amounts.estimate(role.estimate.expected_m)} expected",
        f"± {amounts.estimate(role.estimate.spread_m)}",
        page.strong(f"set aside {amounts.set_aside(role.set_aside_m)}{weight}{strands}"),
        f"margin {role.margin:.0%}",
        f"by {role.source}",
    ]
