/** What set-ups, marks, readings and sections are called in a record: by its own content, so that a copy says what it said. */
import { documentSetup, sectionIdOf } from "../../state";
import { numberText } from "../../units";
import { reader, t } from "../../words";
import type { Content } from "./content";

/** The set-up by the name that somebody gave it, else by instrument and number. */
export function setupText({ room, document }: Content, id: string | undefined): string {
  const setups = document.setups ?? [];
  const name = room.setups?.find((one) => documentSetup(one.id) === id)?.name;
  if (name) return name;
  const setup = setups.find((one) => one.id === id);
  const kind = setup?.kind ?? "laser";
  const instrument = room.instruments?.find((one) => one.id === setup?.instrument)?.name ?? t(`instrument.${kind}`);
  const number = Math.max(setups.findIndex((one) => one.id === id), 0) + 1;
  return t(kind === "straightedge" ? "setup.laying" : "setup.named", { instrument, number });
}

export function markText({ room }: Content, id: string): string {
  return room.marks?.find((one) => one.id === id)?.name ?? t("mark.nameless");
}

/** Readings are counted in the order in which the document holds them. */
export function readingNumbers({ document }: Content): ReadonlyMap<string, number> {
  return new Map(document.readings.map(({ id }, index) => [id, index + 1]));
}

/** A section by its place in the order of filling; empty for none that there is now. */
export function sectionText({ plan }: Content, told: { readonly section?: string | null; readonly at?: readonly number[] | null }): string {
  const id = sectionIdOf(told, plan.sections);
  const order = plan.sections.find((one) => one.id === id)?.order;
  return order === undefined ? "" : numberText(order, 0, reader.value.language);
}
