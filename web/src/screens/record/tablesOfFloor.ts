/** Tables of the room as it was found: walls, doorways, what stands in the floor, set-ups and readings. */
import type { Point } from "../../wire";
import { t } from "../../words";
import { wallLengths } from "../common/roomFigure";
import type { Content } from "./content";
import { markText, readingNumbers, setupText } from "./names";
import type { Table } from "./table";

export function wallsTable({ room, plan }: Content): Table {
  const lengths = wallLengths(plan.outline.vertices);
  const taped = room.outline?.walls?.map(({ length }) => length) ?? [];
  return {
    id: "walls", title: t("walls.title"), none: t("floor.no_outline"),
    columns: [
      { title: t("record.wall"), measure: "count" }, { title: t("record.length"), measure: "length" }, { title: t("record.taped"), measure: "length", isOptional: true },
    ],
    rows: lengths.map((length, index) => [index + 1, length, taped[index] ?? null]),
  };
}

export function doorwaysTable({ room, plan }: Content): Table {
  const heights = new Map(plan.bed.doorways.map((door) => [door.id, door]));
  return {
    id: "doorways", title: t("door.title"), none: t("record.no_doorways"),
    columns: [
      { title: t("record.name"), measure: "text" }, { title: t("record.wall"), measure: "count" }, { title: t("record.from"), measure: "length" },
      { title: t("record.to"), measure: "length" }, { title: t("door.beyond"), measure: "height" }, { title: t("record.finished"), measure: "height" },
      { title: t("door.step"), measure: "height" },
    ],
    rows: (room.openings ?? []).map(({ id, wall, from, to, adjoining_height: beyond }) => [
      id, wall + 1, from, to, beyond ?? null, heights.get(id)?.finished_height ?? null, heights.get(id)?.worst_step ?? null,
    ]),
  };
}

/** With its two sides where it has four corners, as the app makes them. */
function cutoutText(polygon: readonly Point[]): string {
  const [across = 0, deep = 0] = wallLengths(polygon);
  return polygon.length === 4 ? t("record.cutout_sides", { across, deep }) : t("record.cutout");
}

export function fixturesTable({ room }: Content): Table {
  const cutouts = (room.outline?.cutouts ?? []).map((polygon) => [cutoutText(polygon), polygon[0] ?? null, null, null]);
  const fixtures = (room.fixtures ?? []).map(({ kind, at, radius, height }) => [t(`fixture.${kind}`), at, radius ?? null, height ?? null]);
  return {
    id: "fixtures", title: t("fixture.title"), none: t("record.no_fixtures"),
    columns: [
      { title: t("record.what"), measure: "text" }, { title: t("record.place"), measure: "place" }, { title: t("fixture.radius"), measure: "length" },
      { title: t("reading.height"), measure: "height" },
    ],
    rows: [...cutouts, ...fixtures],
  };
}

/** Every reading that counts, of subfloor and bed, in order of their making, with its height as adjusted. */
export function readingsTable(content: Content, stage: "subfloor" | "bed" | "all" = "all"): Table {
  const { document, plan } = content;
  const heights = new Map(plan.levels.heights.map((one) => [one.reading, one]));
  const suspects = new Set(plan.levels.suspects.map(({ reading }) => reading));
  const stale = new Set(plan.flatness?.stale ?? []);
  const noteOf = (id: string) => (stale.has(id) ? t("record.stale") : suspects.has(id) ? t("record.doubted_yes") : "");
  const numbers = readingNumbers(content);
  const isOne = (document.setups ?? []).length < 2;
  const own = document.readings.filter((one) => stage === "all" || (one.stage ?? "subfloor") === stage);
  return {
    id: "readings", title: t(stage === "bed" ? "record.bed_readings" : "record.readings"), none: t(stage === "bed" ? "record.no_bed_readings" : "record.no_readings"),
    columns: [
      { title: t("record.number"), measure: "count" },
      ...(stage === "all" ? [{ title: t("named.reading.stage"), measure: "text" as const }] : []),
      { title: t("record.setup"), measure: "text", isOptional: true },
      { title: t("named.reading.down"), measure: "length" }, { title: t("record.place"), measure: "place" },
      { title: t("named.reading.mark"), measure: "text", isOptional: true },
      { title: t("reading.height"), measure: "height" }, { title: t("record.reading_note"), measure: "text", isOptional: true }, { title: t("reading.taken"), measure: "moment", isOptional: true },
    ],
    rows: own.map(({ id, stage: on, setup, down, at, mark, taken_at }) => [
      numbers.get(id),
      ...(stage === "all" ? [t(on === "bed" ? "value.finished_bed" : "value.subfloor")] : []),
      isOne ? "" : setupText(content, setup),
      down, at ?? heights.get(id)?.at ?? null,
      mark === undefined ? "" : markText(content, mark),
      heights.get(id)?.z ?? null, noteOf(id), taken_at ?? null,
    ]),
  };
}
