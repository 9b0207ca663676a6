"""From a note or an error, which are facts, to the line that a person reads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

from stash.errors import FileTrouble, NotFound, StashError, Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.written import show_money
from stash.rendering import sentences
from stash.rendering.figures import near
from stash.rendering.her_words import hers
from stash.rendering.sentences.nearest import nearest
from stash.rendering.sentences.phrases import either
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot


def sentence(said: Note | StashError | str) -> str:
    """The line for a note or an error, by its kind and facts."""
    if isinstance(said, str):
        return said
    if isinstance(said, Unreadable):
        return _unreadable(said)
    if isinstance(said, NotFound):
        return _not_found(said)
    words = worded(said.kind, said.facts)
    if isinstance(said, FileTrouble):
        return f"{said.path}{words if said.kind in _OF_A_FILE else f': {words}'}"
    return words


def worded(kind: str, facts: Mapping[str, Any]) -> str:
    """The words of one kind with its facts in them; one without words is named, not hidden."""
    words = kinds().get(kind)
    return kind.replace("_", " ") if words is None else _filled(words, facts)


def _filled(words: Words, facts: Mapping[str, Any]) -> str:
    """The words with their facts; a template and the measures in it are as she says them."""
    if not isinstance(words, str):
        return words(**facts)
    return hers(words).format(**{name: _in_her_units(fact) for name, fact in facts.items()})


def _in_her_units(fact: Any) -> Any:
    if isinstance(fact, Length):
        return near(fact) if fact.um >= 0 else f"-{near(-fact)}"
    if isinstance(fact, Mass):
        return near(fact) if fact.mg >= 0 else f"-{near(-fact)}"
    return fact


#: A fact that has no plain form.
_UNSAID = object()


def plain_facts(note: Note) -> dict[str, Any]:
    """A note for scripts: its kind, its words, and its facts with the unit in the name."""
    return {"kind": note.kind, "words": sentence(note), **_plain_by_name(note.facts)}


def _plain_by_name(facts: Mapping[str, Any]) -> dict[str, Any]:
    """What has no plain form is left to the words."""
    plain = {f"{name}{_unit(fact)}": _plain(fact) for name, fact in facts.items()}
    return {name: fact for name, fact in plain.items() if fact is not _UNSAID}


def _unit(fact: object) -> str:
    """What the name of a fact ends in, by the measure it is."""
    if isinstance(fact, tuple) and fact:
        return _unit(fact[0])
    return "_m" if isinstance(fact, Length) else "_g" if isinstance(fact, Mass) else ""


def _plain(fact: Any) -> Any:
    """One fact as plain values: a measure in its unit, a lot by its ref, a record by its fields."""
    match fact:
        case Note():
            return plain_facts(fact)
        case Length():
            return fact.m
        case Mass():
            return fact.g
        case Fraction():
            return float(fact)
        case Money():
            return show_money(fact)
        case Enum():
            return fact.value
        case Lot():
            return fact.ref
        case date():
            return fact.isoformat()
        case tuple() | list():
            return [_plain(one) for one in fact]
        case None | bool() | int() | float() | str():
            return fact
    if any("__str__" in vars(cls) for cls in type(fact).__mro__[:-1]):
        return str(fact)
    if is_dataclass(fact):
        return _plain_by_name({field.name: getattr(fact, field.name) for field in fields(fact)})
    return _UNSAID


def _unreadable(error: Unreadable) -> str:
    """What the text was to be, the nearest choice where there are some, and what to write."""
    parts = unreadable()[error.kind]
    wanted, way_out = (_filled(part, error.facts) for part in parts)
    near = nearest(error.text, [str(one) for one in error.facts.get("choices", ())])
    meant = f"did you mean {near}? " if near and "did you mean" not in way_out else ""
    return f"cannot read {error.text!r}{wanted and f' as {wanted}'}: {meant}{way_out}"


#: Kinds of trouble that make one sentence with the name of the file.
_OF_A_FILE = ("not_a_stash", "newer_file")


#: So many names may each be what was meant; more are a list to choose from.
_FEW = 2


def _not_found(error: NotFound) -> str:
    """The noun is the kind's in the tables; where there is no hint, a command that lists such."""
    from stash.rendering.sentences.not_found import HINTS, said, shown_by

    if not error.asked and error.nearest:
        noun = worded(error.kind, error.facts)
        return f"name the {noun}: {either(map(sentence, error.nearest))}"
    if error.kind in HINTS:
        hint = _filled(HINTS[error.kind], error.facts)
    elif error.nearest:
        hint = said(error.asked, error.nearest)
    else:
        hint = f"`{command}` lists yours" if (command := shown_by(error.kind)) else ""
    return f"no {_asked_for(error)}{hint and '; '}{hint}"


def _asked_for(error: NotFound) -> str:
    """What was not there, as she asked for it: `item 99`, `colour 'blu' on your shelf`."""
    noun = worded(error.kind, error.facts)
    plain = error.asked.removeprefix("L").isdigit() or not error.asked
    asked = error.asked if plain else repr(error.asked)
    whole = noun.replace("…", asked) if "…" in noun else f"{noun} {asked}"
    return " ".join(whole.split())


@cache
def kinds() -> Mapping[str, Words]:
    """The words of every kind, from the `SENTENCES` of all modules beside this one."""
    return {kind: words for table in _tables("SENTENCES") for kind, words in table.items()}


@cache
def unreadable() -> Mapping[str, tuple[Words, Words]]:
    """What a text was to be and what to write instead, likewise from every `UNREADABLE`."""
    return {kind: words for table in _tables("UNREADABLE") for kind, words in table.items()}


def _tables(name: str) -> Iterator[Mapping[str, Any]]:
    for module in iter_modules(sentences.__path__):
        yield getattr(import_module(f"{sentences.__name__}.{module.name}"), name, {})
