"""Will it last: the page says what `lasts` says, and what would help."""

import re

import pytest
from commands import Maker
from pages import Browser, unescaped

from stash.rendering.lasting_page import times_in


@pytest.fixture
def weighed(lively: Maker) -> Maker:
    """Item 2 with its A weighed twice, each time with its row."""
    lively.does("weigh", "36", "85g", "--row", "8")
    lively.does("weigh", "36", "60g", "--row", "18")
    return lively


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.01, "less than 1 time in 20"), (0.35, "about 1 time in 3"), (0.5, "about 1 time in 2"),
     (0.77, "about 3 times in 4"), (0.91, "about 9 times in 10")],
)  # fmt: skip
def test_a_chance_is_said_as_how_often_it_comes_true(chance: float, words: str) -> None:
    assert times_in(chance) == words


def test_verdict_and_figures_are_those_of_the_command(
    lively_browser: Browser, weighed: Maker
) -> None:
    said = weighed.ask("lasts", "2")
    page = lively_browser.opens("/lasts/2")
    assert said["verdict"] == "yes"
    assert "Yes, it lasts" in page.text
    took, left, spread = re.search(
        r"10 rows to go take about ([\d.]+) g. About ([\d.]+) g \(± ([\d.]+)\) left", page.text
    ).groups()  # type: ignore[union-attr]
    assert float(took) == pytest.approx(said["need_g"], abs=0.1)
    assert float(left) == pytest.approx(said["have_g"] - said["need_g"], abs=0.11)
    assert float(spread) == pytest.approx(said["spread_g"], abs=0.1)
    assert f"after row {said['as_of_row'] + said['weigh_again']:g}" in page.text


def test_what_is_kept_back_counts_and_can_be_let_go(
    lively_browser: Browser, weighed: Maker
) -> None:
    said = weighed.ask("lasts", "2", "--keep", "45g")
    page = lively_browser.opens("/lasts/2?keep=45g")
    assert said["verdict"] == "no"
    assert "No, less than 1 time in 20" in page.text
    assert "45 g kept back" in page.text
    again = lively_browser.opens(unescaped(page.links["Keep nothing back"]))
    assert "Yes, it lasts" in again.text


def test_where_it_ends_early_other_skeins_of_the_lot_and_a_row_to_stop_at_help(
    lively_browser: Browser, weighed: Maker
) -> None:
    said = weighed.ask("lasts", "2", "--rows-left", "60")
    assert said["verdict"] == "no"
    page = lively_browser.opens("/lasts/2?left=60")
    stop = next(words for words in page.links if words.startswith("Stop at row"))
    assert stop == f"Stop at row {said['as_of_row'] + said['sure']:g}"
    assert "Yes, it lasts" in lively_browser.opens(unescaped(page.links[stop])).text
    for words, address in page.links.items():
        if words.startswith("Go on with no."):
            number = int(re.findall(r"\d+", words)[0])
            assert weighed.skein(number)["lot_ref"] == weighed.skein(36)["lot_ref"]
            assert unescaped(address) == f"/scale?skein={number}&item=2"


def test_rows_are_asked_for_where_they_are_not_known(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("weigh", "36", "60g")
    page = lively_browser.opens("/lasts/2")
    assert "Which row are you at?" in page.text
    answered = lively_browser.presses(page.form("/lasts/2"), row="18")
    verdict = lively.ask("lasts", "2", "--rows-done", "18")["verdict"]
    assert {"yes": "Yes", "tight": "Tight", "no": "No"}[verdict] + "," in answered.text


def test_before_anything_is_weighed_it_says_so(lively_browser: Browser) -> None:
    page = lively_browser.opens("/lasts/2")
    assert page.status == 200
    assert "`stash" not in page.text


@pytest.mark.parametrize("query", ["row=x", "left=-3", "keep=<b>", "row-36=many", "colour=Q"])
def test_what_cannot_be_read_is_said_on_the_page(
    lively_browser: Browser, weighed: Maker, query: str
) -> None:
    page = lively_browser.opens(f"/lasts/2?{query}")
    assert page.status == 200
    assert "<b>" not in page.source


def test_an_item_that_is_not_there_has_no_page(lively_browser: Browser) -> None:
    assert lively_browser.opens("/lasts/99").status == 404


def test_nothing_is_promised_of_rows_that_the_design_does_not_know(
    browser: Browser, demo: Maker
) -> None:
    demo.does("design", "add", "Plain cap", "--stated", "A=60m", "--thickness", "DK")
    demo.does("aside", "Plain cap")
    demo.does("begin", "2")
    skein = demo.ask("show", "item", "2")["set_aside"][0]["skein"]
    demo.does("weigh", f"{skein}", "30g", "--for", "2", "--row", "4")
    page = browser.opens("/lasts/2")
    assert "The design does not say" in page.text
    assert "what the design has left" not in page.text


@pytest.fixture
def banded(lively: Maker) -> Maker:
    """A round hat, item 6, whose first 5 rows are in B, skein 131; the others in A, skein 130."""
    for lot, colour in ((1, "navy"), (2, "cream")):
        lively.does("add", f"Fellmoor DK, 100g/230m, {colour}, lot {lot}")
    plan = ("--shape", "round hat", "--size", "woman", "--gauge", "17 sts x 13 rows")
    band = ("--fabric", "1 hdc", "--band", "B 4cm bottom", "--thickness", "DK")
    lively.does("design", "add", "Banded", *plan, *band)
    lively.does("aside", "Banded", "--skeins", "A=130", "--skeins", "B=131")
    lively.does("begin", "6")
    return lively


def test_a_verdict_of_one_colour_names_it_and_the_scale_speaks_of_the_skein_on_it(
    lively_browser: Browser, banded: Maker
) -> None:
    banded.does("weigh", "131", "81g", "--row", "5")

    assert "B, cream: Yes, it lasts" in lively_browser.opens("/lasts/6").text
    scale = lively_browser.opens("/scale?skein=130&item=6").text
    assert "Nothing is known of A yet" in scale
    assert "Yes, it lasts" not in scale
    saved = lively_browser.presses(
        lively_browser.opens("/scale?skein=130&item=6").form("/weigh"), reading="95", row="5"
    )
    assert "it begins at row 6" in saved.text
    later = lively_browser.presses(saved.form("/weigh"), reading="80", row="18")
    assert "Yes, it lasts" in later.text
