/** Tables of the finished bed: temperatures and milestones, what was measured, what was worked over, cautions and decisions. */
import type { Fields } from "../../wire";
import { t, told } from "../../words";
import { middleOfPlane } from "../common/flatness";
import { cautionText } from "../common/plan";
import { basisText, milestoneName } from "../common/readiness";
import { fieldName, valueText } from "../history/values";
import { rowsOf, type Content } from "./content";
import type { Table } from "./table";

const HOUR_MS = 3_600_000;

/** What was typed, and every value of every logger. */
export function temperaturesTable(content: Content): Table {
  const typed = rowsOf(content, "climate").map(({ fields }) => [
    fields.at, fields.bed ?? null, fields.air ?? null, fields.humidity ?? null, fields.wind ?? null, t(fields.forecast === true ? "record.foretold" : "record.measured"),
  ]);
  const logged = (content.document.logs ?? []).flatMap((log) => loggedRows(log));
  return { ...temperatureColumns(), rows: [...typed, ...foretoldRows(content), ...logged] as Table["rows"] };
}

/** What was typed or foretold: a logger's values are drawn on paper, and stand in the tables to save. */
export function typedTemperatures(content: Content): Table {
  const typed = rowsOf(content, "climate").length + foretoldRows(content).length;
  const all = temperaturesTable(content);
  return { ...all, rows: all.rows.slice(0, typed) };
}

interface Day {
  readonly low?: number;
  readonly high?: number;
  readonly low_at?: string;
  readonly high_at?: string;
  readonly humidity?: number;
  readonly wind?: number;
}

const DAY_MS = 24 * HOUR_MS;

/** Days foretold for the job, each when it is coldest and when it is warmest, as far as this room's waiting reaches; all of them where nothing is placed. */
function foretoldRows({ document, waiting }: Content): Table["rows"] {
  const curve = waiting?.placed_at ? waiting.curve : [];
  const [from, to] = [Date.parse(curve[0]?.at ?? "") - DAY_MS, Date.parse(curve.at(-1)?.at ?? "") + DAY_MS];
  const days = ((document.forecast ?? []) as readonly Day[]).filter(({ low_at = "" }) => !(Date.parse(low_at) < from || Date.parse(low_at) > to));
  const how = t("record.foretold");
  return days.flatMap(({ low, high, low_at = "", high_at = "", humidity, wind }): Table["rows"] => {
    const [coldest, warmest] = [[low_at, null, low, null, null, how], [high_at, null, high, humidity ?? null, wind ?? null, how]];
    return Date.parse(low_at) < Date.parse(high_at) ? [coldest, warmest] : [warmest, coldest];
  });
}

function temperatureColumns(): Omit<Table, "rows"> {
  return {
    id: "temperatures", title: t("climate.title"), none: t("record.no_temperatures"),
    columns: [
      { title: t("named.climate.at"), measure: "moment" }, { title: t("climate.bed"), measure: "temperature", isOptional: true }, { title: t("climate.air"), measure: "temperature", isOptional: true },
      { title: t("climate.humidity"), measure: "percent", isOptional: true }, { title: t("climate.wind"), measure: "speed", isOptional: true }, { title: t("record.how_known"), measure: "text" },
    ],
  };
}

interface Log {
  readonly start?: string;
  readonly seconds?: readonly number[];
  readonly celsius?: readonly number[];
  readonly where?: "bed" | "air";
}

function loggedRows({ start = "", seconds = [], celsius = [], where = "bed" }: Log): Table["rows"] {
  return seconds.map((second, index) => {
    const warmth = celsius[index] ?? null;
    const at = new Date(Date.parse(start) + second * 1000).toISOString();
    return [at, where === "bed" ? warmth : null, where === "air" ? warmth : null, null, null, t("record.logged")];
  });
}

/** Each logger with how many values it wrote, from when to when, and between which temperatures. */
export function logsTable({ document }: Content): Table {
  const logs = (document.logs ?? []) as readonly Log[];
  return {
    id: "logs", title: t("record.logs"), none: t("record.no_logs"),
    columns: [
      { title: t("named.temperature_log.where"), measure: "text" }, { title: t("record.values"), measure: "count" }, { title: t("record.from"), measure: "moment" },
      { title: t("record.to"), measure: "moment" }, { title: t("record.coldest"), measure: "temperature" }, { title: t("record.warmest"), measure: "temperature" },
    ],
    rows: logs.map((log) => {
      const rows = loggedRows(log);
      const celsius = log.celsius ?? [];
      const [low, high] = celsius.reduce(([least, most], one) => [Math.min(least, one), Math.max(most, one)], [Infinity, -Infinity]);
      return [t(log.where === "air" ? "value.log_air" : "value.log_bed"), rows.length, rows[0]?.[0] as string, rows.at(-1)?.[0] as string, low, high];
    }),
  };
}

