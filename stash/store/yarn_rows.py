"""Yarns: a maker and a name each, whatever lots there are of them."""

from __future__ import annotations

from sqlalchemy import Connection, func, insert, select

from stash.stock.yarn import Yarn
from stash.store.tables import yarn


def yarn_of(db: Connection, maker: str, name: str) -> Yarn:
    """The yarn of this maker and name, made if it is new."""
    return yarn_known(db, maker, name) or new_yarn(db, maker, name)


def yarn_known(db: Connection, maker: str, name: str) -> Yarn | None:
    """The yarn of this maker and name, if there is one."""
    found = db.execute(
        select(yarn.c.id, yarn.c.maker, yarn.c.name).where(
            # both sides by SQLite, which lowers A to Z alone
            func.lower(yarn.c.maker) == func.lower(maker),
            func.lower(yarn.c.name) == func.lower(name),
        )
    ).first()
    return None if found is None else Yarn(*found)


def new_yarn(db: Connection, maker: str, name: str) -> Yarn:
    """A yarn that was not known before."""
    key = db.execute(insert(yarn).values(maker=maker, name=name)).inserted_primary_key
    assert key is not None
    return Yarn(key[0], maker, name)


def yarn_numbered(db: Connection, key: int) -> Yarn:
    """The yarn of this row; it must be there."""
    return Yarn(*db.execute(select(yarn).where(yarn.c.id == key)).one())
