"""Alarms: moments still to come at which somebody wants to be told, the first first."""

from collections.abc import Iterable, Sequence

from evenbed.engine.filling.batches import Mortar
from evenbed.engine.filling.shapes import Alarm, AlarmCode
from evenbed.engine.filling.times import SOON, Clock

_Due = tuple[float, AlarmCode, str | None, str | None]  # hours from now, what for, batch, section


def alarms_from(
    mortars: Sequence[Mortar],
    channels_due: Iterable[tuple[str, float]],
    day: Iterable[tuple[AlarmCode, float]],
    names: Sequence[str],
    clock: Clock,
) -> tuple[Alarm, ...]:
    """What is still to come of open batches, of channels (section, hour) and of the day (code, hour)."""
    due: list[_Due] = [one for mortar in mortars if mortar.is_open for one in _of_batch(mortar, names)]
    due += [(hour, "channels", None, section) for section, hour in channels_due]
    due += [(hour, code, None, None) for code, hour in day]
    coming = sorted((one for one in due if one[0] > SOON), key=lambda one: (one[0], *map(str, one[1:])))
    return tuple(Alarm(clock.text(hour), code, batch, section) for hour, code, batch, section in coming)


def _of_batch(mortar: Mortar, names: Sequence[str]) -> Iterable[_Due]:
    section = None if mortar.section is None else names[mortar.section]
    yield (mortar.soon, "use_soon", mortar.id, section)
    yield (mortar.use_by, "use_by", mortar.id, section)
