/** One line over the keys: what the readings tell so far, and the way to a place by tape. */
import { useState } from "preact/hooks";
import { depthText } from "../../units";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { placeText } from "../common/roomFigure";
import { Cautions } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import type { RoomView } from "../common/useRoom";

function noteOf({ state, plan, readings }: RoomView): string {
  if (readings.length < 3) return t("levels.three_needed");
  const problem = state.status === "problems" ? state.problems[0] : undefined;
  if (problem) return problemText(problem);
  if (!plan) return state.status === "failed" ? t("engine.failed") : t("levels.go_on");
  const { highest, lowest } = plan.surface;
  return t("levels.spread", { spread: highest.z - lowest.z });
}

function About({ room, onClose }: { room: RoomView; onClose: () => void }) {
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
    </Dialog>
  );
}

export function LevelNotes({ room, onPlace }: { room: RoomView; onPlace: () => void }) {
  const [open, setOpen] = useState(false);
  const needs = room.plan ? cautionsAt(room.plan, "levels").length : 0;
  return (
    <div class="level-notes">
      <button type="button" class={needs > 0 || room.state.status === "problems" && room.readings.length >= 3 ? "button note warns" : "button note"} data-testid="levels-note" onClick={() => setOpen(true)}>{noteOf(room)}</button>
      <button type="button" class="button" data-testid="place-by-tape" onClick={onPlace}>{t("levels.by_tape")}</button>
      {open && <About room={room} onClose={() => setOpen(false)} />}
    </div>
  );
}
