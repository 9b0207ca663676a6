"""A lot and a skein on the page: its figures, its facts changed in place, and what is done."""

from __future__ import annotations

import html
import math
import re
from dataclasses import fields

import pytest
from commands import Maker
from pages import Browser, Page
from rooms import Room

from stash.exchange.typed_facts import ChangeWords
from stash.measures.colour import Colour, lab


def lines(page: Page) -> dict[str, str]:
    """The facts it shows, by what they are called."""
    found = {}
    for source in re.findall(r'<div class="line">(.*?)</div>', page.source, re.DOTALL):
        spans = re.findall(r"<span[^>]*>(.*?)</span>", source, re.DOTALL)
        words = [html.unescape(re.sub(r"<[^>]+>", "", one)).strip() for one in spans]
        found[words[0]] = words[1]
    return found


def test_a_skein_says_what_show_says(browser: Browser, demo: Maker) -> None:
    demo.does("aside", "--note", "for a cushion", "--skein", "18", "20m")
    known, page = demo.skein(18), browser.opens("/skein/18")
    facts = lines(page)
    free, aside = math.floor(known["free_m"] + 1e-3), math.ceil(known["set_aside_g"] * 2.4 - 1e-3)
    assert f"{free} m free" in page.text  # 50 g are 120 m, so a gram is 2.4 m
    assert facts["What is left"].startswith(f"{free + aside} m, ")
    assert facts["Thickness"] == "DK (3)"
    assert facts["Fibre"] == known["fibre"]
    assert facts["Dye lot"] == known["lot"]
    assert facts["Full skein"] == "50 g / 120 m, from the band"
    assert facts["Place"] == known["place"]
    assert facts["Colour"] == known["colour"]
    light = lab(Colour(known["colour_hex"])).lightness
    assert light < 25
    assert "very dark" in page.text  # words.md: very dark under 25


def test_how_sure_a_length_is_reads_reason_by_reason(browser: Browser, demo: Maker) -> None:
    known, page = demo.skein(18), browser.opens("/skein/18")
    assert f"give or take {math.floor(known['spread_m'] + 0.5)} m" in page.text
    rows = re.findall(r"<li>.*?</li>", page.source, re.DOTALL)
    assert len(rows) == len(known["spread"])
    largest = max(one["share"] for one in known["spread"])
    for one in known["spread"]:
        (row,) = [row for row in rows if one["why"] in row.lower()]
        step = 10 if largest * known["held_m"] < 10 else 1
        off = max(1, round(one["share"] * known["held_m"] * step)) / step
        assert f"± {off:g} m" in row
        bar = re.search(r'rect width="([\d.]+)"', row)
        assert bar is not None
        assert float(bar[1]) == pytest.approx(200 * one["share"] / largest, abs=0.06)


