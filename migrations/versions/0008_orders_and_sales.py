"""A seller's season: orders, hours an item took, what became of it, what yarn was sold for."""

import re

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"

#: Words that a column may hold from now on as well, by table and column.
_MORE = {
    ("fact", "thing"): ("item", "order"),
    ("sale", "kind"): ("given", "lost"),
    ("movement", "kind"): ("mistaken",),
}


def upgrade() -> None:
    db = op.get_bind()
    db.exec_driver_sql("PRAGMA legacy_alter_table = ON")  # else references to a table follow it
    for (table, column), words in _MORE.items():
        _widened(db, table, column, words)
    db.exec_driver_sql("PRAGMA legacy_alter_table = OFF")
    op.create_table(
        "item_order",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("design_id", sa.Integer(), nullable=False),
        sa.Column("size", sa.Text(), server_default="", nullable=False),
        sa.Column("colours", sa.Text(), server_default="", nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("by_day", sa.Text(), nullable=False),
        sa.Column("price_coins", sa.Integer()),
        sa.Column("note", sa.Text(), server_default="", nullable=False),
        sa.Column("dropped", sa.Integer(), server_default=sa.text("0"), nullable=False),
        sa.CheckConstraint("count > 0", name=op.f("ck_item_order_count_is_something")),
        sa.CheckConstraint("price_coins >= 0", name=op.f("ck_item_order_price_not_negative")),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_item_order_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(
            ["design_id"], ["design.id"], name=op.f("fk_item_order_design_id_design")
        ),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_item_order")),
        sqlite_strict=True,
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_item_order_entry_number"), "item_order", ["entry_number"])
    for table, column in (
        ("item", "order_number INTEGER CONSTRAINT fk_item_order_number_item_order "
                 "REFERENCES item_order (number)"),
        ("item", "made_minutes INTEGER"),
        ("movement", "price_coins INTEGER"),
        ("movement", "fee_coins INTEGER"),
        ("design", "dropped INTEGER DEFAULT 0 NOT NULL"),
    ):  # fmt: skip
        db.exec_driver_sql(f"ALTER TABLE {table} ADD COLUMN {column}")


def _widened(db: sa.Connection, table: str, column: str, words: tuple[str, ...]) -> None:
    """The table with its rows, where a column may hold more words."""
    asked = "SELECT type, sql FROM sqlite_master WHERE tbl_name = ? AND sql NOT NULL"
    said = db.exec_driver_sql(asked, (table,)).all()
    last = db.exec_driver_sql("SELECT seq FROM sqlite_sequence WHERE name = ?", (table,)).scalar()
    more = "".join(f", '{word}'" for word in words)
    listed = re.compile(rf"({column} IN \([^)]*)\)")
    db.exec_driver_sql(f"ALTER TABLE {table} RENAME TO was_{table}")
    for sql in (sql for kind, sql in said if kind == "table"):
        db.exec_driver_sql(listed.sub(rf"\1{more})", sql))
    columns = [row[1] for row in db.exec_driver_sql(f"PRAGMA table_info(was_{table})")]
    named = ", ".join(columns)
    db.exec_driver_sql(f"INSERT INTO {table} ({named}) SELECT {named} FROM was_{table}")
    db.exec_driver_sql(f"DROP TABLE was_{table}")
    for sql in (sql for kind, sql in said if kind == "index"):
        db.exec_driver_sql(sql)
    db.exec_driver_sql("DELETE FROM sqlite_sequence WHERE name = ?", (table,))
    if last is not None:
        db.exec_driver_sql("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", (table, last))
