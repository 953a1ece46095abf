"""Leaving: chats that want no messages, and texts not understood of chats that agreed.

Revision ID: 0011
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None


def upgrade() -> None:
    # Columns that may be added as they are: other tables point at this one.
    op.add_column("chat", sa.Column("stopped_at", UtcDateTime(), nullable=True))
    op.add_column(
        "chat", sa.Column("keeps_unread", sa.Boolean(), nullable=False, server_default=sa.false())
    )
    op.create_table(
        "unread_text",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("said_on", sa.Date(), nullable=False),
        sa.Column("language", sa.String(), nullable=False),
        sa.Column("moment", sa.String(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_unread_text")),
    )
    op.create_index(op.f("ix_unread_text_said_on"), "unread_text", ["said_on"])


def downgrade() -> None:
    op.drop_table("unread_text")
    op.drop_column("chat", "keeps_unread")
    op.drop_column("chat", "stopped_at")