/** Every milestone: when it was foretold, and who let it pass, when and how. A prediction never ticks one. */
export function milestonesTable(content: Content): Table {
  const ticks = rowsOf(content, "entry").filter(({ fields }) => fields.what === "milestone");
  return {
    id: "milestones", title: t("record.milestones"), none: t("print.nothing"),
    columns: [
      { title: t("record.what"), measure: "text" }, { title: t("record.needs"), measure: "hours" }, { title: t("record.early"), measure: "moment" },
      { title: t("record.likely"), measure: "moment" }, { title: t("record.late"), measure: "moment" },
      { title: t("record.passed_at"), measure: "moment" }, { title: t("record.passed_by"), measure: "text" }, { title: t("named.entry.how"), measure: "text" },
      { title: t("record.after_likely"), measure: "hours" },
    ],
    rows: content.plan.readiness.map((row) => {
      const tick = ticks.filter(({ fields }) => fields.code === row.milestone).at(-1)?.fields;
      return [milestoneName(row), row.needs, row.early, row.at, row.late, tick?.at ?? null, tick?.by ?? "", howText(tick), laterBy(tick?.at, row.at)];
    }),
  };
}

function howText(tick: Fields<"entry"> | undefined): string {
  return tick?.how ? told("how", tick.how, {}, tick.how) : "";
}

function laterBy(at: string | null | undefined, likely: string | null): number | null {
  return at && likely ? (Date.parse(at) - Date.parse(likely)) / HOUR_MS : null;
}

/** What each milestone's need rests on, in words. */
export function basisLines({ plan }: Content): readonly string[] {
  return plan.readiness.map((row) => t("said.at", { where: milestoneName(row), what: basisText(row) }));
}

export function flatnessTable({ plan }: Content): Table {
  return {
    id: "flatness", title: t("record.straightedges"), none: t("record.no_flatness"),
    columns: [
      { title: t("record.straightedge"), measure: "rule" }, { title: t("record.limit"), measure: "fine" }, { title: t("record.worst_gap"), measure: "fine" },
      { title: t("record.there"), measure: "place" }, { title: t("record.worst_hump"), measure: "fine", isOptional: true }, { title: t("record.judged"), measure: "share" },
      { title: t("record.beyond"), measure: "share" }, { title: t("record.verdict"), measure: "text" },
    ],
    rows: (plan.flatness?.checks ?? []).map(({ length, limit, gap, hump, judged_share, beyond_share, verdict }) => [
      length, limit, gap?.gap ?? null, gap?.at ?? null, hump?.gap ?? null, judged_share, beyond_share, t(`record.verdict_${verdict}`),
    ]),
  };
}

/** Every plane of the top as it was asked for and as it was built: how it falls, or that it is level. */
export function fallsTable({ plan }: Content): Table {
  return {
    id: "falls", title: t("record.falls"), none: t("record.no_falls"),
    columns: [
      { title: t("record.plane"), measure: "place" }, { title: t("record.fall_asked"), measure: "fall" }, { title: t("record.fall_built"), measure: "fall" },
      { title: t("record.read_places"), measure: "count" },
    ],
    rows: (plan.flatness?.level?.falls ?? []).map(({ facet, designed, fall, readings }) => [middleOfPlane(plan, facet), designed, fall, readings]),
  };
}

/** Those planes alone whose fall the readings tell, for paper: a round drain has dozens. */
export function knownFalls(content: Content): Table {
  const all = fallsTable(content);
  return { ...all, rows: all.rows.filter((row) => row[2] !== null) };
}

/** Low places of a falling top from which no water runs off. */
export function waterTable({ plan }: Content): Table {
  return {
    id: "standing_water", title: t("checking.water"), none: t("record.no_water"), columns: [{ title: t("record.place"), measure: "place" }],
    rows: (plan.flatness?.level?.standing_water ?? []).map((at) => [at]),
  };
}

/** Gaps as a wedge showed them, with what the limits say of each. */
export function gapsTable(content: Content): Table {
  const { flatness } = content.plan;
  const verdicts = new Map((flatness?.gaps ?? []).map((one) => [one.gap, one]));
  const stale = new Set(flatness?.stale ?? []);
  return {
    id: "gaps", title: t("record.gaps"), none: t("record.no_gaps"),
    columns: [
      { title: t("record.from"), measure: "place" }, { title: t("record.to"), measure: "place" }, { title: t("named.gap.gap"), measure: "fine" },
      { title: t("named.gap.at"), measure: "place", isOptional: true }, { title: t("record.limit"), measure: "fine" }, { title: t("record.verdict"), measure: "text" },
      { title: t("named.gap.taken_at"), measure: "moment" },
    ],
    rows: rowsOf(content, "gap").map(({ id, fields }) => {
      const own = verdicts.get(id);
      return [fields.from, fields.to, fields.gap, fields.at, own?.limit ?? null, stale.has(id) ? t("record.stale") : own ? t(`record.gap_${own.verdict}`) : "", fields.taken_at];
    }),
  };
}

