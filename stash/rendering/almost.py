"""A near miss as the page shows it: what is lacking, and each fix in a few words for a button."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.measures.note import Note
from stash.rendering.amounts import counted
from stash.rendering.figures import down, up
from stash.rendering.sentences.blockers import aside_for_others
from stash.rendering.sentences.fixes import first_fixes, pressed
from stash.rendering.sentences.say import sentence


@dataclass(frozen=True, slots=True)
class Lacking:
    """One thing that keeps a set from fitting: in few words, then with its figures.

    `tight` where only the margin is short.
    """

    words: str
    figures: str = ""
    tight: bool = False


def lacking(miss: NearMiss) -> list[Lacking]:
    """All that keeps a set from fitting, each by itself."""
    return [_lacking(blocker) for blocker in miss.blockers]


def _lacking(blocker: Note) -> Lacking:
    if blocker.kind != "lot_short":
        return Lacking(sentence(blocker))
    facts = blocker.facts
    has, needs = down(facts["has"]), up(facts["needs"])
    missing, role = needs - has, facts["role"]
    rows = facts.get("short_rows")
    of_need = f"{has.number} of {needs}"
    few = f", {counted(rows, 'row')} too few" if rows else ""
    more = aside_for_others(facts.get("promised"))
    if facts.get("expected") is not None:
        enough = f"{of_need}, enough for what is expected; {missing} short of the margin"
        return Lacking(f"{role} is tight", f"{enough}{more}", tight=True)
    return Lacking(f"{role} lacks {missing}", f"{of_need}{few}{more}")


@dataclass(frozen=True, slots=True)
class FixShown:
    """A fix for a button: what is done, then its figures. `steps`: all that it takes to do it.

    Each step has the colour it is of, where it is of one, and the ways to do it, one of which is
    enough.
    """

    fix: Fix
    head: str
    under: str = ""
    steps: tuple[tuple[str, tuple[FixShown, ...]], ...] = ()


def fixes_shown(miss: NearMiss) -> list[FixShown]:
    """The first few fixes of a near miss; of several in one, each by itself."""
    flat = [one for fix in miss.fixes for one in _ways(fix)]
    return [_shown(fix) for fix in first_fixes(flat)]


def _ways(fix: Fix) -> Sequence[Fix]:
    return fix.facts["fixes"] if fix.kind == "one_of" else (fix,)


def _shown(fix: Fix) -> FixShown:
    steps = tuple(
        (role, tuple(_shown(way) for way in first_fixes(_ways(step)))) for role, step in _steps(fix)
    )
    head, under = pressed(fix)
    return FixShown(fix, head, under, steps)


def _steps(fix: Fix, role: str = "") -> Iterator[tuple[str, Fix]]:
    """The single fixes of one that takes several, each with its colour; nothing of any other."""
    if fix.kind not in ("all_of", "for_role"):
        return
    own = fix.facts.get("role", role)
    for one in fix.facts["fixes"]:
        inner = [*_steps(one, own)]
        yield from inner or [(own, one)]


def short_name(fix: Fix) -> str:
    """A fix as a part of a name: `band 2.3 cm`."""
    head = _shown(fix).head
    return head[:1].lower() + head[1:]
