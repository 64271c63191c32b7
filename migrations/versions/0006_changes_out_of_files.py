"""Where a change out of a file was made: by whom, when, on which device.

Revision 0006, after 0005.
"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

FROM_FILES = sa.text("origin IS NOT NULL")


def upgrade() -> None:
    """Apply."""
    op.add_column("change", sa.Column("origin", sa.JSON(), nullable=True))
    op.create_index(
        "ix_change_out_of_a_file", "change", ["device_id"], sqlite_where=FROM_FILES, postgresql_where=FROM_FILES
    )


def downgrade() -> None:
    """Take back."""
    op.drop_index("ix_change_out_of_a_file", "change")
    with op.batch_alter_table("change") as batch:
        batch.drop_column("origin")
