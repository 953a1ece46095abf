"""Since when a chat cannot be reached: after a year all that is kept of it is deleted.

Revision ID: 0015
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None


def upgrade() -> None:
    # A column that may be added as it is: other tables point at this one.
    op.add_column("chat", sa.Column("silent_at", UtcDateTime(), nullable=True))


def downgrade() -> None:
    op.drop_column("chat", "silent_at")
