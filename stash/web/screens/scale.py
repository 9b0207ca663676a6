"""At the scale: a skein's number, what the scale shows, and what that means before it is saved."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode, urlsplit

from starlette.responses import RedirectResponse, Response

from stash.actions.under_way import under_way
from stash.actions.weigh import ScaleReading, meaning, on_scale, weigh
from stash.errors import BadInput, StashError
from stash.parsing import quantities
from stash.rendering import figures
from stash.rendering import weigh as weigh_words
from stash.rendering.amounts import colour_name
from stash.rendering.drawing.swatch import Left, Shown
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.pages import lines_said, said
from stash.web.screens.lasts import outlook
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.under_way import UnderWay
    from stash.actions.weigh import Meaning, OnScale
    from stash.measures.mass import Mass

#: A row is a number that she types with a weighing; more is a slip of the finger.
_MOST_ROWS = 100_000
#: The skein on the scale, in pixels.
_SKEIN = (168, 88)
#: What a choice is sent as; before the number of an item, and on its own.
_FOR, _OPENED, _RECOUNT = "item ", "opened", "recount"
#: What is said where only she can tell what a reading means; the choices stand below it.
_ASKED = {
    "whole_skein_far_off": "A whole skein should weigh {held}. What is it?",
    "several_items_under_way": "It is set aside for several items. Which one was it used for?",
    "more_than_full": "That is more than a full skein holds. A bowl on the scale with it?",
}


def scale(visit: Visit) -> Response:
    """A skein on the scale, or the field for its number and the balls of what is under way."""
    going = visit.workshop.kept("under way", lambda: under_way(visit.book))
    typed = visit.query.get("skein", "").strip()
    found: OnScale | StashError | None = None
    if typed:
        found = visit.workshop.kept(("on scale", typed), lambda: _found(visit, typed))
    if found is None or isinstance(found, StashError):
        return visit.page("scale.html", lambda: _which(going, typed, found))
    here = found
    return visit.page("weigh.html", lambda: _weighing(visit, here, going))


def _found(visit: Visit, typed: str) -> OnScale | StashError:
    try:
        return on_scale(visit.book, typed)
    except StashError as why:
        return why


def _which(going: tuple[UnderWay, ...], typed: str, wrong: StashError | None) -> Mapping[str, Any]:
    drawings = Drawings()
    balls = [*_balls(going, drawings)]
    return {
        "drawings": drawings,
        "balls": balls,
        "typed": typed,
        "wrong": said(wrong) if wrong else "",
    }


def _balls(going: tuple[UnderWay, ...], drawings: Drawings) -> Iterator[Mapping[str, Any]]:
    """The balls of what is under way, each by its item."""
    for one in going:
        lots = dict(reversed(one.line.colours))
        for used in one.colours:
            lot = lots.get(used.role)
            for skein in used.skeins:
                if skein.held and lot:
                    yield {
                        "number": skein.number,
                        "chip": drawings.chip(lot),
                        "colour": colour_name(lot),
                        "item": one.line.item,
                    }


def _weighing(visit: Visit, found: OnScale, going: tuple[UnderWay, ...]) -> Mapping[str, Any]:
    drawings, skein = Drawings(), found.skein
    typed = {
        name: visit.field("/weigh", name, visit.query.get(name, "")).strip()
        for name in ("reading", "unit", "as", "row")
    }
    typed["unit"] = typed["unit"] or visit.settings.weight or "g"
    if not typed["as"] and visit.query.get("item"):
        typed["as"] = f"{_FOR}{visit.query['item']}"
    left = Left(skein.state.value) if skein.held else Left.REMNANT
    label = str(skein.number) if left is Left.WHOLE else ""
    at_work = _at_work(found, typed["as"], going)
    return {
        "drawings": drawings,
        "skein": skein,
        "swatch": drawings.swatch(found.lot, left, Shown(*_SKEIN, label=label)),
        "colour": colour_name(found.lot),
        "items": found.items,
        "on_record": _last(found),
        "typed": typed,
        "meaning": _meaning(visit, found, typed),
        "at_work": at_work,
        "outlook": outlook(visit, at_work, drawings, skein.number) if at_work else None,
        "saved": visit.notice is not None and visit.notice.kind == "done",
        "balls": [] if at_work else [*_balls(going, drawings)],
    }


def _last(found: OnScale) -> tuple[str, str]:
    """What the skein weighed when it was last on the scale, or what the record says."""
    if found.last is not None:
        net, day = found.last
        return f"last {figures.near(net)}", day_words(day)
    if found.skein.mass_known:
        return str(figures.near(found.skein.held)), "by the record"
    return "", "not weighed yet"


def _at_work(found: OnScale, way: str, going: tuple[UnderWay, ...]) -> UnderWay | None:
    """The begun item that the skein is worked into."""
    of = [one for one in going if one.line.item.state.value == "begun"]
    chosen = [one for one in of if f"{_FOR}{one.line.item.number}" == way]
    ours = {item.number for item in found.items}
    return next(
        (one for one in (*chosen, *of) if one in chosen or one.line.item.number in ours), None
    )


def _meaning(visit: Visit, found: OnScale, typed: Mapping[str, str]) -> Mapping[str, Any]:
    """What the reading would be booked as, with each other way that it could be."""
    candidates = ["", *(f"{_FOR}{item.number}" for item in found.items)]
    candidates += [_RECOUNT] if found.skein.opened else [_OPENED, _RECOUNT]
    if typed["as"].startswith(_FOR) and typed["as"] not in candidates:
        candidates.insert(1, typed["as"])
    if not typed["reading"]:
        ways = [(way, _usual_words(way)) for way in candidates if way or not found.skein.opened]
        checked = typed["as"] or ways[0][0]
        return {"words": "", "ways": ways, "checked": checked, "save": "Save", "wrong": False}
    try:
        gross = mass_read(typed["reading"], typed["unit"])
    except StashError as why:
        return {"words": said(why), "ways": [], "checked": "", "save": "Save", "wrong": True}
    save = f"Save {figures.near(gross)}"
    meant = [(way, _meant(visit, found, {**typed, "as": way})) for way in candidates]
    ways = [*_ways(meant)]
    checked = typed["as"] if typed["as"] in [way for way, _ in ways] else ""
    first = meant[0][1]
    if not checked and not isinstance(first, StashError):
        checked = ways[0][0]
    shown = dict(meant).get(checked, first) if checked else first
    if isinstance(shown, StashError):
        words, wrong = _asked(shown), shown.kind not in _ASKED
    else:
        words, wrong = weigh_words.before_saving(shown), False
    return {
        "words": words,
        "ways": ways,
        "checked": checked,
        "save": save,
        "wrong": wrong,
    }


def _asked(why: StashError) -> str:
    """What only she can tell as a question, any other mistake as it is."""
    words = _ASKED.get(why.kind)
    if words is None:
        return said(why)
    return words.format(held=figures.near(why.facts["held"])) if "held" in why.facts else words


def _usual_words(way: str) -> str:
    """A choice before anything was read off the scale."""
    if way.startswith(_FOR):
        return f"used for {way}"
    return {"": "still whole", _OPENED: "just opened", _RECOUNT: "correct the record"}[way]


def _meant(visit: Visit, found: OnScale, typed: Mapping[str, str]) -> Meaning | StashError:
    try:
        return meaning(visit.book, str(found.skein.number), _reading(typed))
    except StashError as why:
        return why


def _ways(meant: list[tuple[str, Meaning | StashError]]) -> Iterator[tuple[str, str]]:
    """Each way that would come to something else, as what it is sent as and what it says; where
    the reading alone does not say, every way that answers what is asked."""
    seen, asked = set(), isinstance(meant[0][1], StashError)
    for way, one in meant:
        if isinstance(one, StashError):
            continue
        outcome = one.outcome
        item = one.item.number if one.item else None
        opens = one.after.opened and not one.before.opened
        kind = (outcome.verdict, item, outcome.restates, opens)
        if kind in seen and not asked:
            continue
        seen.add(kind)
        if item is not None:
            yield (
                (way or f"{_FOR}{item}"),
                f"used for item {item}" + (", just opened" if way == _OPENED else ""),
            )
        elif way == _OPENED:
            yield way, "just opened"
        elif outcome.verdict.value == "in agreement":
            yield way, "as expected"
        elif outcome.restates:
            yield way, "still whole"
        else:
            yield (way or _RECOUNT), "correct the record"


def mass_read(text: str, unit: str) -> Mass:
    """What a scale shows; a figure alone is of the unit that is chosen."""
    bare = not any(sign.isalpha() for sign in text)
    return quantities.mass(f"{text} {unit}" if bare and unit in ("g", "oz") else text)


def _reading(typed: Mapping[str, str]) -> ScaleReading:
    """The reading with what was said of it."""
    way = typed.get("as", "")
    if not typed.get("reading"):
        raise BadInput("no_reading")
    return ScaleReading(
        mass_read(typed["reading"], typed.get("unit", "")),
        way.removeprefix(_FOR) if way.startswith(_FOR) else None,
        opened=way == _OPENED,
        recount=way == _RECOUNT,
        row=_row(typed.get("row", "")),
    )


def weigh_skein(visit: Visit) -> Done:
    """One reading, booked as what it is: use, a correction, or just as noted."""
    typed = {name: text.strip() for name, text in visit.typed.items()}
    found = weigh(visit.book, typed.get("skein", ""), _reading(typed))
    words = lines_said(weigh_words.text(found, visit.shown_on))
    back = visit.back()
    if urlsplit(back).path == "/scale":
        of = {"item": found.item.number} if found.item else {}
        back = f"/scale?{urlencode({'skein': found.after.number, **of})}"
    return Done(back, (*words, *map(said, found.shorts)))


def _row(text: str) -> int | None:
    if not text:
        return None
    if not text.isdecimal() or int(text) > _MOST_ROWS:
        raise BadInput("no_whole_number", option="row", value=text, most=_MOST_ROWS)
    return int(text)


def start_from(visit: Visit) -> Response:
    """From a skein's number, or words for it, to what it could become."""
    found = on_scale(visit.book, visit.query.get("skein", "").strip())
    return RedirectResponse(f"/yarn-ideas/{found.skein.number}", 303)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/scale": scale, "/yarn-ideas": start_from}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/weigh": weigh_skein}
