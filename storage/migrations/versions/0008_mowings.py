"""Days on which new seed was mown, so that each counts once.

Revision ID: 0008
"""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("seeding") as batch:
        batch.add_column(sa.Column("mown_on", sa.JSON(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("seeding") as batch:
        batch.drop_column("mown_on")
