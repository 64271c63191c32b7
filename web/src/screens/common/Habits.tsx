/** The habit of the trade that matters now: ticked, or silenced for this room; both stand in the record. */
import { addEntry, batchesIn, entriesOf, mayWrite, sectionTimesOf, setStationsOf } from "../../state";
import { t } from "../../words";
import { sectionsNow } from "./filled";
import { habitsAt, habitsOpen, type Habit, type HabitMoment } from "./habitCodes";
import { saved } from "./saving";
import type { RoomView } from "./useRoom";

function openHabits(room: RoomView, at: HabitMoment): readonly Habit[] {
  if (!room.plan) return [];
  const batches = batchesIn(room.id, room.plan.sections);
  const facts = {
    room: room.fields, plan: room.plan, stationsSet: setStationsOf(room.id, room.plan.rails).size, hasMixed: batches.length > 0,
    sections: sectionsNow(room.plan, sectionTimesOf(room.id, room.plan.sections), batches, null),
  };
  return habitsOpen(habitsAt(at, facts), entriesOf(room.id).value);
}

/** One at a time: the next comes once this one is ticked. */
export function Habits({ room, at }: { room: RoomView; at: HabitMoment }) {
  const [habit] = openHabits(room, at);
  if (!habit || !mayWrite.value) return null;
  const { code, section } = habit;
  const where = section === null ? {} : { section };
  const tell = (what: "habit" | "habit_off") => void saved(addEntry(room.id, { what, code, ...where }));
  return (
    <div class="habit" data-testid="habit" data-code={code}>
      <p>{t(`habit.${code}`)}</p>
      <button type="button" class="button" data-testid="habit-done" onClick={() => tell("habit")}>{t("habit.done")}</button>
      <button type="button" class="button" data-testid="habit-off" aria-label={t("habit.off_long")} onClick={() => tell("habit_off")}>{t("habit.off")}</button>
    </div>
  );
}
