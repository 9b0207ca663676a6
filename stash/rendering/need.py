"""The yarn that a design takes of each colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from stash.measures.note import Note
from stash.rendering import figures, first_screen
from stash.rendering.amounts import Page, counted
from stash.rendering.drawing.characters import Look, drawing
from stash.rendering.sentences.designs import LOCAL_RULES
from stash.rendering.sentences.phrases import source_words
from stash.rendering.sentences.requirements import basis, extra_words
from stash.rendering.sentences.say import plain_facts, sentence
from stash.requirements.design import cautions
from stash.requirements.design.picture import LEAST_LINES
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
                "what": sentence(line.what) if isinstance(line.what, Note) else str(line.what),
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


def text(need: Need, page: Page, name: str = "", *, whole: bool = False) -> str:
    """For reading: a line for each colour, what to know of it, and a drawing where rows are known.

    Other sources than the one that counts are named with what they would say. At a terminal the
    drawing takes what room is left and notes that find none are hidden, unless it is to be `whole`;
    `name` is the design's, where `design show` has all.
    """
    lines, details = amount_lines(need, page), list(_details(need))
    cautioned = [f"   {line}" for line in caution_lines(need.notes)]
    if first_screen.is_shown() and not whole:
        shown = _fitting(lines, details, cautioned, name)
        room = _ROOM - first_screen.height(shown) - 2  # a blank line and the legend
        drawn = drawing(need, page.encoding, Look(most_lines=room)) if room >= LEAST_LINES else []
    else:
        shown = [*lines, *details, *cautioned]
        drawn = drawing(need, page.encoding)
    return "\n".join([*shown, *(["", *(f"   {row}" for row in drawn)] if drawn else [])])


#: What a need takes of the first screen; a line that says what was saved stands above it.
_ROOM = first_screen.LINES - 1


def _fitting(
    lines: Sequence[str], details: Sequence[str], cautioned: Sequence[str], name: str
) -> list[str]:
    """As many details as fit, the first ones first; amounts and cautions are never hidden."""
    where = f'`stash design show "{name}"`' if name else "`--as json`"

    def without(hidden: int) -> list[str]:
        more = [f"   {counted(hidden, 'more note')}: {where}"] if hidden else []
        return [*lines, *details[: len(details) - hidden], *cautioned, *more]

    tried = map(without, range(len(details)))
    fits = (every for every in tried if first_screen.height(every) <= _ROOM)
    return next(fits, without(len(details)))


def amount_lines(need: Need, page: Page) -> list[str]:
    """What each colour takes, a line each."""
    return [_role_line(need, role, page) for role in need.roles]


def _role_line(need: Need, role: RoleNeed, page: Page) -> str:
    about = _about(role.estimate.expected_m, role.estimate.spread_m)
    aside = f"set aside {figures.up(figures.of_metres(role.set_aside_m))}"
    if role.set_aside_g is not None:
        aside += f" = {figures.up(figures.of_grams(role.set_aside_g))}"
    if role.strands > 1:
        each = figures.near(figures.of_metres(role.set_aside_m / role.strands))
        aside += f" ({role.strands} strands, about {each} each)"
    source = source_words(role.source, need.thickness_from, need.thickness_to)
    return f"{page.strong(role.role)} {about}, {page.strong(aside)}, {source}"


def _about(expected_m: float, spread_m: float) -> str:
    spread = figures.near(figures.of_metres(spread_m))
    return f"about {figures.near(figures.of_metres(expected_m))} (± {spread.number})"


def _details(need: Need) -> Iterator[str]:
    """The margin, what extras take, what other sources would say, and what is to be known."""
    yield from (f"   {line}" for line in detail_lines(need))


def detail_lines(need: Need) -> list[str]:
    """The same without the cautions, as sentences."""
    notes = (sentence(note) for note in need.notes if note not in cautions.ALL)
    return [_margin(need), *_figures(need), *notes]


def _figures(need: Need) -> Iterator[str]:
    for role in need.roles:
        for figure in role.others:
            about = _about(figure.estimate.expected_m, figure.estimate.spread_m)
            source = source_words(figure.source, need.thickness_from, need.thickness_to)
            yield f"{role.role} would be {about}, {source}."
    for line in need.extras:
        takes = figures.near(figures.of_metres(line.expected_m))
        yield f"{line.role} includes {takes} for {extra_words(line)} ({basis(line)})."


def _margin(need: Need) -> str:
    """What is set aside over what is expected, once for all colours."""
    least, most = (f"{of(role.margin for role in need.roles):.0%}" for of in (min, max))
    extra = least if least == most else f"{least} to {most}"
    return f"Set aside is about {extra} more than the estimate."


def caution_lines(notes: Sequence[Note]) -> list[str]:
    """The cautions in words, and once that rules are local."""
    said = [sentence(note) for note in notes if note in cautions.ALL]
    if said and not any(words.endswith(LOCAL_RULES) for words in said):
        said[-1] += f" {LOCAL_RULES}"
    return said
