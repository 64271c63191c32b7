"""What people write: values for every kind of record, some that the service cannot take, all small."""

from typing import Any

from hypothesis import strategies as st

from tests.phones import uuid_text

Fields = dict[str, Any]
NAMES = st.sampled_from(["Alder", "Birch", "Cedar", "Dogwood", "Elm", None])
MOMENTS = st.sampled_from(["2026-05-04T08:00:00Z", "2026-05-04T12:30:00+02:00"])
SECTIONS, RAILS = st.sampled_from(["A", "B"]), st.sampled_from(["A", "B", "C"])
SHARES = st.sampled_from([1, 0.5, None])
PLACES = st.sampled_from([[0, 0], [1200, 300.5]])
TYPED = st.sampled_from(["1/16 in", {"off": "1.5 mm"}, None])
OPTIONS: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "job": {"name": NAMES, "note": st.text(max_size=2), "units": st.sampled_from(["imperial", "metric"])},
    "room": {
        "name": NAMES,
        "bed.minimum_thickness": st.integers(15, 40),
        "mix.sand": st.sampled_from([3, 4.5, None]),
        "rails.lines": st.sampled_from([[{"id": "A", "from": [150, 0], "to": [150, 2400]}], None]),
        "rails.straightedges": st.sampled_from([[1200, 600], []]),
        "filling.mixer": st.sampled_from([[100, 200], None]),
    },
    "placement": {"section": SECTIONS, "placed_at": MOMENTS, "channels_at": MOMENTS | st.none()},
    "batch": {"section": SECTIONS, "placed_at": MOMENTS, "thrown_at": MOMENTS | st.none(), "size": SHARES},
    "station": {"rail": RAILS, "shim": st.integers(0, 20)},
    "rail_check": {"off": st.integers(-3, 3), "reversed_off": st.sampled_from([0, -1.5, None]), "typed": TYPED},
    "entry": {"until": MOMENTS | st.none(), "text": st.text(max_size=2), "by": NAMES, "place": PLACES | st.none()},
    "climate": {"air": st.integers(5, 30), "humidity": st.integers(30, 90)},
    "alternative": {
        "name": NAMES,
        "chosen_at": MOMENTS,
        "top": st.sampled_from([{"kind": "level", "height": 40}, None]),
    },
    "gap": {"gap": st.integers(0, 6), "at": PLACES | st.none(), "typed": st.sampled_from([{"gap": "1/8 in"}, None])},
    "height_line": {"heights": st.lists(st.integers(-3, 3), max_size=4), "spacing": st.sampled_from([300, 304.8])},
    "temperature_log": {"where": st.sampled_from(["bed", "air", None]), "name": NAMES},
    "forecast_day": {"low": st.integers(-5, 10), "high": st.integers(11, 30), "source": NAMES},
    "sign_off": {"note": st.text(max_size=2)},
    "prices": {"prices.cement_bag": st.integers(8, 20), "prices.margin": st.sampled_from([0.1, 0.2, None])},
    "supplies": {"supplies.tile.waste": st.sampled_from([0.1, 0.15]), "supplies.membrane.lap": st.integers(50, 200)},
}


def some_of(options: dict[str, st.SearchStrategy[Any]]) -> st.SearchStrategy[Fields]:
    """One of the fields at least. A filter would end the whole run whenever it found nothing three times."""
    names = st.lists(st.sampled_from(sorted(options)), min_size=1, max_size=3, unique=True)
    return names.flatmap(lambda chosen: st.fixed_dictionaries({name: options[name] for name in chosen}))


CHOICES: dict[str, st.SearchStrategy[Fields]] = {kind: some_of(options) for kind, options in OPTIONS.items()}
NEW: dict[str, st.SearchStrategy[Fields]] = {
    "reading": st.builds(lambda down: {"down": down, "at": [down, 0]}, st.integers(900, 1100)),
    "placement": st.fixed_dictionaries({"section": SECTIONS}),
    "batch": st.fixed_dictionaries({"mixed_at": MOMENTS}, optional={"section": SECTIONS}),
    "station": st.builds(
        lambda rail, along: {"rail": rail, "at": [150, along], "shim": along / 100}, RAILS, st.integers(0, 2400)
    ),
    "rail_check": st.fixed_dictionaries({"rail": RAILS, "off": st.integers(-3, 3)}, optional={"rail_to": RAILS}),
    "entry": st.fixed_dictionaries(
        {
            "what": st.sampled_from(["stopped", "note", "trued", "habit", "milestone", "rubbed", "filled_up"]),
            "at": MOMENTS,
        }
    ),
    "climate": st.fixed_dictionaries({"at": MOMENTS, "bed": st.integers(5, 30)}),
    "alternative": st.fixed_dictionaries({"name": NAMES}),
    "gap": st.builds(lambda gap: {"from": [0, 0], "to": [2000, 0], "gap": gap}, st.integers(0, 6)),
    "height_line": st.builds(lambda top: {"heights": [0, top, 0.5]}, st.integers(-3, 3)),
    "temperature_log": st.builds(
        lambda start, warm: {"start": start, "seconds": [0, 600, 1200.5], "celsius": [warm, 19, 18.5]},
        MOMENTS,
        st.integers(5, 30),
    ),
    "forecast_day": st.fixed_dictionaries(
        {"low": st.integers(-5, 10), "high": st.integers(11, 30), "low_at": MOMENTS, "high_at": MOMENTS}
    ),
    "sign_off": st.builds(
        lambda at, by: {
            "at": at,
            "by": by,
            "engine": "1",
            "engine_hash": "a" * 64,
            "inputs_hash": "b" * 64,
            "copy": "{}",
        },
        MOMENTS,
        st.sampled_from(["Ana", "Ben"]),
    ),
    "photo": st.builds(
        lambda size: {"hash": f"{size:064x}", "media_type": "image/jpeg", "width": 8, "height": 6, "size": size},
        st.integers(1, 1000),
    ),
}
WRONG: st.SearchStrategy[Fields] = st.sampled_from(
    [{"colour": "red"}, {"note": 5}, {"deleted": 3}, {}, {"room_id": "nowhere"}, {"down": 1}, {"name": "x" * 300}]
)
CREWS = st.lists(st.sampled_from(["Ana", "Ben", "Cal"]), max_size=3, unique=True)


class Names:
    """Identifiers of new records, the same in every run of the same steps."""

    def __init__(self) -> None:
        self._made = 0

    def new(self) -> str:
        """One that nobody has."""
        self._made += 1
        return uuid_text(self._made)
