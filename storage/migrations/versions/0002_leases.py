"""Leases: one worker ticks at a time."""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "lease",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("owner", sa.String(), nullable=False),
        sa.Column("until", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_lease")),
    )


def downgrade() -> None:
    op.drop_table("lease")
