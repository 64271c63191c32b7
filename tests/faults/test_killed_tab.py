"""The app's tab, and the whole browser, killed in the midst of writing: what was shown as saved is there."""

import random
import re
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, expect
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.phone import Phone
from tests.browser.profiles import PHONE
from tests.browser.running import Service, free_port
from tests.faults.browser_processes import kill, main_process, page_process
from tests.faults.company import check_kept
from tests.faults.written import check_whole, written_on
from tests.stores import url_of

from evenbed.access.people import invite_again
from evenbed.store.work import Store

pytestmark = [
    pytest.mark.browser,
    pytest.mark.flaky(reruns=0),  # tabs are ended on purpose here: one that ends by itself is no excuse
]

SEED = 20260504
TAB_KILLS, BROWSER_KILLS = 5, 2
"""Tabs before the phone has joined, and as many after; browsers in the end."""
MOST_READINGS, MORE, LONGEST_MS = 3, 2, 80
"""Readings shown before the blow, how many may follow, and how long after it falls: before, in and after a saving."""
PATIENCE_S = 60.0
SENDING_MS = 30_000
SENT = r"^Saved on this phone · sent "
RECTANGLE = [("9", "left"), ("7", "left"), ("9", "left"), ("7", "left")]
TYPE_ON = """
(most) => {
  const last = (mark) => [...document.querySelectorAll(`[data-testid="${mark}"]`)].at(-1);
  const next = () => Number(/\\d+/.exec(last("entry-what").textContent)[0]);
  const shows = (number) => new Promise((done) => {
    const look = () => (next() > number ? done() : setTimeout(look, 1));
    look();
  });
  const readOn = async () => {
    for (let typed = 0; typed < 12; typed += 1) last("key-back").click(); // what the blow left half typed
    for (let typed = 0; typed < most; typed += 1) {
      const number = next();
      for (const key of ["key-4", "key-0", `key-part-${1 + number % 15}`]) last(key).click();
      await shows(number);
      console.log(`shown ${number}`);
    }
  };
  void readOn();
}
"""
"""Takes readings by the keys of the app itself, and tells of each once the screen asks for the one after it."""


class Victim(Phone):
    """A phone whose browser keeps its storage in a folder.

    `shown` is the last reading of the room that it showed as saved, `earlier` how many there are in other rooms.
    """

    shown = 0
    earlier = 0

    def note(self, message: ConsoleMessage) -> None:
        """What the page tells while it types on."""
        if found := re.fullmatch(r"shown (\d+)", message.text):
            self.shown = max(self.shown, int(found[1]))


def opened(browser: Browser, profile: Path) -> Victim:
    context: BrowserContext = browser.browser_type.launch_persistent_context(
        profile, executable_path=chromium_path(), args=list(FLAGS), viewport=PHONE, has_touch=True, is_mobile=True
    )
    context.route(
        "**/assets/engine-*.json", lambda route: route.abort()
    )  # nothing is planned here: time for more blows
    return with_new_tab(Victim(context, context.pages[0], []))


def with_new_tab(phone: Victim) -> Victim:
    """The old tab is left as it is: the driver may never come back from closing one that was killed."""
    phone.page = phone.context.new_page()
    phone.page.on("console", phone.note)
    return phone


@pytest.fixture
def service(tmp_path: Path) -> Iterator[Service]:
    """A running service over empty data."""
    running = Service(tmp_path, free_port())
    running.start()
    yield running
    running.stop()


def test_a_tab_or_a_browser_killed_while_it_saves_keeps_what_it_showed_and_the_office_gets_each_reading_once(
    browser: Browser, service: Service, tmp_path: Path
) -> None:
    dice, profile = random.Random(SEED), tmp_path / "profile"
    phone = opened(browser, profile)
    phone.open(service.address)
    levels = begin_round(phone)
    for _ in range(TAB_KILLS):
        kill_tab_while_typing(phone, profile, dice, levels)
    phone.home()
    phone.join(service.join_code(), "Ana")
    levels = begin_round(phone)
    for _ in range(TAB_KILLS):
        kill_tab_while_typing(phone, profile, dice, levels)
    phone.home()
    levels = begin_round(phone)
    for _ in range(BROWSER_KILLS):
        phone = kill_browser_while_typing(browser, phone, profile, dice, levels)
    check_all_reach_the_office(phone, service)
    phone.context.close()


def begin_round(phone: Victim) -> str:
    """Stand before the first reading of a new room; the address."""
    phone.shown, phone.earlier = 0, len(written_on(phone.page).readings)
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.walk(RECTANGLE)
    phone.go_to("levels")
    phone.wait_for("entry-what")
    return phone.page.url


def type_for_a_while(phone: Victim, dice: random.Random) -> None:
    """On the levels' screen, where the round began or the last blow was looked into."""
    phone.wait_for("keypad")
    wanted, patience = dice.randint(1, MOST_READINGS), time.monotonic() + PATIENCE_S
    enough = phone.shown + wanted
    phone.page.evaluate(TYPE_ON, wanted + MORE)
    while phone.shown < enough:
        assert time.monotonic() < patience, "nothing more was shown as saved"
        phone.page.wait_for_timeout(1)
    phone.page.wait_for_timeout(dice.uniform(0, LONGEST_MS))


def kill_tab_while_typing(phone: Victim, profile: Path, dice: random.Random, levels: str) -> None:
    type_for_a_while(phone, dice)
    with phone.page.expect_event("crash"):
        kill(page_process(profile))
    check_after(with_new_tab(phone), levels)


def kill_browser_while_typing(
    browser: Browser, phone: Victim, profile: Path, dice: random.Random, levels: str
) -> Victim:
    type_for_a_while(phone, dice)
    kill(main_process(profile))
    again = opened(browser, profile)
    again.shown, again.earlier = phone.shown, phone.earlier
    check_after(again, levels)
    return again


def check_after(phone: Victim, levels: str) -> None:
    """In the database, by the browser's own means, and on the screen that is opened again."""
    phone.open(levels)
    phone.wait_for("keypad")
    written = written_on(phone.page)
    check_whole(written, phone.earlier + phone.shown)
    phone.shown = len(written.readings) - phone.earlier
    phone.wait_for_text("entry-what", rf"\b{phone.shown + 1}\b")


def join_again_if_forgotten(phone: Victim, service: Service) -> None:
    """Chromium writes cookies to disk half a minute late: killed before, it forgot who it is and says so."""
    again = phone.page.get_by_test_id("join-again")
    sent = phone.page.get_by_test_id("save-line").filter(has_text=re.compile(SENT))
    expect(again.or_(sent).first).to_be_visible(timeout=SENDING_MS)
    if not again.is_visible():
        return
    with closing(Store(url_of(service.data / "evenbed.db"))) as store:
        _person, code = invite_again(store, "Ana", datetime.now(UTC))
    phone.tap("join-again")
    phone.fill("join-code", code)
    phone.tap("join-now")
    phone.wait_for("joined")


def check_all_reach_the_office(phone: Victim, service: Service) -> None:
    join_again_if_forgotten(phone, service)
    phone.wait_for_text("save-line", SENT)
    mine = written_on(phone.page)
    assert mine.waiting == []
    url = url_of(service.data / "evenbed.db")
    check_kept(url, {})
    with closing(Store(url)) as store, store.reading() as work:
        kept = {one.id: one.fields for one in work.archive.records() if one.kind == "reading"}
        numbers = [entry.number for entry in work.archive.log()]
    assert kept == mine.readings
    assert numbers == list(range(1, mine.account["nextNumber"]))
    expect(phone.page.get_by_test_id("refused-link")).to_have_count(0)
