"""Sales of articles, and their coming back, beside the state an article is in."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    op.create_table(
        "sale",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("price_coins", sa.Integer(), nullable=False),
        sa.Column("fee_coins", sa.Integer(), nullable=False),
        sa.CheckConstraint("kind IN ('sold', 'returned')", name=op.f("ck_sale_kind_known")),
        sa.CheckConstraint(
            "price_coins >= 0 AND fee_coins >= 0", name=op.f("ck_sale_money_not_negative")
        ),
        sa.ForeignKeyConstraint(
            ["article_number"], ["article.number"], name=op.f("fk_sale_article_number_article")
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_sale_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sale")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index("ix_sale_article_number", "sale", ["article_number"])
    op.create_index("ix_sale_entry_number", "sale", ["entry_number"])
