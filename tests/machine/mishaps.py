"""What happens to phones, to the service, and what the foreman decides."""

import json
from datetime import timedelta

from hypothesis import strategies as st

from tests.machine.base import FINE, Base, numbers
from tests.machine.bases import CREW
from tests.machine.happenings import NothingToDoError, happens
from tests.machine.memory import Seen

HOURS = st.integers(-2000, 2000).map(lambda quarters: timedelta(hours=quarters / 4))
REFUSED_FOR_WHO_ASKS = 401


class Mishaps(Base):
    """None of it may break a promise."""

    @happens(often=2, n=numbers, how=st.sampled_from(["dies", "full"]), after=st.integers(0, 12))
    def the_disk_is_in_trouble(self, n: int, how: str, after: int) -> None:
        """The battery, or the room on the disk, ends in the middle of one of the next writes."""
        self.tool.plan_trouble(self.phones[n], how, after)

    @happens(often=2, n=numbers, is_another=st.booleans())
    def the_app_is_opened(self, n: int, is_another: bool) -> None:
        """In another tab; or the phone goes off, whatever it was doing, and on again."""
        phone = self.phones[n]
        if not is_another:
            self.tool.start(phone)
        elif len(phone.tabs) == 1:
            self.tool.open_tab(phone)
        else:
            self.tool.close_tab(phone, 0)

    @happens(often=3, hours=st.integers(1, 700), n=numbers, offset=st.none() | HOURS)
    def time_passes(self, hours: int, n: int, offset: timedelta | None) -> None:
        """Up to a month; a phone's clock may be set in that time, wrong by up to weeks, both ways."""
        self.time.pass_by(timedelta(hours=hours))
        if offset is not None:
            self.phones[n].offset = offset
            self.phones[n].turns += 1

    @happens(often=3, n=numbers, which=st.integers(0, 5))
    def the_phone_is_copied_or_put_back(self, n: int, which: int) -> None:
        """A backup of the whole phone; or back to one: what the phone alone held since is gone with it."""
        phone = self.phones[n]
        if which >= len(phone.copies):
            self.tool.copy(phone)
            return
        copy = phone.copies[which]
        after = [self.tool.contents_of(copy), *self._others(n)]
        self.memory.storage_lost(self.tool.contents(phone), after)
        self.tool.put_back(phone, copy)

    def _others(self, n: int) -> list[dict[str, list[dict[str, object]]]]:
        return [self.tool.contents(other) for other in self.phones if other is not self.phones[n]]

    @happens(n=numbers)
    def the_app_is_installed_anew(self, n: int) -> None:
        """What the phone alone held is gone; it joins as new."""
        phone = self.phones[n]
        self.memory.storage_lost(self.tool.contents(phone), self._others(n))
        self.tool.wipe(phone)
        self.join(phone, FINE)

    @happens(n=numbers)
    def the_app_is_updated(self, n: int) -> None:
        """The phone had the app's first version until now."""
        self.memory.stood.clear()  # that version did not keep when a record had changed
        self.tool.as_first_version(self.phones[n])

    @happens(often=2, n=numbers, by_itself=st.booleans())
    def the_phone_leaves(self, n: int, by_itself: bool) -> None:
        """It reads and writes no more from its next request on; what it holds stays on it."""
        phone, token = self.phones[n], self.phones[n].jar.token
        device_id = self.account(phone)["deviceId"]
        if device_id not in self._joined_devices():
            raise NothingToDoError
        if by_itself:
            self.tool.leave(phone, self.tool.line(phone, FINE))
        else:
            self.office.decide("DELETE", f"/api/devices/{device_id}")
        if device_id not in self._joined_devices():
            self._is_shut_out(token)

    def _joined_devices(self) -> set[str]:
        people = self.office.decide("GET", "/api/people")["people"]
        return {device["id"] for person in people for device in person["devices"] if not device["removed_at"]}

    def _is_shut_out(self, token: str | None) -> None:
        push = json.dumps({"protocol": 1, "changes": [], "device_time": self.time.now.isoformat()})
        for method, path, body in (("GET", "/api/pull", None), ("POST", "/api/push", push)):
            assert self.office.answer(method, path, body, token)[0].status == REFUSED_FOR_WHO_ASKS

    @happens(often=2, n=st.integers(1, len(CREW) - 1), role=st.sampled_from(["setter", "viewer", "foreman"]))
    def a_role_changes(self, n: int, role: str) -> None:
        """A viewer's phone keeps what it holds; it flows when the role changes. Prices are foremen's."""
        self.office.decide("PATCH", f"/api/people/{CREW[n].id}", json={"role": role})
        self._only_look()

    def _only_look(self) -> None:
        roles = self.office.roles()
        for phone in self.phones:
            if roles[phone.worker.id] == "viewer":
                self.memory.only_looks(phone)
            if roles[phone.worker.id] != "foreman":
                self.memory.is_no_foremans(phone)

    @happens(n=numbers, which=st.integers(0, 3))
    def a_refusal_is_dismissed(self, n: int, which: int) -> None:
        """The person has read it."""
        phone = self.phones[n]
        refused = sorted(self.tool.contents(phone)["refused"], key=lambda one: one["change_id"])
        if not refused:
            raise NothingToDoError
        one = refused[which % len(refused)]
        self.tool.calm(phone)
        self.tool.dismiss(phone, one["change_id"])
        self.memory.dismiss(one, phone)

    @happens()
    def the_service_starts_again(self) -> None:
        """A new process over the same database."""
        self.office.start_again()

    @happens(often=2)
    def the_service_is_copied(self) -> None:
        """A backup while it runs."""
        self.backups.append(self.office.back_up())

    @happens(often=5, which=st.integers(0, 3))
    def the_service_is_put_back(self, which: int) -> None:
        """To a backup; its identity is another from then on."""
        if not self.backups:
            raise NothingToDoError
        before = self.office.records()
        self.office.restore(self.backups[which % len(self.backups)])
        seen = {p.disk: Seen(p, self.tool.contents(p), self.tool.loaded(p)) for p in self.phones}
        self.memory.service_went_back(seen, {entry.change_id for entry in self.office.log()}, before)
        self._only_look()
