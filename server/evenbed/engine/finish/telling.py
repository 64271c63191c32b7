"""How the figures of the finished floor explain themselves."""

from collections.abc import Iterator

from evenbed.engine.document.room import Document
from evenbed.engine.finish.doorways import Doorway
from evenbed.engine.finish.finished import Finished
from evenbed.engine.finish.fixtures import FixtureHeight
from evenbed.engine.sources import Explanation, explanation_of

STEP_CODES = {"flush": "step_flush", "upright": "step_upright", "bevelled": "step_bevelled", "ramp": "step_ramp"}


def finish_explanations(finished: Finished, document: Document) -> dict[str, Explanation]:
    """What stands behind each figure of doorways, fixtures and build-up, by its path in the plan."""
    covering = document.bed.covering
    cover = {"bond": covering.bond_thickness, "tile": covering.tile_thickness}
    pairs = zip(finished.doorways, document.openings, strict=True)
    doors = (row for n, (door, given) in enumerate(pairs) for row in _door_rows(n, door, given.door_bottom, cover))
    fixtures = (row for n, fixture in enumerate(finished.fixtures) for row in _fixture_rows(n, fixture, cover))
    membrane = document.supplies.membrane.thickness if document.bed.build == "unbonded" else 0.0
    return dict(doors) | dict(fixtures) | _layer_rows(finished, cover | {"membrane": membrane})


def _door_rows(
    n: int, door: Doorway, leaf: float | None, cover: dict[str, float]
) -> Iterator[tuple[str, Explanation]]:
    path = f"bed.doorways[{n}]"
    for name in ("finished_height", "low", "high"):
        top = getattr(door, name) - cover["bond"] - cover["tile"]
        yield f"{path}.{name}", explanation_of("finished_height", top=top, **cover)
    yield f"{path}.bed_thickness", explanation_of("doorway_thickness")
    if leaf is not None:
        yield f"{path}.clearance", explanation_of("clearance", leaf=leaf, finished=door.high)
    if door.step is not None and door.worst_step is not None and door.kind is not None:
        beyond = door.finished_height - door.step
        yield f"{path}.step", explanation_of("step", finished=door.finished_height, beyond=beyond)
        yield f"{path}.worst_step", explanation_of("step", finished=beyond + door.worst_step, beyond=beyond)
        told = explanation_of(STEP_CODES[door.kind], step=door.worst_step)
        yield from ((f"{path}.{name}", told) for name in ("kind", "transition", "transition_length"))


def _fixture_rows(n: int, fixture: FixtureHeight, cover: dict[str, float]) -> Iterator[tuple[str, Explanation]]:
    path, finished = f"bed.fixtures[{n}]", fixture.finished_height
    top = finished - cover["bond"] - cover["tile"]
    yield f"{path}.finished_height", explanation_of("finished_height", top=top, **cover)
    yield f"{path}.bed_thickness", explanation_of("doorway_thickness")
    if fixture.height is not None:
        told = explanation_of("fixture_difference", finished=finished, fixture=fixture.height)
        yield f"{path}.difference", told


def _layer_rows(finished: Finished, inputs: dict[str, float]) -> dict[str, Explanation]:
    own = {
        "membrane": explanation_of("layer_given", membrane=inputs["membrane"]),
        "bed": explanation_of("layer_bed", membrane=inputs["membrane"]),
        "bond_coat": explanation_of("layer_given", bond=inputs["bond"]),
        "tile": explanation_of("layer_given", tile=inputs["tile"]),
        "total": explanation_of("layer_total", bond=inputs["bond"], tile=inputs["tile"]),
    }
    return {f"bed.build_up[{n}]": own[row.layer] for n, row in enumerate(finished.layers)}
