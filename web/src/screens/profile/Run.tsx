/** What every picture of a section draws and says. */
import type { Place } from "../../drawing/camera";
import { pathOf } from "../../drawing/Ground";
import type { ProfileAnswer, ProfilePoint } from "../../wire";
import { t } from "../../words";
import type { Section } from "./section";

const itself = (place: Place) => place;

/** One stretch of bed: the mortar between floor and top. */
export function Run({ run, section }: { run: readonly ProfilePoint[]; section: Section }) {
  const floor = run.map(({ along, subfloor }) => section.at(along, subfloor));
  const top = run.map(({ along, top: z }) => section.at(along, z));
  return (
    <>
      <path class="bed" d={pathOf([...floor, ...[...top].reverse()], itself)} />
      <path class="top" d={pathOf(top, itself, false)} />
      <path class="subfloor" d={pathOf(floor, itself, false)} />
    </>
  );
}

/** The section in words. */
export function spokenOf({ runs, length }: ProfileAnswer): string {
  const all = runs.flat().map(({ thickness }) => thickness);
  return t("profile.spoken", { length, least: Math.min(...all), most: Math.max(...all) });
}
