"""The levels of a document asked by themselves: no room and no floor are needed."""

from evenbed.engine.answer import LevelsReport
from evenbed.engine.document.check import check_levels_document
from evenbed.engine.identity import identity
from evenbed.engine.levels import levels_from
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.suspects import suspects_from


def levels_report_from(given: object) -> LevelsReport:
    """Heights, standard errors and misfits of readings and levelled differences (parsed JSON in).

    Without a known height and without readings of a floor z = 0 is the highest mark or place. Raises BadDocumentError
    with every problem found, and where there is neither a reading nor a difference.
    """
    document, unknown = check_levels_document(given)
    if not document.readings and not document.differences:
        raise BadDocumentError([problem_at("", "nothing_read")])
    levels = levels_from(document, None)
    left_out = (problem_at(path, "unknown_key") for path in unknown)
    return LevelsReport(
        heights=levels.heights,
        setups=levels.setups,
        marks=levels.marks,
        differences=levels.differences,
        sigma0=levels.sigma0,
        redundancy=levels.redundancy,
        misclosures=levels.misclosures,
        untied=levels.untied,
        instruments=levels.instruments,
        suspects=suspects_from(document, levels),
        datum=levels.datum,
        engine=identity(),
        notices=(*left_out, *levels.notices),
    )
