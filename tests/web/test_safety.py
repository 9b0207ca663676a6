"""Who may ask the page for something, how often, and how much: OWASP's list for such servers.

Cross-site request forgery (check Origin, a token in each form), names that are made to lead here
(check Host), clickjacking (frame-ancestors), injection (a policy without inline, escaped words).
"""

import re
from pathlib import Path

import pytest
from commands import Maker
from pages import HOST, ORIGIN, Browser

from stash.web.safety import MOST_BYTES


def undoing(browser: Browser) -> dict[str, str]:
    return browser.opens("/record").form("/undo", entry="6").fields


@pytest.mark.parametrize("host", ["stranger.example", "127.0.0.1:9", "127.0.0.1", ""])
def test_a_name_that_is_not_ours_is_not_answered(browser: Browser, host: str) -> None:
    page = browser.opens("/record", host=host)
    assert page.status == 403
    assert "Tidewrack" not in page.source


@pytest.mark.parametrize(
    "origin", [None, "null", "http://stranger.example", "https://" + HOST, f"http://{HOST}.example"]
)
def test_a_form_from_elsewhere_writes_nothing(
    browser: Browser, demo: Maker, origin: str | None
) -> None:
    fields = undoing(browser)
    headers = {} if origin is None else {"origin": origin}
    answer = browser.client.post("/undo", data=fields, headers=headers, follow_redirects=False)
    assert answer.status_code == 403
    assert demo.entries() == 6


def test_a_request_that_another_site_makes_is_not_answered(browser: Browser) -> None:
    other = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors", "sec-fetch-dest": "image"}
    assert browser.opens("/record", **other).status == 403


def test_a_link_from_elsewhere_that_is_followed_leads_here(browser: Browser) -> None:
    followed = {
        "sec-fetch-site": "cross-site",
        "sec-fetch-mode": "navigate",
        "sec-fetch-dest": "document",
    }
    assert browser.opens("/record", **followed).status == 200


@pytest.mark.parametrize("token", ["", "made up"])
def test_a_form_without_a_token_of_ours_writes_nothing_and_says_so(
    browser: Browser, demo: Maker, token: str
) -> None:
    form = browser.opens("/record").form("/undo", entry="6")
    page = browser.presses(form, token=token)
    assert "Nothing was saved" in page.text
    assert demo.entries() == 6


def test_every_form_has_a_token_of_its_own(browser: Browser) -> None:
    tokens = re.findall(r'name="token" value="([^"]+)"', browser.opens("/record?undo=6").source)
    assert len(tokens) > 1
    assert len({*tokens}) == len(tokens)


def test_nothing_from_outside_and_nothing_inline_is_allowed(browser: Browser) -> None:
    page = browser.opens("/record")
    policy = dict(
        part.strip().split(" ", 1) for part in page.headers["content-security-policy"].split(";")
    )
    assert policy["default-src"] == "'none'"
    assert {*policy.values()} == {"'self'", "'none'"}
    assert page.headers["x-content-type-options"] == "nosniff"
    assert "<style" not in page.source
    assert not re.search(r"\s(style|on\w+)=", page.source)


def test_more_than_is_read_is_refused_before_it_is_kept(browser: Browser, demo: Maker) -> None:
    fields = undoing(browser)
    answer = browser.client.post(
        "/undo", data={**fields, "more": "x" * MOST_BYTES}, headers={"origin": ORIGIN}
    )
    assert answer.status_code == 413
    assert demo.entries() == 6


def test_more_than_it_says_is_cut_off(browser: Browser) -> None:
    def endless() -> object:
        for _ in range(MOST_BYTES // 65_536 + 2):
            yield b"x" * 65_536

    kind = {"origin": ORIGIN, "content-type": "application/x-www-form-urlencoded"}
    answer = browser.client.post("/undo", content=endless(), headers=kind)  # type: ignore[arg-type]
    assert answer.status_code == 413


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static//etc/passwd",
        "/static/%00",
    ],
)
def test_no_path_leads_out_of_what_is_served(browser: Browser, path: str) -> None:
    page = browser.opens(path)
    assert page.status in (400, 404, 405)
    assert "import" not in page.source
    assert "root:" not in page.source


@pytest.mark.parametrize(
    "back",
    ["https://stranger.example/", "//stranger.example", "/\\stranger.example", "javascript:x"],
)
def test_a_form_never_leads_to_another_site(browser: Browser, back: str) -> None:
    form = browser.opens("/record").form("/undo", entry="6")
    answer = browser.client.post(
        form.action,
        data={**form.fields, "back": back},
        headers={"origin": ORIGIN},
        follow_redirects=False,
    )
    assert answer.status_code == 303
    assert re.match(r"/(\?|$)", answer.headers["location"])


def test_there_is_no_such_page_and_a_way_on(browser: Browser) -> None:
    page = browser.opens("/nowhere")
    assert page.status == 404
    assert page.links["Tonight"] == "/"


def test_a_damaged_file_is_said_with_what_is_safe(browser: Browser, demo: Maker) -> None:
    browser.opens("/record")
    whole = demo.file.read_bytes()
    other = demo.file.with_name("other")
    other.write_bytes(whole[:4096] + b"\xff" * (len(whole) - 4096))
    other.replace(demo.file)
    page = browser.opens("/record")
    assert page.status == 503
    assert "Nothing was changed" in page.text


def test_a_file_from_a_newer_program_is_said(browser: Browser, demo: Maker, tmp_path: Path) -> None:
    import sqlite3
    from contextlib import closing

    newer = tmp_path / "newer"
    newer.write_bytes(demo.file.read_bytes())
    with closing(sqlite3.connect(newer)) as db:
        db.execute("UPDATE alembic_version SET version_num = '9999'")
        db.commit()
    newer.replace(demo.file)
    page = browser.opens("/record")
    assert page.status == 503
    assert "newer" in page.text


def test_what_another_program_changed_is_seen_at_once(browser: Browser, demo: Maker) -> None:
    assert "Cancelled" not in browser.opens("/record").text
    demo.does("undo", "6")
    page = browser.opens("/record")
    assert "(cancelled by 7)" in page.text
