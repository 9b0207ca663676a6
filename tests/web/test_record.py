"""The record on the page: what was done, and undoing it."""

from commands import Maker
from pages import Browser


def test_the_record_says_what_the_log_says(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/record")
    for entry in demo.ask("log"):
        words = entry["words"]
        assert words[:1].upper() + words[1:] in page.text


def test_undo_asks_in_its_row_and_cancels_that_entry(browser: Browser, demo: Maker) -> None:
    asked = browser.opens("/record?undo=6")
    assert "Undo entry 6?" in asked.text
    done = browser.presses(asked.form("/undo", entry="6"))
    assert "Undone: item 1, Tidewrack hat, is done" in done.text
    assert demo.ask("log")[0]["takes_back"] == 6


def test_an_entry_that_later_ones_rest_on_is_refused_in_place(browser: Browser) -> None:
    asked = browser.opens("/record?undo=3")
    refused = browser.presses(asked.form("/undo", entry="3"))
    assert refused.forms("/undo"), "the question stands there again"
    assert 'role="alert"' in refused.source


def test_a_second_press_of_a_form_writes_nothing_and_says_so(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/record").form("/undo", entry="6")
    browser.presses(form)
    again = browser.presses(form)
    assert "the second press changed nothing" in again.text
    assert len(demo.ask("log")) == 7
