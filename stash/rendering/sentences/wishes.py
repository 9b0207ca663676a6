"""Sentences about a wish that cannot be read."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {
    "no_role_and_value": (
        "cannot read {text!r} after {option}: write a role and what for it, as in A=…"
    ),
    "role_named_twice": "{option} names role {role} twice",
    "no_role_of_strands": "cannot read {role!r} after --strands-apart: name a role, as in A",
}
