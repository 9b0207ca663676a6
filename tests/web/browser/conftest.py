"""A real browser at a page that is really served; left out where none is on the PATH.

A page is looked at with `expect`, which waits: after a press the old page may still be there, or
the new one half read.

`STASH_BROWSER=1` makes a missing browser a failure: a check that installs one cannot pass without.
"""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import pytest

CHROMIUM = shutil.which("chromium")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    ours = [item for item in items if here in item.path.parents]
    for item in ours:
        item.add_marker(pytest.mark.browser)
    if CHROMIUM is None and os.environ.get("STASH_BROWSER") != "1":
        for item in ours:
            item.add_marker(pytest.mark.skip(reason="no chromium on the PATH"))


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=PATIENCE)
    assert CHROMIUM, "STASH_BROWSER=1, but no chromium is on the PATH"
    quiet = ("--no-sandbox", "--disable-background-networking", "--disable-component-update")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=[*quiet])
        yield browser
        browser.close()


@contextmanager
def served(file: Path) -> Iterator[str]:
    """The address at which this file is served by a thread of this process."""
    import uvicorn

    from stash.web.app import application
    from stash.web.safety import Guarded
    from stash.web.serve import LOOPBACK, _Server, listening
    from stash.web.workshop import Workshop

    ear = listening(LOOPBACK, 0)
    port = ear.getsockname()[1]
    ready = threading.Event()
    app = Guarded(application(Workshop(file)), [f"127.0.0.1:{port}"])
    config = uvicorn.Config(app, log_level="warning", access_log=False, lifespan="off")
    server = _Server(config, ready.set)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [ear]}, daemon=True)
    thread.start()
    assert ready.wait(30)
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(10)


@pytest.fixture
def serving() -> Iterator[Callable[[Path], str]]:
    """Serves a file until the test is over: `serving(file)` is the address."""
    with ExitStack() as until:
        yield lambda file: until.enter_context(served(file))


#: So many milliseconds a page may take where the machine is busy with other tests.
PATIENCE = 20_000
#: A desk and a phone, as wide and high as the design has them.
SIZES = {"desk": (1280, 900), "phone": (390, 844)}


@pytest.fixture
def opened(chromium: Any, serving: Callable[[Path], str]) -> Iterator[Callable[..., Any]]:
    """Opens a page of a served file: `opened(address, "phone", dark=True, scripts=False)`.

    Its pages are closed before the file is served no longer.

    A complaint in its console, or a request to anywhere else, fails the test.
    """
    contexts, complaints = [], []

    def open_page(address: str, size: str = "desk", **how: bool) -> Any:
        wide, high = SIZES[size]
        context = chromium.new_context(
            viewport={"width": wide, "height": high},
            color_scheme="dark" if how.get("dark") else "light",
            java_script_enabled=how.get("scripts", True),
            has_touch=size == "phone",
        )
        contexts.append(context)
        context.set_default_timeout(PATIENCE)
        page = context.new_page()
        page.on("console", lambda said: said.type == "error" and complaints.append(said.text))
        page.on("pageerror", lambda error: complaints.append(str(error)))
        origin = "/".join(address.split("/")[:3])
        page.on(
            "request",
            lambda asked: asked.url.startswith(origin) or complaints.append(asked.url),
        )
        page.goto(address)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert complaints == []
