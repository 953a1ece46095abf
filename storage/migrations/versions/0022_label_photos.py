"""Photos of labels, kept with the product they are of.

Revision ID: 0022
"""

import sqlalchemy as sa
from alembic import op

revision = "0022"
down_revision = "0021"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("yard_photo") as batch:
        batch.add_column(
            sa.Column("is_of_label", sa.Boolean(), nullable=False, server_default=sa.false())
        )
        batch.add_column(sa.Column("product_id", sa.Integer(), nullable=True))
        batch.create_foreign_key(
            op.f("fk_yard_photo_product_id"), "product", ["product_id"], ["id"]
        )


def downgrade() -> None:
    with op.batch_alter_table("yard_photo") as batch:
        batch.drop_constraint(op.f("fk_yard_photo_product_id"), type_="foreignkey")
        batch.drop_column("product_id")
        batch.drop_column("is_of_label")
