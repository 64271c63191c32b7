/** The course of the job: its steps in the trade's order, each with the one fact that tells how far it is. */
import { setStationsOf } from "../../state";
import type { Plan } from "../../wire";
import { momentText, roundedUp } from "../../units";
import { reader, t } from "../../words";
import { knownVerdict, SIGNS } from "./flatness";
import type { Step } from "./route";

const LIKELY_MIN = 10; // a likely time is told no finer, as on the screen of the waiting

export interface RoomFacts {
  readonly readings: number;
  readonly plan: Plan | null;
}

function bedFact(plan: Plan): string {
  const { min, max } = plan.bed.thickness;
  return t("course.bed", { min, max });
}

function materialFact(plan: Plan): string {
  const cement = plan.materials.find(({ item }) => item === "cement");
  return cement?.packages ? t("course.material", { bags: cement.packages }) : "";
}

function railsFact(plan: Plan, room: string): string {
  const stations = plan.rails.reduce((sum, rail) => sum + rail.stations.length, 0);
  return t("course.rails", { set: setStationsOf(room, plan.rails).size, stations });
}

function waitingFact(plan: Plan): string {
  const tile = plan.readiness.find(({ milestone }) => milestone === "tile");
  return tile?.at ? t("course.waiting", { at: momentText(roundedUp(tile.at, LIKELY_MIN), reader.value) }) : "";
}

function checkingFact(plan: Plan, room: string): string {
  const verdict = knownVerdict(room, plan);
  return verdict && verdict !== "not_read" ? `${SIGNS[verdict]} ${t(`course.${verdict}`)}` : "";
}

/** What stands under a step's name; empty where nothing is known yet. */
export function factOf(step: Step, id: string, { readings, plan }: RoomFacts): string {
  if (step === "outline") return plan ? t("course.outline", { area: plan.outline.area }) : "";
  if (step === "levels") return readings > 0 ? t("course.levels", { readings }) : "";
  if (!plan) return "";
  if (step === "bed") return bedFact(plan);
  if (step === "material") return materialFact(plan);
  if (step === "rails") return railsFact(plan, id);
  if (step === "filling") return t("course.filling", { sections: plan.sections.length });
  if (step === "checking") return checkingFact(plan, id);
  return waitingFact(plan);
}
