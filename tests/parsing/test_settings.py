"""Settings as they are typed and kept; the round trip is tested with the command."""

from __future__ import annotations

from dataclasses import fields

import pytest

from stash.errors import Unreadable
from stash.matching.question.wish import Contrast, Gap, Ranking
from stash.parsing import settings
from stash.rendering.settings import MEANINGS, meaning
from stash.rendering.settings import RANKING as COUNTED_FOR


def test_every_drawback_can_be_weighed() -> None:
    assert [*settings.RANKING] == [f.name.replace("_", " ") for f in fields(Ranking)]


def test_every_setting_has_its_meaning() -> None:
    assert [*MEANINGS] == [*settings.NAMES]
    assert [*COUNTED_FOR] == [*settings.RANKING]
    assert meaning("ranking join") == COUNTED_FOR["join"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bold", Contrast.BOLD),
        ("30", Gap(30)),
        ("20-40", Gap(20, 40)),
        ("20 to 40", Gap(20, 40)),
        ("12,5", Gap(12.5)),
    ],
)
def test_a_contrast_is_a_word_or_a_gap(text: str, expected: Contrast | Gap) -> None:
    assert settings.contrast(text) == expected


@pytest.mark.parametrize("text", ["40-20", "120", "-5", "loud", "", "20-"])
def test_a_gap_lies_in_the_scale_and_the_right_way_round(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        settings.contrast(text)
    assert refused.value.kind == "no_contrast"


@pytest.mark.parametrize(
    ("text", "kept"),
    [("200-260", "200 260"), ("200 to 260 m", "200 260"), ("15%", "0.15"), ("± 7.5 %", "0.075")],
)
def test_fineness_is_a_span_or_a_share(text: str, kept: str) -> None:
    assert settings.fineness(text) == kept


@pytest.mark.parametrize("text", ["200", "260-200", "0%", "100%", "0-10", "DK"])
def test_a_fineness_that_is_neither_is_refused(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        settings.fineness(text)
    assert refused.value.kind == "no_fineness"
