/** Watches the room that is filled with this phone, whatever screen is open: what comes due sounds, shakes and is shown. */
import { computed, effect, signal, type ReadonlySignal } from "@preact/signals";
import {
  alarmBook, alarmKey, batchesIn, fillClockOf, loaded, noteSounded, ringingAlarms, roomOf, sectionTimesOf, takeAlarms, type Worked,
} from "../state";
import type { Alarm } from "../wire";
import { alarmText } from "./alarmText";
import { soundAlarm, wakeTone } from "./tone";

const TICK_MS = 1000;
const GOES_ON_MS = 12 * 3_600_000; // after so long without a tap nobody fills this room any more

const now = signal(Date.now());

/** Alarms that ring now, the newest first. */
export const ringing: ReadonlySignal<readonly Alarm[]> = computed(() => {
  const { room } = alarmBook.value;
  if (room === null || !loaded.value || roomOf(room) === undefined) return [];
  return ringingAlarms(alarmBook.value, workedIn(room), now.value);
});

/** Whether somebody still fills the room: a tap of today, and something left to do. */
const isGoingOn = computed(() => {
  const { room } = alarmBook.value;
  return room !== null && loaded.value && lastTap(workedIn(room)) > now.value - GOES_ON_MS;
});

/** What was done, by the sections as the clock last told them: alarms are of those. Looks at the clock, never starts it. */
function workedIn(room: string): Worked {
  const shapes = fillClockOf(room).peek().answer?.sections;
  return { batches: batchesIn(room, shapes), times: sectionTimesOf(room, shapes) };
}

function lastTap({ batches, times }: Worked): number {
  const told = [
    ...batches.flatMap(({ fields }) => [fields.mixed_at, fields.placed_at]),
    ...[...times.values()].flatMap(({ placed_at, screeded_at, channels_at }) => [placed_at, screeded_at, channels_at]),
  ];
  return Math.max(0, ...told.map((at) => (at ? Date.parse(at) : 0)));
}

export function watchAlarms(): () => void {
  const ticking = setInterval(() => (now.value = Date.now()), TICK_MS);
  addEventListener("pointerdown", wakeTone);
  const ends = [effect(foretell), effect(sound)];
  return () => {
    clearInterval(ticking);
    removeEventListener("pointerdown", wakeTone);
    for (const end of ends) end();
  };
}

function foretell(): void {
  const { room } = alarmBook.value;
  if (room === null || !isGoingOn.value) return;
  const { answer: clock } = fillClockOf(room).value;
  if (clock !== null) takeAlarms(clock.alarms, Date.now());
}

/** Each alarm once, also after the app was closed. */
function sound(): void {
  const { sounded, isSilent, room } = alarmBook.value;
  const fresh = ringing.value.filter((alarm) => !sounded.includes(alarmKey(alarm)));
  if (fresh.length === 0 || room === null) return;
  for (const alarm of fresh) {
    noteSounded(alarmKey(alarm));
    void showMessage(alarm, room);
  }
  if (!isSilent) soundAlarm();
}

/** A message of the phone's own, where the person said yes and the app is behind others. */
async function showMessage(alarm: Alarm, room: string): Promise<void> {
  if (!("Notification" in window) || Notification.permission !== "granted" || document.visibilityState === "visible") return;
  const registration = await navigator.serviceWorker.getRegistration();
  const { isSilent } = alarmBook.peek();
  await registration?.showNotification(roomOf(room)?.fields.name ?? "", { body: alarmText(alarm, room), tag: alarmKey(alarm), silent: isSilent, data: `/room/${room}/filling` });
}
