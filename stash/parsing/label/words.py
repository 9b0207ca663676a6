"""The words of a line as the name and the colour see them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from stash.parsing import quantities
from stash.parsing.label.looks import KIND_WORDS, trade_name
from stash.parsing.label.text import NUMBER_WORDS, Text
from stash.parsing.label.vocabulary import PACKAGE, compiled, words_of
from stash.trade import colour_words, fibres, thickness

#: Words that hold a name together and neither begin nor end it.
SMALL = words_of(
    "of the and & 'n n de la le du des der die das von van di del della y et und och og a en ish"
)


#: Words that are never of a name: they say something else, or nothing.
_NEVER = words_of(
    "lot dyelot colour color col shade left remaining each ea paid plus approx about x skein"
    " skeins ball balls hank hanks cone "
    "cones for from with without gift label used gone g gr gram grams kg oz m yd yds yards"
    " metres meters total half no not is was "
    "opened unopened started begun weighs weighed on at per to or by in incl including"
    " includes all pack packs packet bag set colore couleur coloris kleur färg farge farve"
    " farbe colorway colourway shades"
)


#: Words of talk: they stand in no name and no colour, and say nothing that is worth a note.
TALK = words_of(
    "i i've i'd i'm we we've you they they're them there there's there're are is it it's its my"
    " mine me our ours he she his her this that "
    "these those what which who only just now still about also have has had got been be was"
    " were some any so very really quite "
    "like feels think idk abt ok gave bought sure guess mostly probably maybe possibly perhaps"
    " da di à von van av af mit avec "
    "con met med im nel nella sur dans auf both all nog noch encore je pro cada ones one today"
    " now me quedan tengo habe ich ik heb nous il reste whole w"
)


MAYBE = frozenset({"maybe", "possibly", "perhaps"})


#: Words before a colon whose value is behind it.
_FIELDS = words_of(
    "maker brand mill dyer producer place location where owner care washing note notes lot dyelot"
    " colour color col shade"
)


#: Words of what is left over: no yarn is called so.
_OVER = words_of("scrap scraps leftover leftovers remnant remnants oddment oddments bits partial")


@dataclass(frozen=True, slots=True)
class Word:
    """A token as the name and the colour see it."""

    small: str
    capital: bool
    plain_colour: bool
    thing: bool
    modifier: bool
    effect: bool
    kind: bool
    joining: bool
    never: bool
    mark: bool


@cache
def _single_colours() -> tuple[frozenset[str], frozenset[str]]:
    plain = {w for name in colour_words.PLAIN for w in name.split()} | set(colour_words.ELSEWHERE)
    plain -= {
        "off",
        "hot",
        "winter",
        "burnt",
        "powder",
        "bottle",
        "forest",
        "baby",
        "sky",
        "sort",
        "wit",
        "natural",
    }
    things = {w for name in colour_words.THINGS for w in name.split()} | {
        "forest",
        "bottle",
        "sky",
        "natural",
        "wit",
        "sort",
    }
    return frozenset(plain), frozenset(things - plain)


def word_at(text: Text, at: int) -> Word:
    """What a token is to a name and to a colour."""
    token = text.tokens[at]
    small = token.text.lower()
    plain, things = _single_colours()
    return Word(
        small,
        token.text[0].isupper() and text.mixed_case,
        small in plain or (small[-1:] == "s" and small[:-1] in plain),
        small in things,
        small in colour_words.MODIFIERS,
        small in colour_words.EFFECTS,
        small in KIND_WORDS or fibres.fibre_named(small) is not None,
        small in colour_words.JOINING or token.text in "/&+,-",
        small in _NEVER
        or small in _OVER
        or small in TALK - SMALL
        or bool(re.fullmatch(PACKAGE, small)),
        not token.is_word,
    )


def first_words(text: Text, words: Sequence[Word]) -> int:
    """Where the first words stand that could be a name."""
    at = 0
    while at < len(words):
        word = words[at]
        if word.small in _FIELDS and at + 1 < len(words) and text.tokens[at + 1].text in ":=":
            at = text.part_end(at + 2)
        elif word.mark or word.never or word.small in SMALL or word.small in NUMBER_WORDS:
            at += 1
        else:
            return at
    return 0


def thickness_tokens(text: Text, first: int, end: int) -> set[int]:
    """The tokens of a stretch that are words for thickness."""
    begin, stop = text.tokens[first].start, text.tokens[end - 1].end
    out: set[int] = set()
    for m in trade_name().finditer(text.plain, begin, stop):
        if thickness.named(m[0]):
            out.update(range(*text.tokens_of(m.start(), m.end())))
    for at in range(first, end):
        if text.tokens[at].text.lower() in (
            "chunky",
            "bulky",
            "jumbo",
            "light",
            "heavy",
            "double",
            "knitting",
        ):
            out.add(at)
    return out


def opens(text: Text, words: Sequence[Word], at: int) -> bool:
    """Whether a break, a figure or a word of a fact stands before a word."""
    return (
        at == 0
        or at - 1 in text.breaks
        or not text.tokens[at - 1].is_word
        or words[at - 1].never
        or _glued(text, at - 1)
    )


def ends(text: Text, words: Sequence[Word], at: int) -> bool:
    """Whether a run of words ends before a token."""
    return (
        at >= len(text.tokens)
        or at in text.breaks
        or not text.tokens[at].is_word
        or words[at].never
    )


def _glued(text: Text, at: int) -> bool:
    """A unit behind its figure, as in `100g` and `50 g`."""
    unit = text.tokens[at].text.lower() in quantities.UNIT_WORDS
    return unit and at > 0 and text.tokens[at - 1].is_figure


_FILLER = compiled(
    rf"(?:{PACKAGE}|of|and|with|in|the|each|ea|at|approx|about|plus|on|per|a|an|some|to|or|is"
    rf"|are|bag|pack|set|yarn|size|label|amount|length|for|this|it|my|i|have|got|sort"
    rf"|colou?rs?|color|weight|one|mostly|made|only|just|from|by|but|now)"
)


def is_filler(word: str) -> bool:
    """A word that only holds a line together."""
    return word in TALK or _FILLER.fullmatch(word) is not None
