"""Every page against the rules of WCAG 2.2, levels A and AA, as axe-core checks them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from looks import sideways

#: Without the tags the size of targets is not looked at.
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
#: Every kind of page, and what stands on it only when it was asked for.
PAGES = (
    "/",
    "/record?undo=7",
    "/record?undo=17&narrow=yes",
    "/item/2",
    "/item/4",
    "/item/5",
    "/scale",
    "/scale?skein=36&reading=60&row=12",
    "/lasts/2",
    "/lasts/3",
    "/count",
    "/count?place=tin on the desk&close=yes",
    "/market",
    "/market/plan",
    "/market/plan?hours=4&per_pair=2&want-1=yes&colour-1=A=blue",
    "/market/plan/made?hours=many&want-1=yes",
    "/market/plan/made?want-1=yes&at_most-1=3&price-1=28&hours-1=2&hours=8",
    "/market/plan/lists?want-1=yes&at_most-1=3&price-1=28&hours-1=2&hours=8",
    "/pick/2-4",
    "/items",
    "/share",
    "/pairs/1",
    "/pairs/1?contrast=bold&colour_A=purple&without=wool",
    "/designs",
    "/design/1?sizes=child 5, woman",
    "/designs/new",
    "/design/1/edit",
    "/design/1/edit?tall=22&band=1",
    "/design/new/edit?begin=mittens",
    "/design/1/plan",
    "/pick/2",
    "/tag/1,5",
    "/prices",
    "/shelf",
    "/shelf?grey=1&words=tansel",
    "/lot/1",
    "/lot/1?change=place",
    "/skein/36",
    "/find?words=hat",
    "/yarn-ideas/36",
    "/lot-ideas/5",
    "/labels?place=tin on the desk",
    "/add?line=Fell Wool DK, 3 x 50g/120m, navy, lot 48213",
    "/add/many",
    "/add/like?like=L1",
    "/sheet",
    "/settings",
    "/photo",
    "/photo?lot=4",
)


def findings(page: Any) -> list[str]:
    """What is serious or worse: the rule, and where."""
    from axe_playwright_python.sync_playwright import Axe

    said = Axe().run(page, options={"runOnly": TAGS}).response["violations"]
    return [
        f"{one['id']}: {node['html'][:120]}"
        for one in said
        if one["impact"] in ("serious", "critical")
        for node in one["nodes"]
    ]


@pytest.mark.parametrize("size", ["desk", "phone"])
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_nothing_serious_is_found_on_any_page(
    lively: Maker,
    serving: Callable[[Path], str],
    opened: Callable[..., Any],
    size: str,
    dark: bool,
) -> None:
    for words in (
        ("weigh", "25", "60g", "--row", "40"),
        ("count", "tin on the desk", "--tick", "34"),
    ):
        lively.does(*words)  # so that what lasts is drawn, and a count is under way
    address = serving(lively.file)
    page = opened(f"{address}/record", size, dark=dark)
    wrong = {}
    for path in PAGES:
        page.goto(address + path)
        if found := findings(page):
            wrong[path] = found
        assert sideways(page) <= 0, path
    assert wrong == {}


def test_the_page_reflows_at_320_pixels(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any]
) -> None:
    """WCAG 2.2, 1.4.10: as wide as 1280 pixels enlarged four times."""
    address = serving(lively.file)
    page = opened(f"{address}/record")
    page.set_viewport_size({"width": 320, "height": 640})
    for path in PAGES:
        page.goto(address + path)
        assert sideways(page) <= 0, path
