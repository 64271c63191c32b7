"""Secret addresses of dates, one a person.

Revision 0005, after 0004.
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "calendar",
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("secret_hash", sa.String(), nullable=False),
        sa.Column("made_by", sa.String(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_calendar_person_id_person")),
        sa.ForeignKeyConstraint(["made_by"], ["device.id"], name=op.f("fk_calendar_made_by_device")),
        sa.PrimaryKeyConstraint("person_id", name=op.f("pk_calendar")),
        sa.UniqueConstraint("secret_hash", name=op.f("uq_calendar_secret_hash")),
    )


def downgrade() -> None:
    """Refused, as the step before it is."""
    raise NotImplementedError("This step cannot be undone; restore a backup made before it.")
