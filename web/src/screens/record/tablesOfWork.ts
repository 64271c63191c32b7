/** Tables of what was decided, bought, set and filled. */
import { placedFromRows, sectionTimes, setStationsFrom, stationKey } from "../../state";
import { t, told } from "../../words";
import { amountText, itemName, quantityText } from "../common/materials";
import { roundedMm } from "../common/shims";
import { rowsOf, type Content } from "./content";
import { sectionText } from "./names";
import type { Table } from "./table";

export function alternativesTable(content: Content): Table {
  return {
    id: "tops", title: t("record.tops"), none: t("record.no_tops"),
    columns: [
      { title: t("record.name"), measure: "text" }, { title: t("named.alternative.note"), measure: "text", isOptional: true }, { title: t("record.decided_by"), measure: "text" },
      { title: t("record.decided_at"), measure: "moment" },
    ],
    rows: rowsOf(content, "alternative").map(({ fields }) => [fields.name ?? "", fields.note ?? "", fields.chosen_by ?? "", fields.chosen_at ?? null]),
  };
}

export function materialsTable({ plan }: Content): Table {
  return {
    id: "materials", title: t("record.materials"), none: t("print.nothing"),
    columns: [{ title: t("record.what"), measure: "text" }, { title: t("record.bought"), measure: "text" }, { title: t("record.quantity"), measure: "text" }],
    rows: plan.materials.map((item) => [itemName(item), amountText(item), quantityText(item)]),
  };
}

/** The same for spreadsheets: quantities as numbers, in the unit that stands beside them. */
export function materialNumbers({ plan }: Content): Table {
  return {
    id: "materials", title: t("record.materials"), none: t("print.nothing"),
    columns: [
      { title: t("record.what"), measure: "text" }, { title: t("record.quantity"), measure: "number" }, { title: t("record.unit"), measure: "text" },
      { title: t("record.packages"), measure: "count" }, { title: t("record.loose"), measure: "volume" },
    ],
    rows: plan.materials.map((item) => [itemName(item), item.quantity, item.unit, item.packages, item.loose_volume]),
  };
}

/** Every station with its ramp as reckoned and as it was set. */
export function stationsTable(content: Content): Table {
  const { plan } = content;
  const rows = rowsOf(content, "station");
  const set = setStationsFrom(rows, plan.rails);
  const byId = new Map(rows.map((row) => [row.id, row.fields]));
  return {
    id: "stations", title: t("record.stations"), none: t("record.no_rails"),
    columns: [
      { title: t("named.station.rail"), measure: "text" }, { title: t("record.along"), measure: "length" }, { title: t("record.place"), measure: "place" },
      { title: t("profile.subfloor"), measure: "height" }, { title: t("record.ramp"), measure: "depth" }, { title: t("named.station.shim"), measure: "depth" },
      { title: t("named.station.set_at"), measure: "moment" },
    ],
    rows: plan.rails.flatMap((rail) => rail.stations.map((station, index) => {
      const last = byId.get(set.get(stationKey(rail.id, index))?.ids.at(-1) ?? "");
      return [rail.id, station.along, station.at, station.subfloor, roundedMm(station), last?.shim ?? null, last?.set_at ?? null];
    })),
  };
}

export function checksTable(content: Content): Table {
  return {
    id: "checks", title: t("record.checks"), none: t("record.no_checks"),
    columns: [
      { title: t("named.rail_check.rail"), measure: "text" }, { title: t("named.rail_check.rail_to"), measure: "text", isOptional: true },
      { title: t("named.rail_check.from"), measure: "length" }, { title: t("named.rail_check.to"), measure: "length" },
      { title: t("named.rail_check.off"), measure: "height" }, { title: t("named.rail_check.reversed_off"), measure: "height", isOptional: true },
      { title: t("named.rail_check.length"), measure: "length" }, { title: t("named.rail_check.taken_at"), measure: "moment" },
    ],
    rows: rowsOf(content, "rail_check").map(({ fields }) => [
      fields.rail ?? "", fields.rail_to ?? "", fields.from, fields.to, fields.off, fields.reversed_off, fields.length, fields.taken_at,
    ]),
  };
}

