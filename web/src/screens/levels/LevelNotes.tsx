/** One line over the keys: from where one reads, what the readings tell so far, and the way to all that belongs to them. */
import { depthText } from "../../units";
import type { Problem } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { placeText } from "../common/roomFigure";
import { Cautions, NOT_YET } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import type { RoomView } from "../common/useRoom";
import { InstrumentsSheet } from "./InstrumentsSheet";
import { MarksSheet } from "./MarksSheet";
import { standingName } from "./names";
import { SetupsSheet } from "./SetupsSheet";
import type { Work } from "./work";

export type Sheet = "about" | "setups" | "marks" | "instruments";

interface SheetProps {
  readonly work: Work;
  readonly onOpen: (id: string) => void;
  readonly onSheet: (sheet: Sheet | null) => void;
}

/** The first problem that needs the person; "too few yet" and "on one line yet" pass as the round goes on. */
function alarmIn(state: RoomView["state"]): Problem | null {
  const first = state.status === "problems" ? state.problems.find(({ code }) => !NOT_YET.has(code)) : undefined;
  return first ?? null;
}

function noteOf({ room: { state, plan }, stage, readings, isUntied, standing }: Work): string {
  if (isUntied) return t("levels.untied");
  if (stage === "bed") return bedNote(readings.length);
  if (readings.length < 3) return t("laying" in standing ? "laying.short" : "levels.three_needed");
  const problem = alarmIn(state);
  if (problem) return problemText(problem);
  if (!plan) return state.status === "failed" ? t("engine.failed") : t("levels.go_on");
  const { highest, lowest } = plan.surface;
  return t("levels.spread", { spread: highest.z - lowest.z });
}

/** What the readings of the bed tell stands on the screen that they lead back to. */
function bedNote(readings: number): string {
  return readings === 0 ? t("checking.none_read") : t("checking.so_many_read", { readings });
}

/** Every reading as a button: the way to a reading for whoever cannot tap it on the drawing. */
function ReadingList({ readings, onOpen }: { readings: Work["readings"]; onOpen: (id: string) => void }) {
  return (
    <ul class="reading-list">
      {readings.map(({ id, fields }, index) => (
        <li key={id}>
          <button type="button" class="button wide" data-testid="listed-reading" onClick={() => onOpen(id)}>{t("reading.listed", { number: index + 1, down: fields.down ?? 0 })}</button>
        </li>
      ))}
    </ul>
  );
}

/** From where one reads, and the sheets behind it. */
function Behind({ work, onSheet }: SheetProps) {
  const instruments = work.room.fields.instruments?.length ?? 0;
  const marks = work.room.fields.marks?.length ?? 0;
  return (
    <div class="stack tight">
      <button type="button" class="value-button" data-testid="open-setups" onClick={() => onSheet("setups")}>
        <span>{t("setup.now")}</span><span class="given">{standingName(work.room, work.standing)}</span>
      </button>
      <div class="row even">
        <button type="button" class="button" data-testid="open-marks" onClick={() => onSheet("marks")}>{t("mark.open", { marks })}</button>
        <button type="button" class="button" data-testid="open-instruments" onClick={() => onSheet("instruments")}>{t("instrument.open", { instruments })}</button>
      </div>
    </div>
  );
}

function About(props: SheetProps) {
  const { work, onOpen, onSheet } = props;
  const { room, stage } = work;
  const { plan } = room;
  return (
    <Dialog title={t("levels.about")} testid="levels-about" onClose={() => onSheet(null)}>
      <Behind {...props} />
      <p>{noteOf(work)}</p>
      {plan && stage === "subfloor" && (
        <dl class="inputs">
          <div><dt>{t("levels.high")}</dt><dd>{placeText(plan.surface.highest.at)}</dd></div>
          <div><dt>{t("levels.low")}</dt><dd>{placeText(plan.surface.lowest.at)}</dd></div>
          <div><dt>{t("levels.difference")}</dt><dd>{depthText(plan.surface.highest.z - plan.surface.lowest.z, reader.value)}</dd></div>
        </dl>
      )}
      {plan && stage === "subfloor" && <Cautions cautions={cautionsAt(plan, "levels")} />}
      <p class="quiet">{t("levels.how")}</p>
      <ReadingList readings={work.readings} onOpen={(id) => { onSheet(null); onOpen(id); }} />
    </Dialog>
  );
}

export function LevelNotes({ work, onSheet }: Omit<SheetProps, "onOpen">) {
  const { room } = work;
  const isAsking = work.isUntied || (work.stage === "subfloor" && (room.plan ? cautionsAt(room.plan, "levels").length > 0 : alarmIn(room.state) !== null));
  return (
    <button type="button" class={isAsking ? "button note warns" : "button note"} data-testid="levels-note" onClick={() => onSheet("about")}>
      <span class="from-where" data-testid="standing">{standingName(room, work.standing)}</span>
      <span class="note-line">{work.isUntied ? t("levels.untied_yet") : noteOf(work)}</span>
    </button>
  );
}

/** The sheet behind the line that is open, if any. */
export function LevelSheet({ sheet, ...props }: SheetProps & { readonly sheet: Sheet | null }) {
  const { work, onSheet } = props;
  const close = () => onSheet(null);
  if (sheet === "about") return <About {...props} />;
  if (sheet === "setups") return <SetupsSheet work={work} onClose={close} />;
  if (sheet === "marks") return <MarksSheet work={work} onClose={close} />;
  return sheet === "instruments" ? <InstrumentsSheet work={work} onClose={close} /> : null;
}
