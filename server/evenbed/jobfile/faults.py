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
    Fault.TOO_LARGE: "It is larger than a job can be.",
    Fault.TOO_MANY_PARTS: "It has more parts than a job can have.",
    Fault.ENCRYPTED: "It is locked with a password.",
    Fault.BAD_NAME: "A part in it has a name that no job file has: {about}.",
    Fault.DOUBLE_NAME: "Two parts in it have one name: {about}.",
    Fault.DAMAGED: "It is damaged: {about}.",
    Fault.NO_JOB: "There is no job.json in it.",
    Fault.TOO_DEEP: "Its contents are nested deeper than a job's can be.",
    Fault.NOT_JSON: "Its job.json cannot be read.",
    Fault.NOT_A_JOB_FILE: "It is a zip file, but no job file of Evenbed.",
    Fault.NEWER_VERSION: "It was made by a newer version of Evenbed. Update this one first.",
    Fault.WRONG_SHAPE: "Its job.json is not as it should be: {about}.",
    Fault.BAD_ID: "An id in it is none: {about}.",
    Fault.UNKNOWN_KIND: "It has records of a kind that no job has: {about}.",
    Fault.OTHER_JOB: "It has records of another job.",
    Fault.NO_PARENT: "A record in it belongs to something that is not there: {about}.",
    Fault.DOUBLE_CHANGE: "One change is in it twice.",
    Fault.RECORDS_DIFFER: "Its records and its history do not belong together.",
    Fault.PHOTO_DIFFERS: "A photo in it is not the one it should be: {about}.",
    Fault.PHOTO_MISSING: "A photo that should be in it is not: {about}.",
    Fault.PHOTO_UNNAMED: "It has a photo that nothing in it names: {about}.",
    Fault.REFUSED: "A change in it cannot be taken: {about}",
}
QUOTED = 80


class JobFileError(Exception):
    """The file is not taken; `fault` says why, `about` names what, no longer than a line."""

    def __init__(self, fault: Fault, about: object = "") -> None:
        self.fault = fault
        self.about = "".join(c if c.isprintable() else "?" for c in str(about)[:QUOTED])
        super().__init__(SENTENCES[fault].format(about=self.about))
