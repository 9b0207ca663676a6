"""The page shared with phones in the room: pairing, what a phone may do, and putting it out."""

import pytest
from commands import Maker
from pages import Form, Page
from rooms import IN_THE_ROOM, NAMED, Room, a_room

from stash.web.sharing import GOOD_FOR, MOST_WRONG, TRIES, WITHIN


def wrong(code: str) -> str:
    """Another six digits."""
    return f"{(int(code.replace(' ', '')) + 1) % 10**6:06}"


def tries(room: Room, code: str, name: str = "kitchen phone", address: str = "192.0.2.30") -> str:
    phone = room.stranger(address=address)
    return phone.presses(phone.opens("/pair").form("/pair"), code=code, name=name).text


# ---- before pairing ------------------------------------------------------------------------------

EVERYWHERE = (
    *("/", "/record", "/record?undo=6", "/item/1", "/scale", "/market", "/share", "/changed"),
    *("/pairs", "/pairing", "/pair/", "/first", "/tags", "/nowhere", "//record", "/static"),
)


@pytest.mark.parametrize("path", EVERYWHERE)
@pytest.mark.parametrize("host", [IN_THE_ROOM, NAMED])
def test_a_phone_that_is_not_paired_sees_the_page_for_pairing_alone(
    room: Room, path: str, host: str
) -> None:
    answer = room.stranger(host).client.get(path, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/pair")
    assert answer.text == ""


def test_the_page_for_pairing_has_nothing_of_the_workshop(room: Room) -> None:
    page = room.stranger().opens("/pair")
    assert page.status == 200
    assert page.links == {}
    assert "Tidewrack" not in page.source
    for told in ("/static/nope", "/static/../record", "/static/%2e%2e/record"):
        answer = room.stranger().opens(told)
        assert "Tidewrack" not in answer.source
        assert answer.status in (200, 404)


@pytest.mark.parametrize("path", ["/undo", "/share/code", "/share/unpair", "/record"])
def test_a_phone_that_is_not_paired_writes_nothing(room: Room, demo: Maker, path: str) -> None:
    fields = room.desk.opens("/record").form("/undo", entry="6").fields
    origin = {"origin": f"http://{IN_THE_ROOM}"}
    answer = room.stranger().client.post(path, data=fields, headers=origin)
    assert answer.status_code == 403
    assert demo.entries() == 6


def test_more_than_a_code_and_a_name_is_not_read_of_it(room: Room) -> None:
    fields = {"code": "1", "name": "x" * 5000}
    origin = {"origin": f"http://{IN_THE_ROOM}"}
    assert room.stranger().client.post("/pair", data=fields, headers=origin).status_code == 413


@pytest.mark.parametrize("host", ["127.0.0.1:8000", "localhost:8000", "stranger.example", ""])
def test_nobody_in_the_room_comes_in_by_a_name_of_this_machine(room: Room, host: str) -> None:
    room.client("127.0.0.1:8000", "127.0.0.1")
    for told in ({}, {"x-forwarded-for": "127.0.0.1"}, {"forwarded": "for=127.0.0.1"}):
        page = room.stranger().opens("/record", host=host, **told)
        assert page.status == 403
        assert "Tidewrack" not in page.source


def test_this_machine_is_paired_too_by_a_name_that_others_can_claim(room: Room) -> None:
    """Names ending in .local are answered by whoever answers first (RFC 6762)."""
    page = room.stranger(NAMED, "127.0.0.1").opens("/record")
    assert page.address.endswith("/pair")


def test_a_page_that_is_not_shared_answers_to_no_name_in_the_room(demo: Maker) -> None:
    from pages import at_the_page_of

    for browser in at_the_page_of(demo.file):
        assert browser.opens("/record", host=IN_THE_ROOM).status == 403
        off = browser.opens("/share")
        assert "stash serve --share" in off.text
        assert off.forms("/share/code") == []
        assert browser.opens("/pair").status == 404


# ---- pairing -------------------------------------------------------------------------------------


def test_a_phone_is_paired_by_the_code_that_the_computer_shows(room: Room) -> None:
    phone = room.phone("kitchen phone")
    assert phone.opens("/record").status == 200
    assert "kitchen phone may change things · here now" in room.desk.opens("/share").text


def test_the_cookie_is_for_this_page_alone_and_ends_with_the_session(room: Room) -> None:
    """OWASP's session management: no script reads it, no other site sends it."""
    phone = room.stranger()
    form = phone.opens("/pair").form("/pair")
    answer = phone.client.post(
        "/pair",
        data={**form.fields, "code": room.code(), "name": "stall phone"},
        headers={"origin": phone.origin},
        follow_redirects=False,
    )
    cookie = answer.headers["set-cookie"]
    parts = {part.strip().lower() for part in cookie.split(";")[1:]}
    assert {"httponly", "samesite=strict", "path=/"} == parts
    value = cookie.split(";")[0].split("=", 1)[1]
    assert len(value) >= 128 / 6, "128 bits at six a letter"
    assert value not in repr(room.sharing), "only its digest is kept"


def test_a_code_pairs_one_phone(room: Room) -> None:
    code = room.code()
    assert "Not done" not in tries(room, code, "kitchen phone")
    assert "No code is good just now" in tries(room, code, "stall phone")
    assert [phone.name for phone in room.sharing.paired()] == ["kitchen phone"]


def test_a_code_is_good_for_five_minutes(room: Room) -> None:
    assert GOOD_FOR.total_seconds() == 300
    code = room.code()
    room.clock.go_on(seconds=300)
    assert "No code is good just now" in tries(room, code)
    assert room.code() != code
    room.clock.go_on(seconds=299)
    tries(room, room.code())
    assert len(room.sharing.paired()) == 1


def test_the_fifth_wrong_try_uses_the_code_up_whichever_phone_makes_it(room: Room) -> None:
    code = room.code()
    said = [tries(room, wrong(code), address=f"192.0.2.{30 + n}") for n in range(TRIES)]
    assert "4 tries left" in said[0]
    assert "1 try left" in said[3]
    assert "No code is good just now" in said[4]
    assert "No code is good just now" in tries(room, code), "the right one comes too late"
    assert room.sharing.paired() == []
    tries(room, room.code())
    assert len(room.sharing.paired()) == 1


def test_after_ten_wrong_ones_no_code_is_tried_for_ten_minutes(room: Room) -> None:
    assert MOST_WRONG == 10
    for _ in range(2):
        code = room.code()
        for n in range(TRIES):
            tries(room, wrong(code), address=f"192.0.2.{30 + n}")
    assert "Too many wrong codes" in tries(room, room.code())
    room.clock.go_on(seconds=WITHIN.total_seconds())
    tries(room, room.code())
    assert len(room.sharing.paired()) == 1


def test_a_new_code_asked_for_on_the_computer_lets_her_go_on_at_once(room: Room) -> None:
    for _ in range(2):
        code = room.code()
        for _ in range(TRIES):
            tries(room, wrong(code))
    room.phone("kitchen phone")
    assert len(room.sharing.paired()) == 1


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("", "give this phone a name"),
        ("\u200b \n", "give this phone a name"),
        ("Kitchen  PHONE", "there is a Kitchen PHONE already"),
        ("this computer", "there is a this computer already"),
    ],
)
def test_a_name_is_asked_for_that_is_not_taken(room: Room, name: str, said: str) -> None:
    room.phone("kitchen phone")
    code = room.code()
    assert said.lower() in tries(room, code, name).lower()
    assert room.code() == code, "the right code is not used up by it"
    assert len(room.sharing.paired()) == 1


