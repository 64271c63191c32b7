"""How far a photo has come on its way to the service."""

from pydantic import Field

from evenbed.wire.exchange import Reply


class PhotoReply(Reply):
    """What is here of a photo, in bytes. The next part goes on from `received`."""

    size: int = Field(description="As the photo's record says")
    received: int
    complete: bool = Field(description="All of it is here and was found good: it can be looked at")
