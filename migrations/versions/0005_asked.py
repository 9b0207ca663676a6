"""What was asked for an article when it was planned: its price or value, and its hours."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    op.add_column("article", sa.Column("asked_coins", sa.Integer()))
    op.add_column("article", sa.Column("asked_minutes", sa.Integer()))
