/** Every field of every record as a person reads it: the trade's word for it, and its value in the person's units. */
import { twiceArea } from "../../drawing/figure";
import { people, rowOf, session } from "../../state";
import { heightText, massText, numberText, volumeText } from "../../units";
import type { FieldsByKind, Fixture, Instrument, InstrumentCheck, Kind, Mark, MilestoneNeed, Opening, Outline, RailLine, Setup, StripsOnHand, Top } from "../../wire";
import { reader, t, told } from "../../words";
import { cornersOf, placeText } from "../common/roomFigure";
import { PRICE_WRITERS, SUPPLY_WRITERS } from "./boughtValues";
import { HANDOVER_WRITERS, limitText } from "./handoverValues";
import { degrees, hours, humidity, jobName, kilobytes, length, list, measure, moment, percent, plain, roomName, text, wind, yesOrNo } from "./smallValues";

export type Writers = { readonly [K in Kind]: { readonly [F in keyof FieldsByKind[K]]: (value: FieldsByKind[K][F]) => string } };

const MM2_PER_M2 = 1e6;

const onEarth = (value: number) => numberText(value, 4, reader.value.language);

function outlineText(outline: Outline): string {
  if (!("vertices" in outline || "walls" in outline)) return t("value.nothing");
  const corners = cornersOf(outline);
  const cutouts = outline.cutouts?.length ?? 0;
  const values = { walls: corners.length, area: Math.abs(twiceArea(corners)) / 2 / MM2_PER_M2, cutouts };
  return cutouts === 0 ? t("value.outline", values) : t("value.outline_cutouts", values);
}

function doorText({ wall, from, to, exit }: Opening): string {
  return t(exit === true ? "door.exit_line" : "door.line", { wall: wall + 1, from, to });
}

function fixtureText({ kind, at: [x, y] }: Fixture): string {
  return t(`fixture.${kind}_line`, { x, y });
}

function setupText({ kind }: Setup): string {
  return t(`instrument.${kind ?? "laser"}`);
}

function markText({ height }: Mark): string {
  return height == null ? t("value.mark") : t("value.mark_height", { height });
}

function instrumentText({ name, kind }: Instrument): string {
  return `${name} (${t(`instrument.${kind}`)})`;
}

function checkText({ kind, at, accepted }: InstrumentCheck): string {
  return `${t(`test.${kind}`)} ${moment(at)} ${t(accepted ? "value.check_accepted" : "value.check_noted")}`;
}

function topText(top: Top): string {
  if (top.kind !== "level") return t(`value.top_${top.kind}`);
  return top.height === null ? t("bed.lowest") : heightText(top.height, reader.value);
}

function needText({ milestone, needs }: MilestoneNeed): string {
  return t("value.need", { milestone: told("milestone", milestone, {}, milestone), hours: needs });
}

/** The name of a person by id, from the list that is kept, or this phone's own person. */
export function personName(id: string): string {
  const known = people.value?.list.find((person) => person.id === id)?.name;
  const { personId, person } = session.value;
  return known ?? (id === personId ? person : null) ?? t("value.somebody");
}

function crewText(crew: readonly string[]): string {
  return crew.length === 0 ? t("value.nobody") : crew.map(personName).join(", ");
}

function readingText(id: string): string {
  const down = rowOf("reading", id)?.fields.down;
  return down == null ? t("value.gone") : t("reading.title", { down });
}

function entryText(id: string): string {
  const entry = rowOf("entry", id)?.fields;
  return entry?.what ? t(`value.entry_${entry.what}`) : t("value.gone");
}

function railText({ id, from, to }: RailLine): string {
  return t("value.rail", { rail: id, x: from[0], y: from[1], to_x: to[0], to_y: to[1] });
}

/** A habit of the trade by its own words, the edge of a form by its id. */
function codeText(code: string): string {
  return told("habit", code, {}, code);
}

/** How far out: with its sign, as a level shows it. */
const outBy = (mm: number) => heightText(mm, reader.value);

function stripsText({ count, length, thickness }: StripsOnHand): string {
  return t("value.strips", { count: count ?? 2, length, thickness });
}

const pixels = (value: number) => t("value.pixels", { pixels: value });