export function truingsTable(content: Content): Table {
  const trued = rowsOf(content, "entry").filter(({ fields }) => fields.what === "trued");
  return {
    id: "truings", title: t("record.truings"), none: t("record.no_truings"),
    columns: [
      { title: t("named.entry.rail"), measure: "text" }, { title: t("named.entry.lie"), measure: "count", isOptional: true }, { title: t("named.entry.from_raise"), measure: "height" },
      { title: t("named.entry.to_raise"), measure: "height" }, { title: t("named.entry.at"), measure: "moment" },
    ],
    rows: trued.map(({ fields }) => [fields.rail ?? "", fields.lie ?? null, fields.from_raise ?? null, fields.to_raise ?? null, fields.at]),
  };
}

export function sectionsTable(content: Content): Table {
  const { plan } = content;
  const times = sectionTimes(placedFromRows(rowsOf(content, "placement")), plan.sections);
  return {
    id: "sections", title: t("record.sections"), none: t("record.no_sections"),
    columns: [
      { title: t("record.section"), measure: "count" }, { title: t("bed.volume"), measure: "volume" }, { title: t("batch.count"), measure: "count" },
      { title: t("named.placement.mixed_at"), measure: "moment" }, { title: t("named.placement.placed_at"), measure: "moment" },
      { title: t("named.placement.screeded_at"), measure: "moment" }, { title: t("named.placement.channels_at"), measure: "moment" },
    ],
    rows: [...plan.sections].sort((a, b) => a.order - b.order).map(({ id, order, volume, batches }) => {
      const own = times.get(id);
      return [order, volume, batches, own?.mixed_at ?? null, own?.placed_at ?? null, own?.screeded_at ?? null, own?.channels_at ?? null];
    }),
  };
}

export function batchesTable(content: Content): Table {
  return {
    id: "batches", title: t("batch.title"), none: t("record.no_batches"),
    columns: [
      { title: t("record.number"), measure: "count" }, { title: t("named.batch.section"), measure: "text" }, { title: t("named.batch.size"), measure: "number" },
      { title: t("named.batch.mixed_at"), measure: "moment" }, { title: t("named.batch.placed_at"), measure: "moment" }, { title: t("named.batch.thrown_at"), measure: "moment", isOptional: true },
    ],
    rows: rowsOf(content, "batch").map(({ fields }, index) => [index + 1, sectionText(content, fields), fields.size ?? 1, fields.mixed_at, fields.placed_at, fields.thrown_at]),
  };
}

/** Lines of the day book that are told nowhere else: stoppages, helpers, notes, forms, reminders, places worked over. */
const TOLD_ELSEWHERE: ReadonlySet<string | null | undefined> = new Set(["trued", "milestone"]);

export function dayBookTable(content: Content): Table {
  const own = rowsOf(content, "entry").filter(({ fields }) => !TOLD_ELSEWHERE.has(fields.what));
  return {
    id: "day_book", title: t("note.title"), none: t("record.no_day_book"),
    columns: [
      { title: t("named.entry.at"), measure: "moment" }, { title: t("named.entry.until"), measure: "moment", isOptional: true }, { title: t("named.entry.what"), measure: "text" },
      { title: t("named.entry.text"), measure: "text" }, { title: t("record.place"), measure: "place" },
    ],
    rows: own.map(({ fields }) => [
      fields.at, fields.until, fields.what ? t(`value.entry_${fields.what}`) : "", fields.text ?? told("habit", fields.code ?? "", {}, fields.code ?? ""), fields.place,
    ]),
  };
}

export function jointsTable({ plan }: Content): Table {
  return {
    id: "joints", title: t("joints.title"), none: t("joints.none"),
    columns: [{ title: t("record.what"), measure: "text" }, { title: t("record.from"), measure: "place" }, { title: t("record.to"), measure: "place" }, { title: t("joints.width"), measure: "depth" }],
    rows: plan.joints.field.map(({ kind, from, to }) => [t(kind === "slab" ? "joint.slab" : "joint.field"), from, to, plan.joints.width]),
  };
}

export function edgesTable({ plan }: Content): Table {
  const kinds = { doorway: "record.edge_doorway", rail: "record.edge_rail", joint: "record.edge_joint", cut: "record.edge_cut" } as const;
  return {
    id: "edges", title: t("record.edges"), none: t("record.no_edges"),
    columns: [
      { title: t("record.what"), measure: "text" }, { title: t("record.from"), measure: "place" }, { title: t("record.to"), measure: "place" },
      { title: t("record.length"), measure: "length" }, { title: t("record.lowest"), measure: "depth" }, { title: t("record.highest"), measure: "depth" },
    ],
    rows: plan.edges.map(({ kind, from, to, length, lowest, highest }) => [t(kinds[kind]), from, to, length, lowest, highest]),
  };
}