def test_who_is_paired_is_not_said_to_whoever_does_not_know_the_code(room: Room) -> None:
    room.phone("kitchen phone")
    assert "already" not in tries(room, wrong(room.code()), "kitchen phone")


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", "\u202ekaolb", "x" * 500, "🧶 ‘a’"])
def test_a_name_however_odd_is_shown_as_a_name(room: Room, demo: Maker, name: str) -> None:
    phone = room.phone(name)
    phone.presses(phone.opens("/record?undo=6").form("/undo", entry="6"))
    kept = demo.ask("log")[0]["device"]
    assert 0 < len(kept) <= 40
    assert kept in name
    for page in (room.desk.opens("/record"), room.desk.opens("/share"), phone.opens("/record")):
        assert "<script>alert" not in page.source
    assert "\u202e" not in kept


# ---- renaming ------------------------------------------------------------------------------------


def renamed(room: Room, name: str, number: str = "1") -> Page:
    asked = room.desk.opens(f"/share?rename={number}")
    return room.desk.presses(asked.form("/share/rename", phone=number), name=name)


def test_a_phone_is_renamed_in_place_and_what_it_wrote_keeps_the_old_name(
    room: Room, demo: Maker
) -> None:
    phone = room.phone("kitchen phone")
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="20 g", **{"as": "opened"})
    done = renamed(room, "  stall   phone ")
    assert "It is called stall phone now" in done.text
    assert "stall phone may change things · here now; last: skein 37 weighed" in done.text
    assert "You are on stall phone" in phone.opens("/share").text
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="15 g")
    newest, before, *_ = demo.ask("log")
    assert (newest["device"], before["device"]) == ("stall phone", "kitchen phone")
    for name, number in (("stall phone", 8), ("kitchen phone", 7)):
        assert [one["number"] for one in demo.ask("log", "--device", name)] == [number]


