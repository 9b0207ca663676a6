"""Sentences about reasons, blockers and fixes of the matcher."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {}
