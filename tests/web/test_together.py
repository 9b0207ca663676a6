"""Several at one stash: no gram twice, and whoever is refused hears who was quicker."""

import random
import re
import threading
import time
from collections import Counter
from datetime import UTC, datetime, timedelta

import pytest
from commands import Maker
from pages import Browser, Page
from rooms import Room, a_room

from stash.measures.note import Note
from stash.stock.entry import Entry
from stash.web.meanwhile import ago

#: How long eight phones work at once: long enough for hundreds of presses.
SECONDS = 3.0
#: And so many turns each at least, however busy the machine is.
LEAST = 2


@pytest.fixture
def lively_room(lively: Maker) -> Room:
    with a_room(lively.file) as shared:
        yield shared


def test_whoever_is_too_late_for_a_set_hears_who_has_it_and_sees_the_new_list(
    lively_room: Room, lively: Maker
) -> None:
    phone = lively_room.phone("kitchen phone")
    old = lively_room.desk.opens("/").forms("/aside")[0]
    lots = {*re.findall(r"L\d+", old.fields["key"])}
    for lot in lively.ask("shelf"):
        for skein in lot["skeins"] if lot["lot_ref"] in lots else ():
            if skein["free_g"] > 1:
                form = phone.opens(f"/scale?skein={skein['number']}").form("/weigh")
                phone.presses(form, reading="1 g", **{"as": "recount"})
    refused = lively_room.desk.presses(old)
    assert 'role="alert"' in refused.source
    assert "A moment ago on kitchen phone: skein" in refused.text
    assert old.fields not in [form.fields for form in refused.forms("/aside")]
    keys = [form.fields["key"] for form in refused.forms("/aside")]
    able = [one for one in lively.ask("ideas")["designs"] if one["proposal"]]
    assert keys == [one["proposal"]["key"] for one in able[:3]], "the list is renewed"


def test_what_others_did_elsewhere_is_not_given_as_the_reason(
    lively_room: Room, lively: Maker
) -> None:
    """The set lacks yarn since this machine's own command; the phone touched another skein."""
    phone = lively_room.phone("kitchen phone")
    old = lively_room.desk.opens("/").forms("/aside")[0]
    lots = {*re.findall(r"L\d+", old.fields["key"])}
    shelf = lively.ask("shelf")
    other = next(lot["skeins"][0] for lot in shelf if lot["lot_ref"] not in lots)["number"]
    for lot in shelf:
        for skein in lot["skeins"] if lot["lot_ref"] in lots else ():
            if skein["free_g"] > 1:
                lively.does("gone", str(skein["number"]), "--why", "given")
    form = phone.opens(f"/scale?skein={other}").form("/weigh")
    phone.presses(form, reading="1 g", **{"as": "recount"})
    refused = lively_room.desk.presses(old)
    assert "A moment ago on this computer:" in refused.text
    assert "on kitchen phone" not in refused.text, (old.fields, refused.text)


def test_words_that_cannot_be_read_are_nobodys_fault(lively_room: Room, lively: Maker) -> None:
    phone = lively_room.phone("kitchen phone")
    form = lively_room.desk.opens("/").form("/weigh")
    phone.presses(phone.opens("/").form("/weigh"), skein="37", reading="20 g", **{"as": "opened"})
    refused = lively_room.desk.presses(form, skein="37", reading="7x1")
    assert 'role="alert"' in refused.source
    assert "kitchen phone" not in refused.text.split("Last:")[0]


@pytest.mark.parametrize(
    ("before", "words"),
    [
        (timedelta(seconds=10), "a moment ago"),
        (timedelta(minutes=12), "12 minutes ago"),
        (timedelta(minutes=59), "59 minutes ago"),
        (timedelta(days=40), r"\d+ [A-Z][a-z]+( \d{4})? at \d\d:\d\d"),
    ],
)
def test_when_something_was_done_is_said_as_people_say_it(before: timedelta, words: str) -> None:
    now = datetime.now(UTC)
    written = (now - before).isoformat(timespec="milliseconds")
    entry = Entry(1, (now - before).date(), written, "gone", Note("skein_gone"))
    assert re.fullmatch(words, ago(entry, now))


