"""The first run: how she measures, then her first skein; a sheet as the other way."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from urllib.parse import urlencode

from starlette.responses import RedirectResponse, Response

from stash.actions import clock
from stash.actions.add import receive
from stash.actions.book import begun_book
from stash.actions.her_settings import SYSTEMS, system_of
from stash.actions.likeness import newest_lots
from stash.actions.settings import change_setting
from stash.errors import BadInput, Refusal
from stash.exchange import booking
from stash.exchange.demo_sheet import demo_sheet
from stash.exchange.label_lines import Beside, Reader
from stash.parsing import coins
from stash.parsing import settings as words
from stash.rendering.add import added_words
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook
from stash.web.sharing import COMPUTER
from stash.web.visit import Done, Visit


def first(visit: Visit) -> Response:
    """What to begin with, as long as nothing is on the shelf."""
    if visit.workshop.begun() and newest_lots(visit.book, 1):
        return RedirectResponse("/add", 303)
    units = system_of(visit.settings_or_usual.kept or {}) or "metric"
    empty = yarn_swatch(YarnLook(), Left.WHOLE, Shown(150, 68))
    return visit.page("first.html", lambda: {"units": units, "empty": empty})


def begin(visit: Visit) -> Done:
    """Her units, and her first skein if she typed one; a line with a question is asked about."""
    units = words.kept("units", visit.typed.get("units", "metric"))
    typed = visit.typed.get("line", "").strip()
    to_sheet = "sheet" in visit.typed
    with begun_book(visit.workshop.path) as book:
        if typed and not to_sheet:
            try:
                line = Reader(book, clock.today(), "").line(typed, Beside()).line
                habits = {"currency": coins.currency_in(typed)}
                received = receive(book, [line], habits=habits, chosen=SYSTEMS[units])
            except (BadInput, Refusal):
                change_setting(book, "units", units)
                return Done(f"/add?{urlencode({'line': typed})}", undo=False)
            arrived = received.arrived[0]
            words_said = (added_words(arrived.skeins, arrived.lot), _NUMBER)
            return Done(f"/add?after={arrived.lot.ref}", words_said)
        change_setting(book, "units", units)
    return Done("/sheet" if to_sheet else "/add", undo=False)


def look_around(visit: Visit) -> Done:
    """A made-up shelf in a throwaway file; her own is not touched."""
    _refuse_phones(visit)
    visit.workshop.look_around(_made_up)
    visit.forget_settings()
    return Done("/shelf", undo=False)


def _refuse_phones(visit: Visit) -> None:
    """Which file is served is the same for everybody, so only the computer changes it."""
    if visit.device is not COMPUTER:
        raise Refusal("not_from_a_phone")


def _made_up(file: Path) -> None:
    sheet = demo_sheet()
    named = (sheet.name, sheet.read_bytes())
    with begun_book(file) as book:
        booking.book_sheet(book, booking.sheet_for(None, named, {}), named[1])


def go_back(visit: Visit) -> Done:
    """Her own file again."""
    _refuse_phones(visit)
    visit.workshop.go_back()
    visit.forget_settings()
    return Done("/", undo=False)


_NUMBER = "Write the number on its bag: from now on it is all you need"

SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/first": first}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/first": begin,
    "/first/look": look_around,
    "/first/back": go_back,
}
