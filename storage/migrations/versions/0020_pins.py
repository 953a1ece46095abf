"""The message of a yard that always says how it stands.

Revision ID: 0020
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0020"
down_revision = "0019"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "pin",
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("message_ref", sa.String(), nullable=True),
        sa.Column("shown", sa.String(), nullable=True),
        sa.Column("yard_version", sa.Integer(), nullable=False),
        sa.Column("times_sent", sa.Integer(), nullable=False),
        sa.Column("not_before", UtcDateTime(), nullable=False),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_pin_yard_id")),
        sa.PrimaryKeyConstraint("yard_id", name=op.f("pk_pin")),
    )


def downgrade() -> None:
    op.drop_table("pin")
