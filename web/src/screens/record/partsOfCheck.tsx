/** The record's last parts: temperatures and milestones, the check of the bed, photos, cautions, decisions. */
import { pictureOf, type Row } from "../../state";
import type { Place } from "../../drawing/camera";
import { WaitingPlot } from "../../plots/WaitingPlot";
import { datedText, numberText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { gapText, offText } from "../common/flatness";
import { placeText } from "../common/roomFigure";
import { rowsOf, type Content } from "./content";
import { flatScene, FLAT_LAYERS, hasFlat } from "./drawings";
import { DrawingFigure } from "./Figure";
import { Facts, RecordTable } from "./RecordTable";
import {
  basisLines, cautionsTable, decisionsTable, flatnessTable, gapsTable, knownFalls, linesTable, logsTable, milestonesTable, touchesTable, typedTemperatures, waterTable, workTable,
} from "./tablesOfCheck";
import { readingsTable } from "./tablesOfFloor";

interface Part {
  readonly content: Content;
}

function Plot({ content: { waiting } }: Part) {
  if (!waiting || waiting.curve.length === 0) return null;
  return (
    <figure class="record-figure" data-testid="drawing-waiting">
      <figcaption>{t("record.plot")}</figcaption>
      <div class="screen-only"><WaitingPlot answer={waiting} /></div>
      <div class="print-only"><WaitingPlot answer={waiting} paper={{ width: 700 }} /></div>
    </figure>
  );
}

export function WaitingPart({ content }: Part) {
  return (
    <section class="record-section" data-testid="part-waiting">
      <h2>{t("record.waiting")}</h2>
      <Plot content={content} />
      <RecordTable table={milestonesTable(content)} />
      <ul class="record-said">{basisLines(content).map((line) => <li key={line}>{line}</li>)}</ul>
      <RecordTable table={typedTemperatures(content)} />
      <RecordTable table={logsTable(content)} />
    </section>
  );
}

type Flatness = NonNullable<Plan["flatness"]>;

function extremes({ highest, highest_at, lowest, lowest_at }: NonNullable<Flatness["level"]>): readonly (readonly [string, string])[] {
  const told = (off: number, at: Place) => t("said.at", { where: placeText(at), what: offText(off) });
  return [[t("record.highest"), told(highest, highest_at)], [t("record.lowest"), told(lowest, lowest_at)]];
}

function flatFacts({ verdict, standard, readings, f_numbers: numbers, needs_ff, needs_fl, level }: Flatness): readonly (readonly [string, string])[] {
  const { language } = reader.value;
  const plain = (value: number) => numberText(value, 1, language);
  return [
    [t("record.verdict"), t(`record.verdict_${verdict}`)], [t("record.standard"), t(`standard.${standard}`)], [t("record.read_places"), numberText(readings, 0, language)],
    ...(numbers ? [["FF", plain(numbers.ff)] as const, ["FL", numbers.fl === null ? t("none_yet") : plain(numbers.fl)] as const] : []),
    ...(needs_ff === null ? [] : [[t("record.needs_ff"), plain(needs_ff)] as const]),
    ...(needs_fl === null ? [] : [[t("record.needs_fl"), plain(needs_fl)] as const]),
    ...(level ? [[t("record.level_mean"), offText(level.mean)] as const, [t("record.level_rms"), gapText(level.rms)] as const, ...extremes(level)] : []),
  ];
}

/** The bed against its designed top, where straightedges lie worst, and where to work over. */
function FlatMaps({ content }: Part) {
  const flatness = content.plan.flatness;
  if (!flatness || flatness.points.length === 0) return null;
  const layers = FLAT_LAYERS.filter((layer) => hasFlat(content, layer));
  return <>{layers.map((layer) => <DrawingFigure key={layer} title={t(`record.flat_${layer}`)} name={`flat-${layer}`} scene={flatScene(content, layer)} />)}</>;
}

const FALLS = 1e-3; // as a ratio: a top that falls less is not asked to shed water

/** Falls as built, and where a falling top would hold water. */
function Level({ content }: Part) {
  const level = content.plan.flatness?.level;
  if (!level) return null;
  const isFalling = level.falls.some(({ designed }) => designed >= FALLS);
  const unread = level.falls.filter(({ fall }) => fall === null).length;
  return (
    <>
      <RecordTable table={knownFalls(content)}>{unread > 0 && <p class="record-said">{t("checking.falls_unread", { planes: unread })}</p>}</RecordTable>
      {isFalling && <RecordTable table={waterTable(content)}><p class="record-said">{t("checking.water_caution")}</p></RecordTable>}
    </>
  );
}

/** Whether anything at all was measured on the bed, or done to it. */
function isChecked(content: Content): boolean {
  const verdict = content.plan.flatness?.verdict ?? "not_read";
  return verdict !== "not_read" || [gapsTable, linesTable, touchesTable].some((table) => table(content).rows.length > 0) || readingsTable(content, "bed").rows.length > 0;
}

export function FlatnessPart({ content }: Part) {
  const { flatness } = content.plan;
  if (!isChecked(content)) return <section class="record-section" data-testid="part-flatness"><h2>{t("record.flatness")}</h2><p class="record-none">{t("record.no_flatness")}</p></section>;
  return (
    <section class="record-section" data-testid="part-flatness">
      <h2>{t("record.flatness")}</h2>
      {flatness && flatness.verdict !== "not_read" ? <Facts facts={flatFacts(flatness)} /> : <p class="record-none">{t("record.no_flatness")}</p>}
      <FlatMaps content={content} />
      <RecordTable table={flatnessTable(content)} />
      <Level content={content} />
      <RecordTable table={gapsTable(content)} />
      <RecordTable table={linesTable(content)} />
      <RecordTable table={workTable(content)} />
      <RecordTable table={touchesTable(content)} />
      <RecordTable table={readingsTable(content, "bed")} />
    </section>
  );
}

function Photo({ row }: { row: Row<"photo"> }) {
  const { hash, note, taken_at } = row.fields;
  const address = pictureOf(hash ?? "").value;
  const caption = [note, taken_at && datedText(taken_at, reader.value)].filter((part) => part).join(" · ");
  return (
    <figure class="record-photo" data-testid="record-photo">
      {address === null ? <p class="record-none">{t("record.photo_elsewhere")}</p> : <img src={address} alt={note ?? t("photos.sheet")} />}
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

export function PhotosPart({ content }: Part) {
  const photos = rowsOf(content, "photo");
  return (
    <section class="record-section" data-testid="part-photos">
      <h2>{t("photos.title")}</h2>
      {photos.length === 0 ? <p class="record-none">{t("record.no_photos")}</p> : <div class="record-photos">{photos.map((row) => <Photo key={row.id} row={row} />)}</div>}
    </section>
  );
}

function storyText({ story }: Content): string {
  return story.at === null ? t("record.story_here") : t("record.story_at", { at: story.at });
}

export function DecisionsPart({ content }: Part) {
  return (
    <section class="record-section" data-testid="part-decisions">
      <h2>{t("record.decisions_cautions")}</h2>
      <RecordTable table={decisionsTable(content)}><p class="record-said">{storyText(content)}</p></RecordTable>
      <RecordTable table={cautionsTable(content)} />
    </section>
  );
}
