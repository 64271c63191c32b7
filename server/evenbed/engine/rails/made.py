"""The rails of one region made of strips: stations, the strips chosen for them, their lies, and what to say of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.rails.breaks import breaks_along
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.far import WaysOut
from evenbed.engine.rails.lines import Piece
from evenbed.engine.rails.moves import settings_along
from evenbed.engine.rails.neighbours import Planes, crooked_between, neighbours_in, step_under
from evenbed.engine.rails.ramps import ramp_volume
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.rails.stations import Height, places_along, stations_from
from evenbed.engine.rails.strips import Choice, Course, choices_for, kinds_of
from evenbed.engine.region import Interval


@dataclass(frozen=True)
class Heights:
    """What rails stand on and reach to: z in mm at (x, y), and the planes of the top along a straight way.

    Without `planes` the top is taken to be straight along every rail and between them.
    """

    subfloor: Height
    top: Height
    planes: Planes | None = None


@dataclass(frozen=True)
class MadeRails:
    """The rails of one layout, its pieces called `names`; `exits` are where the crew leaves, on the drawing."""

    layout: Layout
    names: tuple[str, ...]
    design: RailDesign
    exits: tuple[Point, ...]
    heights: Heights

    @cached_property
    def rails(self) -> tuple[Rail, ...]:
        """In the order of the layout's pieces."""
        ways = WaysOut(self.layout.floor, tuple(self.layout.frame.turned(at) for at in self.exits))
        rows = zip(self.names, self.layout.pieces, self._courses, self._choices, strict=True)
        return tuple(self._rail(*row, ways) for row in rows)

    @property
    def cautions(self) -> Iterator[tuple[int | None, Caution]]:
        """What is to be said, of which rail by its number here or of all."""
        for n, choice in enumerate(self._choices):
            if len(choice.runs) > 1:
                yield n, self._ended_strip(n, choice)
        yield from self._on_steps()
        yield from ((None, caution) for caution in self._short_strips())
        yield from ((None, caution) for caution in self._crooked())

    @cached_property
    def _courses(self) -> tuple[Course, ...]:
        return tuple(self._course(*self._ends(piece)) for piece in self.layout.pieces)

    @cached_property
    def _choices(self) -> list[Choice]:
        beside = [{m for pair in self._neighbours for m in pair if n in pair} for n, _ in enumerate(self.names)]
        return choices_for(self._courses, kinds_of(self.design), self.design.overlap, beside)

    @cached_property
    def _neighbours(self) -> dict[tuple[int, int], list[Interval]]:
        return neighbours_in(self.layout)

    def _ends(self, piece: Piece) -> tuple[Point, Point]:
        frame = self.layout.frame
        return frame.placed(piece.start, piece.v), frame.placed(piece.end, piece.v)

    def _course(self, start: Point, end: Point) -> Course:
        heights, spacing = self.heights, self.design.station_spacing
        breaks = breaks_along(start, end, heights.planes(start, end)) if heights.planes else ()
        places = places_along(start, end, spacing, breaks, subfloor=heights.subfloor, top=heights.top)
        return Course(math.dist(start, end), places, breaks)

    def _rail(self, name: str, piece: Piece, course: Course, choice: Choice, ways: WaysOut) -> Rail:
        stations = stations_from(course.places, choice.strip.thickness)
        alongs, shims = [s.along for s in stations], [s.shim for s in stations]
        is_start_far = ways.walk((piece.start, piece.v)) >= ways.walk((piece.end, piece.v))
        settings = settings_along(choice.runs, alongs, self.design.overlap, is_start_far=is_start_far)
        ramps = ramp_volume(alongs, shims, choice.strip.width)
        return Rail(name, *self._ends(piece), choice.strip, stations, settings, ramps)

    def _ended_strip(self, n: int, choice: Choice) -> Caution:
        alongs = [place.along for place in self._courses[n].places]
        first = min(range(len(alongs)), key=lambda m: abs(alongs[m] - choice.runs[0].end))
        values = {"count": len(choice.runs) - 1, "station": first + 1, "at": choice.runs[0].end}
        return caution_at("", "strip_ends_at_break", rail=self.names[n], **values)

    def _on_steps(self) -> Iterator[tuple[int, Caution]]:
        planes = self.heights.planes
        for n, piece in enumerate(self.layout.pieces if planes else ()):
            by = step_under(*self._ends(piece), planes) if planes else 0.0
            if by > 0.0:
                yield n, caution_at("", "rail_on_step", rail=self.names[n], by=by)

    def _short_strips(self) -> Iterator[Caution]:
        """Strips alone of their kind that both rails beside a section are made of, each told once."""
        told = set[int]()
        for a, b in self._neighbours:
            for on_hand in (self._choices[a].single & self._choices[b].single) - told:
                told.add(on_hand)
                strip, names = self.design.strips[on_hand], {"rail": self.names[a], "other": self.names[b]}
                sizes = {"thickness": strip.thickness, "length": strip.length}
                yield caution_at("rails", "strips_short", count=strip.count, wanted=2, **sizes, **names)

    def _crooked(self) -> Iterator[Caution]:
        if self.heights.planes is None:
            return
        alongs = [[place.along for place in course.places] for course in self._courses]
        for one in crooked_between(self.layout, self._neighbours, alongs, self.heights.planes):
            names = {"rail": self.names[one.rails[0]], "other": self.names[one.rails[1]]}
            code = "crease_between_rails" if one.by > 0 else "valley_between_rails"
            yield caution_at("rails", code, by=abs(one.by), x=one.at[0], y=one.at[1], **names)
