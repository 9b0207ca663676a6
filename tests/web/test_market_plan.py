"""A plan for a market on the page: every figure is the command's; nothing is written twice."""

import re
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from math import ceil, floor
from typing import Any
from urllib.parse import urlencode

import pytest
from commands import Maker
from pages import Browser, Page, at_the_page_of, unescaped

from stash.actions.batch import PlannedBatch, plan_batch
from stash.web import searches
from stash.web.screens import market_plan

BY = "2030-12-12"
#: Of each design: at least, at most, price, hours.
WANTS = {
    "Lane scarf": ("0", "2", "42", "5"),
    "Pebble cowl": ("0", "3", "34", "2"),
    "Thumbed mittens": ("0", "2", "26", "2"),
    "Tidewrack hat": ("2", "4", "28", "2.5"),
}
KEYS = ("at_least", "at_most", "price", "hours")


def ids(browser: Browser) -> dict[str, str]:
    """The number of each design, by its name."""
    source = browser.opens("/market/plan?hours=1").source
    found = re.findall(r'name="want-(\d+)".*?<strong>(.*?)</strong>', source, re.DOTALL)
    return {unescaped(name): number for number, name in found}


def address(browser: Browser, wants: dict[str, tuple[str, ...]], **more: str) -> str:
    """The address of a plan, as the form makes it."""
    number = ids(browser)
    fields = dict(more)
    for name, values in wants.items():
        fields[f"want-{number[name]}"] = "yes"
        fields |= {f"{key}-{number[name]}": value for key, value in zip(KEYS, values, strict=False)}
    return f"/market/plan/made?{urlencode(fields)}"


def found(browser: Browser, to: str) -> Page:
    """The plan, once it and what there is to buy are found."""
    end = time.monotonic() + 60
    while "data-look" in (page := browser.opens(to)).source:
        assert time.monotonic() < end, "no plan in a minute"
        time.sleep(0.05)
    return page


def typed(wants: dict[str, tuple[str, ...]]) -> list[str]:
    """The same for the command."""
    words = []
    for name, (least, most, price, hours) in wants.items():
        words += ["--want", f"{name}={least}-{most} at {price} in {hours}h"]
    return words


def cells(page: Page, name: str) -> list[str]:
    """What the cells of a class say."""
    each = re.findall(rf'<td class="(?:number )?{name}">(.*?)</td>', page.source, re.DOTALL)
    plain = (
        re.sub(r"<span class=\"silent\">.*?</span>|<svg.*?</svg>|<[^>]+>", " ", one) for one in each
    )
    return [" ".join(unescaped(one).split()) for one in plain]


def captions(page: Page) -> list[str]:
    """What stands under each item on the board."""
    each = re.findall(r'<span class="caption">(.*?)</span></li>', page.source, re.DOTALL)
    return [" ".join(unescaped(re.sub(r"<[^>]+>", " ", one)).split()) for one in each]


def test_every_figure_of_a_plan_is_that_of_the_command(
    lively_browser: Browser, lively: Maker
) -> None:
    told = lively.ask("batch", *typed(WANTS), "--hours", "22", "--by", BY)

    to = address(lively_browser, WANTS, hours="22", date=BY)
    page = found(lively_browser, f"{to}&all=yes")

    assert page.status == 200
    assert f"{told['items']} items" in page.text
    assert f"Brings in €{told['objective']:.2f}: no plan brings in more." in page.text
    assert told["gap"] == 0
    assert "12 December 2030" in page.text
    assert f"{told['hours']:g} h of 22" in page.text
    prices = {name: f"€{float(price):.2f}" for name, (_, _, price, _) in WANTS.items()}
    assert captions(page) == [
        f"{number}. {one['design']} {prices[one['design']]}"
        for number, one in sorted((n, one) for one in told["made"] for n in one["items"])
    ]
    by_place = sorted(told["skeins"], key=lambda s: (not s["place"], s["place"] or "", s["number"]))
    assert cells(page, "place") == [one["place"] or "not known" for one in by_place]
    assert [int(one.split()[1]) for one in cells(page, "skein")] == [s["number"] for s in by_place]
    for shown, one in zip(cells(page, "cuts"), by_place, strict=True):
        cuts = re.findall(r"(?:(\d+) x )?(\d+) m (\w+) for no\.", shown)
        metres = sum(int(times or 1) * int(length) for times, length, _ in cuts)
        exact = sum(cut["take_m"] for cut in one["cuts"])
        # each cut is rounded up by itself, the last one to what there is
        assert exact - 1 < metres < exact + len(one["cuts"])
        assert {role for _, _, role in cuts} == {cut["role"] for cut in one["cuts"]}
    for shown, one in zip(cells(page, "left"), by_place, strict=True):
        metres = 0 if shown == "used up" else int(shown.split()[0])
        # free is rounded down and cuts up, so what is left is at most a metre a cut below
        assert floor(one["left_m"]) - len(one["cuts"]) <= metres <= ceil(one["left_m"])
    for one in told["not_made"]:
        assert f"{one['count']} x {one['design']}: " in page.text
    for note in {note for made in told["made"] for note in made["notes"]} | set(told["notes"]):
        assert note in page.text


