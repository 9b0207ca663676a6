"""Will it last: the verdict, the ball running down against the rows, and what would help."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from markupsafe import Markup
from starlette.responses import Response

from stash.actions.lasts import LastsAsked, more_of_lot, will_last
from stash.actions.under_way import item_at_hand
from stash.errors import StashError
from stash.parsing import weighings
from stash.rendering import figures, lasting_page
from stash.rendering.amounts import colour_name, numbers
from stash.rendering.lasts import outlook_notes, yarn_named
from stash.web.drawn import Drawings
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.lasts import Outlook
    from stash.actions.under_way import UnderWay
    from stash.requirements.lasting.lasting import Lasting
    from stash.stock.holding import HeldSkein

_Row = Mapping[str, Any]
#: The picture where there is room, and on a phone; in pixels.
_WIDE, _NARROW = (700, 330), (340, 250)
#: The sign of each verdict.
_SIGNS = {"yes": "enough", "tight": "tight", "no": "lacks"}
#: What is asked for where the answer needs it; every other refusal is only said.
_ASKS_ROW, _ASKS_BALLS = "rows_done_not_said", "row_of_weighing_not_known"
_ASKS_LEFT = ("plan_not_by_rows", "more_rows_than_planned")
#: Without a weighing there is nothing to go by.
_FIRST = "Weigh one of its balls first, with the row you are at"
#: So many skeins of the same lot are offered.
_MOST_OTHERS = 2
#: The piece beside the verdict, in pixels.
_ROOM = (120, 100)


def lasts(visit: Visit) -> Response:
    """Whether the yarn of an item lasts, as its rows and what is kept back are said."""
    number = visit.number()
    one = visit.workshop.kept(("item", number), lambda: item_at_hand(visit.book, number))

    def values() -> _Row:
        drawings, made = Drawings(), one.line.item
        lots = dict(reversed(one.line.colours))
        scale = drawings.together([one.laid], *_ROOM)
        return {
            "drawings": drawings,
            "item": made,
            "name": made.design or made.note,
            "balls": [ball for used in one.colours for ball in used.skeins if ball.held],
            "piece": drawings.piece(one.laid, lots, scale),
            "outlook": outlook(visit, one, drawings),
        }

    return visit.page("lasts.html", values)


def outlook(visit: Visit, one: UnderWay, drawings: Drawings, skein: int | None = None) -> _Row:
    """What a page shows of it: the colour asked for, else the one of a skein or the least sure."""
    item, query = one.line.item.number, visit.query
    asked = {name: query.get(name, "").strip() for name in ("row", "left", "keep", "colour")}
    if visit.path == "/scale":  # there these are about the reading
        asked = dict.fromkeys(asked, "")
    at = {name[4:]: text.strip() for name, text in query.items() if name.startswith("row-")}
    base = {"item": item, "asked": asked, "at": at, "fields": (), "why": "", "roles": ()}
    if not one.used:
        return {**base, "why": _FIRST, "shown": None}
    key = ("outlook", item, *sorted(asked.items()), *sorted(at.items()))
    found = visit.workshop.kept(key, lambda: _found(visit, item, asked, at))
    if isinstance(found, StashError):
        return {**base, **_instead(found), "shown": None}
    mine = [used.role for used in one.colours if skein in [ball.number for ball in used.skeins]]
    if mine and not set(mine) & {*found.roles}:
        return {**base, "why": said(found.unknown[mine[0]]), "shown": None}
    wished = [role for role in (asked["colour"], *mine) if role in found.roles]
    role = wished[0] if wished else found.least_sure
    return {
        **base,
        "shown": _shown(visit, found, role, one, drawings),
        "notes": [*map(said, outlook_notes(found))],
        "roles": [_other(r, lasting, r == role) for r, lasting in found.roles.items()],
    }


def _found(
    visit: Visit, item: int, asked: Mapping[str, str], at: Mapping[str, str]
) -> Outlook | StashError:
    """The answer, or what stands in its way: both are kept."""
    try:
        return will_last(visit.book, _asked(item, asked, at))
    except StashError as why:
        return why


def _asked(item: int, asked: Mapping[str, str], at: Mapping[str, str]) -> LastsAsked:
    rows, left = asked["row"], asked["left"]
    return LastsAsked(
        str(item),
        weighings.counts(rows) if rows else (),
        weighings.count(left, "no_count_of_rows_left") if left else None,
        keep=weighings.keep(asked["keep"]),
        at={
            int(number): weighings.count(text, "no_count_of_rows_worked")
            for number, text in at.items()
            if text and number.isdecimal()
        },
    )


def _instead(why: StashError) -> Mapping[str, Any]:
    """What is asked where the answer is not known yet."""
    if why.kind == _ASKS_ROW:
        return {"why": "Which row are you at?", "fields": (("row", "Row at the last weighing"),)}
    if why.kind == _ASKS_BALLS:
        skeins = why.facts["skeins"]
        fields = tuple((f"row-{n}", f"Row when no. {n} was last weighed") for n in skeins)
        return {"why": f"At which row was no. {numbers(skeins)} last weighed?", "fields": fields}
    if why.kind in _ASKS_LEFT:
        words = "How many rows are still to make? The design does not say."
        return {"why": words, "fields": (("left", "Rows still to make"),)}
    return {"why": said(why), "fields": ()}


def _shown(
    visit: Visit, found: Outlook, role: str, one: UnderWay, drawings: Drawings
) -> Mapping[str, Any]:
    lasting, course = found.roles[role], found.courses[role]
    words = lasting_page.in_words(lasting)
    balls = [s for used in one.colours if used.role == role for s in used.skeins if s.held]
    lot = dict(reversed(one.line.colours)).get(role)
    return {
        "role": role,
        "chip": drawings.chip(lot) if lot else "",
        "colour": colour_name(lot) if lot else "",
        "balls": balls,
        "sign": _SIGNS[lasting.verdict.value],
        "verdict": words.verdict if len(found.roles) > 1 else _of_one(found, role, words.verdict),
        "sentence": words.sentence,
        "facts": words.facts,
        "wide": Markup(lasting_page.picture(lasting, course, _WIDE)),
        "narrow": Markup(lasting_page.picture(lasting, course, _NARROW)),
        "helps": [*_helps(visit, lasting, role, one.line.item.number, balls)],
    }


def _of_one(found: Outlook, role: str, verdict: str) -> str:
    """A verdict that is of one of several colours says of which: nothing is known of the others."""
    return f"{yarn_named(found, role)}: {verdict}" if found.unknown else verdict


def _helps(
    visit: Visit, lasting: Lasting, role: str, item: int, balls: Sequence[HeldSkein]
) -> Iterator[tuple[str, str]]:
    """What would make it last, each as a link and its words."""
    if lasting.verdict.value == "yes":
        return
    kept = {name: text for name, text in visit.query.items() if name.startswith("row") and text}
    kept = {} if visit.path == "/scale" else kept
    keep = visit.query.get("keep", "").strip()
    for skein in _others(visit, balls):
        free = skein.free_length
        amount = figures.down(skein.free) if free is None else figures.down(free)
        yield (
            f"/scale?skein={skein.number}&item={item}",
            f"Go on with no. {skein.number}, {amount} free",
        )
    if stop := lasting_page.stop_at(lasting):
        query = urlencode({**kept, "colour": role, "keep": keep, "left": stop[0]})
        yield f"/lasts/{item}?{query}", f"Stop at row {stop[1]}"
    if keep:
        yield f"/lasts/{item}?{urlencode({**kept, 'colour': role})}", "Keep nothing back"


def _others(visit: Visit, balls: Sequence[HeldSkein]) -> Sequence[HeldSkein]:
    """Skeins of the same lot beside those worked from."""
    if not balls:
        return ()
    ours = {ball.number for ball in balls}
    first = balls[0].number
    found = visit.workshop.kept(("of lot", first), lambda: more_of_lot(visit.book, first))
    return [skein for skein in found if skein.number not in ours][:_MOST_OTHERS]


def _other(role: str, lasting: Lasting, shown: bool) -> Mapping[str, Any]:
    """One of several colours, to choose it."""
    return {
        "role": role,
        "sign": _SIGNS[lasting.verdict.value],
        "verdict": lasting_page.in_words(lasting).verdict,
        "shown": shown,
    }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/lasts/{number:int}": lasts}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
