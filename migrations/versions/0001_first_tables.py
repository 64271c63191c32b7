"""First tables: the service's own row, devices, the log of changes, the records made from it.

Revision 0001, after None.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "device",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("joined_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_device_token_hash")),
    )
    op.create_table(
        "record",
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("sequence", sa.BigInteger(), nullable=False),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.Column("created_by", sa.String(), nullable=False),
        sa.Column("changed_by", sa.String(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("kind", "id", name=op.f("pk_record")),
        sa.UniqueConstraint("sequence", name=op.f("uq_record_sequence")),
    )
    op.create_table(
        "service",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("identity", sa.String(), nullable=False),
        sa.Column("latest", sa.BigInteger(), nullable=False),
        sa.Column("join_code_hash", sa.String(), nullable=False),
        sa.Column("join_code_made_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_service")),
    )
    op.create_table(
        "change",
        sa.Column("device_id", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("change_id", sa.String(), nullable=False),
        sa.Column("sequence", sa.BigInteger(), nullable=True),
        sa.Column("outcome", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("record_id", sa.String(), nullable=False),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("seen", sa.BigInteger(), nullable=False),
        sa.Column("schema_version", sa.Integer(), nullable=False),
        sa.Column("device_time", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("received_at", sa.String(), nullable=False),
        sa.Column("replaced", sa.JSON(), nullable=False),
        sa.Column("concurrent", sa.JSON(), nullable=False),
        sa.Column("overruled", sa.JSON(), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("message", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["device_id"], ["device.id"], name=op.f("fk_change_device_id_device")),
        sa.PrimaryKeyConstraint("device_id", "number", name=op.f("pk_change")),
        sa.UniqueConstraint("sequence", name=op.f("uq_change_sequence")),
    )
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_change_kind_record_id_sequence"), ["kind", "record_id", "sequence"], unique=False
        )
        batch_op.create_index(
            "uq_change_applied_change_id",
            ["change_id"],
            unique=True,
            sqlite_where=sa.text("sequence IS NOT NULL"),
            postgresql_where=sa.text("sequence IS NOT NULL"),
        )


def downgrade() -> None:
    """Undo."""
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.drop_index(
            "uq_change_applied_change_id",
            sqlite_where=sa.text("sequence IS NOT NULL"),
            postgresql_where=sa.text("sequence IS NOT NULL"),
        )
        batch_op.drop_index(batch_op.f("ix_change_kind_record_id_sequence"))

    op.drop_table("change")
    op.drop_table("service")
    op.drop_table("record")
    op.drop_table("device")
