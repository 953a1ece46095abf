"""Yards in bulk: whose a yard is, by name, its street address and its town.

Revision ID: 0014
"""

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

_COLUMNS = ("customer", "address", "town")


def upgrade() -> None:
    for name in _COLUMNS:
        op.add_column("yard", sa.Column(name, sa.String(), nullable=True))


def downgrade() -> None:
    for name in _COLUMNS:
        op.drop_column("yard", name)