def test_a_form_without_scripts_leads_to_a_clean_address(lively_browser: Browser) -> None:
    form = lively_browser.opens("/market/plan").form("/market/plan/made")
    ticked = [name for name in form.fields if name.startswith("want-")]
    assert len(ticked) == 3, "three to start from"

    page = lively_browser.presses(form, hours="6", **{f"price-{ticked[0][5:]}": "20"})

    assert page.status == 200
    assert "hours=6" in page.address
    assert not re.search(r"=(&|$)", page.address)
    again = lively_browser.opens(page.links["Change the plan"]).form("/market/plan/made")
    assert again.fields["hours"] == "6"
    assert again.fields[f"price-{ticked[0][5:]}"] == "20"
    assert sorted(n for n in again.fields if n.startswith("want-")) == sorted(ticked)


def test_limits_and_yarn_mean_what_the_options_mean(lively_browser: Browser, lively: Maker) -> None:
    options = ("--per-pair", "2", "--different", "3", "--keep-out", "37", "--hold-back", "10%")
    yarn = ("--without", "mohair", "--contrast", "clear")
    told = lively.ask("batch", *typed(WANTS), "--aim", "items, leftovers", *options, *yarn)

    fields = {
        "aim": "items", "then": "leftovers", "per_pair": "2", "different": "3",
        "keep_out": "no. 37", "hold_back": "10%", "yarn_without": "mohair",
        "yarn_contrast": "clear",
    }  # fmt: skip
    page = found(lively_browser, f"{address(lively_browser, WANTS, **fields)}&all=yes")

    assert len(captions(page)) == told["items"]
    made = sorted((n, one["design"]) for one in told["made"] for n in one["items"])
    assert [re.sub(r"^\d+\. | €.*", "", one) for one in captions(page)] == [d for _, d in made]
    shown = sorted(int(one.split()[1]) for one in cells(page, "skein"))
    assert shown == sorted(s["number"] for s in told["skeins"])
    assert 37 not in shown
    assert f"Makes {told['objective']} items" in page.text


def test_what_an_item_costs_is_what_cost_says_of_it(lively_browser: Browser, lively: Maker) -> None:
    lively.does("settings", "wage", "8")
    page = found(lively_browser, address(lively_browser, WANTS, hours="22"))
    rows = re.findall(
        r"<tr(?: class=.with-more.)?><td>([^<]+)</td>(.*?)</tr>", page.source.split("Price list")[1]
    )
    shown = {
        unescaped(name): [float(one) for one in re.findall(r"€(\d+\.\d\d)", rest)]
        for name, rest in rows
    }

    lively.does("batch", *typed(WANTS), "--hours", "22", "--aside-now")
    items = [one for one in lively.ask("items", "--open") if one["asked"] is not None]
    assert shown.keys() == {one["design"] for one in items}
    costs: dict[str, list[Any]] = {}
    for one in sorted(items, key=lambda one: one["number"]):
        lively.does("done", str(one["number"]), "--as-planned")
    for one in items:
        costs.setdefault(one["design"], []).append(lively.ask("cost", str(one["number"])))
    for name, each in costs.items():
        dearest = max(each, key=lambda one: one["yarn_coins"])
        yarn, least, price = shown[name]
        assert round(100 * yarn) == dearest["yarn_coins"], name
        assert round(100 * least) == dearest["wanted"]["price_coins"], name
        assert price == float(WANTS[name][2])
        # Of the price, what is left of yarn and sundries goes to the hours (no fees, no overhead).
        left = price - dearest["materials_coins"] / 100
        an_hour = floor(100 * left / float(WANTS[name][3])) / 100
        assert re.search(rf"earns (at most )?€{an_hour:.2f} an hour", page.text)


