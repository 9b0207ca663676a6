"""A shape as people say it: the one that is meant, the nearest with a word why, or a question."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.errors import Ambiguous, Unreadable
from stash.measures.note import Note
from stash.parsing import names, shape_words
from stash.parsing.shape_words import NAMES, Known, Named
from stash.requirements.design.shapes import Shape
from stash.requirements.design.whom import Whom

#: Every shape by its plain name.
PLAIN = tuple(shape.value for shape in Shape)
#: Whys of what is worn elsewhere than its shape, or by nobody.
_UNSIZED = ("tubes_in_pairs", "measured_by_itself")


@dataclass(frozen=True, slots=True)
class Meant:
    """A shape, what to say of it where it is not plainly that, and whom it is said to be for.

    `unsized`: it is not worn where its shape is, so no size of somebody is its own.
    """

    shape: Shape
    notes: tuple[Note, ...] = ()
    whom: Whom | None = None
    unsized: bool = False


def meant(text: str) -> Meant:
    """What is made: `sideways hat`, `beanie`, `mittens`, `baby blanket`.

    A thing of several shapes is asked about; a misspelt one is answered with the nearest, and one
    that no shape is near with what to give in its place.
    """
    found = shape_words.thing(text)
    if found.known is None:
        near = names.closest(" ".join(found.words) or text, NAMES)
        raise Unreadable(text, "no_shape", choices=tuple(near))
    if not found.known.shapes:
        raise Unreadable(text, "no_shape_near", thing=" ".join(found.words).lower())
    if len(found.known.shapes) > 1 and not found.known.why:
        raise _asked(text, found)
    unsized = found.known.why in _UNSIZED
    notes = tuple(_notes(found, found.known))
    return Meant(found.known.shapes[0], notes, found.whom, unsized)


def _asked(text: str, found: Named) -> Ambiguous:
    """Which of its shapes; where the words stand together, only they are to be typed anew."""
    together = " ".join(found.words)
    shapes = [shape.value for shape in found.known.shapes] if found.known else []
    return Ambiguous(together if together in text else text, shapes)


def _notes(found: Named, known: Known) -> Iterator[Note]:
    typed, shape = " ".join(found.words).lower(), known.shapes[0]
    if known.why:
        yield Note(known.why, typed=typed, shape=shape)
    if found.left:
        yield Note("words_not_counted", typed=typed, left=" ".join(found.left), shape=shape)
