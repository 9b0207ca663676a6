"""Her settings: what each is for, what it is, and changing one in place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from starlette.responses import Response

from stash.actions.book import begun_book
from stash.actions.her_settings import system_of, usual_of
from stash.actions.settings import change_setting
from stash.errors import NotFound
from stash.parsing import settings as words
from stash.rendering import settings as rendered
from stash.web.pages import said
from stash.web.visit import Done, Visit

#: Settings with a name of their own behind them: what that is, and an example of each.
_NAMED = {
    "hours DESIGN": ("Which design", "Winter hat", "3h 20min"),
    "size NAME": ("Name of the size", "Anna", "around 54cm tall 22cm"),
    "tare NAME": ("What is weighed with it", "bowl", "12g"),
    "heading NAME": ("Heading in your sheets", "Shade", "colour"),
    "ranking NAME": ("What counts", "join", "2"),
}


def settings(visit: Visit) -> Response:
    """Every setting in its group; the one that is being changed is a field."""
    return visit.page("settings.html", lambda: _values(visit, visit.query.get("change", "")))


def _values(visit: Visit, asked: str) -> Mapping[str, Any]:
    kept: dict[str, str | None] = {**(visit.settings.kept or {})}
    kept["units"] = system_of(kept)
    names = rendered.in_order({*words.NAMES, *kept})
    groups: dict[str, list[Mapping[str, Any]]] = {}
    for name in names:
        one = rendered.Setting(name, kept.get(name), usual_of(name), visit.settings.currency)
        groups.setdefault(rendered.group_of(name), []).append(_row(one, asked))
    return {"groups": groups}


def _row(one: rendered.Setting, asked: str) -> Mapping[str, Any]:
    of, example, typed = _NAMED.get(one.name, ("", "", ""))
    value, kind = "" if of else rendered.value_text(one), one.name.partition(" ")[0]
    return {
        "name": one.name,
        "title": f"{kind.capitalize()} …" if of else rendered.spelled(one.name).capitalize(),
        "of": of,
        "example": example,
        "typed": typed,
        "meaning": said(rendered.meaning(one.name)),
        "value": "" if value == "-" else value,
        "hers": one.kept is not None,
        "choices": _of_few(one.name),
        "asked": one.name == asked,
    }


def _of_few(name: str) -> tuple[str, ...]:
    """What a setting can be that is one of a few; a contrast may be a gap of her own as well."""
    return () if name == "contrast" else tuple(map(str, words.choices().get(name, ())))


def change(visit: Visit) -> Done:
    """Set one setting as it is typed; nothing typed, or *usual*, sets it back."""
    typed, value = visit.typed.get("name", ""), visit.typed.get("value", "").strip()
    if typed in _NAMED:
        of = visit.typed.get("of", "").strip()
        if not of:
            raise NotFound("setting", typed.partition(" ")[0])
        typed = f"{typed.partition(' ')[0]} {of}"
    name, currency = words.name_of(typed), visit.settings.currency
    back = not value or value.lower() == "usual" or "usual" in visit.typed
    text = None if back else words.kept(name, value, currency)
    with begun_book(visit.workshop.path) as book:
        entry = change_setting(book, name, text, words.currency_said(name, value, currency))
    visit.workshop.book()
    visit.forget_settings()
    visit.use_her_units()
    shown = rendered.setting_text(name, text, currency, None)
    return Done("/settings", (shown.replace(" is already ", ": ") if entry else shown,))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/settings": settings}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/settings": change}
