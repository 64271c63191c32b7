/** What is not done or not sure when somebody signs: told before, decided by them. */
import { placedFromRows, sectionTimes, session } from "../../state";
import { t } from "../../words";
import { milestoneName } from "../common/readiness";
import { rowsOf, type Content } from "./content";

type Tell = (content: Content) => readonly string[];

/** One sentence each, in the order of the job. */
export function unfinishedOf(content: Content): readonly string[] {
  const all: readonly Tell[] = [doubted, untied, notPlaced, flatness, workLeft, water, notTicked, unheard];
  return all.flatMap((tell) => tell(content));
}

const doubted: Tell = ({ plan }) => {
  const count = plan.levels.suspects.length;
  return count === 0 ? [] : [t("record.left_doubted", { count })];
};

const untied: Tell = ({ plan }) => {
  const count = plan.levels.untied.reduce((sum, { readings }) => sum + readings, 0);
  return count === 0 ? [] : [t("record.left_untied", { count })];
};

const notPlaced: Tell = (content) => {
  const { sections } = content.plan;
  const times = sectionTimes(placedFromRows(rowsOf(content, "placement")), sections);
  const count = sections.filter(({ id }) => !times.get(id)?.placed_at).length;
  return count === 0 ? [] : [t("record.left_sections", { count, all: sections.length })];
};

const flatness: Tell = ({ plan }) => {
  const verdict = plan.flatness?.verdict ?? "not_read";
  return verdict === "within" ? [] : [t(`record.left_${verdict}`)];
};

const workLeft: Tell = ({ plan }) => {
  const count = (plan.flatness?.work ?? []).filter(({ done_at }) => done_at === null).length;
  return count === 0 ? [] : [t("record.left_work", { count })];
};

const water: Tell = ({ plan }) => {
  const count = plan.flatness?.level?.standing_water.length ?? 0;
  return count === 0 ? [] : [t("record.left_water", { count })];
};

const notTicked: Tell = (content) => {
  const ticked = new Set(rowsOf(content, "entry").filter(({ fields }) => fields.what === "milestone").map(({ fields }) => fields.code));
  const left = content.plan.readiness.filter(({ milestone }) => !ticked.has(milestone));
  return left.length === 0 ? [] : [t("record.left_milestones", { names: left.map(milestoneName).join(", ") })];
};

/** What this phone sent is known to the office alone: until it tells, decisions are lacking in the copy. A phone of no office holds them all. */
const unheard: Tell = ({ story }) => (story.at === null && session.value.joined ? [t("record.left_story")] : []);
