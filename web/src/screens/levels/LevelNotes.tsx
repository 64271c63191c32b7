/** One line over the keys: what the readings tell so far, and the way to a place by tape. */
import { useState } from "preact/hooks";
import { depthText } from "../../units";
import type { Problem } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { placeText } from "../common/roomFigure";
import { Cautions, NOT_YET } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import type { RoomView } from "../common/useRoom";

/** The first problem that needs the person; "too few yet" and "on one line yet" pass as the round goes on. */
function alarmIn(state: RoomView["state"]): Problem | null {
  const first = state.status === "problems" ? state.problems.find(({ code }) => !NOT_YET.has(code)) : undefined;
  return first ?? null;
}

function noteOf({ state, plan, readings }: RoomView): string {
  if (readings.length < 3) return t("levels.three_needed");
  const problem = alarmIn(state);
  if (problem) return problemText(problem);
  if (!plan) return state.status === "failed" ? t("engine.failed") : t("levels.go_on");
  const { highest, lowest } = plan.surface;
  return t("levels.spread", { spread: highest.z - lowest.z });
}

/** Every reading as a button: the way to a reading for whoever cannot tap it on the drawing. */
function ReadingList({ room, onOpen }: { room: RoomView; onOpen: (id: string) => void }) {
  return (
    <ul class="reading-list">
      {room.readings.map(({ id, fields }, index) => (
        <li key={id}>
          <button type="button" class="button wide" data-testid="listed-reading" onClick={() => onOpen(id)}>{t("reading.listed", { number: index + 1, down: fields.down ?? 0 })}</button>
        </li>
      ))}
    </ul>
  );
}

function About({ room, onOpen, onClose }: NotesProps & { readonly onClose: () => void }) {
  const { plan } = room;
  return (
    <Dialog title={t("levels.about")} testid="levels-about" onClose={onClose}>
      <p>{noteOf(room)}</p>
      {plan && (
        <dl class="inputs">
          <div><dt>{t("levels.high")}</dt><dd>{placeText(plan.surface.highest.at)}</dd></div>
          <div><dt>{t("levels.low")}</dt><dd>{placeText(plan.surface.lowest.at)}</dd></div>
          <div><dt>{t("levels.difference")}</dt><dd>{depthText(plan.surface.highest.z - plan.surface.lowest.z, reader.value)}</dd></div>
        </dl>
      )}
      {plan && <Cautions cautions={cautionsAt(plan, "levels")} />}
      <p class="quiet">{t("levels.how")}</p>
      <ReadingList room={room} onOpen={(id) => { onClose(); onOpen(id); }} />
    </Dialog>
  );
}

interface NotesProps {
  readonly room: RoomView;
  readonly onOpen: (id: string) => void;
}

export function LevelNotes({ room, onOpen }: NotesProps) {
  const [open, setOpen] = useState(false);
  const isAsking = room.plan ? cautionsAt(room.plan, "levels").length > 0 : alarmIn(room.state) !== null;
  return (
    <>
      <button type="button" class={isAsking ? "button note warns" : "button note"} data-testid="levels-note" onClick={() => setOpen(true)}>{noteOf(room)}</button>
      {open && <About room={room} onOpen={onOpen} onClose={() => setOpen(false)} />}
    </>
  );
}
