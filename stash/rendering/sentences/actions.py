"""Sentences about what a command does or refuses."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {}
