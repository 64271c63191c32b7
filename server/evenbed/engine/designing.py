"""The bed alone, for a screen on which its height moves: no statistics, contours, rails, sections or waiting."""

from evenbed.engine.answer import BedDesignAnswer
from evenbed.engine.bed_account import bed_cautions_of, bed_explanations_of
from evenbed.engine.bed_answer import bed_answer_of, mix_answer_of
from evenbed.engine.cost.costed import materials_of, quote_of
from evenbed.engine.document.check import check_document
from evenbed.engine.identity import identity
from evenbed.engine.worked import WorkedRoom


def bed_design_from(given: object) -> BedDesignAnswer:
    """The bed of a room document (parsed JSON), as in its plan. Raises BadDocumentError with every problem found."""
    document, _ = check_document(given)
    room = WorkedRoom(document)
    return BedDesignAnswer(
        engine=identity(),
        bed=bed_answer_of(room, None),
        materials=materials_of(room, None),
        quote=quote_of(room, None),
        mix=mix_answer_of(room.mix),
        cautions=tuple(bed_cautions_of(room)),
        explanations=bed_explanations_of(room, None),
    )
