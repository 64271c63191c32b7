/** How the day goes: pace, when the room is done, whether the last batch fits; stopped or not, helper or not. */
import { useState } from "preact/hooks";
import { addEntry, editRoom, endEntry, lasting, mayWrite } from "../../state";
import { clockText, hoursText } from "../../units";
import { reader, t } from "../../words";
import { isSameDay, minutesLater } from "../common/clockTime";
import { Figure } from "../common/Figure";
import type { FillingNow } from "../common/filled";
import { TimeSheet } from "../common/Moment";
import { saved, sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";

const USUAL_END = 17; // o'clock, to begin from
const HALF_DAY = 6 * 60; // minutes: a time of day is taken as the next one rather than the last

/** The day's end where it is of today or still to come; one of an earlier day says nothing. */
function dayEndOf(room: RoomView): string | null {
  const ends = room.fields["filling.day_ends"] ?? null;
  if (ends === null) return null;
  return Date.parse(ends) > Date.now() || isSameDay(Date.parse(ends), Date.now()) ? ends : null;
}

function DayEnd({ room }: { room: RoomView }) {
  const [open, setOpen] = useState(false);
  const ends = dayEndOf(room);
  const set = (at: string | null) => void saved(editRoom(room.id, { "filling.day_ends": at }));
  const begin = ends === null ? new Date().setHours(USUAL_END, 0, 0, 0) : Date.parse(ends);
  return (
    <>
      <button type="button" class="value-button" data-testid="day-ends" onClick={() => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); }}>
        <span>{t("named.room.filling.day_ends")}</span>
        <span class="given">{ends === null ? t("none_yet") : clockText(ends, reader.value)}</span>
      </button>
      {open && <TimeSheet name={`${room.id}:day_ends`} title={t("named.room.filling.day_ends")} at={begin} near={minutesLater(Date.now(), HALF_DAY)} onKeep={set} onRemove={ends === null ? undefined : () => set(null)} onClose={() => setOpen(false)} />}
    </>
  );
}

function Fits({ clock, ends }: { clock: NonNullable<FillingNow["clock"]>; ends: string | null }) {
  if (ends === null || clock.fits_day === null) return null;
  return (
    <>
      <p class={clock.fits_day ? "notice good" : "caution"} data-testid="fits-day">{t(clock.fits_day ? "filling.fits" : "filling.fits_not", { at: ends })}</p>
      {clock.last_batch_by !== null && <p class="notice" data-testid="last-batch">{t("filling.last_batch", { at: clock.last_batch_by })}</p>}
    </>
  );
}

function Pace({ clock }: { clock: NonNullable<FillingNow["clock"]> }) {
  const { pace, done, working_time: working } = clock;
  const minutes = pace && Math.round(pace.hours_per_batch * 60);
  return (
    <div class="figures">
      {done && <Figure label={t("filling.done")} value={clockText(done.likely, reader.value)} note={t("filling.done_between", { early: done.early, late: done.late })} plan={clock} path="done.likely" />}
      {pace && <Figure label={t("filling.pace")} value={`${minutes ?? 0}\u202fmin`} note={t("filling.pace_from", { count: pace.sections })} plan={clock} path="pace.hours_per_batch" />}
      <Figure label={t("waiting.working_time")} value={hoursText(working.hours, reader.value)} note={t("filling.at_temperature", { temperature: working.temperature })} plan={clock} path="working_time" />
      {clock.stopped_hours > 0 && <Figure label={t("filling.stopped_so_far")} value={hoursText(clock.stopped_hours, reader.value)} plan={clock} path="stopped_hours" />}
    </div>
  );
}

function Lasting({ room, what }: { room: string; what: "stopped" | "helper" }) {
  const now = lasting(room, what);
  const words = what === "stopped" ? (["filling.stop", "filling.go_on"] as const) : (["filling.helper_came", "filling.helper_left"] as const);
  const tapped = () => void saved(now ? endEntry(now.id) : addEntry(room, { what }));
  return <button type="button" class="button" aria-pressed={now !== undefined} data-testid={`lasting-${what}`} onClick={tapped}>{t(now ? words[1] : words[0])}</button>;
}

export function Day({ room, filling }: { room: RoomView; filling: FillingNow }) {
  const { clock } = filling;
  return (
    <section class="stack tight">
      <h3>{t("filling.day_title")}</h3>
      {mayWrite.value && <div class="row even"><Lasting room={room.id} what="stopped" /><Lasting room={room.id} what="helper" /></div>}
      {clock && <Pace clock={clock} />}
      <DayEnd room={room} />
      {clock && <Fits clock={clock} ends={dayEndOf(room)} />}
    </section>
  );
}