def test_the_shopping_list_is_that_of_short(lively_browser: Browser, lively: Maker) -> None:
    wants = {"Lane scarf": ("0", "9", "42", "5")}
    told = lively.ask("short", "--want", "Lane scarf=0-9 at 42 in 5h")
    assert told["buy"], "nothing is missing: the example is too small"

    page = found(lively_browser, address(lively_browser, wants))

    for lot in told["buy"]:
        assert lot["yarn"] in page.text
        assert f"€{lot['cost_coins'] / 100:.2f}" in page.text
        for one in lot["for"]:
            assert f"{one['role']} of {one['count']} x" in page.text or one["count"] == 1


@pytest.fixture
def planned(lively_browser: Browser) -> Page:
    return found(lively_browser, address(lively_browser, WANTS, hours="22", date=BY))


def test_all_is_set_aside_in_one_entry_and_undone_in_one_press(
    lively_browser: Browser, lively: Maker, planned: Page
) -> None:
    before, free = len(lively.ask("log")), lively.ask("shelf")
    page = lively_browser.presses(planned.form("/market/plan/aside"))

    assert len(lively.ask("log")) == before + 1
    made = [one for one in lively.ask("items", "--open") if one["asked"] is not None]
    assert f"Set aside for {len(made)} items" in page.text
    assert f"items {made[0]['number']} to {made[-1]['number']}" in page.text
    assert "Set all aside" not in page.text
    pick = lively_browser.opens(page.links["List to pick"])
    for one in made:
        assert f"of {one['number']}" in pick.text

    lively_browser.presses(page.form("/undo"))

    assert lively.ask("shelf") == free
    assert lively.ask("check")["ok"]


def test_a_second_press_changes_nothing(
    lively_browser: Browser, lively: Maker, planned: Page
) -> None:
    form = planned.form("/market/plan/aside")
    lively_browser.presses(form)
    entries = lively.ask("log")
    page = lively_browser.presses(form)
    assert "the second press changed nothing" in page.text
    assert lively.ask("log") == entries


def test_another_tab_sets_nothing_aside_twice(
    lively_browser: Browser, lively: Maker, planned: Page
) -> None:
    other = found(lively_browser, planned.address)
    lively_browser.presses(planned.form("/market/plan/aside"))
    entries = lively.ask("log")
    page = lively_browser.presses(other.form("/market/plan/aside"))
    assert "the shelf has changed since this plan" in page.text.lower()
    assert lively.ask("log") == entries


def test_a_changed_shelf_is_said_and_planned_anew(
    lively_browser: Browser, lively: Maker, planned: Page
) -> None:
    skein = int(cells(planned, "skein")[0].split()[1])
    lively.does("gone", f"{skein}", "--why", "given")
    entries = lively.ask("log")

    refused = lively_browser.presses(planned.form("/market/plan/aside"))
    assert "has changed since this plan" in refused.text
    assert f"skein {skein}" in refused.text.lower()
    assert lively.ask("log") == entries

    page = found(lively_browser, planned.address)
    assert "The shelf changed since this plan." in page.text
    assert page.forms("/market/plan/aside") == []
    again = lively_browser.presses(page.form("/market/plan/made"), again="yes")
    again = found(lively_browser, again.address)
    assert "The shelf changed" not in again.text
    told = lively.ask("batch", *typed(WANTS), "--hours", "22", "--by", BY)
    assert f"Brings in €{told['objective']:.2f}" in again.text


def test_a_plan_of_the_page_is_booked_by_the_command(
    lively_browser: Browser, lively: Maker, planned: Page
) -> None:
    answer = lively_browser.client.get(planned.links["Keep this plan in a file"])
    assert f'filename="market-{BY}.json"' in answer.headers["content-disposition"]
    file = lively.file.with_name("kept.json")
    file.write_bytes(answer.content)
    made = lively.ask("batch", "--aside", str(file))
    assert [one["design"] for one in made["items"]] == [
        re.sub(r"^\d+\. | €.*", "", one) for one in captions(planned)
    ]


