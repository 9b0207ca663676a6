"""Sentences about yarn, its weighing and its spread."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {}
