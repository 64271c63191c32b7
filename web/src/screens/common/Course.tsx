/** The steps of the job, laid like a course of brick: tap one to work on it. */
import { t } from "../../words";
import { factOf, type RoomFacts } from "./courseFacts";
import { Link } from "./Link";
import { pathOfRoom, STEPS, type Step } from "./route";

interface CourseProps {
  readonly room: string;
  readonly facts: RoomFacts;
  readonly current: Step | null;
}

export function Course({ room, facts, current }: CourseProps) {
  return (
    <ol class="course" data-testid="course">
      {STEPS.map((step, index) => {
        const fact = factOf(step, room, facts);
        return (
          <li key={step}>
            <Link to={pathOfRoom(room, step)} class={fact ? "brick laid" : "brick"} current={step === current} testid={`step-${step}`}>
              <span class="order">{index + 1}</span>
              <span class="name">{t(`step.${step}`)}</span>
              <span class="fact">{fact}</span>
            </Link>
          </li>
        );
      })}
    </ol>
  );
}

/** At the foot of a step's screen: the step before, the room, the step after. */
export function StepBar({ room, step }: { room: string; step: Step }) {
  const at = STEPS.indexOf(step);
  const before = STEPS[at - 1] ?? null;
  const after = STEPS[at + 1] ?? null;
  return (
    <nav class="step-bar" aria-label={t("course.label")}>
      {before ? <Link to={pathOfRoom(room, before)} class="button plain" testid="step-before">{`\u2039 ${t(`step.${before}`)}`}</Link> : <span />}
      <Link to={pathOfRoom(room)} class="button plain" testid="step-room" label={t("course.all")}>{`${at + 1}\u2009/\u2009${STEPS.length}`}</Link>
      {after ? <Link to={pathOfRoom(room, after)} class="button plain" testid="step-after">{`${t(`step.${after}`)} \u203a`}</Link> : <span />}
    </nav>
  );
}
