"""An item on its page: its figures are those of the commands, its buttons do what they say."""

import re

import pytest
from commands import Maker
from pages import Browser


def of_item(maker: Maker, number: int) -> dict:
    return next(one for one in maker.ask("items") if one["number"] == number)


def test_its_yarn_is_what_the_record_says(lively_browser: Browser, lively: Maker) -> None:
    lively.does("weigh", "36", "60g")
    page = lively_browser.opens("/item/2")
    told = lively.ask("show", "item", "2")
    for promise in told["set_aside"]:
        assert f"no. {promise['skein']}" in page.text
    assert "40 g" in page.text, "what the scale said went into it"


def test_what_is_shown_together_is_the_sum_of_its_rows(lively_browser: Browser) -> None:
    cells = re.findall(
        r'<td class="number"[^>]*>([\d.]+) g</td>', lively_browser.opens("/item/2").source
    )
    one, two, together = (list(map(float, cells[i : i + 3])) for i in (0, 3, 6))
    assert [round(a + b, 1) for a, b in zip(one, two, strict=True)] == together


def test_an_item_is_begun_worked_finished_sold_and_comes_back(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.presses(lively_browser.opens("/item/4").form("/begin"))
    assert of_item(lively, 4)["state"] == "begun"
    page = lively_browser.presses(page.form("/done"), weighed="210g", hours="2h10")
    made = of_item(lively, 4)
    assert (made["state"], made["hours_taken"]) == ("done", pytest.approx(2 + 1 / 6))
    page = lively_browser.presses(page.form("/sold"), price="28", fee="1.50")
    assert of_item(lively, 4)["sold_for"] == 28
    page = lively_browser.presses(page.form("/returned"))
    assert of_item(lively, 4)["sold_for"] is None
    lively_browser.presses(page.form("/gone-item", why="given"))
    assert "given" in of_item(lively, 4)["next"]


def test_finished_by_its_balls_it_used_what_they_lost(
    lively_browser: Browser, lively: Maker
) -> None:
    form = lively_browser.opens("/item/2").form("/done")
    balls = sorted(name for name in form.fields if name.startswith("left-"))
    before = {name: lively.skein(int(name[5:]))["held_g"] for name in balls}
    lively_browser.presses(form, **dict.fromkeys(balls, "5 g"))
    used = lively.ask("show", "item", "2")["movements"]
    total = -sum(move["change_g"] for move in used)
    assert total == pytest.approx(sum(before.values()) - 5 * len(balls))


def test_what_was_typed_wrong_stands_there_again(lively_browser: Browser, lively: Maker) -> None:
    before = lively.entries()
    page = lively_browser.presses(lively_browser.opens("/item/2").form("/done"), weighed="eighty")
    assert 'role="alert"' in page.source
    assert page.form("/done").fields["weighed"] == "eighty"
    assert lively.entries() == before


def test_its_yarn_is_released(lively_browser: Browser, lively: Maker) -> None:
    lively_browser.presses(lively_browser.opens("/item/4").form("/release"))
    assert lively.ask("show", "item", "4")["set_aside"] == []


def test_one_colour_is_released_and_set_aside_again_by_undo(
    lively_browser: Browser, lively: Maker
) -> None:
    def aside() -> list[dict]:
        return lively.ask("show", "item", "4")["set_aside"]

    before = aside()
    done = lively_browser.presses(lively_browser.opens("/item/4").form("/release", role="B"))
    assert aside() == [one for one in before if one["role"] != "B"]
    (gone,) = (one for one in before if one["role"] == "B")
    assert f"of skein {gone['skein']}" in done.text
    assert [form.fields["role"] for form in done.forms("/release") if "role" in form.fields] == [
        "A"
    ], "nothing is left to release of the other"
    lively_browser.presses(done.forms("/undo")[-1])
    assert aside() == before


def test_what_is_released_in_a_second_tab_is_refused_in_place(
    lively_browser: Browser, lively: Maker
) -> None:
    one, two = (lively_browser.opens("/item/4").form("/release", role="B") for _ in range(2))
    lively_browser.presses(one)
    before = lively.entries()
    refused = lively_browser.presses(two)
    assert 'role="alert"' in refused.source
    assert "`" not in refused.text
    assert lively.entries() == before


def test_it_comes_apart(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.presses(lively_browser.opens("/item/5").form("/unravel"))
    assert "unravelled" in page.text
    assert all(one["number"] != 5 for one in lively.ask("items"))


def test_finished_for_a_baby_the_cautions_are_said(lively_browser: Browser) -> None:
    page = lively_browser.presses(
        lively_browser.opens("/item/4").form("/done"), weighed="210g", whom="baby"
    )
    assert "local rules" in page.text


def test_there_is_no_such_item(lively_browser: Browser) -> None:
    page = lively_browser.opens("/item/99")
    assert page.status == 404
    assert "stash items" not in page.text, "hints for the command line are left out"


def test_what_finishing_does_is_what_it_then_did(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/item/2?left-36=20&left-35=5")
    assert "What finishing does" in page.text
    before = lively.entries()
    words = re.search(r"No longer set aside: [^.]*|no longer set aside: [^;]*", page.text)
    done = lively_browser.presses(page.form("/done"))
    assert lively.entries() == before + 1
    assert words is None or words[0].split(": ")[1] in done.text
    assert "colour by colour" in page.text
    assert "colour by colour" in done.text


def test_an_empty_ball_shows_what_is_expected_to_be_left(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("weigh", "36", "85g", "--row", "8")
    lively.does("weigh", "36", "60g", "--row", "18")
    said = lively.ask("lasts", "2")
    page = lively_browser.opens("/item/2")
    left = re.search(r'name="left-36"[^>]*placeholder="about ([\d.]+) g"', page.source)
    assert left
    assert float(left[1]) == pytest.approx(said["have_g"] - said["need_g"], abs=0.11)


def test_what_stands_in_the_way_of_finishing_is_said_before(
    lively_browser: Browser, lively: Maker
) -> None:
    before = lively.entries()
    page = lively_browser.opens("/item/2?left-36=900")
    assert "not-yet" in page.source
    assert "--" not in page.text
    assert lively.entries() == before


def test_so_far_says_what_was_set_aside_begun_weighed_and_released(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("weigh", "36", "60g")
    lively.does("release", "2", "--colour", "B")
    text = lively_browser.opens("/item/2").text
    so_far = text[text.index("So far") :]
    told = [entry["words"] for entry in reversed(lively.ask("log", "--all"))]
    ours = [one for one in told if "item 2" in one or "tems 2-3" in one]
    assert len(ours) == 4
    places = [so_far.index(one[:1].upper() + one[1:]) for one in ours]
    assert places == sorted(places, reverse=True), "newest first"


def test_what_comes_next_is_the_first_to_be_pressed(lively_browser: Browser, lively: Maker) -> None:
    lively.does("weigh", "36", "60g", "--row", "12")
    assert of_item(lively, 2)["next"] == "weigh the part ball of B"
    (ball,) = (
        one["skein"] for one in lively.ask("show", "item", "2")["set_aside"] if one["role"] == "B"
    )
    page = lively_browser.opens("/item/2")
    assert re.findall(r'<a class="button main" href="/scale\?skein=(\d+)', page.source) == [
        str(ball)
    ]


def test_the_row_at_the_last_weighing_stands_in_its_head(
    lively_browser: Browser, lively: Maker
) -> None:
    assert "at the last weighing" not in lively_browser.opens("/item/2").text
    lively.does("weigh", "36", "85g", "--row", "8")
    lively.does("weigh", "36", "60g", "--row", "18")
    said = lively.ask("lasts", "2")
    page = lively_browser.opens("/item/2")
    assert said["as_of_row"] == 18
    assert re.search(r"row 18 of \d+ at the last weighing", page.text)
    assert re.findall(r'<td class="number">(row \d+)</td>', page.source) == ["row 18", "row 8"]
    assert of_item(lively, 2)["size"].replace("×", "x") in page.text


def test_what_was_just_set_aside_stands_there_to_be_picked(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/item/4")
    for one in lively.ask("show", "item", "4")["set_aside"]:
        assert lively.skein(one["skein"])["place"] in page.text
        assert f"no. {one['skein']}" in page.text[page.text.index("To pick") :]
    assert page.links["Print"] == "/pick/4"
    lively.does("begin", "4")
    assert "To pick" not in lively_browser.opens("/item/4").text


def test_yarn_held_aside_under_a_note_is_neither_begun_nor_finished(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("aside", "--note", "for a cushion", "--skein", "18", "8m")
    page = lively_browser.opens("/item/6")
    assert "For a cushion" in page.text
    assert "Next: use its yarn" in page.text
    assert "stash release" not in page.text
    assert page.forms("/begin") == page.forms("/done") == []
    lively_browser.presses(page.form("/release"))
    assert lively.skein(18)["set_aside_g"] == 0


def test_what_it_was_sold_for_is_said(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/item/1")
    assert f"Sold today for €{of_item(lively, 1)['sold_for']:.2f}" in page.text
    lively.does("sold", "5", "--for", "20", "--fee", "2")
    assert "Sold today for €20.00, €2.00 of it the fee" in lively_browser.opens("/item/5").text


def test_what_was_given_away_can_come_back(lively_browser: Browser, lively: Maker) -> None:
    form = lively_browser.opens("/item/5").form("/gone-item", why="given")
    page = lively_browser.presses(form)
    assert "Given away today" in page.text
    lively_browser.presses(page.form("/returned"))
    assert of_item(lively, 5)["next"] == "sell it"


def test_a_price_left_empty_is_asked_for_in_whole_words(lively_browser: Browser) -> None:
    page = lively_browser.opens("/item/5")
    assert "what its order says" not in page.text, "it has no order"
    page = lively_browser.presses(page.form("/sold"))
    assert "what did the buyer pay? 28.00" not in page.text
    assert re.search(r"[Ww]hat did the buyer pay\?(?!\d)", page.text)


def test_an_empty_price_is_what_the_order_says_where_there_is_one(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("order", "add", "a neighbour", "Tidewrack hat", "--by", "2030-12-12")
    lively.does("change", "item", "5", "--order", "1")
    assert "what its order says" in lively_browser.opens("/item/5").text