export function linesTable(content: Content): Table {
  const numbers = new Map((content.plan.flatness?.f_lines ?? []).map((one) => [one.line, one]));
  return {
    id: "height_lines", title: t("record.height_lines"), none: t("record.no_height_lines"),
    columns: [
      { title: t("record.from"), measure: "place" }, { title: t("record.to"), measure: "place" }, { title: t("named.height_line.spacing"), measure: "length" },
      { title: t("record.values"), measure: "count" }, { title: "FF", measure: "number" }, { title: "FL", measure: "number" },
      { title: t("named.height_line.taken_at"), measure: "moment" },
    ],
    rows: rowsOf(content, "height_line").map(({ id, fields }) => [
      fields.from, fields.to, fields.spacing, fields.heights?.length ?? 0, numbers.get(id)?.ff ?? null, numbers.get(id)?.fl ?? null, fields.taken_at,
    ]),
  };
}

export function workTable({ plan }: Content): Table {
  return {
    id: "work", title: t("record.work"), none: t("record.no_work"),
    columns: [
      { title: t("record.name"), measure: "text" }, { title: t("record.what"), measure: "text" }, { title: t("record.place"), measure: "place" },
      { title: t("record.depth"), measure: "fine" }, { title: t("record.before"), measure: "fine" }, { title: t("record.after"), measure: "fine" },
      { title: t("record.done"), measure: "moment" },
    ],
    rows: (plan.flatness?.work ?? []).map(({ id, way, at, depth, before, after, done_at }) => [id, t(way === "rub" ? "record.rub" : "record.fill"), at, depth, before, after, done_at]),
  };
}

/** Places that somebody rubbed down or filled up, as told. */
export function touchesTable(content: Content): Table {
  const touched = rowsOf(content, "entry").filter(({ fields }) => fields.what === "rubbed" || fields.what === "filled_up");
  return {
    id: "worked_over", title: t("record.touches"), none: t("record.no_touches"),
    columns: [{ title: t("named.entry.at"), measure: "moment" }, { title: t("record.what"), measure: "text" }, { title: t("record.place"), measure: "place" }],
    rows: touched.map(({ fields }) => [fields.at, fields.what ? t(`value.entry_${fields.what}`) : "", fields.place]),
  };
}

/** Those of the plan, and what the waiting said of frost, heat and wind; what both said stands once. */
export function cautionsTable({ plan, waiting }: Content): Table {
  const texts = [...plan.cautions, ...(waiting?.cautions ?? [])].map(cautionText);
  return {
    id: "cautions", title: t("record.cautions"), none: t("record.no_cautions"), columns: [{ title: t("record.caution"), measure: "text" }],
    rows: [...new Set(texts)].map((text) => [text]),
  };
}

/** Who decided what, and when: the room's choices by its story, tops chosen, milestones let pass. */
export function decisionsTable(content: Content): Table {
  const all = [...storyRows(content), ...topRows(content), ...tickRows(content)];
  return {
    id: "decisions", title: t("record.decisions"), none: t("record.no_decisions"),
    columns: [
      { title: t("record.when"), measure: "moment" }, { title: t("record.who"), measure: "text" }, { title: t("record.what"), measure: "text" },
      { title: t("record.was"), measure: "text" }, { title: t("record.became"), measure: "text" },
    ],
    rows: all.sort((one, other) => Date.parse(one[0]) - Date.parse(other[0])),
  };
}

/** When, who, what, what it was and what it became. */
type DecisionRow = readonly [string, string, string, string, string];

function storyRows({ story }: Content): readonly DecisionRow[] {
  return story.decided.map(({ at, by, field, before, after }) => [at, by, fieldName("room", field), valueText("room", field, before), valueText("room", field, after)]);
}

const ONE_TAP = 5_000; // ms within which the room's own story tells the same choice

/** Tops that were chosen by name, but for those that the room's own story tells. */
function topRows(content: Content): readonly DecisionRow[] {
  const told = content.story.decided.filter(({ field }) => field === "bed.top").map(({ at }) => Date.parse(at));
  return rowsOf(content, "alternative").flatMap(({ fields }): readonly DecisionRow[] => {
    const at = fields.chosen_at;
    if (!at || told.some((known) => Math.abs(known - Date.parse(at)) < ONE_TAP)) return [];
    return [[at, fields.chosen_by ?? "", fieldName("room", "bed.top"), "", fields.name ?? ""]];
  });
}

function tickRows(content: Content): readonly DecisionRow[] {
  const ticks = rowsOf(content, "entry").filter(({ fields }) => fields.what === "milestone");
  return ticks.map(({ fields }) => [fields.at ?? "", fields.by ?? "", t("value.entry_milestone"), "", told("milestone", fields.code ?? "", {}, fields.code ?? "")]);
}
