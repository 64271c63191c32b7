"""The bed and its mix as they are told, in the plan and where the bed is designed."""

from evenbed.engine.answer import BedAnswer, MixAnswer
from evenbed.engine.cost.allowances import allowances_of
from evenbed.engine.cost.stacked import stacked_from
from evenbed.engine.mix import MixPlan
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked import WorkedRoom


def bed_answer_of(room: WorkedRoom, unknown: Unknown | None) -> BedAnswer:
    """The bed under the room's top; its range only where what is unknown was asked for."""
    design, quantities = room.document.bed, room.quantities
    return BedAnswer(
        build=design.build,
        minimum_thickness=room.limits[0],
        maximum_thickness=room.limits[1],
        top=room.top.facets,
        thickness=room.thickness,
        volume=quantities.volume,
        volume_range=None if unknown is None else unknown.volume_range,
        mass=room.weight.mass,
        load=room.weight.load,
        allowances=allowances_of(room.weight.load),
        stacked=stacked_from((*room.mix.materials, *room.build_up)),
        doorways=room.finished.doorways,
        fixtures=room.finished.fixtures,
        build_up=room.finished.layers,
        chipping=room.chipping.rows,
        chip_plan=room.chipping.plan,
        requirements=room.designed_top.requirements,
        violations=room.mortar.violations(*room.limits),
        too_thin_area=quantities.too_thin_area,
        too_thick_area=quantities.too_thick_area,
    )


def mix_answer_of(mix: MixPlan) -> MixAnswer:
    """What the mix makes, and how often it is made."""
    return MixAnswer(mix.batch, mix.batches, mix.bags_range, mix.bag_yield, mix.density, mix.mixed_volume)
