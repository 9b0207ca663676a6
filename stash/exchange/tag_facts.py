"""What stands on a tag: the facts of an item, with the care of its lots read from their bands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.parsing import care
from stash.rendering.tag import Facts, Maker

if TYPE_CHECKING:
    from stash.actions.tag import Tag


def facts_of(found: Tag) -> Facts:
    """An item's tag, ready to be set out."""
    hers = found.settings
    return Facts(
        batch=found.item.number,
        name=found.item.design,
        made_on=found.made_on,
        content=found.content,
        sources=[(source.lot, source.skeins, source.mass) for source in found.sources],
        care={source.lot.ref: care.care(source.lot.care) for source in found.sources},
        estimated=found.estimated,
        shape=found.shape,
        whom=found.whom,
        warnings=found.warnings,
        minded=found.cautions,
        maker=Maker(hers.maker, hers.address, hers.contact),
    )
