"""Finishing an item: each ball or the item weighed, and what that does before it is done."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions import clock
from stash.actions.cautions import cautions_of
from stash.actions.done import Known, done, try_done
from stash.actions.lasts import LastsAsked, will_last
from stash.errors import StashError
from stash.parsing import days, work
from stash.parsing.design.design import meant_for
from stash.rendering import done as done_words
from stash.rendering import figures, several
from stash.web.pages import lines_said, said
from stash.web.screens.scale import mass_read
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.done import Finishing
    from stash.actions.under_way import UnderWay
    from stash.measures.mass import Mass

#: A field for what is left of a ball bears its number after this.
_LEFT = "left-"


def finishing(visit: Visit, one: UnderWay) -> Mapping[str, Any]:
    """What is expected to be left of each ball, and what finishing would do as it is typed."""
    item = str(one.line.item.number)
    expected = visit.workshop.kept(("expected left", item), lambda: _expected(visit, one))
    names = (*visit.query, *(visit.notice.typed if visit.notice else ()))
    typed = {name: visit.field("/done", name, visit.query.get(name, "")) for name in names}
    found = _tried(visit, item, typed)
    wrong = isinstance(found, StashError)
    whom = typed.get("whom") or "adult"
    return {
        "left": {
            number: f"about {figures.near(held) - figures.up(takes)}"
            for number, (held, takes) in expected.items()
        },
        "typed": typed,
        "whom": whom,
        "wrong": wrong,
        "words": [said(found)] if isinstance(found, StashError) else _does(found),
        "cautions": [] if isinstance(found, StashError) else _cautions(found, whom),
    }


def _does(found: Finishing) -> list[str]:
    return [said(words) for words in done_words.what_it_does(found.finished)]


def _cautions(found: Finishing, whom: str) -> list[str]:
    done = found.finished
    return [*map(said, cautions_of(done.plan, done.lots, meant_for(whom)))]


def _tried(visit: Visit, item: str, typed: Mapping[str, str]) -> Finishing | StashError:
    """What it would come to, or what stands in its way."""
    try:
        return try_done(visit.book, item, _known(visit, typed))
    except StashError as why:
        return why


def _expected(visit: Visit, one: UnderWay) -> Mapping[int, tuple[Mass, Mass]]:
    """What each ball holds and will still give: by her weighings at known rows, else by the plan.

    The difference of the two is made of them as they are shown.
    """
    item = str(one.line.item.number)
    held = {skein.number: skein.held for used in one.colours for skein in used.skeins}
    takes: dict[int, Mass] = {}
    with suppress(StashError):
        left = try_done(visit.book, item, Known(as_planned=True)).left
        takes = {number: held[number] - mass for number, mass in left.items()}
    with suppress(StashError):
        lasting = will_last(visit.book, LastsAsked(item)).roles
        for used in one.colours:
            balls = [skein.number for skein in used.skeins if skein.held]
            if used.role in lasting and len(balls) == 1:
                found = lasting[used.role]
                takes[balls[0]] = figures.of_grams(found.need_g - found.keep_g)
    return {number: (held[number], mass) for number, mass in takes.items()}


def _known(visit: Visit, typed: Mapping[str, str]) -> Known:
    """How the yarn is known, as it was typed; nothing typed is as planned."""
    unit = visit.settings.weight or "g"
    left = {
        name.removeprefix(_LEFT): mass_read(text.strip(), unit)
        for name, text in typed.items()
        if name.startswith(_LEFT) and text.strip()
    }
    weighed = typed.get("weighed", "").strip()
    return Known(
        left=left,
        total=mass_read(weighed, unit) if weighed else None,
        as_planned=not (left or weighed),
    )


def finish_item(visit: Visit) -> Done:
    """It is done: its balls or itself weighed, or as planned."""
    typed = visit.typed
    item, hours, on = (typed.get(name, "").strip() for name in ("item", "hours", "on"))
    finished = done(
        visit.book,
        {item: _known(visit, typed)},
        minutes=work.minutes(hours) if hours else None,
        on=days.day(on, clock.today()) if on else None,
    )
    wearer = meant_for(typed.get("whom", ""))
    cautions = cautions_of(finished[0].plan, finished[0].lots, wearer)
    words = lines_said(several.items_done(finished, cautions, visit.shown_on))
    to = f"/item/{finished[0].item.number}"
    return Done(to, (*words, *map(said, finished[0].notes)))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/done": finish_item}
