"""What a state asks for beside an application, as a chat says: signs, and notice so long ahead.

Revision ID: 0018
"""

import sqlalchemy as sa
from alembic import op

revision = "0018"
down_revision = "0017"
branch_labels = None
depends_on = None


def upgrade() -> None:
    signs: sa.Column[bool] = sa.Column(
        "posts_signs", sa.Boolean(), server_default=sa.false(), nullable=False
    )
    op.add_column("chat_wishes", signs)
    op.add_column("chat_wishes", sa.Column("notice_hours", sa.Integer(), nullable=True))


def downgrade() -> None:
    op.drop_column("chat_wishes", "notice_hours")
    op.drop_column("chat_wishes", "posts_signs")
