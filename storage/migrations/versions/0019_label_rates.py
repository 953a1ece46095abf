"""The range of rates a label gives: lowest and highest, in their unit.

Revision ID: 0019
"""

import sqlalchemy as sa
from alembic import op

revision = "0019"
down_revision = "0018"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("product", sa.Column("rates", sa.JSON(), nullable=True))


def downgrade() -> None:
    op.drop_column("product", "rates")
