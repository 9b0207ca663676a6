"""One request: what was asked for and typed, and how it is answered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any
from urllib.parse import urlencode, urlsplit

from starlette.datastructures import UploadFile
from starlette.responses import HTMLResponse, Response

from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.log import log
from stash.actions.settings import read_settings
from stash.errors import StashError
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.web.notices import Notice
from stash.web.pages import last_words, rendered
from stash.web.sharing import COMPUTER, Device
from stash.web.workshop import Workshop

#: What an address may bear that says nothing of the page: what was said, and a form's own fields
#: where it was looked at before it was sent.
_NOT_ADDRESS = ("said", "token", "back")


@dataclass(frozen=True, slots=True)
class Done:
    """What was pressed is done: where to go on, and what to say there.

    `undo`: whether what was booked can be undone from what is said.
    """

    to: str
    words: tuple[str, ...] = ()
    undo: bool = True


@dataclass
class Visit:
    """One request of a page: `path` and `query` of its address, `typed` what its form held.

    A name that a form has several times (ticked boxes) is in `ticked`, a file in `files`. `part`:
    the one part of the page that a script asks for, by its id; a screen may answer with it alone.
    """

    workshop: Workshop
    path: str
    query: Mapping[str, str] = field(default_factory=dict)
    queries: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    ticked: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    files: Mapping[str, UploadFile] = field(default_factory=dict)
    names: Mapping[str, Any] = field(default_factory=dict)
    device: Device = COMPUTER
    part: str = ""

    @property
    def here(self) -> str:
        """This address without what was said on it: where its forms come back to."""
        left = [(name, one) for name, many in self.queries.items() for one in many]
        query = urlencode([pair for pair in left if pair[0] not in _NOT_ADDRESS])
        return f"{self.path}?{query}" if query else self.path

    @property
    def book(self) -> Book:
        """The open book; what is written in it keeps the name of this device."""
        return replace(self.workshop.book(), device=self.device.name)

    def newest(self) -> int:
        """The number of the newest entry, 0 for none."""
        if not self.workshop.begun():
            return 0
        newest = self.workshop.kept("newest", lambda: log(self.book, 1))
        return newest[0].number if newest else 0

    @cached_property
    def settings(self) -> Settings:
        """Her settings, the usual ones where there is no file yet."""
        return read_settings(self.book) if self.workshop.begun() else Settings()

    @property
    def settings_or_usual(self) -> Settings:
        """The same where the file may be what is in the way."""
        try:
            return self.settings
        except StashError:
            return Settings()

    @cached_property
    def notice(self) -> Notice | None:
        """What the address says there is to say, if it does."""
        number = self.query.get("said", "")
        return self.workshop.notices.find(number) if number else None

    def forget_settings(self) -> None:
        """They were changed: read them anew when they are next asked for."""
        self.__dict__.pop("settings", None)

    def use_her_units(self) -> None:
        """Amounts are shown in her units from here on."""
        mine = self.settings_or_usual
        figures.use(figures.Units.of(mine.length, mine.weight, mine.size, mine.terms))

    @property
    def shown_on(self) -> Page:
        """For the sentences of an answer: her currency, and nothing of a terminal."""
        return Page(self.settings.currency)

    def number(self, name: str = "number") -> int:
        """The number in the address, as of an item."""
        return int(self.names[name])

    def field(self, action: str, name: str, usual: str = "") -> str:
        """What stands in a field: what was typed there before something was wrong, else the usual.

        `action`: the address its form is sent to.
        """
        said = self.notice
        typed = said.typed if said and said.action == action else {}
        return typed.get(name, usual)

    def page(
        self,
        template: str,
        values: Callable[[], Mapping[str, Any]],
        status: int = 200,
        amounts: Callable[[], object] | None = None,
    ) -> Response:
        """A page; amounts of one unit all have one step on it, so its values are made twice.

        Unless `amounts` makes the largest of its own figures; those of its frame are made as well.
        """
        first = None if amounts is None else lambda: (amounts(), last_words(self))
        text = figures.settled(lambda: rendered(template, self, values()), first)
        return HTMLResponse(text, status_code=status)

    def without_file(self, template: str, values: Mapping[str, Any], status: int) -> Response:
        """A page that is shown although the file cannot be read: it asks nothing of it."""
        return HTMLResponse(rendered(template, self, {**values, "last": None, "newest": 0}), status)

    def back(self) -> str:
        """The page a form was pressed on: an address of ours, without what was said there."""
        return own_address(self.typed.get("back", "/"))

    def going_to(self, to: str, notice: Notice | None) -> str:
        """An address that says what there is to say, once it is shown."""
        if notice is None:
            return to
        number = self.workshop.notices.keep(notice)
        path, _, query = to.partition("?")
        kept = "&".join(part for part in query.split("&") if part and part[:5] != "said=")
        said = urlencode({"said": number})
        return f"{path}?{kept}&{said}" if kept else f"{path}?{said}"


def own_address(text: str, *, host: bool = False) -> str:
    """An address as one of ours, without its host if it may have one; else where all begins."""
    address = urlsplit(text)
    if (not host and (address.scheme or address.netloc)) or not address.path.startswith("/"):
        return "/"
    if address.path.startswith(("//", "/\\")):
        return "/"
    return address.path + (f"?{address.query}" if address.query else "")
