"""What can be wrong with a scan: a closed set, each with its sentence. Lengths among the values are mm."""

from typing import get_args

from evenbed.wire.problems import Code
from evenbed.wire.scans import ScanFault, ScanItem

FAULTS: dict[ScanFault, str] = {
    "scan_empty": "The file holds no points.",
    "scan_packed": "This is a packed file ({kind}). Unpack it and send what is in it.",
    "scan_not_text": "This is neither a PLY file nor rows of text. Save the scan as PLY, XYZ or CSV.",
    "scan_header": "The head of the PLY file cannot be read: {why}.",
    "scan_no_places": "The file names no {missing}: every point needs x, y and z.",
    "scan_short": "The file says it holds {expected} points and ends after {got}. It was cut off; save it again.",
    "scan_long": "The file says it holds {expected} points and more rows follow.",
    "scan_not_a_number": "Expected a number, got {got}.",
    "scan_few_columns": "Expected at least {expected} columns, got {got}.",
    "scan_long_line": "A line of more than {most} characters is no row of a scan.",
    "scan_many_points": "{count} points are too many: the most is {most}. Thin the scan out and send it again.",
    "scan_points_one": "The two places are one in the {where}. Choose two that lie well apart.",
    "scan_no_floor": "No floor was found: {inside} of {count} points lie in the room, in {unit}. "
    "Check the unit and how the scan is placed.",
}
assert set(FAULTS) == set(get_args(ScanFault))


class ScanError(Exception):
    """A scan that gives no readings. `code` is the reply's, `item` says where and what."""

    def __init__(self, fault: ScanFault, path: str = "", **values: float | str) -> None:
        self.item = ScanItem(path=path, code=fault, message=FAULTS[fault].format(**values), values=values)
        is_there = fault in ("scan_no_floor", "scan_points_one")
        self.code = Code.SCAN_MISSES_FLOOR if is_there else Code.SCAN_UNREADABLE
        super().__init__(f"{path}: {self.item.message}" if path else self.item.message)
