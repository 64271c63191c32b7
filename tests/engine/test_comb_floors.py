"""A floor like a comb has more ways to be split than anybody can try: one that does is still found, and soon."""

import time

from tests.documents import room_over
from tests.engine.top_rooms import worked

SOON = 10.0  # seconds of a processor; trying every way would take hours


def _comb(teeth: int) -> list[tuple[float, float]]:
    """A corridor along the bottom, with teeth of 300 mm every 600 mm on top of it."""
    tooth = ((600.0, 3000.0), (300.0, 3000.0), (300.0, 1500.0), (0.0, 1500.0))
    tops = [(600.0 * n + x, y) for n in reversed(range(teeth)) for x, y in tooth]
    return [(0.0, 0.0), (600.0 * teeth, 0.0), *tops]


def test_a_drain_in_a_comb_of_sixty_teeth_is_found_its_falls_soon() -> None:
    outline = _comb(60)
    top = {"kind": "to_drain", "drain": "d", "fall": 0.01}
    fixtures = [{"id": "d", "kind": "drain", "at": [18_077.0, 700.0], "radius": 50.0}]
    room = room_over(outline, [(x, y, 0.0) for x, y in outline[::7]], bed={"top": top}, fixtures=fixtures)
    began = time.process_time()
    found = worked(room).designed_top.top
    assert time.process_time() - began < SOON
    assert len(found.facets) > 60
