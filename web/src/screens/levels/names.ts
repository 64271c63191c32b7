/** What set-ups, instruments and marks are called on the screen. */
import { readingsOf, roomRows, setupFromDocument, setupsIn, type Row, type Standing } from "../../state";
import type { Instrument, InstrumentKind } from "../../wire";
import { t } from "../../words";
import type { RoomFields } from "../common/roomFigure";

export const INSTRUMENT_KINDS: readonly InstrumentKind[] = ["laser", "optical", "water_level", "straightedge"];

export interface Readable {
  readonly fields: RoomFields;
  readonly readings: readonly Row<"reading">[];
}

export function instrumentIn(fields: RoomFields, id: string | undefined): Instrument | undefined {
  return fields.instruments?.find((one) => one.id === id);
}

/** "Laser 1 · set-up 2", or the name that somebody gave it. */
export function setupName({ fields, readings }: Readable, id: string): string {
  const setups = setupsIn(fields, readings);
  const index = setups.findIndex((one) => one.id === id);
  const setup = setups[index];
  if (setup?.name) return setup.name;
  const kind = setup?.kind ?? "laser";
  const instrument = instrumentIn(fields, setup?.instrument)?.name ?? t(`instrument.${kind}`);
  return t(kind === "straightedge" ? "setup.laying" : "setup.named", { instrument, number: index + 1 });
}

export function standingName(room: Readable, standing: Standing): string {
  if ("setup" in standing) return setupName(room, standing.setup);
  return t("setup.stepped", { instrument: instrumentIn(room.fields, standing.laying)?.name ?? t("instrument.straightedge") });
}

export function markName(fields: RoomFields, id: string | null | undefined): string {
  return fields.marks?.find((one) => one.id === id)?.name ?? t("mark.nameless");
}

/** "Laser 2" where a "Laser 1" is known already. */
export function freshName(kind: InstrumentKind, known: readonly Instrument[]): string {
  const names = new Set(known.map(({ name }) => name));
  const numbered = (number: number) => t("instrument.numbered", { kind: t(`instrument.${kind}`), number });
  let number = 1;
  while (names.has(numbered(number))) number += 1;
  return numbered(number);
}

/** A set-up as the engine's sentences name it: by the name that somebody gave it, else by its number in its room. */
export function setupInSentence(name: string): string {
  const id = setupFromDocument(name);
  const room = roomRows().find(({ fields }) => fields.setups?.some((one) => one.id === id));
  const setups = room ? setupsIn(room.fields, readingsOf(room.id).value) : [];
  const index = setups.findIndex((one) => one.id === id);
  return setups[index]?.name ?? `${Math.max(index, 0) + 1}`;
}
