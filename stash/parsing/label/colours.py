"""The runs of words that may be the colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stash.parsing.label.looks import thickness_of_words
from stash.parsing.label.span import Kind, Span
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import words_of
from stash.parsing.label.words import MAYBE, SMALL, Word, ends, first_words, opens, thickness_tokens
from stash.trade import colour_words

#: Whoever yarn comes from or is for: a colour is not called so.
_PEOPLE = words_of(
    "sister mother aunt auntie gran granny grandma nan mum mom friend neighbour neighbor brother"
    " daughter son baby's"
)


_LONGEST_COLOUR = 8


def colour_spans(text: Text, words: Sequence[Word]) -> Iterator[Span]:
    """Runs with a colour word in them; and runs of unknown words that a fact or a break bounds."""
    head = first_words(text, words)
    for first in range(len(words)):
        if not text.tokens[first].is_word or (
            words[first].never and words[first].small not in MAYBE
        ):
            continue
        if words[first].small in colour_words.JOINING - MAYBE:
            continue
        if words[first].small == "ply" or words[first].small in SMALL:
            continue
        if words[first].small == "dk" and (
            text.tokens[first].text != "dk" or not opens(text, words, first)
        ):
            continue
        for end in range(first + 1, min(len(words), first + _LONGEST_COLOUR) + 1):
            at = end - 1
            if at in text.breaks and not _colour_list(text, at):
                break
            if not (text.tokens[at].is_word or text.tokens[at].text in "/&+-,'."):
                break
            if words[at].never and words[at].small not in colour_words.JOINING:
                break
            if not text.tokens[at].is_word or words[at].small in colour_words.JOINING - {"ish"}:
                continue
            score = _colour_score(text, words, first, end, head)
            if score is not None:
                yield Span(first, end, Kind.COLOUR, score, text.words(first, end))


def _colour_list(text: Text, at: int) -> bool:
    """A slash with spaces may part a colour, as in `plum / light`."""
    return text.tokens[at].text == "/"


def _colour_score(
    text: Text, words: Sequence[Word], first: int, end: int, head: int
) -> float | None:  # fmt: skip
    """How likely a run is the colour; the word at the `head` of the line may as well be a name."""
    known = colour_words.colour_of(text.words(first, end))
    thick = thickness_tokens(text, first, end)
    score, strange = 0.0, 0
    named = _named_together(words, first, end)
    begins = opens(text, words, first)
    for at in range(first, end):
        word = words[at]
        if at in thick and at not in named and not word.plain_colour:
            score -= 2.5
        elif word.plain_colour or at in named:
            score += 3.0
        elif (
            at == first
            and not begins
            and word.small in colour_words.OFTEN_IN_NAMES
            and not _ends_thickness(text, first)
        ):
            score += 0.3
        elif word.thing:
            score += 2.6 if at > head or not word.capital else 0.3
        elif word.modifier or word.effect:
            score += 2.3 if known or word.effect else 0.8
        elif word.joining or not text.tokens[at].is_word:
            score += 1.0
        elif word.kind:
            score -= 2.5
        else:
            strange += 1
    bounded = opens(text, words, first) and ends(text, words, end)
    if known:
        score += (0.9 if bounded else -1.2) * strange
        score += 0.5 if bounded else 0.0
        return score + (0.4 if first and opens(text, words, first) else 0.0)
    if strange or (score > 2.0 and bounded):
        return _unknown_colour(text, words, first, end, score, strange)
    return None


def _ends_thickness(text: Text, at: int) -> bool:
    """Whether the word before one is of thickness: what follows is hardly of the name any more."""
    return at > 0 and thickness_of_words(text.tokens[at - 1].text) is not None


def _named_together(words: Sequence[Word], first: int, end: int) -> set[int]:
    """Words that are a colour of the table only together: `baby blue`, `off white`."""
    out: set[int] = set()
    for at in range(first, end):
        for size in (3, 2):
            stop = at + size
            if stop <= end and " ".join(w.small for w in words[at:stop]) in colour_words.COLOURS:
                out.update(range(at, stop))
    return out


def _unknown_colour(
    text: Text, words: Sequence[Word], first: int, end: int, score: float, strange: int
) -> float | None:
    """The run of words left, whether a dictionary knows it or not: a part, or what ends a name."""
    if strange > 5 or any(words[at].small in _PEOPLE for at in range(first, end)):
        return None
    if opens(text, words, first) and ends(text, words, end):
        return score + 2.2 + 0.3 * strange - (2.0 if first == 0 else 0.0)
    before = text.tokens[first - 1]
    if _ends_thickness(text, first) and ends(text, words, end):
        capital = words[first].capital
        return score + (0.4 if capital else 1.6) * strange
    small = (
        text.mixed_case and before.is_word and before.text[0].isupper() and not words[first].capital
    )
    if small and ends(text, words, end) and not before.text.isupper():
        return score + 1.2 * strange
    return None
