"""The page as a browser without scripts uses it: links followed, forms filled in and pressed."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator, Mapping
from contextvars import Context
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from stash.web.app import application
from stash.web.safety import Guarded
from stash.web.workshop import Workshop

#: As the address of a page reads on its own machine.
HOST = "127.0.0.1:8000"
ORIGIN = f"http://{HOST}"


@dataclass(slots=True)
class Form:
    """A form: where it goes, what its fields hold, what its buttons say."""

    action: str
    method: str
    fields: dict[str, str] = field(default_factory=dict)
    buttons: list[str] = field(default_factory=list)


class _Reader(HTMLParser):
    """What a page shows as text, its links and forms."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.links: dict[str, str] = {}
        self.forms: list[Form] = []
        self._link, self._button, self._hidden = "", False, 0
        self._select, self._area = "", ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag in ("script", "style", "title"):
            self._hidden += 1
        if tag == "a":
            self._link = given.get("href", "")
        elif tag == "form":
            self.forms.append(Form(given.get("action", ""), given.get("method", "get")))
        elif tag == "input" and self.forms:
            self._input(given)
        elif tag == "textarea" and self.forms:
            self._area = given.get("name", "")
            self.forms[-1].fields[self._area] = ""
        elif tag == "select" and self.forms:
            self._select = given.get("name", "")
        elif tag == "option" and self._select and self.forms:
            fields = self.forms[-1].fields
            if "selected" in given or self._select not in fields:
                fields[self._select] = given.get("value", "")
        elif tag == "button" and self.forms:
            self._button = True
            if given.get("name"):
                self.forms[-1].buttons.append(f"{given['name']}={given.get('value', '')}")

    def _input(self, given: Mapping[str, str]) -> None:
        kind = given.get("type", "text")
        if not given.get("name") or kind == "file":
            return
        if kind in ("checkbox", "radio") and "checked" not in given:
            return
        self.forms[-1].fields[given["name"]] = given.get("value", "")

    def handle_endtag(self, tag: str) -> None:
        if tag in ("script", "style", "title"):
            self._hidden -= 1
        self._link = "" if tag == "a" else self._link
        self._button = False if tag == "button" else self._button
        self._select = "" if tag == "select" else self._select
        self._area = "" if tag == "textarea" else self._area

    def handle_data(self, data: str) -> None:
        if self._area:
            self.forms[-1].fields[self._area] += data
        text = " ".join(data.split())
        if not text or self._hidden:
            return
        self.words.append(text)
        if self._link:
            self.links.setdefault(text, self._link)
        if self._button:
            self.forms[-1].buttons.append(text)


@dataclass(frozen=True, slots=True)
class Page:
    """A page as it was answered."""

    status: int
    address: str
    source: str
    headers: Mapping[str, str]

    def _read(self) -> _Reader:
        reader = _Reader()
        reader.feed(self.source)
        return reader

    @property
    def text(self) -> str:
        """All that can be read on it, on one line."""
        return re.sub(r" (?=[,;.])", "", " ".join(self._read().words))

    @property
    def links(self) -> dict[str, str]:
        """Each link by its words."""
        return self._read().links

    def forms(self, action: str) -> list[Form]:
        """The forms that go to this address."""
        return [form for form in self._read().forms if form.action == action]

    def form(self, action: str, **holding: str) -> Form:
        """The first of them, of those that hold these values."""
        for form in self.forms(action):
            if all(form.fields.get(name) == value for name, value in holding.items()):
                return form
        raise AssertionError(f"no form for {action} with {holding} on {self.address}")


@dataclass(slots=True)
class Browser:
    """Somebody at the page of one file, who has it at `origin`."""

    file: Path
    client: TestClient
    origin: str = ORIGIN
    at: str = "/"

    def opens(self, address: str, **headers: str) -> Page:
        """Follow a link."""
        self.at = address
        return self._asks(self.client.get, address, headers=headers)

    def presses(self, form: Form, files: Any = None, **typed: str) -> Page:
        """Fill in fields of a form, press it, and follow where it leads."""
        fields = {**form.fields, **typed}
        if form.method == "get":
            return self._asks(self.client.get, form.action, params=fields)
        said = {"data": fields, "files": files, "headers": self._as_a_browser()}
        return self._asks(self.client.post, form.action, **said)

    def _asks(self, ask: Callable[..., Any], address: str, **how: Any) -> Page:
        """With none of the units that a command of this test has shown amounts in."""
        answer = Context().run(ask, address, **how)
        return Page(answer.status_code, str(answer.url), answer.text, answer.headers)

    def _as_a_browser(self) -> dict[str, str]:
        return {"origin": self.origin, "referer": f"{self.origin}{self.at}"}


def at_the_page_of(file: Path) -> Iterator[Browser]:
    """A browser at the page of this file."""
    app = Guarded(application(Workshop(file)), [HOST])
    with TestClient(app, base_url=ORIGIN, raise_server_exceptions=True) as client:
        yield Browser(file, client)


def unescaped(text: str) -> str:
    """A text of markup as it reads."""
    return html.unescape(text)


def cards(page: Page) -> dict[int, str]:
    """What each card says, by the number of its lot, in the order they lie."""
    found: dict[int, str] = {}
    for source in re.findall(r'<article class="card".*?</article>', page.source, re.DOTALL):
        number = int(re.search(r'href="/lot/(\d+)"', source)[1])  # type: ignore[index]
        words = re.sub(r"<svg.*?</svg>", " ", source, flags=re.DOTALL)
        found[number] = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", words)).split())
    return found
