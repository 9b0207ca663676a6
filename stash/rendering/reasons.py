"""Reasons and blockers of an answer in words, each with its cost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stash.matching.answer.proposal import NearMiss
from stash.matching.answer.reason import Reason, added_up
from stash.rendering.sentences.say import sentence


@dataclass(frozen=True, slots=True)
class Said:
    """A reason in words, and its cost; of two lots that share a role perhaps that of both."""

    cost: float
    words: str


def all_said(reasons: Iterable[Reason]) -> tuple[Said, ...]:
    """Every reason in words; what reads the same of either of two lots is said once, first."""
    reasons = [*reasons]
    of_one = [reason for reason in reasons if reason.kind == "of_one_lot"]
    alike: dict[str, list[Reason]] = {}
    for reason in of_one:
        alike.setdefault(sentence(reason.facts["reason"]), []).append(reason)
    both = {words: each for words, each in alike.items() if len(each) > 1}
    alone = [each[0] for each in alike.values() if len(each) == 1]
    return (
        *(Said(one.cost, sentence(one)) for one in reasons if one.kind != "of_one_lot"),
        *(Said(added_up(each), words) for words, each in both.items()),
        *(Said(one.cost, sentence(one)) for one in alone),
    )


def why_not(miss: NearMiss) -> str:
    """Everything that keeps a set from fitting, in one line."""
    return "; ".join(map(sentence, miss.blockers))