def test_a_plan_of_the_command_is_set_aside_at_the_page(
    lively_browser: Browser, lively: Maker
) -> None:
    file = lively.file.with_name("kept.json")
    lively.does("batch", *typed(WANTS), "--save", str(file))
    form = lively_browser.opens("/market/plan").form("/market/plan/kept")
    page = lively_browser.presses(form, files={"file": ("kept.json", file.read_bytes())})
    assert "Set aside for" in page.text
    assert page.address.split("/")[3] == "pick"
    assert lively.ask("check")["ok"]


@pytest.mark.parametrize("data", [b"", b"{}", b'{"kind": "stash batch"', b"\xff\xfe<script>"])
def test_a_file_that_is_no_plan_is_refused(
    lively_browser: Browser, lively: Maker, data: bytes
) -> None:
    entries = lively.ask("log")
    form = lively_browser.opens("/market/plan").form("/market/plan/kept")
    page = lively_browser.presses(form, files={"file": ("<b>x.json", data)})
    assert 'role="alert"' in page.source
    assert "<b>x" not in page.source
    assert lively.ask("log") == entries


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"date": "2001-01-01"}, "Market day"),
        ({"hours": "many"}, "Hours there are"),
        ({"hours_a_week": "8"}, "Say the market's day"),
        ({"hold_back": "lots"}, "hold back"),
        ({"per_pair": "-1"}, "same yarns"),
        ({"keep_out": "no. 99999"}, "99999"),
        ({"keep_out": "<script>alert(1)</script>"}, "alert(1)"),
        ({"yarn_margin": "a little"}, "a little"),
        ({"aim": "riches"}, "riches"),
        ({"mix_family-1": "red", "mix_at_least-1": "1", "mix_at_most-1": "50%"}, "%"),
    ],
)
def test_what_cannot_be_read_is_said_where_it_was_typed(
    lively_browser: Browser, fields: dict[str, str], says: str
) -> None:
    page = lively_browser.opens(address(lively_browser, WANTS, **fields))
    if "data-look" in page.source:  # read well; the shelf says no
        page = found(lively_browser, page.address)
    alert = page.source.split('role="alert"')[1].split("</div>")[0]
    assert says.lower() in unescaped(alert).lower()
    assert "--" not in alert
    assert "`" not in alert
    assert "<script>alert" not in page.source
    form = page.form("/market/plan/made")
    for name, value in fields.items():
        if name != "aim":
            assert form.fields[name] == value
    assert sum(name.startswith("want-") for name in form.fields) == len(WANTS)


def test_at_most_below_at_least_names_the_design(lively_browser: Browser) -> None:
    page = lively_browser.opens(address(lively_browser, {"Pebble cowl": ("3", "2", "34", "2")}))
    assert "Pebble cowl, at most: 2 is less than at least 3" in page.text


def test_nothing_ticked_is_asked_for(lively_browser: Browser) -> None:
    page = lively_browser.opens("/market/plan/made?hours=8")
    assert "What do you want to make?" in page.text
    assert page.form("/market/plan/made").fields["hours"] == "8"


def test_too_few_hours_and_too_little_yarn_are_said(lively_browser: Browser) -> None:
    page = found(lively_browser, address(lively_browser, WANTS, hours="0.5"))
    assert "None fit in the 30 min: the quickest takes 2 h" in page.text
    assert page.forms("/market/plan/aside") == []
    blanket = {"Garden blanket": ("1", "40", "60", "9")}
    page = found(lively_browser, address(lively_browser, blanket))
    assert "Shopping list" in page.text
    assert "`" not in page.text


def test_an_order_comes_first_and_can_be_left_out(lively_browser: Browser, lively: Maker) -> None:
    lively.does("order", "add", "a <b>neighbour", "Tidewrack hat", "--by", BY, "--price", "32")
    told = lively.ask("batch", *typed(WANTS), "--hours", "22")
    first = next(one for one in told["made"] if one["order"])

    page = found(lively_browser, address(lively_browser, WANTS, hours="22"))

    assert "a <b>neighbour" in page.text
    assert f"{first['items'][0]}. Tidewrack hat €32.00 order 1" in captions(page)
    assert len(captions(page)) == told["items"]
    page = found(lively_browser, address(lively_browser, WANTS, hours="22", no_orders="yes"))
    assert "<h2>Orders</h2>" not in page.source
    alone = lively.ask("batch", *typed(WANTS), "--hours", "22", "--no-orders")
    assert len(captions(page)) == alone["items"]


