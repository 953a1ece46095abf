"""What is due of a yard is found without going through all that was ever sent of it.

Revision ID: 0024
"""

import sqlalchemy as sa
from alembic import op

revision = "0024"
down_revision = "0023"
branch_labels = None
depends_on = None

_DUE = sa.text("state = 'due'")


def upgrade() -> None:
    op.create_index(
        "ix_alert_due_of_yard", "alert", ["yard_id"], sqlite_where=_DUE, postgresql_where=_DUE
    )


def downgrade() -> None:
    op.drop_index("ix_alert_due_of_yard", "alert")