def test_an_open_page_hears_of_changes_in_one_line(room: Room, demo: Maker) -> None:
    phone = room.phone("kitchen phone")
    page = room.desk.opens("/record")
    (newest,) = re.findall(r'<body data-newest="(\d+)"', page.source)
    assert int(newest) == demo.entries()
    asked = f"/changed?since={newest}"
    assert room.desk.client.get(asked).json() == {"words": ""}
    phone.presses(phone.opens("/record?undo=6").form("/undo", entry="6"))
    words = room.desk.client.get(asked).json()["words"]
    assert words.startswith("Changed on kitchen phone: ")
    assert demo.ask("log")[0]["words"] in words
    demo.does("use", "36", "4g")
    assert room.desk.client.get(asked).json()["words"].endswith(", and 1 more")
    assert phone.client.get(asked).json()["words"].startswith("Changed on the computer: 4 g")


@pytest.mark.parametrize("since", ["", "-1", "x", "9" * 40, "7"])
def test_a_number_that_is_none_changes_nothing(room: Room, demo: Maker, since: str) -> None:
    answer = room.desk.client.get("/changed", params={"since": since})
    assert answer.status_code == 200
    assert demo.entries() == 6


# ---- eight at once -------------------------------------------------------------------------------


class Busy(Exception):
    """The page says that the file is in use, and to try again."""


class Worker(threading.Thread):
    """A phone that sets aside, releases, weighs and undoes, as fast as it is answered."""

    def __init__(self, phone: Browser, seed: int, until: float) -> None:
        super().__init__()
        self.phone, self.random, self.until = phone, random.Random(seed), until
        self.outcomes: Counter[str] = Counter()
        self.wrong: list[str] = []

    def run(self) -> None:
        acts = (self.sets_aside, self.sets_aside, self.releases, self.weighs, self.undoes)
        while time.monotonic() < self.until or self.outcomes.total() < LEAST:
            try:
                self.note(self.random.choice(acts)())
            except Busy:
                self.outcomes["asked to wait"] += 1
            except Exception as error:
                self.wrong.append(repr(error))
                return

    def looks(self, address: str) -> Page:
        page = self.phone.opens(address)
        if page.status == 503:
            assert "The file is in use Another program is writing" in page.text
            raise Busy
        return page

    def note(self, page: Page | None) -> None:
        if page is None:
            self.outcomes["nothing to press"] += 1
        elif page.status == 503:
            self.outcomes["saved or not, then asked to wait"] += 1
        elif page.status != 200:
            self.wrong.append(f"{page.status} {page.text[:200]}")
        else:
            self.outcomes["refused" if 'role="alert"' in page.source else "done"] += 1

    def sets_aside(self) -> Page | None:
        forms = self.looks("/").forms("/aside")
        return self.phone.presses(self.random.choice(forms)) if forms else None

    def releases(self) -> Page | None:
        listed = self.looks("/items").links.values()
        items = sorted({link for link in listed if re.fullmatch(r"/item/\d+", link)})
        forms = self.looks(self.random.choice(items)).forms("/release") if items else []
        return self.phone.presses(forms[0]) if forms else None

    def weighs(self) -> Page | None:
        form = self.looks("/").form("/weigh")
        skein, grams = self.random.randint(1, 129), self.random.randint(5, 60)
        return self.phone.presses(form, skein=str(skein), reading=f"{grams} g")

    def undoes(self) -> Page | None:
        forms = self.looks("/").forms("/undo")
        return self.phone.presses(forms[0]) if forms else None


def together(room: Room, seconds: float, phones: int = 8) -> Counter[str]:
    """So many phones for so long; what became of all they pressed."""
    paired = [room.phone(f"phone {n}") for n in range(phones)]
    until = time.monotonic() + seconds
    workers = [Worker(phone, seed, until) for seed, phone in enumerate(paired)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert [worker.wrong for worker in workers if worker.wrong] == []
    return sum((worker.outcomes for worker in workers), Counter())


def holds_true(maker: Maker) -> None:
    """The books balance, and nothing is promised that is not there."""
    assert maker.ask("check") == {"ok": True, "findings": []}
    for lot in maker.ask("shelf"):
        for skein in lot["skeins"]:
            free, aside = skein["free_g"] or 0, skein["set_aside_g"] or 0  # null: length alone
            assert free + aside == pytest.approx(skein["held_g"] or 0, abs=1e-6), skein
            assert min(free, aside) >= 0, skein


def test_eight_phones_at_once_promise_no_gram_twice(lively_room: Room, lively: Maker) -> None:
    outcomes = together(lively_room, SECONDS)
    assert outcomes["done"], outcomes
    holds_true(lively)
    devices = Counter(entry["device"] for entry in lively.ask("log", "--all"))
    written = sum(devices[f"phone {n}"] for n in range(8))
    unsure = outcomes["saved or not, then asked to wait"]
    assert outcomes["done"] <= written <= outcomes["done"] + unsure, (devices, outcomes)
