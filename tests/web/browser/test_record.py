"""The record in a browser."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from playwright.sync_api import expect


@pytest.mark.parametrize("size", ["desk", "phone"])
@pytest.mark.parametrize("scripts", [True, False])
def test_an_entry_is_undone_by_pressing(
    demo: Maker,
    serving: Callable[[Path], str],
    opened: Callable[..., Any],
    size: str,
    scripts: bool,
) -> None:
    page = opened(f"{serving(demo.file)}/record", size, scripts=scripts)
    page.get_by_role("link", name="undo entry 6").click()
    page.get_by_role("button", name="Undo it").click()
    expect(page.get_by_role("status")).to_contain_text("Undone:")
    assert demo.ask("log")[0]["takes_back"] == 6


@pytest.mark.parametrize("scripts", [True, False])
def test_on_a_phone_what_to_narrow_it_to_is_behind_a_link(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], scripts: bool
) -> None:
    page = opened(f"{serving(demo.file)}/record", "phone", scripts=scripts)
    designs = page.get_by_role("link", name="designs", exact=True)
    expect(designs).to_be_hidden()
    page.get_by_role("link", name="Narrow").click()
    designs.click()
    expect(page.locator("table.record tbody tr")).to_have_count(1)
    expect(page.locator("table.record")).to_contain_text("Saved the design Tidewrack hat")
