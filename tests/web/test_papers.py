"""What is printed from the page: a way back over it, and the sheet alone on the paper."""

import pytest
from pages import Browser

#: Every page for paper, and where its way back leads.
PAPERS = {
    "/tag/5": "/item/5",
    "/tag/1,5": "/market",
    "/prices": "/market",
    "/pick/2": "/item/2",
    "/design/1/plan": "/design/1/edit",
}


@pytest.mark.parametrize("address", PAPERS)
def test_a_page_for_paper_has_a_way_back(lively_browser: Browser, address: str) -> None:
    page = lively_browser.opens(address)
    assert page.status == 200
    ways = [to for words, to in page.links.items() if words.startswith("Back to")]
    assert ways == [PAPERS[address]]
    assert "data-print" in page.source
    assert lively_browser.opens(ways[0]).status == 200


def test_a_sheet_is_set_on_the_page_as_in_the_file_of_the_command(lively_browser: Browser) -> None:
    from stash.rendering.printed import STYLE

    assert lively_browser.opens("/paper.css").source == STYLE
    assert 'href="/paper.css"' in lively_browser.opens("/tag/1,5").source
    assert "Tidewrack hat" in lively_browser.opens("/prices").text


def test_what_a_tag_leaves_out_is_listed_over_it_and_not_printed(lively_browser: Browser) -> None:
    page = lively_browser.opens("/tag/5")
    over, sheet = page.source.split('<div class="papers">')
    assert "not known" not in sheet
    assert "estimated" not in sheet
    assert 'class="panel not-printed"' in over
    assert "Shares are estimated; weigh before you label." in page.text
    ways = [to for to in page.links.values() if "change=care" in to]
    assert ways
    assert lively_browser.opens(ways[0].split("#")[0]).status == 200
