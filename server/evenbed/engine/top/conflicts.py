"""Which demands on a plane top cannot hold together, and how much must give for the others to hold.

Every demand that gives, gives by the same t: mm, and for the largest fall as many 1/1000. The least t is found with
all of them giving; those whose price is not zero there conflict. Where the others cannot hold whatever these give,
there is another conflict, and those of it are added. Some things never give: no floor is steeper than STEEPEST, and
no top stands below the subfloor, so the least thickness gives at most all of itself.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.top.demands import Asked, Group
from evenbed.engine.top.designed import STEEPEST
from evenbed.engine.top.linear_programme import Least, Row, least_of
from evenbed.engine.top.rises import FAR_BELOW, tangent_at

CODES = {
    "minimum_thickness": "top_conflict_minimum",
    "maximum_thickness": "top_conflict_maximum",
    "held_low": "top_conflict_held_low",
    "held_high": "top_conflict_held_high",
    "largest_fall": "top_conflict_fall",
}
PER_THOUSAND = 1 / 1000


@dataclass
class Relief:
    """The least t by which some groups must give for all others to hold, over (t, height, across, up)."""

    asked: Asked
    giving: frozenset[Group]
    owners: list[Group | None] = field(default_factory=list)

    def least(self) -> tuple[float | None, frozenset[Group]]:
        """The least t, None where even that does not help, and the groups that stand against less."""
        found = least_of(list(self._rows()), self._cut)
        groups = frozenset(g for n in found.weights if (g := self.owners[n]) is not None)
        return (found.point[0] if isinstance(found, Least) else None), groups

    def _rows(self) -> Iterator[Row]:
        frame, asked = self.asked.frame, self.asked
        steepest = -STEEPEST * frame.scale
        self.owners = [None] * 4
        yield from ((1.0, 0.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0, FAR_BELOW))
        yield from ((0.0, 0.0, 1.0, 0.0, steepest), (0.0, 0.0, 0.0, 1.0, steepest))
        for demand in asked.demands:
            self.owners.append(demand.group)
            yield float(demand.group in self.giving), *frame.row(demand)
        for demand in asked.ground:
            self.owners.append(None)
            yield 0.0, *frame.row(demand)

    def _cut(self, point: Sequence[float]) -> Row | None:
        """A tangent of the fall that is asked for, or of the steepest there is."""
        fall, scale = self.asked.fall, self.asked.frame.scale
        give = PER_THOUSAND * scale * (fall in self.giving)
        for owner, most, slope in ((None, STEEPEST, 0.0), (fall, fall.limit, give)):
            row = tangent_at(point[2:], most * scale + slope * point[0])
            if row is not None:
                self.owners.append(owner)
                return slope, *row[:-1], -most * scale
        return None


def conflicts_of(asked: Asked) -> tuple[Problem, ...]:
    """A problem for each demand that conflicts, in the document's order, with what it must give.

    `alone` is how much it must give if nothing else does, `together` what each must give if all that conflict do.
    """
    everything = frozenset({asked.fall, *(demand.group for demand in asked.demands)})
    together, giving = _in_conflict(asked, everything)
    ordered = sorted(giving, key=lambda group: group.order)
    return tuple(_problem(group, Relief(asked, frozenset({group})).least()[0], together) for group in ordered)


def _in_conflict(asked: Asked, everything: frozenset[Group]) -> tuple[float, frozenset[Group]]:
    """The demands that conflict, and the least that they must give so that all others hold."""
    _, giving = Relief(asked, everything).least()
    while True:
        together, against = Relief(asked, giving).least()
        if together is not None:
            return together, giving
        giving |= against


def _problem(group: Group, alone: float | None, together: float) -> Problem:
    code, limit = CODES[group.kind], group.limit
    if alone is None:
        return problem_at(group.path, f"{code}_stuck", together=together, limit=limit)
    give = alone * PER_THOUSAND if group.kind == "largest_fall" else alone
    return problem_at(group.path, code, alone=give, together=together, limit=limit)
