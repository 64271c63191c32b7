"""A photo is kept for each job that shows it, and a record is found by the photo it names.

Nothing has been kept in the photo tables before this step, so they are made anew.

Revision 0003, after 0002.
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.drop_table("photo_part")
    op.drop_table("photo")
    _add_photos()
    with op.batch_alter_table("record") as record:
        record.add_column(sa.Column("photo_hash", sa.String(), nullable=True))
        record.create_index(op.f("ix_record_photo_hash"), ["photo_hash"])
    _name_photos()


def _add_photos() -> None:
    op.create_table(
        "photo",
        sa.Column("job_id", sa.String(), nullable=False),
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("size", sa.BigInteger(), nullable=False),
        sa.Column("received", sa.BigInteger(), nullable=False),
        sa.Column("begun_at", sa.String(), nullable=False),
        sa.Column("media_type", sa.String(), nullable=True),
        sa.Column("thumbnail", sa.LargeBinary(), nullable=True),
        sa.Column("content", sa.LargeBinary(), nullable=True),
        sa.PrimaryKeyConstraint("job_id", "hash", name=op.f("pk_photo")),
    )
    op.create_table(
        "photo_part",
        sa.Column("job_id", sa.String(), nullable=False),
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("offset", sa.BigInteger(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id", "hash"], ["photo.job_id", "photo.hash"], name=op.f("fk_photo_part_job_id_hash_photo")
        ),
        sa.PrimaryKeyConstraint("job_id", "hash", "offset", name=op.f("pk_photo_part")),
    )


def _name_photos() -> None:
    """What the records of photos name, as far as there are any already."""
    columns = sa.column("kind", sa.String()), sa.column("fields", sa.JSON()), sa.column("photo_hash", sa.String())
    record = sa.table("record", *columns)
    named = sa.update(record).values(photo_hash=record.c.fields["hash"].as_string())
    op.execute(named.where(record.c.kind == "photo"))


def downgrade() -> None:
    """Refused, as the step before it is."""
    raise NotImplementedError("This step cannot be undone; restore a backup made before it.")