const WRITERS: Writers = {
  job: { name: text, place: text, note: text, units: (value) => t(`units.${value}`), latitude: onEarth, longitude: onEarth, crew: crewText, deleted: yesOrNo },
  room: {
    job_id: jobName,
    name: text, outline: outlineText, openings: list(doorText), fixtures: list(fixtureText), setups: list(setupText), marks: list(markText),
    instruments: list(instrumentText), instrument_checks: list(checkText), "adjustment.datum": (value) => t(`value.datum_${value}`),
    "levels.skipped": list(placeText),
    "bed.build": (value) => t(`bed.${value}`), "bed.minimum_thickness": measure, "bed.maximum_thickness": measure, "bed.top": topText,
    "bed.chip_depth": measure, "bed.covering.tile_thickness": measure, "bed.covering.bond_thickness": measure, "bed.covering.longest_edge": measure,
    "rails.straightedge": measure, "rails.bearing": measure, "rails.inset": measure, "rails.strip.thickness": measure,
    "rails.strip.width": measure, "rails.strip.length": measure, "rails.overlap": measure, "rails.station_spacing": measure,
    "rails.direction": (value) => (value === "auto" ? t("value.direction_auto") : t("value.degrees", { degrees: value })),
    "rails.strips": list(stripsText), "rails.straightedges": list(measure), "rails.lines": list(railText),
    "rails.tolerance": measure, "rails.wood": yesOrNo, "filling.mixer": placeText, "filling.day_ends": moment,
    "mix.cement": plain, "mix.lime": plain, "mix.sand": plain, "mix.bag_mass": (kg) => massText(kg, reader.value),
    "mix.water_cement": plain, "mix.air": percent, "mix.waste": percent, "mix.batch_volume": (m3) => volumeText(m3, reader.value),
    "mix.sand_moisture": percent, "mix.sand_bulking": percent,
    "joints.exposure": (value) => t(`value.joints_${value}`), "joints.spacing": measure, "joints.temperature_range": (kelvin) => t("value.kelvin", { kelvin }),
    "joints.expansion": (value) => t("value.per_kelvin", { millionths: value * 1e6 }), "joints.sealant_movement": percent,
    "joints.slab_joints": list(() => t("value.slab_joint")), ...SUPPLY_WRITERS,
    "curing.activation": (kelvin) => t("value.activation", { kelvin }), "curing.reference": degrees, "curing.assumed": degrees,
    "curing.method": (value) => t(`value.method_${value}`), "curing.datum": degrees, "curing.early": percent, "curing.late": percent,
    "curing.forecast_doubt": (kelvin) => t("value.kelvin", { kelvin }), "curing.follows": percent, "curing.fresh_window": hours,
    "curing.tile_when": (value) => t(`value.tile_${value}`), "curing.moisture_sensitive": yesOrNo,
    "flatness.standard": (value) => t(`standard.${value}`), "flatness.own": list(limitText),
    "curing.working_time": hours, "curing.milestones": list(needText),
    note: text, typed: (typed) => list(text)(Object.values(typed)), deleted: yesOrNo,
  },
  reading: {
    room_id: roomName, setup: text, down: length, at: placeText, mark: text,
    stage: (value) => t(value === "bed" ? "value.finished_bed" : "value.subfloor"),
    typed: text, sight: measure, taken_at: moment, supersedes: readingText, note: text, deleted: yesOrNo,
  },
  placement: { room_id: roomName, section: text, at: placeText, mixed_at: moment, placed_at: moment, screeded_at: moment, channels_at: moment, deleted: yesOrNo },
  batch: { room_id: roomName, section: text, at: placeText, mixed_at: moment, placed_at: moment, thrown_at: moment, size: plain, deleted: yesOrNo },
  station: { room_id: roomName, rail: text, at: placeText, shim: measure, set_at: moment, deleted: yesOrNo },
  rail_check: {
    room_id: roomName, rail: text, rail_to: text, from: measure, to: measure, off: outBy, length: measure, reversed_off: outBy,
    level: text, typed: (typed) => (typeof typed === "string" ? typed : list(text)(Object.values(typed))), taken_at: moment, deleted: yesOrNo,
  },
  entry: {
    room_id: roomName, what: (what) => t(`value.entry_${what}`), at: moment, until: moment, rail: text, from_raise: outBy, to_raise: outBy, lie: plain,
    section: text, code: codeText, place: placeText, by: text, how: (how) => told("how", how, {}, how), text, deleted: yesOrNo,
  },
  climate: {
    room_id: roomName, at: moment, bed: degrees, air: degrees, humidity, wind,
    forecast: yesOrNo, deleted: yesOrNo,
  },
  photo: {
    room_id: roomName, hash: () => t("value.picture"), media_type: (type) => type.replace("image/", "").toUpperCase(), width: pixels, height: pixels,
    size: kilobytes, note: text, taken_at: moment, reading_id: readingText, entry_id: entryText, deleted: yesOrNo,
  },
  alternative: { room_id: roomName, name: text, top: topText, note: text, chosen_at: moment, chosen_by: text, deleted: yesOrNo },
  ...HANDOVER_WRITERS,
  prices: { ...PRICE_WRITERS, deleted: yesOrNo },
  supplies: { ...SUPPLY_WRITERS, deleted: yesOrNo },
};

type AnyWriter = (value: unknown) => string;

/** The value in words. One of a shape that no version knew (it may be why a change was refused) is shown as it is. */
export function valueText(kind: Kind, field: string, value: unknown): string {
  if (value === null || value === undefined) return t("value.nothing");
  const write = (WRITERS[kind] as Readonly<Record<string, AnyWriter | undefined>>)[field];
  return (write && attempted(write, value)) ?? (typeof value === "string" ? value : JSON.stringify(value));
}

function attempted(write: AnyWriter, value: unknown): string | null {
  try {
    const written = write(value);
    return typeof written === "string" && !written.includes("NaN") ? written : null;
  } catch (error) {
    if (error instanceof TypeError || error instanceof RangeError) return null;
    throw error;
  }
}

/** The trade's word for a field; what a later version sent has none here. A room's supplies go by the company's words. */
export function fieldName(kind: Kind, field: string): string {
  return told(`named.${kind === "room" && field.startsWith("supplies.") ? "supplies" : kind}`, field, {}, t("named.unknown"));
}

/** Whether this version knows the field: one that it does not is shown, and never written. */
export function isKnownField(kind: Kind, field: string): boolean {
  return field in WRITERS[kind];
}
