"""Requests and replies about people and their devices. All of it is the foreman's business."""

from typing import Annotated

from pydantic import ConfigDict, Field, model_validator
from pydantic.config import JsonDict

from evenbed.wire.exchange import Reply, Request, Role, SpokenName
from evenbed.wire.values import Moment, Uuid

FOR_NEW_OR_KNOWN: JsonDict = {
    "oneOf": [
        {
            "required": ["name", "role"],
            "properties": {"name": {"type": "string"}, "role": {"type": "string"}, "person_id": {"type": "null"}},
        },
        {"required": ["person_id"], "properties": {"person_id": {"type": "string"}, "name": {"type": "null"}}},
    ]
}
"""The same rule as `InviteRequest` checks, for whoever reads the description."""


class InviteRequest(Request):
    """Let somebody in: a new person by name and role, or another device of a known one by id. One of the two."""

    model_config = ConfigDict(json_schema_extra=FOR_NEW_OR_KNOWN)

    role: Role | None = Field(default=None, description="Needed for a new person; a known one keeps theirs")
    name: SpokenName | None = None
    person_id: Uuid | None = None

    @model_validator(mode="after")
    def _is_for_one(self) -> "InviteRequest":
        is_for_new, is_for_known = self.name is not None, self.person_id is not None
        if is_for_new == is_for_known:
            raise ValueError("send either a new person's name and role, or a known one's person_id")
        if is_for_new and self.role is None:
            raise ValueError("a new person needs a role: foreman, setter or viewer")
        return self


class InviteReply(Reply):
    """A code for one device, shown this once."""

    code: str
    person_id: str
    expires_at: Moment


class KnownDevice(Reply):
    """A device that has joined; `removed_at` says since when it may neither read nor write."""

    id: str
    name: str
    joined_at: Moment
    last_seen_at: Moment | None
    removed_at: Moment | None


class KnownPerson(Reply):
    """Somebody who was let in, or is expected: then there are no devices yet."""

    id: str
    name: str
    role: Role
    devices: list[KnownDevice]


class PeopleReply(Reply):
    """Everybody, by name."""

    people: list[KnownPerson]


class PersonEdit(Request):
    """What changes about a person; what is left out stays."""

    name: SpokenName | None = None
    role: Role | None = None


class DeviceEdit(Request):
    """A new name for a device."""

    name: Annotated[SpokenName, Field(description="As the foreman or its owner calls it")]
