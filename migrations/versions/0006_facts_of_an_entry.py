"""What an entry did, as facts; entries of before keep their sentence."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    op.add_column("entry", sa.Column("facts", sa.Text()))