def test_undo_in_the_bar_of_a_renamed_phone_is_still_of_what_it_did(
    room: Room, demo: Maker
) -> None:
    phone = room.phone("kitchen phone")
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="20 g", **{"as": "opened"})
    demo.does("use", "36", "4g")
    renamed(room, "stall phone")
    assert phone.opens("/").form("/undo").fields["entry"] == "7"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("", "give this phone a name"),
        ("Stall PHONE", "there is a stall phone already"),
        ("this computer", "there is a this computer already"),
        ("old name", "there is a old name already"),
    ],
)
def test_a_new_name_is_one_that_no_other_phone_has_or_had(room: Room, name: str, said: str) -> None:
    room.phone("kitchen phone")
    room.phone("old name")
    renamed(room, "stall phone", "2")
    refused = renamed(room, name)
    assert said in refused.text.lower()
    assert refused.form("/share/rename").fields["name"] == name, "what was typed stands there"
    assert [one.name for one in room.sharing.paired()] == ["kitchen phone", "stall phone"]


def test_a_phone_has_its_old_name_back(room: Room) -> None:
    room.phone("kitchen phone")
    renamed(room, "stall phone")
    renamed(room, "Kitchen phone")
    renamed(room, "kitchen phone")
    assert [one.name for one in room.sharing.paired()] == ["kitchen phone"]


def test_a_phone_that_is_out_is_renamed_no_more(room: Room) -> None:
    room.phone("kitchen phone")
    form = room.desk.opens("/share?rename=1").form("/share/rename")
    room.sharing.unpair(1)
    refused = room.desk.presses(form, name="stall phone")
    assert 'role="alert"' in refused.source
    assert room.sharing.paired() == []


# ---- what a phone may do -------------------------------------------------------------------------


def test_what_a_phone_wrote_keeps_its_name(room: Room, demo: Maker) -> None:
    phone = room.phone("kitchen phone")
    asked = phone.opens("/record?undo=6")
    phone.presses(asked.form("/undo", entry="6"))
    newest, before, *_ = demo.ask("log")
    assert (newest["takes_back"], newest["device"], before["device"]) == (6, "kitchen phone", "")
    assert "kitchen phone" in room.desk.opens("/record").text
    assert "the computer" in phone.opens("/record").text
    assert "this phone" in phone.opens("/record").text


def test_undo_in_the_bar_is_of_what_this_device_did(room: Room, demo: Maker) -> None:
    phone = room.phone("kitchen phone")
    assert "Last:" not in phone.opens("/record").text
    demo.does("use", "36", "4g")
    ours = demo.ask("log")[0]["number"]
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="20 g", **{"as": "opened"})
    theirs = demo.ask("log")[0]
    assert theirs["device"] == "kitchen phone"
    assert phone.opens("/").form("/undo").fields["entry"] == str(theirs["number"])
    assert room.desk.opens("/").form("/undo").fields["entry"] == str(ours)


def test_who_may_only_look_is_refused_whatever_is_pressed(room: Room, demo: Maker) -> None:
    phone = room.phone("stall phone", may="look")
    asked = phone.opens("/record?undo=6")
    refused = phone.presses(asked.form("/undo", entry="6"))
    assert "This phone may only look" in refused.text
    assert refused.address.split("&said")[0].endswith("/record?undo=6"), "where it was pressed"
    assert demo.entries() == 6


def test_who_may_only_look_puts_nothing_in(room: Room, demo: Maker) -> None:
    from stash.web.screens import FORMS

    phone = room.phone("stall phone", may="look")
    sheet = {"sheet": ("a.csv", b"yarn,colour\nFell,blue\n", "text/csv")}
    for address in FORMS:
        answer = phone.client.post(
            address.replace("{number:int}", "2"),
            data={"token": "x", "back": "/"},
            files=sheet,
            headers={"origin": phone.origin},
        )
        assert "This phone may only look" in answer.text, address
    assert demo.entries() == 6


