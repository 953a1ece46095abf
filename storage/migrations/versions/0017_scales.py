"""What a person's scale shows: its step and unit.

Revision ID: 0017
"""

import sqlalchemy as sa
from alembic import op

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("person", sa.Column("scale_step", sa.Double(), nullable=True))
    op.add_column("person", sa.Column("scale_unit", sa.String(), nullable=True))


def downgrade() -> None:
    op.drop_column("person", "scale_unit")
    op.drop_column("person", "scale_step")
