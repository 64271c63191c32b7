"""The movement joints of a room: lay-out, widths, and what must be said of them."""

from collections.abc import Iterable
from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cost.build_up import restraint_of
from evenbed.engine.document.joints import JointDesign
from evenbed.engine.document.room import Document
from evenbed.engine.joints.layout import MOST_PANELS, Layout, frame_of, layout_from
from evenbed.engine.joints.rules import Rules
from evenbed.engine.joints.shapes import JointsAnswer, JointSpacing, PerimeterJoint, TileModule
from evenbed.engine.joints.width import EDITION, PERIMETER, SPACINGS, JointWidth, width_from
from evenbed.engine.outline import Figure
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.touching import regions_of_room

LEAST_APART = 100.0  # mm: joints nearer than this are one, however small the tile; common practice, no source


@dataclass(frozen=True)
class RoomJoints:
    """The joints, and what they were asked with."""

    design: JointDesign
    answer: JointsAnswer
    cautions: tuple[Caution, ...]
    kept_clear_of: dict[str, int]

    @property
    def explanations(self) -> dict[str, Explanation]:
        """What stands behind the figures, by their paths in the plan."""
        answer, design = self.answer, self.design
        apart, panels = answer.spacing.used, len(answer.panels)
        told = {
            "joints.perimeter.width": explanation_of("joint_perimeter"),
            "joints.perimeter.length": explanation_of("joint_perimeter_length", **self.kept_clear_of),
            "joints.spacing.used": explanation_of(_spacing_code(design), spacing=apart),
            "joints.field": explanation_of("joint_layout", spacing=apart, panels=panels),
            "joints.longest_panel": explanation_of("joint_panel", panels=panels),
            "joints.width_published": _published_explanation(design, apart),
        }
        return told | _width_explanations(design, answer)


def joints_from(document: Document, figure: Figure) -> RoomJoints:
    """The joints of a room whose document has passed its checks."""
    design = document.joints
    least, most = SPACINGS[design.exposure]
    spacing = JointSpacing(least, most, most if design.spacing is None else design.spacing)
    regions = regions_of_room(figure.outer, figure.holes)
    frame, origin = frame_of(figure.vertices)
    tile = _tile_of(document)
    near = max(tile.along, tile.across, LEAST_APART)
    rules = Rules(spacing.used, near, (tile.along, tile.across), origin)
    layout = layout_from(regions, frame, design.slab_joints, rules)
    width = width_from(design, spacing.used, layout.longest)
    perimeter = PerimeterJoint(PERIMETER, restraint_of(regions, document.fixtures))
    answer = _answer(layout, width, spacing, perimeter, tile)
    kept_clear_of = {"cutouts": len(figure.holes), "fixtures": len(document.fixtures)}
    return RoomJoints(design, answer, tuple(_cautions(design, layout, spacing)), kept_clear_of)


def _tile_of(document: Document) -> TileModule:
    edge, width = document.bed.covering.longest_edge, document.supplies.tile.width
    return TileModule(edge, edge if width is None else width)


def _answer(
    layout: Layout, width: JointWidth, spacing: JointSpacing, perimeter: PerimeterJoint, tile: TileModule
) -> JointsAnswer:
    return JointsAnswer(
        edition=EDITION,
        perimeter=perimeter,
        width=width.governing,
        width_published=width.published,
        width_by_movement=width.by_movement,
        governs=width.governs,
        movement=width.movement,
        spacing=spacing,
        field=layout.joints,
        panels=layout.panels,
        longest_panel=layout.longest,
        tile_module=tile,
    )


def _cautions(design: JointDesign, layout: Layout, spacing: JointSpacing) -> Iterable[Caution]:
    yield caution_at("joints", "joints_decide")
    if spacing.used > spacing.most:
        yield caution_at("joints.spacing", "joints_far_apart", used=spacing.used, most=spacing.most)
    if design.exposure != "indoors" and design.temperature_range is None:
        yield caution_at("joints.width", "joints_range_unknown")
    if layout.passed:
        yield caution_at("joints.field", "slab_joints_passed", count=layout.passed)
    if layout.left and not layout.is_too_much:
        yield caution_at("joints.field", "corners_without_joint", count=layout.left)
    if layout.is_too_much:
        yield caution_at("joints.field", "too_many_panels", spacing=spacing.used, most=MOST_PANELS)


def _spacing_code(design: JointDesign) -> str:
    if design.spacing is not None:
        return "joint_spacing_own"
    return "joint_spacing_indoors" if design.exposure == "indoors" else "joint_spacing_outdoors"


def _published_explanation(design: JointDesign, spacing: float) -> Explanation:
    if design.exposure != "outdoors":
        return explanation_of("joint_width_indoors")
    known = {} if design.temperature_range is None else {"temperature_range": design.temperature_range}
    return explanation_of("joint_width_outdoors", spacing=spacing, **known)


def _width_explanations(design: JointDesign, answer: JointsAnswer) -> dict[str, Explanation]:
    if answer.width_by_movement is None or answer.movement is None or design.temperature_range is None:
        return {"joints.width": explanation_of("joint_width", published=answer.width_published)}
    by_movement, over = answer.width_by_movement, design.temperature_range
    return {
        "joints.width": explanation_of("joint_width", published=answer.width_published, by_movement=by_movement),
        "joints.movement": explanation_of(
            "joint_movement", expansion=design.expansion, panel=answer.longest_panel, temperature_range=over
        ),
        "joints.width_by_movement": explanation_of(
            "joint_width_by_movement", movement=answer.movement, sealant=design.sealant_movement
        ),
    }
