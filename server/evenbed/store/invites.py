"""Join codes that were given out; of a code only its hash is kept."""

from dataclasses import dataclass
from datetime import datetime
from typing import cast

from sqlmodel import Session

from evenbed.store.tables import InviteRow
from evenbed.store.times import moment_from_text, text_from_moment
from evenbed.wire.exchange import Role


@dataclass(frozen=True)
class Invite:
    """For one device, once, until it expires. Without `person_id` whoever brings the code says who they are."""

    code_hash: str
    role: Role
    person_id: str | None
    made_by: str | None
    made_at: datetime
    expires_at: datetime
    is_used: bool = False


class Invites:
    """Invitations inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, invite: Invite) -> None:
        """Keep a new one."""
        row = InviteRow(
            code_hash=invite.code_hash,
            role=invite.role,
            person_id=invite.person_id,
            made_by=invite.made_by,
            made_at=text_from_moment(invite.made_at),
            expires_at=text_from_moment(invite.expires_at),
        )
        self._session.add(row)
        self._session.flush()

    def with_hash(self, code_hash: str) -> Invite | None:
        """The one whose code has this hash, used or expired or not."""
        row = self._session.get(InviteRow, code_hash)
        return _invite_from(row) if row else None

    def use(self, code_hash: str, device_id: str, at: datetime) -> None:
        """It has let a device in, and lets in no other."""
        row = self._session.get_one(InviteRow, code_hash)
        row.used_at, row.used_by = text_from_moment(at), device_id
        self._session.flush()


def _invite_from(row: InviteRow) -> Invite:
    return Invite(
        code_hash=row.code_hash,
        role=cast("Role", row.role),
        person_id=row.person_id,
        made_by=row.made_by,
        made_at=moment_from_text(row.made_at),
        expires_at=moment_from_text(row.expires_at),
        is_used=row.used_at is not None,
    )
