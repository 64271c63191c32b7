"""Problems: what is wrong with a document, where, and what to do about it.

Every problem has a code from the closed set below. The English sentence is made here; a screen in another
language, or in other units, makes its own sentence from the code and the values. Lengths among the values are mm.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from itertools import islice
from string import Formatter

from evenbed.engine.document.fields import described
from evenbed.engine.waiting.sentences import WAITING_PROBLEMS

SHOWN_CHARACTERS = 40
MOST_PROBLEMS = 200  # a list longer than this helps nobody

PROBLEMS: dict[str, str] = {
    "unreadable": "The file cannot be read: {why}.",
    "not_json": "This is not JSON: {why}.",
    "not_an_object": "Expected an object with named values, got {got}.",
    "not_a_list": "Expected a list, got {got}.",
    "not_a_number": "Expected a number, got {got}.",
    "not_a_whole_number": "Expected a whole number, got {got}.",
    "not_finite": "Expected a finite number, got {got}.",
    "half_a_character": "The text {got} holds half a character. Type it again.",
    "not_a_text": "Expected a text, got {got}.",
    "not_true_or_false": "Expected true or false, got {got}.",
    "not_a_time": "Expected a time such as 2026-05-04T08:30:00-05:00 (with its offset), got {got}.",
    "not_one_of": "Expected one of {choices}, got {got}.",
    "wrong_count": "Expected {expected} values, got {got}.",
    "missing": "This value is needed and is missing.",
    "too_small": "{value} is too small: the least is {low}.",
    "too_large": "{value} is too large: the most is {high}.",
    "too_many": "{count} entries are too many: the most is {most}.",
    "too_long": "A text of {length} characters is too long: the most is {most}.",
    "duplicate_id": "The id {id} is used twice; give each its own.",
    "unknown_id": "Nothing here has the id {id}.",
    "outline_missing": "Give the outline as vertices or as walls.",
    "too_few_corners": "A figure needs at least three corners, this one has {count}.",
    "does_not_close": "The walls do not close: the walk ends {length} mm from where it began, at {x}, {y}. "
    "A wall or a turn is missing or mistyped.",
    "no_area": "The figure has hardly any area ({area} mm²).",
    "repeated_corner": "The wall {wall} has no length: the corner at {x}, {y} stands twice.",
    "doubles_back": "The wall {wall} runs back along the one before it from {x}, {y}.",
    "walls_cross": "Wall {wall} meets wall {other} at {x}, {y}.",
    "cutout_outside": "The cutout is not wholly inside the room.",
    "cutouts_meet": "The cutout overlaps cutout {other}.",
    "no_such_wall": "There is no wall {wall}: the last one is {most}.",
    "opening_empty": "The doorway ends at {end} mm, which is not beyond its start at {start} mm.",
    "opening_past_wall": "The doorway ends at {end} mm and the wall is {length} mm long.",
    "fixture_outside": "The fixture at {x}, {y} is outside the room.",
    "reading_without_place": "Say where the rod stood: a place or a mark.",
    "reading_without_setup": "There are several set-ups: say from which this reading was taken.",
    "reading_outside": "The reading at {x}, {y} is outside the room.",
    "same_place": "This reading at {x}, {y} stands at the same place as reading {first}. Keep one of them.",
    "too_few_readings": "A surface needs three subfloor readings, there are {count}.",
    "readings_on_a_line": "All {count} readings stand on one line. Read a place off that line.",
    "nothing_read": "Nothing was read: give readings, or differences between marks.",
    "floor_untied": "Only {count} subfloor readings are tied to what heights count from, a surface needs three. "
    "Read a shared mark or place from set-up {setup} too.",
    "untied_setup": "Nothing ties set-up {setup} to the others: its {count} readings have no height yet. "
    "Read a shared mark or place from it.",
    "difference_without_weight": "Give the difference its standard error or the length of its line.",
    "same_mark": "The difference runs from mark {id} to itself.",
    "contradiction": "This is said to have no error, and contradicts others without one by {by} mm. "
    "Give a standard error, or read again.",
    "too_tangled": "So many readings and differences hang together here that their adjustment would take too long. "
    "Work them out in parts.",
    "two_peg_incomplete": "A two-peg test needs both pairs of readings and the sights of the second pair.",
    "flip_incomplete": "A flip test needs both readings and the length of the level.",
    "rod_incomplete": "A rod test needs what the rod reads too much.",
    "sights_alike": "From beyond the pegs the two sights must differ: alike they tell nothing of the level.",
    "sight_unknown": "Set-up {setup}: the length of some sights is not known ({count}), and what depends on it was "
    "left out. Say where the instrument stood.",
    "minimum_above_maximum": "The minimum thickness {minimum} mm is more than the maximum {maximum} mm.",
    "top_without_points": "A plane top needs a point that it passes through.",
    "top_same_place": "The two points of the top stand at one place, {x}, {y}.",
    "top_on_a_line": "The points of the top stand on one line: they fix no plane.",
    "top_off_plane": "Point {point} of the top at {x}, {y} stands {by} mm off the plane of the others (+ above): "
    "the most is {most} mm.",
    "top_too_steep": "The top rises {slope} mm per mm: more than {most} is no floor.",
    "top_not_found": "No best plane could be found: these heights are too far apart to reckon with.",
    "held_nowhere": "Say where the floor is held: at a doorway, a fixture or a place.",
    "held_twice": "Say one place where the floor is held, not several.",
    "held_outside": "The floor is held at {x}, {y}, which is outside the room.",
    "held_low_above_high": "The floor is held from {low} mm up, which is above {high} mm, the highest allowed.",
    "held_meets_nothing": "There is no height here to meet. Give the lowest or the highest the floor may be.",
    "top_conflict_minimum": "Not everything asked of the top can hold. The least thickness alone would have to give "
    "{alone:.2f} mm, or each that conflicts {together:.2f} mm.",
    "top_conflict_minimum_stuck": "Not everything asked of the top can hold, even without a least thickness. "
    "Each that conflicts would have to give {together:.2f} mm.",
    "top_conflict_maximum": "Not everything asked of the top can hold. The greatest thickness alone would have to "
    "give {alone:.2f} mm, or each that conflicts {together:.2f} mm.",
    "top_conflict_maximum_stuck": "Not everything asked of the top can hold, even without a greatest thickness. "
    "Each that conflicts would have to give {together:.2f} mm.",
    "top_conflict_held_low": "Not everything asked of the top can hold. The floor held from {limit} mm up would have "
    "to be let down {alone:.2f} mm alone, or each that conflicts give {together:.2f} mm.",
    "top_conflict_held_low_stuck": "Not everything asked of the top can hold, however far the floor held from "
    "{limit} mm up is let down. Each that conflicts would have to give {together:.2f} mm.",
    "top_conflict_held_high": "Not everything asked of the top can hold. The floor held up to {limit} mm would have "
    "to be let up {alone:.2f} mm alone, or each that conflicts give {together:.2f} mm.",
    "top_conflict_held_high_stuck": "Not everything asked of the top can hold, however far the floor held up to "
    "{limit} mm is let up. Each that conflicts would have to give {together:.2f} mm.",
    "top_conflict_fall": "Not everything asked of the top can hold. The largest fall alone would have to be "
    "{alone:.4f} more, or each that conflicts give {together:.2f} mm, the fall 1/1000 for each mm.",
    "top_conflict_fall_stuck": "Not everything asked of the top can hold at any fall that is still a floor. Each "
    "that conflicts would have to give {together:.2f} mm, the fall 1/1000 for each mm.",
    "vertices_stand": "Corners and taped walls are both given: the corners stand, the walls are left out.",
    "unknown_key": "Nobody here knows this key; it was left out.",
    "top_line_misses": "The line between the two levels misses the room: it must have floor on both sides.",
    "not_a_drain": "The fixture {id} is no drain.",
    "drain_at_wall": "The drain's middle is {gap} mm from a wall, its radius {radius} mm: move it off the wall.",
    "drain_no_length": "The two ends of the linear drain are one place.",
    "drain_hidden": "The corner at {x}, {y} has no straight way down to the drain. "
    "Add a second drain there, or split the room.",
    "perimeter_not_level": "A linear drain has no level walls: leave the height along the walls open.",
    "perimeter_too_low": "With walls at {perimeter} mm the fall from {x}, {y} to the drain, {longest} mm away, is "
    "less than the least fall: the walls must be at {least} mm or higher.",
    "length_empty": "Type a length, such as 3' 5 5/16\" or 1049 mm.",
    "length_unclear": "{text} is not a length this can read. Write it like 3' 5 5/16\" or 1049 mm.",
    "length_two_marks": "{text} has more than one comma or point. A comma is a decimal point; do not mark thousands.",
    "length_needs_unit": "{text} is a fraction without a unit: add in, ft or mm.",
    "length_unit": "{unit} is not a unit known here: use mm, cm, m, in or ft.",
    "length_zero_denominator": "{fraction} divides by zero.",
    "length_improper": "{fraction} is one or more: write the whole number apart, like 1 7/16.",
    "length_overflow": "{value} {unit} does not fit after {larger}: it is one {larger} or more.",
    "contradictory_climate": "Two rows for {at} give {first} °C and {second} °C: keep one.",
    "rail_without_length": "This rail has no length: draw it at least {least} mm long, or take it away.",
    "rails_not_parallel": (
        "This rail is turned by {angle} degrees from the longest one, the most is {most}: a straightedge needs rails "
        "that run side by side."
    ),
    "straightedge_too_short": (
        "A straightedge of {straightedge} mm that rests {bearing} mm on each rail spans too little: "
        "take one of at least {least} mm, or rest less of it."
    ),
    "taped_same_place": "Both tapes start from one place. Tape from two places well apart.",
    "taped_apart": "The tapes do not reach each other: {gap} mm are missing between two places {base} mm apart. "
    "Tape again.",
    "taped_inside": "One tape reaches {gap} mm past all that the other can: the two places are {base} mm apart. "
    "Tape again.",
    "date_ends_before": "The date ends at {end}, before it begins at {start}.",
    "taped_outside": "Where these tapes meet is outside the room. Tape again, or choose other places to tape from.",
    "profile_no_length": "The line has no length: draw it from one place to another.",
    "table_nothing": "The table holds no line with a point.",
    "table_too_long": "The table is too long: the most is {most} points. Take it in parts.",
    "table_columns": "Say which columns hold northing, easting and height: the table does not tell.",
    "table_column_twice": "Column {column} cannot hold two things. Choose another one for one of them.",
    "table_open_quote": "Line {line}: a quotation mark is opened and never closed.",
    "table_short": "Line {line} has {columns} columns, {needed} are needed.",
    "table_empty": "Line {line}, column {column}: a number is missing.",
    "table_number": "Line {line}, column {column}: {text} is not a number.",
    "table_far": "Line {line}, column {column}: {text} is farther than any place on Earth. Is the unit right?",
    "table_too_high": "Line {line}: the height of {height} mm is beyond any floor's. Is the unit right?",
    "table_same_place": "Line {line} stands at the same place as line {first}. Keep one of them.",
    "table_no_point": "Line {line} holds no point.",
    "table_pairs_near": "The two points, or their two places, are less than {least} mm apart. Choose two far apart.",
    "lap_too_wide": "{lap} mm of lap leave too little of {width} mm: the most is {most} mm.",
    "roll_too_narrow": "A roll {width} mm wide would take {count} strips in this room: the most is {most}. "
    "Take a wider one.",
    "slab_joint_empty": "The two ends of this joint of the slab are one place.",
    "unknown_section": "No section of this room is called {section}: the entry counts for none.",
    "no_section_there": "The place of this entry lies in no section of this room: the entry counts for none.",
    "times_backwards": "These times run backwards: correct the one that is wrong.",
    "time_ahead": "This time lies after now. Is the phone's clock right?",
    **WAITING_PROBLEMS,
    "overlap_too_long": "{overlap} mm of strip kept in finished bed leave too little to move: the most is {most} mm.",
}


@dataclass(frozen=True)
class Problem:
    """One thing wrong with a document: `path` says where (`readings[3].down`), `code` what, `message` in English."""

    path: str = described(about="Where in the document")
    code: str = described(about="What is wrong, from a closed set")
    message: str = described(about="The same in English")
    values: dict[str, float | str] = described(about="The figures in the message, by name")


class BadDocumentError(Exception):
    """A document that gives no plan. Carries every problem found, up to MOST_PROBLEMS, never just the first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(islice(problems, MOST_PROBLEMS))
        super().__init__("; ".join(f"{p.path}: {p.message}" for p in self.problems))


