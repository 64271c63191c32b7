"""What is answered to a job file."""

from typing import Literal

from pydantic import Field

from evenbed.wire.exchange import Reply

MEDIA_TYPE = "application/zip"


class JobFileReply(Reply):
    """All of the file is here now. Sent once more it changes nothing, and says so."""

    outcome: Literal["taken", "nothing_new"]
    job: str = Field(description="Its id: that of the job in the file")
    changes: int = Field(description="That were new")
    known: int = Field(description="Changes that were here already")
    photos: int = Field(description="That were new")
    photos_missing: int = Field(description="Of the job, and not in the file")
    has_history: bool = Field(description="Whether the file held the whole history of the job")
    unknown: list[str] = Field(
        description="Names in the file that this version does not know, and left out; some of them"
    )