def test_a_lot_lists_its_skeins_as_the_shelf_has_them(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/lot/5")
    (lot,) = [lot for lot in demo.ask("shelf") if lot["lot_ref"] == "L5"]
    rows = re.findall(r"<tr><td><a href=\"/skein/(\d+)\".*?</tr>", page.source, re.DOTALL)
    assert [int(number) for number in rows] == [skein["number"] for skein in lot["skeins"]]
    for skein in lot["skeins"]:
        assert f"{math.floor(skein['held_m'] + 1e-3)} m, " in page.text


def test_a_skein_wound_off_is_traced_both_ways(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/32?act=split").form("/yarn/split")
    made = browser.presses(form, amount="20 g", place="tin")
    assert "/skein/130" in made.address
    assert "no. 32" in made.links
    assert "no. 130" in browser.opens("/skein/32").links
    assert demo.skein(130)["held_g"] == 20
    assert demo.skein(130)["parent"] == 32


def test_an_item_is_linked_from_the_yarn_that_went_into_it(browser: Browser, demo: Maker) -> None:
    (skein,) = demo.ask("show", "item", "1")["skeins"][:1]
    assert browser.opens(f"/skein/{skein['number']}").links["item 1"] == "/item/1"


#: A fact as it is typed on the page, and where `show` has it and how.
FACTS = [
    ("thickness", "aran", "thickness", 4),
    ("fibre", "80% wool, 20% nylon", "fibre", "80% wool, 20% nylon"),
    ("lot", "9/B", "lot", "9/B"),
    ("lot", "", "lot_state", "unknown"),
    ("lot", "none", "lot_state", "claimed none"),
    ("put_up", "60g / 150m", "full_m", 150.0),
    ("colour", "deep sea", "colour", "deep sea"),
    ("hexes", "#112233/#445566", "colours_hex", ["#112233", "#445566"]),
    ("daylight", "yes", "daylight", True),
    ("dyed", "tweed", "dyed", "tweed"),
    ("surface", "brushed", "surface", "brushed"),
    ("condition", "smoke, pets", "conditions", ["pets", "smoke"]),
    ("name", "Other name", "yarn", "Ottermeade Other name"),
    ("maker", "", "maker", None),
]
OF_SKEIN = [
    ("place", "red box", "place", "red box"),
    ("place", "", "place", None),
    ("owner", "Nell", "owner", "Nell"),
    ("tare", "12 g", "tare_g", 12.0),
    ("bought", "2026-01-31", "bought", "2026-01-31"),
    ("paid", "4.50", "paid_coins", 450),
    ("note", "from a swap", "note", "from a swap"),
    ("left", "15 g", "held_g", 15.0),
]


@pytest.mark.parametrize(("fact", "typed", "key", "now"), FACTS + OF_SKEIN)
def test_each_fact_of_a_skein_is_changed_in_place(
    browser: Browser, demo: Maker, fact: str, typed: str, key: str, now: object
) -> None:
    page = browser.opens(f"/skein/18?change={fact}")
    form = page.form("/yarn/change", fact=fact)
    done = browser.presses(form, value=typed)
    assert demo.skein(18)[key] == now
    assert "Saved: " in done.text
    assert done.forms("/undo"), "what was saved can be undone in one press"


@pytest.mark.parametrize(("fact", "typed", "key", "now"), FACTS)
def test_each_fact_of_a_lot_is_changed_for_all_its_skeins(
    browser: Browser, demo: Maker, fact: str, typed: str, key: str, now: object
) -> None:
    form = browser.opens(f"/lot/5?change={fact}").form("/yarn/change", fact=fact)
    done = browser.presses(form, value=typed)
    assert "/lot/5" in done.address
    assert [demo.skein(number)[key] for number in (16, 17)] == [now, now]


def test_every_fact_that_change_takes_of_yarn_has_its_line(browser: Browser) -> None:
    of_items = {"asked", "hours", "order"}
    taken = {one.name for one in fields(ChangeWords)} - of_items - {"postage"}  # beside the price
    shown = set(re.findall(r"/skein/18\?change=(\w+)#", browser.opens("/skein/18").source))
    assert shown == taken
    assert "postage" in browser.opens("/skein/18?change=paid").form("/yarn/change").fields


def test_a_price_of_a_lot_is_shared_over_its_skeins(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/lot/5?change=paid").form("/yarn/change", fact="paid")
    browser.presses(form, value="9")
    assert sum(demo.skein(number)["paid_coins"] for number in (16, 17, 18)) == 900
    assert lines(browser.opens("/lot/5"))["Paid"] == "€9.00"


def test_a_value_that_cannot_be_read_stays_in_its_field(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?change=thickness").form("/yarn/change")
    refused = browser.presses(form, value="thickish")
    assert 'role="alert"' in refused.source
    assert refused.form("/yarn/change").fields["value"] == "thickish"
    assert len(demo.ask("log")) == 6


def test_what_is_so_already_is_said_and_writes_nothing(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?change=place").form("/yarn/change")
    same = browser.presses(form)
    assert 'role="alert"' in same.source
    assert len(demo.ask("log")) == 6


def test_some_is_set_aside_and_released(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?act=aside").form("/yarn/aside")
    done = browser.presses(form, amount="20 m", note="for a cushion")
    assert demo.skein(18)["set_aside_g"] == pytest.approx(20 / 2.4, abs=0.001)
    assert "for a cushion" in done.text
    browser.presses(browser.opens("/skein/18").form("/release"))
    assert demo.skein(18)["set_aside_g"] == 0


def test_more_than_is_free_is_refused_in_place(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?act=aside").form("/yarn/aside")
    refused = browser.presses(form, amount="200 m", note="for a cushion")
    assert 'role="alert"' in refused.source
    assert refused.form("/yarn/aside").fields["amount"] == "200 m"
    assert demo.skein(18)["set_aside_g"] == 0


def test_two_tabs_cannot_promise_the_same_gram(browser: Browser, demo: Maker) -> None:
    one, two = (browser.opens("/skein/18?act=aside").form("/yarn/aside") for _ in range(2))
    browser.presses(one, amount="", note="one")
    refused = browser.presses(two, amount="10 g", note="two")
    assert 'role="alert"' in refused.source
    known = demo.skein(18)
    assert known["set_aside_g"] == known["held_g"]


@pytest.mark.parametrize("why", ["given", "sold", "lost", "spoilt", "mistake"])
def test_yarn_that_is_gone_leaves_and_comes_back_undone(
    browser: Browser, demo: Maker, why: str
) -> None:
    form = browser.opens("/skein/18?act=gone").form("/yarn/gone")
    price = "4" if why == "sold" else ""
    done = browser.presses(form, amount="8 g", why=why, price=price)
    assert demo.skein(18)["held_g"] == pytest.approx(10.288)
    browser.presses(done.forms("/undo")[-1])
    assert demo.skein(18)["held_g"] == pytest.approx(18.288)


def test_a_price_needs_a_sale(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?act=gone").form("/yarn/gone")
    refused = browser.presses(form, amount="8 g", why="lost", price="4")
    assert 'role="alert"' in refused.source
    assert refused.form("/yarn/gone").fields["why"] == "lost"


def test_a_skein_is_weighed(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?act=weigh").form("/weigh")
    browser.presses(form, reading="12 g")
    assert demo.skein(18)["held_g"] == 12


def test_a_length_is_weighed(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/skein/18?act=metre").form("/yarn/metre")
    browser.presses(form, length="10 m", weight="4 g")
    assert demo.skein(18)["full_from"] == "measured"


def test_a_skein_that_is_used_up_still_has_its_page(browser: Browser, demo: Maker) -> None:
    demo.does("gone", "18", "--why", "lost")
    page = browser.opens("/skein/18")
    assert "used up" in page.text
    assert not page.forms("/yarn/gone")
    assert "1 more used up" in browser.opens("/lot/5").text


def test_yarn_without_length_or_colour_says_so(browser: Browser, demo: Maker) -> None:
    for lot in demo.ask("shelf"):
        if lot["held_m"] is None:
            assert "Its length is not known" in browser.opens(f"/lot/{lot['lot_ref'][1:]}").text
        if not lot["colours_hex"]:
            assert "colour?" in browser.opens(f"/lot/{lot['lot_ref'][1:]}").source


def test_no_word_of_the_command_line_stands_on_a_page(browser: Browser, demo: Maker) -> None:
    demo.does("weigh", "18", "12g")
    for number in (9, 18, 34, 120, 123):
        text = browser.opens(f"/skein/{number}").text
        assert not re.search(r"`|--\w|\bL\d", text)


def test_a_dye_lot_that_moves_a_skein_names_no_record(browser: Browser) -> None:
    form = browser.opens("/skein/18?change=lot").form("/yarn/change")
    done = browser.presses(form, value="9/B")
    assert "dye lot set to 9/B" in done.text
    assert not re.search(r"\bL\d", done.text)


def test_ideas_from_a_skein_are_those_of_the_command(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/yarn-ideas/32")
    for use in demo.ask("ideas", "32")["designs"]:
        assert (
            f"as colour {use['role']}, needs {math.ceil(use['set_aside_m'] - 1e-3)} m" in page.text
        )


def happened(page: Page) -> list[str]:
    """The lines of its history, newest first."""
    (table,) = re.findall(r'<table class="happened">(.*?)</table>', page.source, re.DOTALL)
    rows = re.findall(r"<tr>(.*?)</tr>|<tr class=\"cancelled\">(.*?)</tr>", table, re.DOTALL)
    cells = [re.sub(r"<[^>]+>", " ", html.unescape(one or two)) for one, two in rows]
    return [" ".join(one.split()).replace(" ,", ",") for one in cells][1:]


def test_a_history_says_what_was_set_aside_and_released_for_which_item_and_how_much(
    lively_browser: Browser, lively: Maker
) -> None:
    (aside,) = (one for one in lively.skein(36)["promises"] if one["item"] == 2)
    assert (aside["kind"], aside["role"], aside["device"]) == ("set aside", "A", "")
    lively.does("weigh", "36", "60g")
    lively.does("release", "2", "--colour", "A")
    lines = happened(lively_browser.opens("/skein/36"))
    assert f"{math.ceil(aside['change_m'] - 1e-3)} m, " in lines[2]
    assert lines[2].endswith(" set aside for item 2, Pebble cowl")
    back = lively.skein(36)["promises"][-1]
    assert back["kind"] == "released"
    assert f"{math.ceil(-back['change_m'] - 1e-3)} m, " in lines[0]
    assert "no longer set aside for item 2, Pebble cowl" in lines[0]
    assert "used for item 2" in lines[1]


def test_a_lot_tells_what_happened_to_all_its_skeins(browser: Browser, demo: Maker) -> None:
    demo.does("aside", "--note", "for a cushion", "--skein", "16", "10g")
    demo.does("change", "17", "--place", "tin")
    lines = happened(browser.opens("/lot/5"))
    assert "Place set to tin" in lines[0]
    assert "10 g set aside: for a cushion" in lines[1]
    assert "+ 118 g" in lines[-1], "two skeins of 50 g and a part ball of 18 g came"
    assert "cushion" not in " ".join(happened(browser.opens("/skein/17")))


def test_what_was_set_aside_and_undone_is_marked(browser: Browser, demo: Maker) -> None:
    demo.does("aside", "--note", "for a cushion", "--skein", "16", "10g")
    demo.does("undo", "--yes")
    lines = happened(browser.opens("/skein/16"))
    assert lines[0].startswith("today Cancelled entry 7: ")
    assert lines[1].endswith("set aside for item 2 (undone)")


def test_a_weighing_that_agrees_is_told_too(browser: Browser, demo: Maker) -> None:
    demo.does("weigh", "18", "18.3g")
    assert "agrees with" in happened(browser.opens("/skein/18"))[0]


def test_where_it_was_written_is_told_where_it_was_not_all_on_this_computer(room: Room) -> None:
    assert "this computer" not in " ".join(happened(room.desk.opens("/skein/37")))
    phone = room.phone("kitchen phone")
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="20 g", **{"as": "opened"})
    lines = happened(room.desk.opens("/skein/37"))
    assert lines[0].endswith("kitchen phone")
    assert lines[-1].endswith("this computer")


def test_a_lot_is_matched_as_each_colour_as_the_command_matches_it(
    browser: Browser, demo: Maker
) -> None:
    page = browser.opens(browser.opens("/lot/5").links["Match it"])
    links = re.findall(r'href="(/pairs/[^"]+)"', html.unescape(page.source))
    uses = demo.ask("ideas", "L5")["designs"]
    assert len(links) == len(uses) == 2
    for use, link in zip(uses, links, strict=True):
        assert link.endswith(f"?with_{use['role']}=no.+16%2C17%2C18")
        pairs = browser.opens(link)
        said = demo.ask("match", use["design"], "--with", f"{use['role']}=16,17,18")
        assert said["proposals"]
        first = said["proposals"][0]
        assert {one["roles"][use["role"]]["lot_ref"] for one in said["proposals"]} == {"L5"}
        assert pairs.forms("/pairs/aside")[0].fields["alike"] == first["key"]


def test_a_skein_is_matched_alone(browser: Browser) -> None:
    page = browser.opens(browser.opens("/skein/17").links["Match it"])
    assert "What could no. 17 become?" in page.text
    assert "with_A=no.+17" in page.source


def test_a_large_lot_is_matched_by_its_number(browser: Browser, demo: Maker) -> None:
    demo.does("add", "Fell Wool DK, 9 x 50g/120m, teal, lot 8")
    (lot,) = [one for one in demo.ask("shelf") if one["lot"] == "8"]
    page = browser.opens(f"/lot-ideas/{lot['lot_ref'][1:]}")
    assert f"with_A={lot['lot_ref']}" in page.source


def test_enough_of_another_thickness_is_not_said_to_lack(
    lively_browser: Browser, lively: Maker
) -> None:
    rows = lively_browser.opens("/lot-ideas/5").source.split("<li>")[1:]
    (scarf,) = (row for row in rows if "Lane scarf" in row and "as colour B" in row)
    (use,) = (
        one
        for one in lively.ask("ideas", "L5")["designs"]
        if (one["design"], one["role"]) == ("Lane scarf", "B")
    )
    assert use["enough"]
    assert "for worsted (4)" in scarf
    assert "verdict tight" in scarf


def test_releasing_yarn_from_its_page_leaves_the_other_colours_of_the_item_aside(
    lively_browser: Browser, lively: Maker
) -> None:
    before = lively.ask("show", "item", "4")["set_aside"]
    (of_b,) = (one["skein"] for one in before if one["role"] == "B")
    lively_browser.presses(lively_browser.opens(f"/skein/{of_b}").form("/release"))
    left = lively.ask("show", "item", "4")["set_aside"]
    assert left == [one for one in before if one["role"] == "A"]


def test_what_is_to_be_done_stands_before_the_facts(browser: Browser) -> None:
    source = browser.opens("/skein/18?act=gone").source
    assert source.index('id="act"') < source.index('id="facts"')


def test_yarn_of_another_thickness_says_that_first_and_never_enough(
    browser: Browser, demo: Maker
) -> None:
    wrong = [use for use in demo.ask("ideas", "72")["designs"] if use["thickness_steps"]]
    assert wrong
    page = browser.opens("/yarn-ideas/72")
    verdicts = re.findall(r'<span class="verdict tight">.*?</svg>\s*(.*?)</span>', page.source)
    assert len(verdicts) >= len(wrong)
    assert not [one for one in verdicts if "nough" in one]
    assert sum("Wrong thickness: for" in one for one in verdicts) == len(wrong)
    said = demo.does("ideas", "72", "--all").out
    assert said.count("wrong thickness: for") == len(wrong)