def test_a_phone_never_sees_the_code_nor_pairs_or_unpairs(room: Room) -> None:
    """Else one that may only look would pair itself anew."""
    phone = room.phone("stall phone")
    code = room.code()
    page = phone.opens("/share")
    assert code not in page.source
    addresses = ("/share/code", "/share/rename", "/share/unpair")
    assert [form for address in addresses for form in page.forms(address)] == []
    form = phone.opens("/record?undo=6").form("/undo", entry="6").fields
    for address in addresses:
        answer = phone.client.post(
            address, data={**form, "phone": "1", "may": "change"}, headers={"origin": phone.origin}
        )
        assert "on the computer alone" in answer.text
    assert room.code() == code
    assert len(room.sharing.paired()) == 1


@pytest.mark.parametrize("origin", ["http://127.0.0.1:8000", f"http://{NAMED}", "null", ""])
def test_a_form_of_another_name_writes_nothing(room: Room, demo: Maker, origin: str) -> None:
    phone = room.phone("kitchen phone")
    fields = phone.opens("/record?undo=6").form("/undo", entry="6").fields
    answer = phone.client.post("/undo", data=fields, headers={"origin": origin})
    assert answer.status_code == 403
    assert demo.entries() == 6


# ---- putting a phone out -------------------------------------------------------------------------


def test_unpairing_asks_in_place_and_the_phone_is_out_at_once(room: Room, demo: Maker) -> None:
    phone = room.phone("kitchen phone")
    open_there = phone.opens("/record?undo=6").form("/undo", entry="6")
    asked = room.desk.opens("/share?unpair=1")
    assert "Unpair kitchen phone?" in asked.text
    done = room.desk.presses(asked.form("/share/unpair", phone="1"))
    assert "Unpaired: kitchen phone. It is out; what it wrote stays." in done.text
    assert "No phone yet" in done.text
    refused = phone.client.post("/undo", data=open_there.fields, headers={"origin": phone.origin})
    assert refused.status_code == 403
    assert phone.opens("/record").address.endswith("/pair")
    assert demo.entries() == 6


def test_a_stolen_cookie_of_a_phone_that_is_out_opens_nothing(room: Room) -> None:
    phone = room.phone("kitchen phone")
    thief = room.stranger(address="192.0.2.66")
    thief.client.cookies.update(phone.client.cookies)
    assert thief.opens("/record").status == 200, "while it is paired anyone with it may come in"
    room.desk.presses(room.desk.opens("/share?unpair=1").form("/share/unpair", phone="1"))
    assert thief.opens("/record").address.endswith("/pair")
    room.phone("kitchen phone")
    assert thief.opens("/record").address.endswith("/pair"), "nor by the same name paired anew"


def test_what_a_phone_began_before_it_was_put_out_writes_nothing(room: Room, demo: Maker) -> None:
    """It waits while something else is written, and is unpaired meanwhile."""
    from stash.web.app import _pressed
    from stash.web.screens.record import undo_entry
    from stash.web.visit import Visit
    from stash.web.workshop import Workshop

    phone = room.phone("kitchen phone")
    (device,) = room.sharing.paired()
    fields = phone.opens("/record?undo=6").form("/undo", entry="6").fields
    waiting = Visit(Workshop(demo.file, room.sharing), "/undo", typed=fields, device=device)
    room.sharing.unpair(device.number)
    assert _pressed(waiting, undo_entry) == "/pair"
    assert demo.entries() == 6


def test_sessions_end_with_the_program(room: Room, demo: Maker) -> None:
    phone = room.phone("kitchen phone")
    with a_room(demo.file) as anew:
        again = anew.stranger()
        again.client.cookies.update(phone.client.cookies)
        assert again.opens("/record").address.endswith("/pair")


def test_a_stash_that_is_yet_to_be_begun_can_be_shared(nobody: Maker) -> None:
    with a_room(nobody.file) as shared:
        assert shared.desk.opens("/share").status == 200
        assert shared.phone("kitchen phone").opens("/").address.endswith("/first")
        assert "kitchen phone" in shared.desk.opens("/share").text
    assert not nobody.file.exists()


@pytest.mark.parametrize("action", ["/first/look", "/first/back"])
def test_which_file_is_served_is_for_the_computer_alone_to_say(room: Room, action: str) -> None:
    phone = room.phone("kitchen phone")
    form = phone.opens("/").form("/weigh")
    refused = phone.presses(Form(action, "post", form.fields))
    assert "looked at on the computer" in refused.text
    assert "Tidewrack" in phone.opens("/record").text
