"""What a maker narrows the shelf by, as it is typed: fibres, colours, the wash, conditions."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stash.errors import NotFound, Unreadable
from stash.matching.question.wish import Fineness, Limits, Named, Wash, fineness
from stash.matching.rules.limits import KEPT_OUT
from stash.measures.colour import lab
from stash.parsing import facts, names, settings
from stash.parsing.wish.typed import WishWords, one_role
from stash.stock.yarn import Condition
from stash.trade.colour_words import ELSEWHERE, colour_of
from stash.trade.fibres import FIBRES, meant_by


def limits(words: WishWords) -> Limits:
    """The limits these words set; owner, places and fineness are held against the shelf later."""
    return Limits(
        asked_fineness=_fineness(words.fineness),
        owner=words.owner.strip(),
        not_in=words.not_in,
        without=fibres(words.without),
        wash=wash(words.wash),
        let_in=let_in(words.also),
        wanted=colours(words.colours, "--colour"),
        unwanted=colours(words.not_colours, "--not-colour"),
        no_bleeding=words.no_bleeding,
    )


def _fineness(text: str) -> Fineness | None:
    return fineness(settings.fineness(text)) if text else None


def fibres(texts: Sequence[str]) -> frozenset[str]:
    """The fibres she will have none of: `wool` (merino too), `animal`, any fibre by its name."""
    found: frozenset[str] = frozenset()
    for text in texts:
        for word in text.split(","):
            meant = meant_by(word)
            if not meant:
                known = ["animal", *(fibre.name for fibre in FIBRES)]
                raise NotFound("fibre", word.strip(), names.nearest(word, known) or known[:4])
            found |= meant
    return found


def wash(text: str) -> Wash:
    """What the yarns must bear in a wash; any where nothing was said."""
    plain = text.strip().lower() or Wash.ANY
    if plain not in set(Wash):
        raise Unreadable(text, "no_wash", choices=tuple(Wash))
    return Wash(plain)


def let_in(texts: Sequence[str]) -> frozenset[Condition]:
    """The conditions that may take part although they usually may not."""
    found = frozenset(facts.conditions(texts))
    for condition in sorted(found - KEPT_OUT):
        raise Unreadable(condition.value, "condition_takes_part")
    return found


_ROLE = re.compile(r"\s*(?:([a-d])\s*=)?(.*)", re.IGNORECASE | re.DOTALL)


def colours(texts: Sequence[str], option: str) -> dict[str, tuple[Named, ...]]:
    """Colours by role and their plain words: `A=blue`, `B=teal,rust`.

    Without a role only where a colour is left out, and then of all of them. A family in another
    tongue is that family; a word for no colour here is looked for on the bands alone.
    """
    found: dict[str, tuple[Named, ...]] = {}
    for text in texts:
        one_role(text, option, "several_roles_of_colours")
        role, listed = _ROLE.fullmatch(text).groups()  # type: ignore[union-attr]
        words = [" ".join(w.split()).casefold().replace("gray", "grey") for w in listed.split(",")]
        if not all(words) or "=" in listed or (option == "--colour" and not role):
            raise Unreadable(text, "no_colour_of_a_role", option=option)
        role = (role or "").upper()
        found[role] = (*found.get(role, ()), *map(_named, words))
    return found


def _named(word: str) -> Named:
    plain = ELSEWHERE.get(word, word)
    if plain in facts.FAMILIES:
        return Named(plain, family=True)
    values = colour_of(word)
    return Named(word, near=lab(values[0]) if values else None)
