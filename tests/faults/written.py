"""What a phone's database holds, read by the browser's own means and by none of the app's."""

from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page

READ = """
() => new Promise((done, fail) => {
  const opening = indexedDB.open("evenbed");
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const database = opening.result;
    const transaction = database.transaction(["records", "changes", "meta"]);
    const all = (name) => new Promise((answer) => {
      const asked = transaction.objectStore(name).getAll();
      asked.onsuccess = () => answer(asked.result);
    });
    Promise.all(["records", "changes", "meta"].map(all)).then((told) => {
      database.close();
      done(told);
    }, fail);
  };
})
"""
COMPLETE = {"room_id", "down", "typed", "taken_at"}
"""What every reading says that is taken on the keypad."""


@dataclass(frozen=True)
class Written:
    """The three stores that must agree."""

    records: list[dict[str, Any]]
    changes: list[dict[str, Any]]
    account: dict[str, Any]

    @property
    def readings(self) -> dict[str, dict[str, Any]]:
        """The fields of every reading, whether the office has told it or it still waits."""
        told = {one["id"]: one["fields"] for one in self.records if one["kind"] == "reading"}
        own = {one["record_id"]: one["fields"] for one in self.changes if one["kind"] == "reading"}
        return own | told

    @property
    def waiting(self) -> list[int]:
        """The numbers of what waits to be sent."""
        return sorted(one["number"] for one in self.changes if one["acked"] == 0)


def written_on(page: Page) -> Written:
    """What stands in the database now."""
    records, changes, meta = page.evaluate(READ)
    return Written(records, changes, next(row for row in meta if row["key"] == "account"))


def check_whole(written: Written, shown: int) -> None:
    """Every reading that was shown as saved, each of them whole; what waits is numbered without a gap to the last."""
    assert len(written.readings) >= shown
    assert all(fields.keys() >= COMPLETE for fields in written.readings.values())
    last = written.account["nextNumber"] - 1
    assert written.waiting == list(range(last - len(written.waiting) + 1, last + 1))
