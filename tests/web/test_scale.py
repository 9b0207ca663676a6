"""At the scale: one reading is booked as `weigh` books it."""

import pytest
from commands import Maker
from pages import Browser


def test_a_reading_is_booked_for_the_item_it_went_into(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/scale?skein=36&item=2")
    done = lively_browser.presses(page.form("/weigh"), reading="60 g", row="12")
    assert "40 g went into item 2" in done.text
    assert lively.skein(36)["held_g"] == 60


def test_a_reading_from_tonight_comes_back_there(lively_browser: Browser) -> None:
    done = lively_browser.presses(
        lively_browser.opens("/").form("/weigh"), skein="36", reading="60g"
    )
    assert done.address.split("?")[0].endswith(":8000/")
    assert "60 g on the scale" in done.text


def test_a_correction_uses_nothing(lively_browser: Browser, lively: Maker) -> None:
    form = lively_browser.opens("/scale?skein=36").form("/weigh")
    form.fields["as"] = "recount"
    lively_browser.presses(form, reading="90g")
    assert lively.skein(36)["held_g"] == 90
    used = [m for m in lively.ask("show", "item", "2")["movements"] if m["kind"] == "use"]
    assert used == []


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ({"reading": ""}, "weigh"),
        ({"reading": "sixty"}, "sixty"),
        ({"reading": "60g", "skein": "999"}, "999"),
        ({"reading": "60g", "row": "-3"}, "-3"),
        ({"reading": "60m"}, "60m"),
        ({"reading": "900g"}, "900"),
    ],
)
def test_a_mistake_is_one_line_and_what_was_typed_stays(
    lively_browser: Browser, lively: Maker, typed: dict[str, str], word: str
) -> None:
    before = lively.entries()
    page = lively_browser.presses(lively_browser.opens("/scale?skein=36").form("/weigh"), **typed)
    assert 'role="alert"' in page.source
    assert word in page.text
    for name, value in typed.items():
        assert page.form("/weigh").fields[name] == value
    assert lively.entries() == before
