"""Why a job file is not taken: a closed set, the same on phone and service. Nothing of such a file is kept."""

from enum import StrEnum


class Fault(StrEnum):
    """The closed set. The phone has a sentence for each, in each language."""

    NOT_A_ZIP = "not_a_zip"
    TOO_LARGE = "too_large"
    TOO_MANY_PARTS = "too_many_parts"
    ENCRYPTED = "encrypted"
    BAD_NAME = "bad_name"
    DOUBLE_NAME = "double_name"
    DAMAGED = "damaged"
    NO_JOB = "no_job"
    TOO_DEEP = "too_deep"
    NOT_JSON = "not_json"
    NOT_A_JOB_FILE = "not_a_job_file"
    NEWER_VERSION = "newer_version"
    WRONG_SHAPE = "wrong_shape"
    BAD_ID = "bad_id"
    UNKNOWN_KIND = "unknown_kind"
    OTHER_JOB = "other_job"
    NO_PARENT = "no_parent"
    DOUBLE_CHANGE = "double_change"
    RECORDS_DIFFER = "records_differ"
    PHOTO_DIFFERS = "photo_differs"
    PHOTO_MISSING = "photo_missing"
    PHOTO_UNNAMED = "photo_unnamed"
    REFUSED = "refused"


SENTENCES: dict[Fault, str] = {
    Fault.NOT_A_ZIP: "It is no zip file, or it is cut off.",
    Fault.TOO_LARGE: "It is larger than a job can be: {where}.",
    Fault.TOO_MANY_PARTS: "It has more parts than a job can have.",
    Fault.ENCRYPTED: "It is locked with a password: {where}.",
    Fault.BAD_NAME: "A part in it has a name that no job file has: {where}.",
    Fault.DOUBLE_NAME: "Two parts in it have one name: {where}.",
    Fault.DAMAGED: "It is damaged: {where}.",
    Fault.NO_JOB: "There is no job.json in it.",
    Fault.TOO_DEEP: "Its contents are nested deeper than a job's can be: {where}.",
    Fault.NOT_JSON: "What is in it cannot be read: {where}.",
    Fault.NOT_A_JOB_FILE: "It is a zip file, but no job file of Evenbed: {where}.",
    Fault.NEWER_VERSION: "It was made by a newer version of Evenbed. Update this one first: {where}.",
    Fault.WRONG_SHAPE: "Its job.json is not as it should be: {where}.",
    Fault.BAD_ID: "An id in it is none: {where}.",
    Fault.UNKNOWN_KIND: "It has records of a kind that no job has: {where}.",
    Fault.OTHER_JOB: "It has records of another job: {where}.",
    Fault.NO_PARENT: "A record in it belongs to something that is not there: {where}.",
    Fault.DOUBLE_CHANGE: "One change is in it twice: {where}.",
    Fault.RECORDS_DIFFER: "Its records and its history do not belong together: {where}.",
    Fault.PHOTO_DIFFERS: "A photo in it is not the one it should be: {where}.",
    Fault.PHOTO_MISSING: "A photo that should be in it is not: {where}.",
    Fault.PHOTO_UNNAMED: "It has a photo that nothing in it names: {where}.",
    Fault.REFUSED: "A change in it cannot be taken: {where}. {why}",
}
QUOTED = 80
WHOLE = "the file"


class JobFileError(Exception):
    """The file is not taken; `fault` says why, `where` names the place in it, no longer than a line.

    `why` belongs to `refused`: the sentence with which the change was refused.
    """

    def __init__(self, fault: Fault, where: object = WHOLE, why: str = "") -> None:
        self.fault = fault
        self.where = "".join(c if c.isprintable() else "?" for c in str(where)[:QUOTED])
        super().__init__(SENTENCES[fault].format(where=self.where, why=why).strip())
