"""What people do with their phones."""

from hypothesis import strategies as st

from evenbed.sync.jobs import PARENTS
from evenbed.wire.supplies import COMPANYS
from tests.machine.base import Base, numbers, tabs
from tests.machine.bases import CREW
from tests.machine.edits import CHOICES, CREWS, NEW, WRONG, Fields
from tests.machine.happenings import NothingToDoError, happens


def within(kind: str, room: str, job: str) -> Fields:
    """The field by which a record of this kind names what it belongs to."""
    parent, field = PARENTS[kind]
    return {field: room if parent == "room" else job}


class Work(Base):
    """Every rule saves something on one phone, in one of its tabs."""

    def pick(self, data: st.DataObject, n: int, *kinds: str) -> tuple[str, str]:
        """A record that the phone shows, of one of the kinds. Raises NothingToDoError."""
        shown = {(row["kind"], row["id"]) for row in self.tool.shown(self.phones[n])}
        known = [key for key in self.memory.keys if key in shown and (not kinds or key[0] in kinds)]
        if not known:
            raise NothingToDoError
        return data.draw(st.sampled_from(known))

    @happens(often=2, n=numbers, tab=tabs, crew=st.none() | CREWS)
    def new_job(self, n: int, tab: int, crew: list[str] | None) -> None:
        """Also with a crew, which only the foreman may name."""
        named = None if crew is None else [worker.id for worker in CREW if worker.name in crew]
        self.write(n, tab, self.job_edits(self.names.new(), f"job {self.memory.restores}", named))

    @happens(often=2, n=numbers, tab=tabs, data=st.data(), kind=st.sampled_from(sorted(NEW)))
    def new_room_with_something_in_it(self, n: int, tab: int, data: st.DataObject, kind: str) -> None:
        """Two records saved together, the second one in the first."""
        job = self.pick(data, n, "job")
        room, inside = self.names.new(), self.names.new()
        fields = data.draw(NEW[kind]) | within(kind, room, job[1])
        edits = [
            {"kind": "room", "id": room, "fields": {"job_id": job[1], "name": "new"}},
            {"kind": kind, "id": inside, "fields": fields},
        ]
        self.write(n, tab, edits)

    @happens(often=3, n=numbers, tab=tabs, data=st.data(), kind=st.sampled_from(sorted(NEW)))
    def new_in_a_room(self, n: int, tab: int, data: st.DataObject, kind: str) -> None:
        """A reading, a batch, a station that was set, or whatever else lies in a room; a day's forecast, in a job."""
        around = self.pick(data, n, PARENTS[kind][0])[1]
        fields = data.draw(NEW[kind]) | within(kind, around, around)
        self.write(n, tab, [{"kind": kind, "id": self.names.new(), "fields": fields}])

    @happens(often=6, n=numbers, tab=tabs, data=st.data())
    def choose(self, n: int, tab: int, data: st.DataObject) -> None:
        """Other values in fields of a record that is shown."""
        key = self.pick(data, n, *CHOICES)
        self.write(n, tab, [{"kind": key[0], "id": key[1], "fields": data.draw(CHOICES[key[0]])}])

    @happens(often=3, n=numbers, tab=tabs, data=st.data(), kind=st.sampled_from(sorted(COMPANYS)))
    def say_what_the_company_buys(self, n: int, tab: int, data: st.DataObject, kind: str) -> None:
        """On whichever phone, the same record; from a setter's it is refused."""
        self.write(n, tab, [{"kind": kind, "id": COMPANYS[kind], "fields": data.draw(CHOICES[kind])}])

    @happens(often=3, n=numbers, data=st.data(), crew=CREWS)
    def assign(self, n: int, data: st.DataObject, crew: list[str]) -> None:
        """A job gets another crew; from a setter's phone that is refused."""
        job = self.pick(data, n, "job")
        ids = [worker.id for worker in CREW if worker.name in crew]
        self.write(n, 0, [{"kind": "job", "id": job[1], "fields": {"crew": ids}}])

    @happens(often=3, n=numbers, tab=tabs, data=st.data(), deleted=st.booleans())
    def delete_or_undelete(self, n: int, tab: int, data: st.DataObject, deleted: bool) -> None:
        """Deleting is a change like any other."""
        key = self.pick(data, n)
        self.write(n, tab, [{"kind": key[0], "id": key[1], "fields": {"deleted": deleted}}])

    @happens(n=numbers, data=st.data(), fields=WRONG)
    def say_something_wrong(self, n: int, data: st.DataObject, fields: Fields) -> None:
        """A change that the service cannot take, whatever the reason."""
        key = self.pick(data, n)
        self.write(n, 0, [{"kind": key[0], "id": key[1], "fields": fields}], is_sound=False)
