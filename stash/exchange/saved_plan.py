"""A planned batch as a file of its own: JSON that a person may read, and read back with care."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from stash.errors import BadPlan
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.planning.model.saved import Saved, SavedCut, SavedRole, SavedWant
from stash.requirements.design.serialise import under_keys_of_today

#: The mark of such a file, and the way it is written.
KIND, VERSION = "stash batch", 1


def plan_written(saved: Saved) -> str:
    """The text of the file."""
    given = {
        "kind": KIND,
        "version": VERSION,
        "as_of": saved.as_of.isoformat(),
        "wants": [_want(want) for want in saved.wants],
        "items": {str(number): want for number, want in saved.items.items()},
        "cuts": [
            {
                "item": cut.item,
                "skein": cut.skein,
                "role": cut.role,
                "strand": cut.strand,
                "take_um": cut.length.um,
            }
            for cut in saved.cuts
        ],
        "free_mg": {str(number): mass.mg for number, mass in saved.free.items()},
    }
    return json.dumps(given, ensure_ascii=False, indent=1) + "\n"


def _want(want: SavedWant) -> dict[str, Any]:
    return {
        "design": want.design,
        "name": want.name,
        "plan": want.plan,
        "made_as": want.made_as,
        "roles": [
            {
                "role": role.role,
                "expected_um": role.expected.um,
                "set_aside_um": role.set_aside.um,
                "source": role.source,
            }
            for role in want.roles
        ],
        "coins": want.coins,
        "minutes": want.minutes,
        "order": want.order,
    }


def saved_plan_from(name: str, data: bytes) -> Saved:
    """The plan in such a file; anything else is refused in one line."""
    try:
        given = json.loads(data.decode("utf-8"))
        if given["kind"] != KIND or given["version"] != VERSION:
            raise KeyError("kind")
        return _saved(given)
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError, OverflowError):
        raise BadPlan(name, [Note("no_saved_batch")]) from None


def _saved(given: Mapping[str, Any]) -> Saved:
    wants = tuple(_want_read(want) for want in given["wants"])
    items = {int(number): int(want) for number, want in _either(given, "items", "articles").items()}
    if any(not 0 <= want < len(wants) for want in items.values()):
        raise IndexError("wants")
    return Saved(
        date.fromisoformat(given["as_of"]),
        wants,
        items,
        tuple(
            SavedCut(
                _whole(_either(cut, "item", "article")),
                _whole(cut["skein"]),
                str(cut["role"]),
                _whole(cut["strand"]),
                Length(_whole(cut["take_um"])),
            )
            for cut in given["cuts"]
        ),
        {int(number): Mass(_whole(mg)) for number, mg in given["free_mg"].items()},
    )


def _want_read(given: Mapping[str, Any]) -> SavedWant:
    roles = tuple(
        SavedRole(
            str(role["role"]),
            Length(_whole(role["expected_um"])),
            Length(_whole(role["set_aside_um"])),
            _SOURCES.get(role["source"], str(role["source"])),
        )
        for role in given["roles"]
    )
    made_as = given["made_as"]
    if made_as is not None:
        made_as = under_keys_of_today(made_as)
    coins, minutes, order = (
        None if given.get(key) is None else _whole(given[key])  # not in files of before
        for key in ("coins", "minutes", "order")
    )
    return SavedWant(
        str(_either(given, "design", "piece")),
        str(given["name"]),
        under_keys_of_today(given["plan"]),
        made_as,
        roles,
        coins,
        minutes,
        order,
    )


#: Sources of a need as older versions called them.
_SOURCES = {"own article": "own items", "class": "thickness"}


def _either(given: Mapping[str, Any], name: str, before: str) -> Any:
    """What is kept under its name of today, or that of before."""
    return given[name] if name in given else given[before]


def _whole(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise ValueError(value)
    return value
