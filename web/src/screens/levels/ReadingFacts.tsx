/** What is known of one reading: its height and how sure that is, its set-up, how it fits the rest, what stood before it. */
import { allReadingsOf, FIRST_SETUP, readingsOf, roomOf, type Row } from "../../state";
import { errorText, heightText, lengthText, momentText } from "../../units";
import type { Height, Plan } from "../../wire";
import { reader, t, told } from "../../words";
import { placeText } from "../common/roomFigure";
import { markName, setupName } from "./names";

/** Standardised residuals: within 2 lie 95 in 100 of good readings, within 3 all but 3 in 1000 (normal law). */
const USUAL = 2;
const CHANCE = 3;
const LEAST_TOLD = 0.01; // mm: less was taken off nothing

function fitText({ residual, standardised }: Height): string {
  if (residual === null || standardised === null) return t("point.unchecked");
  const times = Math.round(Math.abs(standardised) * 10) / 10;
  const word = times < USUAL ? "usual" : times < CHANCE ? "unusual" : "beyond";
  return t(`point.${word}`, { by: Math.abs(residual), times });
}

function setupOf({ fields: { room_id, setup } }: Row<"reading">): string {
  const room = room_id ?? "";
  const fields = roomOf(room)?.fields;
  return fields ? setupName({ fields, readings: readingsOf(room).value }, setup ?? FIRST_SETUP) : "";
}

function heightOf({ z, sigma }: Height): string {
  return z === null ? "" : sigma ? t("point.error", { z, sigma }) : heightText(z, reader.value);
}

/** The readings that this one replaced, the newest first. */
function earlierOf(reading: Row<"reading">): readonly Row<"reading">[] {
  const all = new Map(allReadingsOf(reading.fields.room_id ?? "").value.map((row) => [row.id, row]));
  const found: Row<"reading">[] = [];
  for (let id = reading.fields.supersedes; id; id = found.at(-1)?.fields.supersedes) {
    const row = all.get(id);
    if (!row || found.includes(row)) break;
    found.push(row);
  }
  return found;
}

function Earlier({ reading }: { reading: Row<"reading"> }) {
  return (
    <>
      {earlierOf(reading).map(({ id, fields }) => (
        <div key={id}><dt>{t("point.earlier")}{fields.taken_at && ` · ${momentText(fields.taken_at, reader.value)}`}</dt><dd class="length" data-testid="earlier-reading">{lengthText(fields.down ?? 0, reader.value)}</dd></div>
      ))}
    </>
  );
}

function Fit({ height }: { height: Height }) {
  const { correction } = height;
  return (
    <>
      <div class="tall"><dt>{t("point.fit")}</dt><dd data-testid="point-fit">{fitText(height)}</dd></div>
      {Math.abs(correction) > LEAST_TOLD && <div><dt>{t("point.correction")}</dt><dd data-testid="point-correction">{correction < 0 ? "\u2212" : ""}{errorText(Math.abs(correction), reader.value)}</dd></div>}
    </>
  );
}

export function ReadingFacts({ reading, plan }: { reading: Row<"reading">; plan: Plan | null }) {
  const height = plan?.levels.heights.find((one) => one.reading === reading.id);
  const { at, mark, note, taken_at: takenAt } = reading.fields;
  return (
    <dl class="inputs">
      {at && <div><dt>{t("reading.place")}</dt><dd>{placeText(at)}</dd></div>}
      {mark && <div><dt>{t("point.mark")}</dt><dd>{markName(roomOf(reading.fields.room_id ?? "")?.fields ?? {}, mark)}</dd></div>}
      {height?.z != null && <div><dt>{t("reading.height")}</dt><dd data-testid="point-height">{heightOf(height)}</dd></div>}
      <div><dt>{t("point.setup")}</dt><dd>{setupOf(reading)}</dd></div>
      {height && <Fit height={height} />}
      {takenAt && <div><dt>{t("reading.taken")}</dt><dd>{momentText(takenAt, reader.value)}</dd></div>}
      {note && <div><dt>{t("point.note")}</dt><dd>{note}</dd></div>}
      <Earlier reading={reading} />
    </dl>
  );
}

/** What looks mis-read, and what may have been read in its place. */
export function Suspicion({ reading, plan }: { reading: Row<"reading">; plan: Plan | null }) {
  const suspect = plan?.levels.suspects.find((one) => one.reading === reading.id);
  if (!suspect) return null;
  const { expected, difference, slip } = suspect;
  const why = t(suspect.why === "network" ? "point.suspect_network" : "point.suspect_neighbours", { expected, by: Math.abs(difference) });
  return (
    <p class="caution" data-testid="point-suspect">
      {why}{slip && ` ${told("point.slip", slip.kind, { down: slip.down }, "")}`}
    </p>
  );
}
