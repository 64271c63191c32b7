"""Movement joints of rooms for tests, without the rest of their plans."""

from collections.abc import Sequence
from typing import Any

import shapely

from evenbed.engine.document.check import check_document
from evenbed.engine.joints.room import RoomJoints, joints_from
from evenbed.engine.joints.shapes import JointsAnswer, Panel
from evenbed.engine.outline import figure_from
from tests.documents import Json, room_over

FOOT = 304.8
Corners = Sequence[Sequence[float]]


def worked_joints(room: Json) -> RoomJoints:
    """The joints of a room document with what is said of them."""
    document, _ = check_document(room)
    return joints_from(document, figure_from(document.outline))


def joints_in(outline: Corners, cutouts: Sequence[Corners] = (), **joints: Any) -> JointsAnswer:
    """The joints of a room with these corners and cutouts, as `joints` asks for them."""
    room = room_over(outline, [(0.0, 0.0, 0.0)], joints=joints)
    room["outline"]["cutouts"] = [list(map(list, ring)) for ring in cutouts]
    return worked_joints(room).answer


def area_of_panel(panel: Panel) -> shapely.Polygon:
    """A panel as shapely has it."""
    return shapely.Polygon(panel.polygon, panel.holes)


def lines_in(answer: JointsAnswer) -> dict[str, list[shapely.LineString]]:
    """The joints within the floor by what they are there for."""
    lines: dict[str, list[shapely.LineString]] = {}
    for joint in answer.field:
        lines.setdefault(joint.why, []).append(shapely.LineString([joint.start, joint.end]))
    return lines