def problem_at(path: str, code: str, **values: float | str) -> Problem:
    """The problem `code` at `path`. Raises KeyError for a code outside the closed set."""
    return Problem(path, code, _SENTENCES.format(PROBLEMS[code], **values), values)


class _Sentences(Formatter):
    """Fills figures into sentences, those without a format of their own as short as they can be read."""

    def format_field(self, value: object, format_spec: str) -> str:
        """A figure as its format says, or with no digits that nobody measures."""
        if isinstance(value, float) and not format_spec:
            return short_number(value)
        return str(super().format_field(value, format_spec))


_SENTENCES = _Sentences()


def short_number(value: float) -> str:
    """To a thousandth, six figures where it is smaller than 1 or very large; nothing ends in zeros or a point."""
    if abs(value) < 1.0 or abs(value) >= 1e9:
        return f"{value:.6g}"
    return f"{value:.3f}".rstrip("0").rstrip(".")


@contextmanager
def problems_under(path: str) -> Iterator[None]:
    """Whatever is wrong with the part at `path` is told by its whole way from the top."""
    try:
        yield
    except BadDocumentError as bad:
        raise BadDocumentError(replace(p, path=f"{path}.{p.path}".rstrip(".")) for p in bad.problems) from None


def shown(value: object) -> str:
    """A short, safe picture of any value, for messages: never more than a line."""
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list | tuple):
        return "a list"
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, int) and abs(value) >= 10**SHOWN_CHARACTERS:
        return "a very large whole number"
    text = f'"{whole_characters(value[: SHOWN_CHARACTERS + 1])}' if isinstance(value, str) else repr(value)
    if len(text) > SHOWN_CHARACTERS:
        return text[:SHOWN_CHARACTERS] + '…"'
    return text + '"' if isinstance(value, str) else text


def whole_characters(text: str) -> str:
    """The text with a question mark for each half of a character, which no UTF-8 can carry."""
    return text.encode("utf-8", "replace").decode("utf-8")
