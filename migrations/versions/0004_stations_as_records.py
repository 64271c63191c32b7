"""Stations that were set are records of their own; the ticks that rooms held are let go of.

The records are emptied; they are made again from the log, in today's meaning, right after the last step.

Revision 0004, after 0003.
"""

from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.execute("DELETE FROM record")


def downgrade() -> None:
    """Refused: a version before this one would refuse what the log holds since."""
    raise NotImplementedError("This step cannot be undone; restore a backup made before it.")
