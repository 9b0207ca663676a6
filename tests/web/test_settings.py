"""Settings on the page: what the command shows, changed as the command changes it."""

from __future__ import annotations

import pytest
from commands import Maker
from pages import Browser, unescaped

from stash.parsing import settings as words


def test_every_setting_is_there_with_what_it_is_for(browser: Browser) -> None:
    page = browser.opens("/settings")
    for name in words.NAMES:
        kind = name.partition(" ")[0] if name[-1].isupper() else name
        assert kind.capitalize() in page.text
    assert "spare yarn on top of an estimate" in page.text


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("margin", "15%", "15%"),
        ("units", "us", "us"),
        ("contrast", "clear", "clear"),
        ("colour vision", "deutan", "deutan"),
        ("terms", "uk", "uk"),
        ("maker", "Fen <b>Lane", "Fen <b>Lane"),
        ("letter keys", "off", "off"),
    ],
)
def test_a_setting_is_changed_in_place_as_by_the_command(
    browser: Browser, demo: Maker, name: str, typed: str, kept: str
) -> None:
    form = browser.opens(f"/settings?change={name}").form("/settings", name=name)
    done = browser.presses(form, value=typed)
    assert demo.ask("settings", name)[name] == kept
    assert kept in unescaped(done.source)
    form = browser.opens(f"/settings?change={name}").form("/settings", name=name)
    browser.presses(form, usual="yes")
    assert demo.ask("settings", name)[name] is None


def test_a_setting_with_a_name_of_its_own_is_added(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/settings?change=tare NAME").form("/settings", name="tare NAME")
    browser.presses(form, of="bowl", value="12g")
    assert demo.ask("settings", "tare bowl")["tare bowl"] == "12 g"


def test_what_cannot_be_read_is_said_in_place(browser: Browser) -> None:
    form = browser.opens("/settings?change=margin").form("/settings", name="margin")
    page = browser.presses(form, value="banana")
    assert 'role="alert"' in page.source
    assert page.form("/settings", name="margin").fields["value"] == "banana"


def test_letter_keys_can_be_switched_off(browser: Browser, demo: Maker) -> None:
    assert "data-letters" not in browser.opens("/record").source
    demo.does("settings", "letter keys", "off")
    assert 'data-letters="off"' in browser.opens("/record").source


def test_record_and_settings_are_linked_from_every_page(browser: Browser) -> None:
    links = browser.opens("/add").links
    assert (links["Record"], links["Settings"]) == ("/record", "/settings")
