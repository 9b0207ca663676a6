"""The answers do not hang on the Python: from 3.12 on `sum` of floats is compensated."""

from __future__ import annotations

import builtins
import json
import math
from collections.abc import Callable, Iterable
from typing import Any

import pytest
from commands import Maker
from journeys.test_readme import plain, sessions

HAT = (
    "--shape", "round hat", "--around", "54cm", "--tall", "22cm", "--gauge", "17 sts x 13 rows",
    "--fabric", "1 sc, 2 hdc", "--stripes", "A 3 rows, B 2 rows", "--full", "100g/230m",
)  # fmt: skip
QUESTIONS = (
    ("lasts", "--readings", "0:98.3g 13:81.9g 29:63.1g 41:52.2g", "--rows-left", "36"),
    ("lasts", "--readings", "0:100g 7:97g 19:91g 33:83g", "--rows-left", "77", "--keep", "4g"),
    ("need", *HAT),
    ("reach", *HAT, "--have", "A=53m", "--have", "B=31.7m"),
    ("match", "--need", "A=61.3m", "--need", "B=17.9m"),
)


def one_after_another(parts: Iterable[Any], start: Any = 0) -> Any:
    """As `sum` is up to Python 3.11."""
    for part in parts:
        start = start + part
    return start


def compensated(parts: Iterable[Any], start: Any = 0) -> Any:
    """As `sum` is from Python 3.12 on, for floats; here without any error at all."""
    found = [start, *parts]
    if any(isinstance(part, float) for part in found):
        return math.fsum(found)
    return one_after_another(found[1:], start)


@pytest.mark.parametrize("words", QUESTIONS, ids=lambda words: words[0])
def test_an_answer_is_the_same_to_the_last_figure(
    maker: Maker, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    answers = []
    for way in (one_after_another, compensated):
        forget_what_was_reckoned()
        with monkeypatch.context() as python:
            python.setattr(builtins, "sum", way)
            answers.append(json.dumps(maker.ask(*words)))

    assert answers[0] == answers[1]


def forget_what_was_reckoned() -> None:
    from stash.requirements.yarn.by_rows import by_rows
    from stash.requirements.yarn.growth import _takes

    by_rows.cache_clear()
    _takes.cache_clear()


@pytest.mark.parametrize("way", [one_after_another, compensated], ids=lambda way: way.__name__)
@pytest.mark.parametrize("steps", sessions(), ids=["metric", "us"])
def test_a_session_of_the_readme_is_the_same(
    nobody: Maker,
    monkeypatch: pytest.MonkeyPatch,
    way: Callable[..., Any],
    steps: list[tuple[list[str], str]],
) -> None:
    forget_what_was_reckoned()
    monkeypatch.setattr(builtins, "sum", way)

    for typed, answer in steps:
        assert plain(nobody.does(*typed).out) == plain(answer), typed
