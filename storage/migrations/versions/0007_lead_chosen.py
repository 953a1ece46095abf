"""Whether somebody chose a yard's lead, also where it is the plan's own."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

#: The plan's lead when this was written: any other has been chosen [days].
_OF_THE_PLAN = 21


def upgrade() -> None:
    # The table is not made anew, as others point at it.
    op.add_column(
        "yard", sa.Column("is_lead_set", sa.Boolean(), nullable=False, server_default=sa.false())
    )
    yard = sa.table(
        "yard", sa.column("lead_days", sa.Integer), sa.column("is_lead_set", sa.Boolean)
    )
    op.execute(yard.update().where(yard.c.lead_days != _OF_THE_PLAN).values(is_lead_set=True))


def downgrade() -> None:
    op.drop_column("yard", "is_lead_set")
