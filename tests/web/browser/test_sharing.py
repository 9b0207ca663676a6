"""A desk and a phone at one stash, at once, in two browsers."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from typing import Any

import pytest
from commands import Maker
from looks import fits
from playwright.sync_api import expect

from stash.errors import Refusal


@pytest.fixture
def shared(lively: Maker) -> Iterator[tuple[str, str]]:
    """The page as it is shared: its address on this computer, and the one in the room."""
    import uvicorn

    from stash.web.app import application
    from stash.web.safety import Guarded
    from stash.web.serve import LOOPBACK, _Server, listening, room_address
    from stash.web.sharing import Sharing
    from stash.web.workshop import Workshop

    try:
        room = room_address()
    except Refusal:
        pytest.skip("this machine is in no network")
    with ExitStack() as until:
        ears = [until.enter_context(listening(LOOPBACK, 0))]
        port = ears[0].getsockname()[1]
        ears.append(until.enter_context(listening(room, port)))
        sharing = Sharing((f"{room}:{port}",))
        app = Guarded(application(Workshop(lively.file, sharing)), [f"{LOOPBACK}:{port}"], sharing)
        ready = threading.Event()
        config = uvicorn.Config(app, log_level="warning", access_log=False, lifespan="off")
        server = _Server(config, ready.set)
        thread = threading.Thread(target=server.run, kwargs={"sockets": ears}, daemon=True)
        thread.start()
        assert ready.wait(10)
        yield f"http://{LOOPBACK}:{port}", f"http://{room}:{port}"
        server.should_exit = True
        thread.join(10)


def pair(desk: Any, phone: Any, name: str) -> None:
    """The code is read on the desk and typed on the phone."""
    code = desk.locator(".code").inner_text()
    phone.get_by_label("six digits").fill(code)
    phone.get_by_label("name for this phone").fill(name)
    phone.get_by_role("button", name="Pair").click()
    expect(phone.get_by_label("six digits")).to_have_count(0)


@pytest.mark.parametrize("scripts", [True, False])
def test_a_phone_is_paired_works_and_is_put_out(
    lively: Maker, shared: tuple[str, str], opened: Callable[..., Any], scripts: bool
) -> None:
    here, there = shared
    desk = opened(f"{here}/share", "desk", scripts=scripts)
    phone = opened(f"{there}/", "phone", scripts=scripts)
    expect(phone).to_have_url(f"{there}/pair")
    pair(desk, phone, "kitchen phone")
    phone.get_by_role("button", name="Set aside").first.click()
    expect(phone.get_by_role("status")).to_contain_text("Set aside for item 6")
    assert lively.ask("log")[0]["device"] == "kitchen phone"

    desk.goto(f"{here}/record")
    row = desk.get_by_role("row", name=re.compile("kitchen phone")).first
    expect(row).to_contain_text("set aside for item 6")
    desk.get_by_role("link", name="Phones in this room").click()
    desk.get_by_role("link", name="Rename kitchen phone").click()
    desk.get_by_label("Its new name").fill("stall phone")
    desk.get_by_label("Its new name").press("Enter")
    expect(desk.get_by_role("status")).to_contain_text("It is called stall phone now")
    desk.get_by_role("link", name="Unpair stall phone").click()
    desk.get_by_role("button", name="Unpair it").click()
    expect(desk.get_by_role("status")).to_contain_text("It is out")
    phone.goto(f"{there}/record")
    expect(phone).to_have_url(f"{there}/pair")


def test_an_open_page_says_what_the_other_device_did(
    lively: Maker, shared: tuple[str, str], opened: Callable[..., Any]
) -> None:
    here, there = shared
    desk = opened(f"{here}/share", "desk")
    phone = opened(f"{there}/", "phone")
    pair(desk, phone, "kitchen phone")
    desk.goto(f"{here}/")
    old = desk.get_by_role("button", name="Set aside").first
    name = desk.locator(".idea h2").first.inner_text()
    phone.get_by_role("button", name="Set aside").first.click()
    phone.get_by_role("status").wait_for()
    desk.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    line = desk.locator("#changed")
    line.get_by_role("link", name="show it").wait_for()
    expect(line).to_contain_text("Changed on kitchen phone: ")
    expect(old, "the page she looks at stays until she asks").to_be_visible()
    line.get_by_role("link", name="show it").click()
    expect(desk.locator("#changed")).to_have_text("")
    expect(desk.locator("main")).to_contain_text(name)
    desk.goto(f"{here}/item/6")
    expect(desk.locator("main")).to_contain_text("item 6")


def test_pages_of_sharing_hold_the_rules_of_wcag(
    shared: tuple[str, str], opened: Callable[..., Any]
) -> None:
    """As `test_accessible.py` holds the others; these need a page that is shared."""
    from axe_playwright_python.sync_playwright import Axe

    here, there = shared
    desk = opened(f"{here}/share", "desk")
    phone = opened(f"{there}/pair", "phone")
    pair(desk, phone, "kitchen phone")
    looked = opened(f"{there}/pair", "phone", dark=True)
    desk.goto(f"{here}/share?unpair=1")
    narrow = opened(f"{here}/share?unpair=1", "phone", dark=True)
    narrow.set_viewport_size({"width": 320, "height": 640})
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    desk_naming = opened(f"{here}/share?rename=1", "desk", dark=True)
    for page in (desk, looked, narrow, desk_naming):
        found = Axe().run(page, options={"runOnly": tags}).response["violations"]
        assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []
        assert fits(page)
