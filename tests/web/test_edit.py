"""The design editor: its need is that of `need` of the same words, its state is its form."""

from __future__ import annotations

import html
import json
import math
import re
from time import process_time
from typing import Any

import pytest
from commands import Maker
from pages import Browser, Form, Page, at_the_page_of

HAT = "Tidewrack hat"
WORDS = {
    "around": "52cm",
    "tall": "24cm",
    "fabric": "1 sc",
    "gauge": "18 sts x 20 rows per 10cm",
}
BANDS = (("B", "6 rows", "bottom"), ("C", "4 rows", "9 cm up"))


def fields(**more: str) -> dict[str, str]:
    found = {**WORDS, "bands": str(len(BANDS))}
    for at, row in enumerate(BANDS, 1):
        named = zip(("role", "extent", "place"), row, strict=True)
        found |= {f"band_{at}_{name}": value for name, value in named}
    return {**found, **more}


def shown(page: Page) -> dict[str, tuple[str, str]]:
    """What to set aside and what is expected of each colour, as the page has it."""
    parts = re.findall(
        r'class="edit-role">.*?<b class="letter">(\w)</b>.*?large-aside">([^<]*)<.*?about ([^<]*)<',
        page.source,
        re.DOTALL,
    )
    return {role: (aside, about) for role, aside, about in parts}


def asked(need: Any) -> dict[str, tuple[str, str]]:
    found = {}
    for role, one in need["roles"].items():
        about, spread = (math.floor(one[key] + 0.5) for key in ("expected_m", "spread_m"))
        aside = math.ceil(one["set_aside_m"] - 1e-3)
        found[role] = (f"{aside} m", f"{about} m (± {spread})")
    return found


def options(given: dict[str, str]) -> list[str]:
    bands = [f"{r} {e} {p}" for r, e, p in BANDS]
    named = [part for name in WORDS for part in (f"--{name}", given[name])]
    return [*named, *(part for one in bands for part in ("--band", one))]


