/** The record's first parts: the room, its subfloor, the top that was decided, and the bed between. */
import { areaText, depthText, heightText, lengthText, loadText, massText, volumeText } from "../../units";
import { reader, t } from "../../words";
import { topName } from "../bed/names";
import type { Content } from "./content";
import { groundScene, outlineScene, thicknessScene } from "./drawings";
import { DrawingFigure } from "./Figure";
import { setupText } from "./names";
import { ProfileFigure } from "./ProfileFigure";
import { Facts, RecordTable } from "./RecordTable";
import { rowsOf } from "./content";
import { doorwaysTable, fixturesTable, readingsTable, wallsTable } from "./tablesOfFloor";
import { alternativesTable } from "./tablesOfWork";

interface Part {
  readonly content: Content;
}

export function RoomPart({ content }: Part) {
  const { area, perimeter, misclosure } = content.plan.outline;
  return (
    <section class="record-section" data-testid="part-room">
      <h2>{t("record.room")}</h2>
      <DrawingFigure title={t("record.outline")} name="outline" scene={outlineScene(content)} />
      <Facts facts={[
        [t("outline.area"), areaText(area, reader.value)], [t("outline.perimeter"), lengthText(perimeter, reader.value)],
        [t("record.misclosure"), content.room.outline?.walls ? lengthText(misclosure.length, reader.value) : t("record.not_taped")],
      ]} />
      <RecordTable table={wallsTable(content)} />
      <RecordTable table={doorwaysTable(content)} />
      <RecordTable table={fixturesTable(content)} />
    </section>
  );
}

function Setups({ content }: Part) {
  const setups = content.document.setups ?? [];
  if (setups.length < 2) return null;
  return <p class="record-said">{t("record.setups", { names: setups.map(({ id }) => setupText(content, id)).join("; ") })}</p>;
}

export function SubfloorPart({ content }: Part) {
  const { highest, lowest } = content.plan.surface;
  return (
    <section class="record-section" data-testid="part-subfloor">
      <h2>{t("record.subfloor")}</h2>
      <DrawingFigure title={t("record.ground")} name="ground" scene={groundScene(content)} />
      <Facts facts={[
        [t("levels.high"), heightText(highest.z, reader.value)], [t("levels.low"), heightText(lowest.z, reader.value)],
        [t("floor.high_to_low"), depthText(highest.z - lowest.z, reader.value)],
      ]} />
      <Setups content={content} />
      <RecordTable table={readingsTable(content, "subfloor")} />
    </section>
  );
}

/** Who decided the top that stands, and when; of several with the same top the one chosen last. */
function decisionText(content: Content): string {
  const top = JSON.stringify(content.document.bed?.["top"] ?? null);
  const standing = rowsOf(content, "alternative").filter(({ fields }) => fields.chosen_at && JSON.stringify(fields.top) === top);
  const last = [...standing].sort((a, b) => Date.parse(a.fields.chosen_at ?? "") - Date.parse(b.fields.chosen_at ?? "")).at(-1)?.fields;
  if (!last?.chosen_at) return t("record.undecided");
  return t(last.chosen_by ? "record.decided_who" : "record.decided_when", { person: last.chosen_by ?? "", at: last.chosen_at });
}

export function TopPart({ content }: Part) {
  const { bed } = content.plan;
  const top = content.room["bed.top"];
  return (
    <section class="record-section" data-testid="part-top">
      <h2>{t("bed.top")}</h2>
      <p class="record-lead">{top ? topName(top, bed) : t("bed.lowest")}. {decisionText(content)}</p>
      <Facts facts={[
        [t("bed.top_at"), heightText(bed.top[0]?.a ?? 0, reader.value)], [t("bed.build"), t(bed.build === "bonded" ? "bed.bonded" : "bed.unbonded")],
        [t("bed.minimum"), depthText(bed.minimum_thickness, reader.value)], [t("bed.maximum"), depthText(bed.maximum_thickness, reader.value)],
      ]} />
      <RecordTable table={alternativesTable(content)} />
    </section>
  );
}

export function ThicknessPart({ content }: Part) {
  const { thickness, volume, mass, load } = content.plan.bed;
  return (
    <section class="record-section" data-testid="part-thickness">
      <h2>{t("record.thickness")}</h2>
      <DrawingFigure title={t("record.thickness_map")} name="thickness" scene={thicknessScene(content)} />
      <Facts facts={[
        [t("bed.thinnest"), depthText(thickness.min, reader.value)], [t("bed.mean"), depthText(thickness.mean, reader.value)],
        [t("bed.thickest"), depthText(thickness.max, reader.value)], [t("bed.volume"), volumeText(volume, reader.value)],
        [t("bed.mass"), massText(mass, reader.value)], [t("print.load_mean"), loadText(load.mean, reader.value)], [t("print.load_max"), loadText(load.max, reader.value)],
      ]} />
      <ProfileFigure content={content} />
    </section>
  );
}
