"""Sentences about what a label line says and what was made of it."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {}
