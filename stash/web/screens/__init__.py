"""A module for each page: what it shows (`screen`s by address) and what its forms do."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from starlette.responses import Response

from stash.web import meanwhile
from stash.web.screens import (
    add,
    add_more,
    count,
    designs,
    edit,
    find,
    finishing,
    first,
    item,
    labels,
    lasts,
    market,
    market_plan,
    pairs,
    papers,
    photo,
    pick,
    record,
    scale,
    settings,
    share,
    sheet,
    shelf,
    tonight,
    yarn,
    yarn_acts,
    yarn_ideas,
)
from stash.web.visit import Done, Visit

_MODULES = (
    tonight,
    add,
    add_more,
    photo,
    sheet,
    first,
    pairs,
    designs,
    edit,
    pick,
    item,
    finishing,
    lasts,
    count,
    scale,
    market,
    labels,
    market_plan,
    papers,
    record,
    share,
    meanwhile,
    settings,
    shelf,
    yarn,
    yarn_acts,
    yarn_ideas,
    find,
)
#: What can be looked at, by address.
SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    path: screen for module in _MODULES for path, screen in module.SCREENS.items()
}
#: What can be pressed, by the address its form is sent to.
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    path: act for module in _MODULES for path, act in module.FORMS.items()
}
#: What is asked with more than an address holds, and writes nothing.
ANSWERS: Mapping[str, Callable[[Visit], Response]] = photo.ANSWERS
