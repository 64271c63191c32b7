"""People with roles, invitations, who sees which job, concurrent edits, photos.

Everybody who had joined could do everything: they become foremen. The records are emptied; they are made again from
the log right after the last step.

Revision 0002, after 0001.
"""

from uuid import uuid4

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    _add_people()
    _add_invitations()
    _add_photos()
    op.create_table(
        "assignment",
        sa.Column("job_id", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("job_id", "person_id", name=op.f("pk_assignment")),
    )
    op.create_index(op.f("ix_assignment_person_id"), "assignment", ["person_id"])
    op.execute("DELETE FROM record")
    with op.batch_alter_table("record") as record:
        record.add_column(sa.Column("job_id", sa.String(), nullable=False))
        record.add_column(sa.Column("owner_id", sa.String(), nullable=False))
        record.add_column(sa.Column("conflicts", sa.JSON(), nullable=False))
        record.create_index(op.f("ix_record_job_id_sequence"), ["job_id", "sequence"])
    with op.batch_alter_table("service") as service:
        service.drop_column("join_code_hash")
        service.drop_column("join_code_made_at")


def _add_people() -> None:
    op.create_table(
        "person",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("view", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
    )
    for table in ("device", "change"):
        with op.batch_alter_table(table) as altered:
            altered.add_column(sa.Column("person_id", sa.String(), nullable=True))
    _name_people()
    with op.batch_alter_table("change") as change:
        change.alter_column("person_id", existing_type=sa.String(), nullable=False)
    with op.batch_alter_table("device") as device:
        device.alter_column("person_id", existing_type=sa.String(), nullable=False)
        device.drop_column("person")
        device.add_column(sa.Column("last_seen_at", sa.String(), nullable=True))
        device.add_column(sa.Column("removed_at", sa.String(), nullable=True))
        device.create_foreign_key(op.f("fk_device_person_id_person"), "person", ["person_id"], ["id"])
        device.create_index(op.f("ix_device_person_id"), ["person_id"])


def _name_people() -> None:
    """One person for every name that a device joined or a change was made under."""
    database = op.get_bind()
    names = database.execute(sa.text("SELECT person FROM device UNION SELECT person FROM change")).scalars().all()
    for name in names:
        told = {"id": str(uuid4()), "name": name}
        database.execute(sa.text("INSERT INTO person (id, name, role, view) VALUES (:id, :name, 'foreman', 1)"), told)
        database.execute(sa.text("UPDATE device SET person_id = :id WHERE person = :name"), told)
        database.execute(sa.text("UPDATE change SET person_id = :id WHERE person = :name"), told)


def _add_invitations() -> None:
    op.create_table(
        "invite",
        sa.Column("code_hash", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=True),
        sa.Column("made_by", sa.String(), nullable=True),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.Column("expires_at", sa.String(), nullable=False),
        sa.Column("used_at", sa.String(), nullable=True),
        sa.Column("used_by", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_invite_person_id_person")),
        sa.ForeignKeyConstraint(["made_by"], ["device.id"], name=op.f("fk_invite_made_by_device")),
        sa.ForeignKeyConstraint(["used_by"], ["device.id"], name=op.f("fk_invite_used_by_device")),
        sa.PrimaryKeyConstraint("code_hash", name=op.f("pk_invite")),
    )


def _add_photos() -> None:
    op.create_table(
        "photo",
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("size", sa.BigInteger(), nullable=False),
        sa.Column("received", sa.BigInteger(), nullable=False),
        sa.Column("media_type", sa.String(), nullable=True),
        sa.Column("content", sa.LargeBinary(), nullable=True),
        sa.Column("thumbnail", sa.LargeBinary(), nullable=True),
        sa.Column("begun_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_photo")),
    )
    op.create_table(
        "photo_part",
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("offset", sa.BigInteger(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["hash"], ["photo.hash"], name=op.f("fk_photo_part_hash_photo")),
        sa.PrimaryKeyConstraint("hash", "offset", name=op.f("pk_photo_part")),
    )


def downgrade() -> None:
    """Refused: without people and assignments everybody would see everything."""
    raise NotImplementedError("This step cannot be undone; restore a backup made before it.")
