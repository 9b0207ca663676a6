"""Names that are nearly right: the only module that knows RapidFuzz."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stash.parsing import shape_words
from stash.requirements.design.shapes import Shape
from stash.requirements.design.whom import Whom

#: Below this likeness (of 100) a name is no help to somebody who mistyped another.
_HELPFUL = 60.0
#: Below this one word is another word, and no slip of the finger (`under` and `uncle` are 60).
_MISSPELT = 66.0


def nearest(asked: str, names: Sequence[str], limit: int = 3) -> list[str]:
    """The names most like what was asked for, best first, equal ones by the alphabet."""
    from rapidfuzz import fuzz

    wanted = asked.casefold()
    likeness = {name: fuzz.WRatio(wanted, name.casefold()) for name in dict.fromkeys(names)}
    helpful = [name for name in likeness if likeness[name] >= _HELPFUL]
    return sorted(helpful, key=lambda name: (-likeness[name], name))[:limit]


def closest(asked: str, names: Sequence[str], limit: int = 2) -> list[str]:
    """The names spelt most like what was typed, best first, equal ones in their order."""
    alike = sorted(likeness(asked, names), key=lambda one: -one[1])
    return [name for name, score in alike if score >= _MISSPELT][:limit]


def likeness(asked: str, names: Sequence[str]) -> list[tuple[str, float]]:
    """How like each name is to what was asked for, of 100; the order of the words counts little."""
    from rapidfuzz import fuzz

    wanted = asked.casefold()
    return [
        (n, max(fuzz.ratio(wanted, n.casefold()), fuzz.token_sort_ratio(wanted, n.casefold())))
        for n in names
    ]


def shapes_named(words: str) -> tuple[tuple[Shape, ...], Whom | None]:
    """The shapes that an everyday name of a thing may mean, none where it means none; and for whom.

    Whatever else is said must be in a design's own name: a `winter hat` is not just any hat.
    """
    found = shape_words.thing(words)
    only = found.known and not (found.left or found.looks)
    return (found.known.shapes if found.known and only else ()), found.whom


def things_like(words: str) -> list[str]:
    """The everyday names of things that a misspelt one is most like."""
    near = dict(likeness(words, shape_words.NAMES))
    return [name for name in closest(words, shape_words.NAMES) if near[name] >= _ONE_SLIP]


#: Of 100: less alike is another word, not a slip of the finger.
_ONE_SLIP = 80.0
#: From this likeness on a whole name is taken for a mistyped one: one letter in four may be wrong.
_MISTYPED = 0.75


def nearly(asked: str, names: Sequence[str]) -> list[int]:
    """Which names are meant by a shortened or misspelt one, as indices; letters may be swapped."""
    from rapidfuzz.distance import OSA

    wanted = asked.strip().casefold()
    mistyped = [
        at
        for at, name in enumerate(names)
        if OSA.normalized_similarity(wanted, name.casefold()) >= _MISTYPED
    ]
    return mistyped if len(mistyped) == 1 else best_matches(asked, names) or mistyped


def best_matches(words: str, texts: Sequence[str], cutoff: float = 74.0) -> list[int]:
    """Which texts hold every one of the words, as indices, best first, equal ones in their order.

    A word is held where one of the text's words is it or begins with it. Only where no text holds
    them all do misspelt words count: each must be like some word of the text, to the cutoff of 100.
    """
    wanted = _words(words)
    if not wanted:
        return list(range(len(texts)))
    split = [_words(text) for text in texts]
    exact = [(_begun(wanted, held), at) for at, held in enumerate(split)]
    good = [(score, at) for score, at in exact if score > 0]
    if not good:
        likeness = [(_likeness(wanted, held), at) for at, held in enumerate(split)]
        good = [(score, at) for score, at in likeness if score >= cutoff]
    return [at for _, at in sorted(good, key=lambda found: (-found[0], found[1]))]


def _words(text: str) -> list[str]:
    """Its words, in one spelling where two are usual."""
    return [_SPELT.get(word, word) for word in re.findall(r"\w+", text.casefold())]


def our_spelling(text: str) -> str:
    """A text in small letters, its words in this program's spelling where two are usual."""
    return re.sub(r"\w+", lambda word: _SPELT.get(word[0], word[0]), text.lower())


#: Words with two spellings, each in that of this program.
_SPELT = {"gray": "grey", "fiber": "fibre", "color": "colour", "meter": "metre", "meters": "metres"}


def _begun(wanted: Sequence[str], held: Sequence[str]) -> float:
    """The share of wanted words held whole, plus one; nothing where one is not even begun."""
    if not all(any(word.startswith(w) for word in held) for w in wanted):
        return 0.0
    return 1 + sum(w in held for w in wanted) / len(wanted)


def _likeness(wanted: Sequence[str], held: Sequence[str]) -> float:
    """How like the least like wanted word is to the nearest word held, of 100."""
    from rapidfuzz import fuzz

    return min(max((fuzz.ratio(w, word) for word in held), default=0.0) for w in wanted)
