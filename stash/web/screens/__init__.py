"""A module for each page: what it shows (`screen`s by address) and what its forms do."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from starlette.responses import Response

from stash.web.screens import designs, edit, item, market, pairs, pick, record, scale, tonight
from stash.web.visit import Done, Visit

_MODULES = (
    tonight,
    pairs,
    designs,
    edit,
    pick,
    item,
    scale,
    market,
    record,
)
#: What can be looked at, by address.
SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    path: screen for module in _MODULES for path, screen in module.SCREENS.items()
}
#: What can be pressed, by the address its form is sent to.
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    path: act for module in _MODULES for path, act in module.FORMS.items()
}
