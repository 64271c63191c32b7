/** The record's last parts: temperatures and milestones, the check of the bed, photos, cautions, decisions. */
import { pictureOf, type Row } from "../../state";
import { errorText, momentText, numberText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { rowsOf, type Content } from "./content";
import { Facts, RecordTable } from "./RecordTable";
import {
  basisLines, cautionsTable, decisionsTable, flatnessTable, gapsTable, linesTable, logsTable, milestonesTable, touchesTable, typedTemperatures, workTable,
} from "./tablesOfCheck";
import { readingsTable } from "./tablesOfFloor";

interface Part {
  readonly content: Content;
}

export function WaitingPart({ content }: Part) {
  return (
    <section class="record-section" data-testid="part-waiting">
      <h2>{t("record.waiting")}</h2>
      <RecordTable table={milestonesTable(content)} />
      <ul class="record-said">{basisLines(content).map((line) => <li key={line}>{line}</li>)}</ul>
      <RecordTable table={typedTemperatures(content)} />
      <RecordTable table={logsTable(content)} />
    </section>
  );
}

type Flatness = NonNullable<Plan["flatness"]>;

function flatFacts({ verdict, standard, readings, f_numbers: numbers, needs_ff, needs_fl, level }: Flatness): readonly (readonly [string, string])[] {
  const { language } = reader.value;
  const plain = (value: number) => numberText(value, 1, language);
  return [
    [t("record.verdict"), t(`record.verdict_${verdict}`)], [t("record.standard"), t(`standard.${standard}`)], [t("record.read_places"), numberText(readings, 0, language)],
    ...(numbers ? [["FF", plain(numbers.ff)] as const, ["FL", numbers.fl === null ? t("none_yet") : plain(numbers.fl)] as const] : []),
    ...(needs_ff === null ? [] : [[t("record.needs_ff"), plain(needs_ff)] as const]),
    ...(needs_fl === null ? [] : [[t("record.needs_fl"), plain(needs_fl)] as const]),
    ...(level ? [[t("record.level_mean"), errorText(level.mean, reader.value)] as const, [t("record.level_rms"), errorText(level.rms, reader.value)] as const] : []),
  ];
}

export function FlatnessPart({ content }: Part) {
  const { flatness } = content.plan;
  return (
    <section class="record-section" data-testid="part-flatness">
      <h2>{t("record.flatness")}</h2>
      {flatness && flatness.verdict !== "not_read" ? <Facts facts={flatFacts(flatness)} /> : <p class="record-none">{t("record.no_flatness")}</p>}
      <RecordTable table={flatnessTable(content)} />
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
  const caption = [note, taken_at && momentText(taken_at, reader.value)].filter((part) => part).join(" · ");
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
