"""The walk over the floor: the places to read, from the way in to wherever the shortest way ends.

A laser stands in the middle and turns by itself, so the rod goes the shortest way and no row has to be finished.
"""

from evenbed.engine.document.reading import read_json
from evenbed.engine.filling.sections import way_out_from
from evenbed.engine.outline import check_openings, figure_from
from evenbed.engine.problems import BadDocumentError
from evenbed.engine.walk.order import walked, way_length
from evenbed.engine.walk.pattern import pattern_over
from evenbed.engine.walk.room import Floor
from evenbed.engine.walk.shapes import WalkAnswer, WalkQuestion


def walk_from(given: object) -> WalkAnswer:
    """The places to read in a room (parsed JSON in); none where the room is too narrow for a rod's foot.

    Raises BadDocumentError for an outline or a doorway that is none.
    """
    question, _ = read_json(WalkQuestion, given)
    figure = figure_from(question.outline)
    found = check_openings(figure, question.openings)
    if found:
        raise BadDocumentError(found)
    floor = Floor(figure, question.fixtures)
    places, spacing = pattern_over(floor, question.openings, question.rails.straightedge)
    order = walked(figure, [place.at for place in places], way_out_from(question.openings, figure.vertices).exits[0])
    ordered = tuple(places[n] for n in order)
    return WalkAnswer(ordered, spacing, way_length([place.at for place in ordered]))
