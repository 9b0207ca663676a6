"""The shelf as it is kept for whoever asks often."""

from __future__ import annotations

from sqlalchemy import Connection

from stash.stock.holding import HeldLot
from stash.store import skein_rows
from stash.store.memory import recall


def kept_lots(db: Connection, *, with_spent: bool = False) -> tuple[HeldLot, ...]:
    """The whole shelf; read once as long as the file is unchanged, if the view has a memory."""
    return recall(
        db,
        ("held lots", with_spent),
        lambda: skein_rows.held_lots(db, with_spent=with_spent),
    )
