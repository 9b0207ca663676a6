"""Conditions and daylight of a lot, parents and pairs of skeins, stock-taking in sessions.

The words for a movement grow, which in SQLite means a new table. It is written out here rather than
left to a batch copy, because that would lose STRICT, the names of the constraints and the triggers.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

NEW_MOVEMENT = """
CREATE TABLE movement_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    entry_number INTEGER NOT NULL,
    skein_number INTEGER NOT NULL,
    kind TEXT NOT NULL,
    change_mg INTEGER NOT NULL,
    typed TEXT DEFAULT '' NOT NULL,
    article_number INTEGER,
    role TEXT DEFAULT '' NOT NULL,
    estimated INTEGER DEFAULT 0 NOT NULL,
    undoes INTEGER,
    CONSTRAINT ck_movement_kind_known CHECK (kind IN ('arrived', 'used', 'corrected', 'restated',
        'given', 'sold', 'lost', 'spoilt', 'wound off', 'unravelled')),
    CONSTRAINT ck_movement_change_is_something CHECK (change_mg <> 0),
    CONSTRAINT fk_movement_entry_number_entry FOREIGN KEY(entry_number) REFERENCES entry (number),
    CONSTRAINT fk_movement_skein_number_skein FOREIGN KEY(skein_number) REFERENCES skein (number),
    CONSTRAINT fk_movement_article_number_article
        FOREIGN KEY(article_number) REFERENCES article (number),
    CONSTRAINT uq_movement_undoes UNIQUE (undoes),
    CONSTRAINT fk_movement_undoes_movement FOREIGN KEY(undoes) REFERENCES movement (id)
) STRICT
"""


def upgrade() -> None:
    op.add_column("lot", sa.Column("conditions", sa.Text(), server_default="", nullable=False))
    op.add_column(
        "lot", sa.Column("daylight", sa.Integer(), server_default=sa.text("0"), nullable=False)
    )
    op.execute(
        "ALTER TABLE skein ADD COLUMN parent INTEGER "
        "CONSTRAINT fk_skein_parent_skein REFERENCES skein (number)"
    )
    op.execute(
        "ALTER TABLE skein ADD COLUMN own_from TEXT DEFAULT 'measured' NOT NULL "
        "CONSTRAINT ck_skein_own_from_known CHECK (own_from IN ('band', 'measured', 'assumed'))"
    )
    # without it every new skein is looked for among all others, as somebody's parent
    op.create_index("ix_skein_parent", "skein", ["parent"])
    _more_words_for_a_movement()
    op.create_table(
        "stocktake",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("begun_on", sa.Text(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_stocktake_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stocktake")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "stocktake_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("stocktake_id", sa.Integer(), nullable=False),
        sa.Column("skein_number", sa.Integer(), nullable=False),
        sa.Column("reading_mg", sa.Integer(), nullable=True),
        sa.Column("tare_mg", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["skein_number"], ["skein.number"], name=op.f("fk_stocktake_line_skein_number_skein")
        ),
        sa.ForeignKeyConstraint(
            ["stocktake_id"],
            ["stocktake.id"],
            name=op.f("fk_stocktake_line_stocktake_id_stocktake"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stocktake_line")),
        sa.UniqueConstraint(
            "stocktake_id",
            "skein_number",
            name=op.f("uq_stocktake_line_stocktake_id_skein_number"),
        ),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index("ix_stocktake_line_skein_number", "stocktake_line", ["skein_number"])


def _more_words_for_a_movement() -> None:
    columns = (
        "id, entry_number, skein_number, kind, change_mg, typed, article_number, role, "
        "estimated, undoes"
    )
    op.execute(NEW_MOVEMENT)
    op.execute(f"INSERT INTO movement_new ({columns}) SELECT {columns} FROM movement ORDER BY id")
    op.execute(
        "UPDATE sqlite_sequence SET seq = "
        "(SELECT seq FROM sqlite_sequence WHERE name = 'movement') WHERE name = 'movement_new'"
    )
    op.execute("DROP TABLE movement")
    op.execute("ALTER TABLE movement_new RENAME TO movement")
    op.create_index("ix_movement_article_number", "movement", ["article_number"])
    op.create_index(
        "ix_movement_balance", "movement", ["skein_number", "change_mg", "kind", "undoes"]
    )
    op.create_index("ix_movement_entry_number", "movement", ["entry_number"])
