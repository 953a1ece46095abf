"""Calls to services are counted where all programs see them; past years of a place come later.

Revision ID: 0023
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0023"
down_revision = "0022"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "call_line",
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("shut_until", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("service", name=op.f("pk_call_line")),
    )
    op.create_table(
        "call_made",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("made_at", UtcDateTime(), nullable=False),
        sa.Column("calls", sa.Double(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_call_made")),
    )
    op.create_index(op.f("ix_call_made_service_made_at"), "call_made", ["service", "made_at"])
    op.add_column("cell", sa.Column("recent_since", sa.Date(), nullable=True))
    op.create_index(op.f("ix_cell_recent_since"), "cell", ["recent_since"])


def downgrade() -> None:
    op.drop_index(op.f("ix_cell_recent_since"), "cell")
    op.drop_column("cell", "recent_since")
    op.drop_table("call_made")
    op.drop_table("call_line")
