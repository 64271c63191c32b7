"""A calendar with everything in it, to be asked of the engine."""

from tests.documents import Json

A_DATE: Json = {
    "uid": "0197a1c0-5e00-7c00-8000-00000000000a-tile@evenbed",
    "from": "2026-05-05T06:00:00-05:00",
    "to": "2026-05-05T14:30:00-05:00",
    "summary": "Maple house, bath: tile likely",
    "description": 'A prediction is not a test: somebody must look.\nLikely 9:40; says "20 h at 21 °C".',
    "location": "12 Maple St; rear",
    "sequence": 41,
    "status": "tentative",
    "changed_at": "2026-05-04T17:00:00.250-05:00",
}
A_TICK: Json = A_DATE | {"uid": "walk", "to": A_DATE["from"], "status": "confirmed", "changed_at": None}
A_CALENDAR: Json = {
    "name": "Piso, baño: qué cuarto y cuándo",
    "made_at": "2026-05-04T22:00:00+00:00",
    "dates": [A_DATE, A_TICK, A_DATE | {"uid": "grout", "status": "cancelled", "location": "", "description": ""}],
}
