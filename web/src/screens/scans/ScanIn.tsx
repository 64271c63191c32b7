/** Readings from a dense scan, made by the office: sent, watched, looked at, and only then taken. */
import { useState } from "preact/hooks";
import { rowOf, saveLine, session } from "../../state";
import type { ScanOutcome, ScanReply, ScanStep } from "../../wire";
import { t, told } from "../../words";
import { Choice } from "../common/Choice";
import { FileButton } from "../common/FileButton";
import type { RoomView } from "../common/useRoom";
import type { HowToTake } from "../tables/found";
import { TakeBar } from "../tables/TakeBar";
import { FlatReport } from "./FlatReport";
import { ScanReport } from "./ScanReport";
import type { Scan } from "./useScan";

const STAGES = ["subfloor", "bed"] as const;
const UNITS = ["auto", "mm", "cm", "m", "in", "ft"] as const;

/** What stands in the way of a scan; null where nothing does. */
function obstacle(room: string): string | null {
  if (!session.value.joined) return t("scan.not_joined");
  if (!saveLine.value.online || saveLine.value.phase === "offline") return t("scan.offline");
  return rowOf("room", room)?.sequence === 0 ? t("scan.waiting_room") : null;
}

function Wishes({ scan }: { scan: Scan }) {
  const { wish, setWish } = scan;
  return (
    <>
      <Choice label={t("scan.stage")} name="scan-stage" value={wish.stage} onChoose={(stage) => setWish({ stage })} options={STAGES.map((value) => ({ value, label: t(`scan.${value}`) }))} />
      <Choice label={t("scan.unit")} name="scan-unit" value={wish.unit} onChoose={(unit) => setWish({ unit })} options={UNITS.map((value) => ({ value, label: value === "auto" ? t("scan.unit_auto") : t(`unit.${value}`) }))} />
      <Choice
        label={t("scan.placing_label")} name="scan-placing" value={wish.placing} onChoose={(placing) => setWish({ placing })}
        options={[{ value: "as_it_is", label: t("scan.as_it_is") }, { value: "corner", label: t("scan.corner") }]}
      />
      <Choice label={t("scan.up")} name="scan-up" value={wish.up} onChoose={(up) => setWish({ up })} options={[{ value: "z", label: t("scan.up_z") }, { value: "y", label: t("scan.up_y") }]} />
    </>
  );
}

function Step({ step, onStop }: { step: ScanStep; onStop: () => void }) {
  const text = t(`scan.${step.stage}`);
  return (
    <div class="stack tight" role="status" data-testid="scan-step">
      <label for="scan-progress">{text}</label>
      <progress id="scan-progress" class="scan-progress" max={1} value={step.done} />
      <button type="button" class="button wide" data-testid="scan-stop" onClick={onStop}>{t("scan.cancel")}</button>
    </div>
  );
}

function Refused({ outcome }: { outcome: Exclude<ScanOutcome, { outcome: "read" | "stopped" }> }) {
  if (outcome.outcome === "offline") return <p class="caution" role="alert" data-testid="scan-refused">{t("scan.offline")}</p>;
  const { problems, message } = outcome;
  return (
    <div class="stack tight" role="alert" data-testid="scan-refused">
      <p class="caution">{told("answer", outcome.outcome, {}, t("scan.failed", { message }))}</p>
      <ul class="lines">
        {problems.map((problem, index) => <li key={index} class="caution">{whereText(problem.path)}{told("scan_fault", problem.code, problem.values ?? {}, problem.message)}</li>)}
      </ul>
    </div>
  );
}

function whereText(path: string): string {
  const [, kind, number] = /^(line|point) (\d+)$/.exec(path) ?? [];
  if (number === undefined) return "";
  return `${t(kind === "line" ? "table.line" : "scan.point", { line: Number(number) })} `;
}

function Read({ room, scan, reply }: { room: RoomView; scan: Scan; reply: ScanReply }) {
  const [how, setHow] = useState<HowToTake>({ zero: "relative", already: "again" });
  return (
    <>
      {reply.flatness && <FlatReport flatness={reply.flatness} />}
      <ScanReport report={reply.report} readings={reply.readings.length} />
      <TakeBar room={room} found={scan.found} how={how} onHow={(changed) => setHow({ ...how, ...changed })} from="scan" sigma={sigmaOf(reply)} />
    </>
  );
}

const LEAST_SIGMA = 0.5; // mm: many points average their scatter away, not the instrument's own error (common practice, no source)

/** The middle one of the readings' standard errors, and no better than any scanner stands. */
function sigmaOf({ readings }: ScanReply): number {
  const ordered = readings.map(({ sigma }) => sigma).sort((a, b) => a - b);
  return Math.max(LEAST_SIGMA, ordered[Math.floor(ordered.length / 2)] ?? 0);
}

function Ended({ room, scan }: { room: RoomView; scan: Scan }) {
  const { outcome } = scan;
  if (!outcome || outcome.outcome === "stopped") return <p class="quiet small">{t("scan.how")}</p>;
  return outcome.outcome === "read" ? <Read room={room} scan={scan} reply={outcome.reply} /> : <Refused outcome={outcome} />;
}

export function ScanIn({ room, scan }: { room: RoomView; scan: Scan }) {
  const inTheWay = obstacle(room.id);
  const { file, step } = scan;
  if (step) return <Step step={step} onStop={scan.stop} />;
  return (
    <div class="stack">
      {inTheWay !== null && <p class="caution" data-testid="scan-obstacle">{inTheWay}</p>}
      {inTheWay === null && <FileButton label={t("scan.choose")} testid="scan-file" accept=".ply,.xyz,.txt,.csv,.asc,.pts" onFile={scan.read} />}
      <Wishes scan={scan} />
      {file && inTheWay === null && <button type="button" class="button wide" data-testid="scan-again" onClick={() => scan.read(file)}>{t("scan.again")}</button>}
      <Ended room={room} scan={scan} />
    </div>
  );
}