def test_the_need_is_that_of_the_same_words(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    words = ["--shape", "round hat", "--thickness", "4", *options(fields())]
    need = nobody.ask("need", *words)
    for browser in at_the_page_of(nobody.file):
        page = _opened(browser, "/design/new/edit", fields(begin="hat"))
        assert shown(page) == asked(need)
        line = re.search(r'class="need-line".*?</p>', page.source, re.DOTALL)
        assert line is not None
        for role, (aside, _) in asked(need).items():
            assert f"<b>{role}</b> {aside}" in line[0]


def _opened(browser: Browser, address: str, given: dict[str, str]) -> Page:
    return browser.presses(Form(address, "get"), **given)


def test_the_board_shows_each_edge_in_whole_rows(lively_browser: Browser) -> None:
    page = _opened(lively_browser, "/design/1/edit", fields())
    texts = re.findall(r'aria-valuetext="([^"]*)"', page.source)
    assert sorted(texts) == [
        "B begins at 0 cm, row 1",
        "B ends at 3 cm, row 6",
        "C begins at 9 cm, row 19",
        "C ends at 11 cm, row 22",
    ]
    assert len(ways(page)["level"]["at"]) == 49  # 24 cm at 20 rows to 10 cm, both ends


def ways(page: Page) -> Any:
    """What the board says to scripts."""
    said = re.search(r'data-ways="([^"]*)"', page.source)
    assert said is not None
    return json.loads(html.unescape(said[1]))


#: A design of every kind of board: its shape and size, its bands, and where their edges are.
BOARDS = {
    "sock": (
        ("--around 20cm --tall 18cm --long 24cm", "stockinette", "28 sts x 40 rows per 10cm"),
        ("B 4cm bottom", "C 3cm 26cm up"),
        {"B ends at 4 cm, row 16", "C begins at 26 cm, row 105", "C ends at 29 cm, row 116"},
    ),
    "sideways hat": (
        ("--around 52cm --tall 24cm", "1 hdc", "20 sts x 20 rows per 10cm"),
        ("B 4cm bottom", "C 3cm upright 5cm in", "D 2cm upright 40cm in"),
        {
            "B ends at 4 cm, stitch 8", "C begins at 5 cm, row 11", "C ends at 8 cm, row 16",
            "D begins at 40 cm, row 81, at the back",
        },
    ),
    "blanket": (
        ("--wide 70cm --long 90cm", "1 dc", "20 sts x 10 rows per 10cm"),
        ("B 10cm bottom", "C 8cm upright middle", "D 5cm upright right"),
        {"B ends at 10 cm, row 10", "D begins at 65 cm, stitch 131", "D ends at 70 cm, stitch 140"},
    ),
    "circle": (
        ("--wide 20cm", "1 sc", "20 sts x 20 rows per 10cm"),
        ("B 3cm", "C 2cm 6cm up"),
        {"B begins at 0 cm, row 1", "C begins at 6 cm, row 13", "C ends at 8 cm, row 16"},
    ),
    "square": (
        ("--wide 20cm", "1 sc", "20 sts x 20 rows per 10cm"),
        ("B 3cm top",), {"B begins at 7 cm, row 15"},
    ),
    "triangle": (
        ("--wide 140cm --long 60cm", "stockinette", "20 sts x 20 rows per 10cm"),
        ("B 8cm top",), {"B begins at 52 cm, row 105"},
    ),
    "scarf": (
        ("--wide 20cm --long 150cm", "1 hdc", "20 sts x 20 rows per 10cm"),
        ("B 8cm top", "C 4cm upright left"),
        {"B ends at 150 cm, row 300", "C ends at 4 cm, stitch 8"},
    ),
}  # fmt: skip


@pytest.mark.parametrize("shape", BOARDS)
def test_every_shape_has_a_handle_at_each_edge_of_its_bands(nobody: Maker, shape: str) -> None:
    (size, fabric, gauge), bands, some = BOARDS[shape]
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    plan = ["--shape", shape, *size.split(), "--fabric", fabric, "--gauge", gauge]
    banded = [part for one in bands for part in ("--band", one)]
    nobody.does("design", "add", "It", *plan, "--thickness", "4", *banded)
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/design/1/edit")
        texts = re.findall(r'aria-valuetext="([^"]*)"', page.source)
        assert len(texts) == 2 * len(bands)
        assert some <= set(texts)
        assert "with-handles" in page.source
        assert page.source.count('id="moved"') == 1
        assert "style=" not in page.source
        for way in ways(page).values():
            count = len(way["at"])
            assert len(way["says"]) == len(way["typed"]) == count
            assert 0 <= way["below"] <= count
            assert way["at"][: way["below"]] in (
                sorted(way["at"][: way["below"]]), sorted(way["at"][: way["below"]])[::-1],
            )  # fmt: skip
            assert way["at"][way["below"] :] == sorted(way["at"][way["below"] :])


def test_of_many_bands_the_handles_of_the_chosen_one_are_seen(lively_browser: Browser) -> None:
    many = {"bands": "8"}
    for at in range(1, 9):
        row = ("BCD"[at % 3], "2 rows", f"{2.5 * at:g} cm up")
        named = zip(("role", "extent", "place"), row, strict=True)
        many |= {f"band_{at}_{name}": value for name, value in named}
    page = _opened(lively_browser, "/design/1/edit", fields(**many, band="3"))
    assert "with-handles" not in page.source
    assert "board crowded" in page.source
    places = {
        found[0]: float(found[1])
        for found in re.findall(
            r'id="edge-3-(\w+)" class="handle chosen" transform="translate\(\S+ (\S+)\)',
            page.source,
        )
    }
    assert places["begins"] - places["ends"] >= 35.9
    (tall,) = re.findall(r'<svg[^>]*height="([\d.]+)"[^>]*id="board"', page.source)
    spots = re.findall(r'class="handle[^"]*" transform="translate\(\S+ (\S+)\)', page.source)
    assert len(spots) == 16
    assert all(0 < float(one) < float(tall) for one in spots)


def test_a_step_without_scripts_moves_one_row(lively_browser: Browser) -> None:
    page = _opened(lively_browser, "/design/1/edit", fields(move="1|7 rows|bottom", band="1"))
    assert "B ends at 3.5 cm, row 7" in page.source
    gone = _opened(lively_browser, "/design/1/edit", fields(without="2"))
    assert "C begins" not in gone.source


def test_what_is_saved_is_what_design_change_saves(lively: Maker) -> None:
    lively.does("design", "copy", HAT, "By command")
    for browser in at_the_page_of(lively.file):
        page = _opened(browser, "/design/1/edit", fields())
        form = page.form("/design/1/edit")
        token = next(b for b in form.buttons if b.startswith("token="))
        pressed = Form("/design/edit/save", "post", form.fields)
        saved = browser.presses(pressed, token=token.partition("=")[2])
        assert f"Changed the design {HAT}." in saved.text
    lively.does("design", "change", "By command", *options(fields()))
    by_page, by_command = (lively.ask("design", "show", one) for one in (HAT, "By command"))
    by_command["plan"]["name"] = HAT
    assert by_page["plan"] == by_command["plan"]
    for browser in at_the_page_of(lively.file):
        assert shown(browser.opens("/design/1/edit")) == asked(lively.ask("need", HAT))


def test_a_copy_leaves_the_design_as_it_was(lively: Maker) -> None:
    before = lively.ask("design", "show", HAT)
    for browser in at_the_page_of(lively.file):
        form = _opened(browser, "/design/1/edit", fields()).form("/design/1/edit")
        token = next(b for b in form.buttons if b.startswith("token="))
        pressed = Form("/design/edit/copy", "post", form.fields)
        typed = {"token": token.partition("=")[2], "copy": "Second hat"}
        assert "Saved the design Second hat." in browser.presses(pressed, **typed).text
    assert lively.ask("design", "show", HAT) == before
    assert [
        band["role"] for band in lively.ask("design", "show", "Second hat")["plan"]["bands"]
    ] == [
        "B",
        "C",
    ]


@pytest.mark.parametrize("begin", ["hat", "mittens", "headband", "cowl", "scarf", "blanket"])
def test_each_of_six_shapes_is_begun_and_saved(nobody: Maker, begin: str) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    for browser in at_the_page_of(nobody.file):
        page = browser.opens(f"/design/new/edit?begin={begin}")
        form = page.form("/design/new/edit")
        token = next(b for b in form.buttons if b.startswith("token="))
        pressed = Form("/design/edit/add", "post", form.fields)
        saved = browser.presses(pressed, token=token.partition("=")[2], name=f"First {begin}")
        assert shown(saved) == asked(nobody.ask("need", f"First {begin}"))


def test_what_cannot_be_read_is_said_at_its_field_and_the_last_drawing_stays(
    lively_browser: Browser,
) -> None:
    good = _opened(lively_browser, "/design/1/edit", fields())
    kept = good.form("/design/1/edit").fields
    page = lively_browser.presses(good.form("/design/1/edit"), tall="22")
    assert "22 what? cm or in" in page.text
    assert "Not yet" in page.text
    assert page.form("/design/1/edit").fields["tall"] == "22"
    assert page.form("/design/1/edit").fields["good"] == kept["good"]
    assert "C ends at 11 cm, row 22" in page.source
    band = lively_browser.presses(good.form("/design/1/edit"), band_1_extent="22")
    assert "22 what? cm, in or rows" in band.text
    over = lively_browser.presses(good.form("/design/1/edit"), band_2_place="1 cm up")
    assert "overlaps another one" in over.text


def test_a_change_not_saved_stands_beside_what_is_saved(lively: Maker) -> None:
    saved = asked(lively.ask("need", HAT))
    for browser in at_the_page_of(lively.file):
        page = _opened(browser, "/design/1/edit", fields())
        assert "changed, not saved yet" in page.text
        assert f"saved: {saved['A'][0]}" in page.text
        assert "saved:" not in browser.opens("/design/1/edit").text


def test_yarn_that_falls_short_is_said_with_what_would_help(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    nobody.does("add", "Fell Wool worsted 20g/40m, cream, lot 2")
    plan = ("--shape", "round hat", "--around", "52cm", "--tall", "20cm", "--fabric", "1 hdc")
    more = ("--gauge", "14 sts x 11 rows per 10cm", "--thickness", "4", "--band", "B 6cm bottom")
    nobody.does("design", "add", "Bold hat", *plan, *more)
    lots = {one["colour"]: one["lot"].removeprefix("L") for one in nobody.ask("shelf")}
    chosen = {"yarn_A": lots["navy"], "yarn_B": lots["cream"]}
    for browser in at_the_page_of(nobody.file):
        page = _opened(browser, "/design/1/edit", chosen)
        need = nobody.ask("need", "Bold hat")["roles"]["B"]
        assert f"Lacks {math.ceil(need['set_aside_m'] - 1e-3) - 40} m" in page.text
        assert "What would help" in page.text
        print(page.text[page.text.index("Yarn it needs") :][:1500], list(page.links)[-6:])
        fix = next(to for words, to in page.links.items() if words.startswith("Band "))
        assert "What would help" not in browser.opens(fix).text


def test_a_plan_on_paper_has_its_need_by_size(lively: Maker) -> None:
    for browser in at_the_page_of(lively.file):
        page = browser.opens("/design/1/plan?sizes=child 5, woman")
        table = lively.ask("grade", HAT, "--sizes", "child 5, woman")
        for row in table["rows"]:
            assert row["size"] in page.text
            for role in row["roles"].values():
                assert f"{role['printed_m']} m" in page.text


def test_hostile_words_are_only_words(lively_browser: Browser) -> None:
    bad = "<script>alert(1)</script>\u202e" + 500 * "x"
    for name in ("tall", "fabric", "band_1_extent", "yarn_A", "good", "move", "band", "sizes"):
        page = _opened(lively_browser, "/design/1/edit", fields(**{name: bad}))
        assert page.status == 200
        assert "<script>alert" not in page.source
        assert "style=" not in page.source


def test_a_moved_band_is_worked_out_and_drawn_in_a_few_milliseconds(lively: Maker) -> None:
    """The chain of functions on kept context, in time of the processor: others are at work here."""
    from stash.web.edited import Edited
    from stash.web.screens import edit
    from stash.web.screens.edit_drawn import drawn_board
    from stash.web.visit import Visit
    from stash.web.workshop import Workshop

    visit = Visit(Workshop(lively.file), "/design/1/edit")
    editor = edit._editor_of(visit, "1")
    took = []
    for count in range(60):
        given = fields(band_2_extent=f"{1 + count % 9} rows")
        begun = process_time()
        made = editor.made(Edited(editor.kept.design, given, editor.kept.settings))
        worked = process_time()
        assert drawn_board(made, 2)
        took.append((process_time() - begun, worked - begun))
    slow = sorted(one for one, _ in took)[56]
    print(f"95th percentile {1000 * slow:.2f} ms; need {1000 * sorted(w for _, w in took)[56]:.2f}")
    assert slow < 0.05  # 3 ms on a machine of its own: here only that it is not of another order


def test_a_long_scarf_lies_open_on_its_board(lively: Maker) -> None:
    """Folded in four, as it is drawn elsewhere, three quarters of it would show no bands."""
    for browser in at_the_page_of(lively.file):
        address = browser.opens("/designs").links["Lane scarf"]
        edited = browser.opens(f"{address}/edit")
        (board,) = re.findall(r'data-ways="[^"]*"', edited.source)
        assert "with-handles" in edited.source
        assert "B ends at 149." in edited.source
        at = json.loads(html.unescape(board.partition('"')[2][:-1]))["level"]["at"]
        assert at[0] - at[-1] > 300


def _saved(browser: Browser, page: Page) -> Page:
    form = page.form("/design/1/edit")
    token = next(b for b in form.buttons if b.startswith("token="))
    pressed = Form("/design/edit/save", "post", form.fields)
    return browser.presses(pressed, token=token.partition("=")[2])


def test_a_design_changed_meanwhile_is_not_written_over_unseen(lively: Maker) -> None:
    for browser in at_the_page_of(lively.file):
        page = _opened(browser, "/design/1/edit", fields())
        lively.does("design", "change", HAT, "--tall", "26cm")
        before = lively.entries()

        asked = _saved(browser, page)
        assert "was changed while you had it here" in asked.text
        assert lively.entries() == before
        assert f"Changed the design {HAT}." in _saved(browser, asked).text