def test_an_order_that_cannot_be_met_says_what_it_lacks(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("order", "add", "a shop", "Garden blanket", "--by", BY, "--count", "60")
    told = lively.ask("batch", *typed(WANTS))
    (lack,) = [one for one in told["unmet"] if one.get("order")]
    page = found(lively_browser, address(lively_browser, WANTS))
    assert "cannot be met" in page.text
    assert f"{lack['count']} of 60 short" in page.text


def test_yards_and_dollars_are_shown_where_they_are_hers(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 3 x 50g/120m, navy, lot 48213")
    nobody.does("settings", "units", "us")
    nobody.does("settings", "currency", "USD")
    nobody.does("design", "add", "Hat", "--stated", "A=100yd", "--thickness", "DK")
    told = nobody.ask("batch", "--want", "Hat=0-9 at 28 in 2h", "--hours", "5")
    (browser,) = [*_browsing(nobody)]

    page = found(browser, address(browser, {"Hat": ("0", "9", "28", "2")}, hours="5"))

    assert f"Brings in ${told['objective']:.2f}" in page.text
    assert re.search(r"\d+ yd A for no\. ", page.text)
    assert not re.search(r"\d m A for no\.", page.text)
    assert "€" not in page.text


NAMES = ["<script>alert(1)</script>", "عربي‮مقلوب", "🧶 & \"quotes\" 'n' all", "n" * 200]


def test_hostile_names_are_only_text(lively: Maker) -> None:
    for name in NAMES:
        lively.does("design", "copy", "Tidewrack hat", name)
    (browser,) = [*_browsing(lively)]
    number = ids(browser)
    known = [name for name in number if name not in WANTS and number[name] > number["Lane scarf"]]
    assert len(known) >= len(NAMES)
    wants = dict.fromkeys(known[: len(NAMES)], ("0", "1", "5", "1"))
    page = found(browser, address(browser, wants))
    assert page.status == 200
    assert "<script>alert" not in page.source
    assert "<script>alert" not in browser.opens("/market/plan").source
    lists = browser.opens(page.links["Print lists"])
    assert lists.status == 200
    assert "<script>alert" not in lists.source


def _browsing(maker: Maker) -> Iterator[Browser]:
    return at_the_page_of(maker.file)


def test_without_designs_one_can_be_begun(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 3 x 50g/120m, navy, lot 48213")
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/market/plan")
        assert "No designs yet" in page.text
        assert page.links["Begin a design"] == "/designs"
        assert "What do you want to make?" in browser.opens("/market/plan/made?hours=3").text


def test_designs_with_a_price_are_ticked_first(lively_browser: Browser, lively: Maker) -> None:
    lively.does("batch", "--want", "Ridge headband=1 at 14.50 in 1h", "--aside-now")
    page = lively_browser.opens("/market/plan")
    form, number = page.form("/market/plan/made"), ids(lively_browser)["Ridge headband"]
    assert form.fields[f"want-{number}"] == "yes"
    assert form.fields[f"price-{number}"] == "14.50"
    first = re.search(r'name="want-(\d+)"', page.source)
    assert first is not None
    assert first[1] == number


def test_lists_to_print_say_what_the_plan_says(lively_browser: Browser, planned: Page) -> None:
    to = planned.address.replace("http://127.0.0.1:8000", "")
    page = found(lively_browser, f"{to}&all=yes")
    lists = lively_browser.opens(planned.links["Print lists"])
    for number in [one.split()[1] for one in cells(page, "skein")]:
        assert f"no. {number}" in lists.text
    for words in cells(page, "cuts"):
        assert words in lists.text
    assert f"for {len(captions(planned))} items" in lists.text
    assert "earns" not in lists.text, "a list for the stall says nothing of wages"


# while it searches


@dataclass(slots=True)
class Held:
    """A planner that goes on, with a plan found, until it may end or is stopped."""

    go_on: threading.Event = field(default_factory=threading.Event)
    begun: list[Any] = field(default_factory=list)
    stopped: list[Any] = field(default_factory=list)

    def plan(self, book: Any, asked: Any, stop: Callable[[], bool], *heard: Any) -> PlannedBatch:
        self.begun.append(asked)
        plan = plan_batch(book, asked, lambda: False, *heard)
        while not self.go_on.is_set():
            if stop():
                self.stopped.append(asked)
                return replace(plan, batch=replace(plan.batch, finished=False))
            time.sleep(0.005)
        return plan


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Held]:
    planner = Held()
    monkeypatch.setattr(market_plan, "plan_batch", planner.plan)
    yield planner
    planner.go_on.set()


def so_far(browser: Browser, to: str) -> Page:
    """The page once there is a plan to take."""
    end = time.monotonic() + 30
    while "Best so far" not in (page := browser.opens(to)).text:
        assert time.monotonic() < end, page.text
        time.sleep(0.05)
    return page


def test_the_best_so_far_is_shown_and_can_be_taken(
    lively_browser: Browser, lively: Maker, held: Held
) -> None:
    to = address(lively_browser, WANTS, hours="22")
    page = so_far(lively_browser, to)
    assert "http-equiv" in page.source, "without scripts the page asks again by itself"
    assert captions(page)
    assert page.forms("/market/plan/aside") == []

    taken = lively_browser.presses(page.form("/market/plan/made"), take="yes")
    taken = found(lively_browser, taken.address)

    assert "stopped early; this is the best plan so far" in taken.text.lower()
    assert "http-equiv" not in taken.source
    lively_browser.presses(taken.form("/market/plan/aside"))
    assert lively.ask("check")["ok"]
    assert sum(one["asked"] is not None for one in lively.ask("items", "--open"))


def test_one_question_is_searched_once_and_others_beside_it(
    lively_browser: Browser, held: Held
) -> None:
    to = address(lively_browser, WANTS, hours="22")
    other = address(lively_browser, {"Pebble cowl": ("0", "1", "34", "2")})
    for _ in range(3):
        lively_browser.opens(to)
    lively_browser.opens(other)
    held.go_on.set()
    assert captions(found(lively_browser, to))
    assert len(captions(found(lively_browser, other))) == 1
    assert len(held.begun) == 2


def test_a_search_that_was_left_ends_by_itself_and_is_begun_anew(
    lively_browser: Browser, held: Held, monkeypatch: pytest.MonkeyPatch
) -> None:
    to = address(lively_browser, WANTS, hours="22")
    so_far(lively_browser, to)
    monkeypatch.setattr(searches, "PATIENCE_S", 0.0)
    end = time.monotonic() + 30
    while not held.stopped:
        assert time.monotonic() < end, "it goes on though nobody asks"
        time.sleep(0.01)
    monkeypatch.setattr(searches, "PATIENCE_S", 60.0)
    held.go_on.set()
    page = found(lively_browser, to)
    assert len(held.begun) == 2
    assert "stopped early" not in page.text.lower()


def test_the_file_can_be_written_while_a_plan_is_looked_for(
    lively_browser: Browser, lively: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Held in the planner itself, where the books have been read already."""
    import stash.actions.batch as action

    inside, go_on, planned = threading.Event(), threading.Event(), action.planned

    def waits(*asked: Any, **more: Any) -> Any:
        inside.set()
        assert go_on.wait(60)
        return planned(*asked, **more)

    monkeypatch.setattr(action, "planned", waits)
    try:
        lively_browser.opens(address(lively_browser, WANTS, hours="22"))
        assert inside.wait(30)
        assert lively_browser.opens("/shelf").status == 200
        lively.does("weigh", "25", "60g")
    finally:
        go_on.set()


def test_a_search_stopped_before_it_had_a_plan_can_be_gone_on_with(
    lively_browser: Browser,
) -> None:
    """Taken in an address before there is anything: what is planned then is what is simplest."""
    to = address(lively_browser, WANTS, hours="22")
    page = found(lively_browser, lively_browser.opens(f"{to}&take=yes").address)
    assert "Set all aside" in page.text or "No plan yet; keep looking" in page.text
    if "stopped early" in page.text.lower():
        again = lively_browser.presses(page.form("/market/plan/made"), again="yes")
        page = found(lively_browser, again.address)
    assert "no plan brings in more" in page.text
    assert "`" not in page.text
