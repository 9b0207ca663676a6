"""With a ball in one hand and a phone in the other: weighing, counting, finishing in a browser."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from commands import Maker
from playwright.sync_api import expect

Serving = Callable[[Path], str]
Opened = Callable[..., Any]
#: A machine that cannot be reached, and one that records but whose answer is lost on the way.
GONE = "() => { window.fetch = () => Promise.reject(new TypeError('gone')); }"
LOST = (
    "() => { window.fetch = async (...a) => { await kept(...a); throw new TypeError('lost'); }; }"
)
BACK = "() => { window.fetch = window.kept; }"


def test_a_thumb_weighs_a_ball_sees_what_it_means_and_undoes_it(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    address = serving(lively.file)
    page = opened(f"{address}/scale", "phone")
    for key in "36":
        page.get_by_role("button", name=key, exact=True).tap()
    page.get_by_role("button", name="Weigh it").tap()
    reading = page.get_by_label("It weighs")
    for key in ("6", "1", "Rub out", "0"):
        page.get_by_role("button", name=key, exact=True).tap()
    expect(reading).to_have_value("60")
    page.get_by_text("40 g less: 135 m left").wait_for()
    save = page.get_by_role("button", name="Save 60 g")
    save.wait_for()
    box = save.bounding_box()
    assert box["y"] + box["height"] <= 844 - 56, "Save stands above the bar without scrolling"
    page.get_by_label("Row, if you like").tap()
    for key in "12":
        page.get_by_role("button", name=key, exact=True).tap()
    page.get_by_label("correct the record").check()
    page.wait_for_function("() => document.querySelector('[name=as]:checked').value === 'recount'")
    page.get_by_label("used for item").check()
    page.get_by_role("button", name="Save 60 g").tap()
    page.get_by_text("40 g went into item 2").wait_for()
    expect(page.get_by_role("heading", name="Yes, it lasts")).to_be_visible()
    assert lively.skein(36)["held_g"] == 60
    page.locator("#notice").get_by_role("button", name="Undo").tap()
    page.get_by_text("Undone").wait_for()
    assert lively.skein(36)["held_g"] == 100


def test_a_figure_that_was_not_recorded_stays_and_is_never_recorded_twice(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(lively.file)}/scale?skein=36&item=2", "phone")
    page.evaluate("() => { window.kept = window.fetch; }")
    before = lively.entries()
    page.get_by_label("It weighs").fill("60")
    page.get_by_role("button", name="Save 60 g").wait_for()
    page.evaluate(GONE)
    page.get_by_role("button", name="Save 60 g").tap()
    page.get_by_text("Not recorded yet").wait_for()
    expect(page.get_by_label("It weighs")).to_have_value("60")
    assert lively.entries() == before
    page.evaluate(LOST)
    page.get_by_role("button", name="Try again").tap()
    expect(page.get_by_text("Not recorded yet")).to_be_visible()
    assert lively.entries() == before + 1
    page.evaluate(BACK)
    page.get_by_role("button", name="Try again").tap()
    page.get_by_text("second press changed nothing").wait_for()
    assert lively.entries() == before + 1


def test_without_scripts_there_is_a_field_and_no_keypad(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(lively.file)}/scale?skein=36&item=2", "phone", scripts=False)
    expect(page.get_by_role("group", name="Keypad")).to_be_hidden()
    page.get_by_label("It weighs").fill("60")
    page.get_by_role("button", name="What does that mean?").tap()
    page.get_by_text("40 g less: 135 m left").wait_for()
    page.get_by_role("button", name="Save 60 g").tap()
    page.get_by_text("40 g went into item 2").wait_for()


def test_at_a_desk_a_reading_is_typed_and_entered(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(lively.file)}/scale")
    expect(page.locator("#skein-field")).to_be_focused()
    page.keyboard.type("36")
    page.keyboard.press("Enter")
    expect(page.locator("#reading-field")).to_be_focused()
    expect(page.get_by_role("group", name="Keypad"), "a desk has keys").to_be_hidden()
    page.keyboard.type("3")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    page.get_by_text("oz less:").wait_for(state="detached")
    page.get_by_text("Save 85 g").wait_for()
    page.get_by_label("It weighs").press("Enter")
    page.get_by_text("85 g on the scale").wait_for()


def test_a_place_is_counted_on_a_phone_and_gone_on_with_at_a_desk(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    address = serving(lively.file)
    phone = opened(f"{address}/count?place=tin on the desk", "phone")
    desk = opened(f"{address}/count", scripts=False)
    phone.locator("#box-34").tap()
    phone.get_by_text("4 to find, 1 found").wait_for()
    phone.get_by_label("no. 35 weighs").fill("17")
    phone.get_by_label("no. 35 weighs").press("Enter")
    phone.get_by_text("3 to find, 2 found").wait_for()
    phone.locator("#box-34").tap()
    phone.get_by_text("4 to find, 1 found").wait_for()
    desk.reload()
    desk.get_by_role("link", name="Go on: tin on the desk").click()
    desk.get_by_text("4 to find, 1 found").wait_for()
    for left in (3, 2, 1, 0):
        desk.locator('.box[aria-pressed="false"]').first.click()
        desk.get_by_text(f"{left} to find").wait_for()
    desk.get_by_role("button", name="Close the count").click()
    desk.get_by_text("5 skeins as noted").wait_for()


def test_what_finishing_does_follows_what_is_typed(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(lively.file)}/item/2", "phone")
    before = lively.entries()
    expect(page.get_by_text("learns nothing from it")).to_be_visible()
    page.locator('[name="left-36"]').fill("20")
    page.get_by_text("colour by colour").wait_for()
    page.get_by_label("baby").check()
    page.locator("#finishing .caution").first.wait_for()
    assert lively.entries() == before
    page.get_by_role("button", name="Finish item 2").tap()
    page.locator("#notice").wait_for()
    assert lively.skein(36)["held_g"] == 20


def test_what_is_kept_back_changes_the_answer_as_it_is_typed(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    lively.does("weigh", "36", "60g", "--row", "12")
    page = opened(f"{serving(lively.file)}/lasts/2")
    page.get_by_role("heading", name="Yes, it lasts").wait_for()
    page.get_by_label("Keep back").fill("50g")
    page.get_by_role("heading", name="No,").wait_for()
    page.get_by_role("link", name="Keep nothing back").click()
    page.get_by_role("heading", name="Yes, it lasts").wait_for()
