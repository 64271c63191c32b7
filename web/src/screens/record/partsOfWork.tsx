/** The record's parts about the work: material, rails, filling, edges and joints. */
import { depthText, numberText, volumeText } from "../../units";
import { reader, t } from "../../words";
import type { Content } from "./content";
import { jointsScene, railsScene, sectionsScene } from "./drawings";
import { DrawingFigure } from "./Figure";
import { Facts, RecordTable } from "./RecordTable";
import {
  batchesTable, checksTable, dayBookTable, edgesTable, jointsTable, materialsTable, sectionsTable, stationsTable, truingsTable,
} from "./tablesOfWork";

interface Part {
  readonly content: Content;
}

export function MaterialPart({ content }: Part) {
  const { mix } = content.plan;
  const { batch } = mix;
  const recipe = t(Math.abs(batch.bags - 1) < 1e-9 ? "batch.recipe_bag" : "batch.recipe", { bags: batch.bags, sand: batch.sand_loose, water: batch.water_to_add });
  return (
    <section class="record-section" data-testid="part-material">
      <h2>{t("record.material")}</h2>
      <p class="record-said">{recipe}</p>
      <Facts facts={[[t("batch.count"), numberText(mix.batches, 0, reader.value.language)], [t("batch.yield"), volumeText(mix.bag_yield, reader.value)]]} />
      <RecordTable table={materialsTable(content)} />
    </section>
  );
}

export function RailsPart({ content }: Part) {
  const { truing } = content.plan;
  return (
    <section class="record-section" data-testid="part-rails">
      <h2>{t("step.rails")}</h2>
      {content.plan.rails.length > 0 && <DrawingFigure title={t("record.rails_map")} name="rails" scene={railsScene(content)} />}
      <RecordTable table={stationsTable(content)} />
      <RecordTable table={checksTable(content)}>
        {truing && truing.checks.length > 0 && <p class="record-said">{t("record.truing", { worst: truing.worst, tolerance: truing.tolerance })}</p>}
      </RecordTable>
      <RecordTable table={truingsTable(content)} />
    </section>
  );
}

export function FillingPart({ content }: Part) {
  return (
    <section class="record-section" data-testid="part-filling">
      <h2>{t("step.filling")}</h2>
      {content.plan.sections.length > 0 && <DrawingFigure title={t("record.sections_map")} name="sections" scene={sectionsScene(content)} />}
      <RecordTable table={sectionsTable(content)} />
      <RecordTable table={batchesTable(content)} />
      <RecordTable table={dayBookTable(content)} />
    </section>
  );
}

export function JointsPart({ content }: Part) {
  const { width, perimeter } = content.plan.joints;
  return (
    <section class="record-section" data-testid="part-joints">
      <h2>{t("record.edges_joints")}</h2>
      {content.plan.joints.field.length > 0 && <DrawingFigure title={t("joints.title")} name="joints" scene={jointsScene(content)} />}
      <Facts facts={[[t("joints.width"), depthText(width, reader.value)], [t("joints.perimeter_width"), depthText(perimeter.width, reader.value)]]} />
      <RecordTable table={jointsTable(content)} />
      <RecordTable table={edgesTable(content)} />
    </section>
  );
}
