"""How well slips are found over many rounds: as they are typed, and when the round is over."""

from collections import Counter
from collections.abc import Iterable

from evenbed.engine.document.check import check_document
from evenbed.engine.levels import levels_from
from evenbed.engine.slips import Suspect
from evenbed.engine.suspects import suspects_from
from tests.documents import Json
from tests.misread import Round, Taken

FIRST = 6  # readings before anything is judged as typed
GOOD_ONES = 3  # of the good readings every third is judged as typed, since each asks for a round of its own


class Tally:
    """What was flagged, counted: `typed` as the newest reading, `end` when the round is over."""

    def __init__(self) -> None:
        self.counts: Counter[tuple[str, str, bool]] = Counter()
        self.missed: list[str] = []

    def add(self, one: Taken, when: str, suspect: Suspect | None) -> None:
        """Counts one judged reading."""
        self.counts[when, "slip" if one.kind else "good", suspect is not None] += 1
        if one.kind and suspect is not None:
            down = None if suspect.slip is None else suspect.slip.down
            self.counts[when, "named", down is not None and abs(down - one.truth.down) < 1.0] += 1
            self.counts[when, "kind", suspect.slip is not None and suspect.slip.kind == one.kind] += 1
        elif one.kind:
            self.missed.append(f"{when}: {one.kind}, {one.rod.down - one.truth.down:.1f} mm")

    def share(self, when: str, what: str) -> float:
        """Of slips, good readings, slips of which the right reading or kind was named: the share, in per cent."""
        yes, no = self.counts[when, what, True], self.counts[when, what, False]
        return 100.0 * yes / (yes + no)

    def __str__(self) -> str:
        return "; ".join(
            f"{when}: {self.share(when, 'slip'):.1f} % of {self._of(when, 'slip')} slips of 12 mm or more flagged, "
            f"{self.share(when, 'good'):.2f} % of {self._of(when, 'good')} good readings, the slip named right "
            f"{self.share(when, 'named'):.1f} % (its kind {self.share(when, 'kind'):.1f} %)"
            for when in ("as typed", "at the end")
        )

    def _of(self, when: str, what: str) -> int:
        return self.counts[when, what, True] + self.counts[when, what, False]


def tally_of(rounds: Iterable[Round]) -> Tally:
    """Every slip as the newest reading, with all earlier slips left standing, and every reading at the end."""
    tally = Tally()
    for one in rounds:
        for count in range(FIRST, len(one.taken) + 1):
            newest = one.taken[count - 1]
            if newest.kind or count % GOOD_ONES == 0:
                tally.add(newest, "as typed", suspects_after(one, count).get(f"r{count - 1}"))
        found = suspects_after(one, len(one.taken))
        for n, taken in enumerate(one.taken):
            tally.add(taken, "at the end", found.get(f"r{n}"))
    return tally


def suspects_after(one: Round, count: int) -> dict[str, Suspect]:
    """By the readings' ids, with the first `count` readings of a round in the document."""
    return {suspect.reading: suspect for suspect in suspects_of(one.document(count))}


def suspects_of(document: Json) -> tuple[Suspect, ...]:
    """Those of a good document."""
    checked, _ = check_document(document)
    return suspects_from(checked, levels_from(checked, None))
