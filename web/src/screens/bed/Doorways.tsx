/** The finished floor at every doorway and fixture: how high, what step that leaves, and what the step needs. */
import type { Bed, Doorway } from "../../wire";
import { t } from "../../words";

type FixtureHeight = Bed["fixtures"][number];

function stepText({ id, finished_height, worst_step, kind, transition_length }: Doorway): string {
  const values = { door: id, height: finished_height, step: worst_step, length: transition_length };
  return kind === null ? t("step_kind.unknown", values) : t(`step_kind.${kind}`, values);
}

function DoorwayLines({ door }: { door: Doorway }) {
  return (
    <li class="line tall" data-testid={`doorway-${door.id}`}>
      <span>{stepText(door)}</span>
      {door.transition !== null && door.transition !== "none" && <span class="quiet small">{t(`transition.${door.transition}`, { length: door.transition_length })}</span>}
      {door.clearance !== null && <span class="quiet small">{t(door.clearance < 0 ? "door.touches" : "door.clears", { by: Math.abs(door.clearance) })}</span>}
    </li>
  );
}

function fixtureText({ id, kind, finished_height, difference }: FixtureHeight): string {
  const values = { id, height: finished_height, by: Math.abs(difference ?? 0) };
  const word = kind === "flange" ? "flange" : "drain";
  if (difference === null) return t(`${word}_height.unknown`, values);
  if (Math.abs(difference) < 0.5) return t(`${word}_height.level`, values);
  return t(difference > 0 ? `${word}_height.below` : `${word}_height.above`, values);
}

export function Doorways({ bed }: { bed: Bed }) {
  const fixtures = bed.fixtures.filter(({ kind }) => kind !== "post");
  if (bed.doorways.length === 0 && fixtures.length === 0) return null;
  return (
    <section class="stack tight" data-testid="doorways">
      <h3>{t("door.title")}</h3>
      <ul class="lines">
        {bed.doorways.map((door) => <DoorwayLines key={door.id} door={door} />)}
        {fixtures.map((fixture) => <li key={fixture.id} class="line" data-testid={`fixture-${fixture.id}`}>{fixtureText(fixture)}</li>)}
      </ul>
    </section>
  );
}

/** From the subfloor up, the uppermost layer first, as it lies. */
export function BuildUp({ bed }: { bed: Bed }) {
  return (
    <section class="stack tight" data-testid="build-up">
      <h3>{t("build_up.title")}</h3>
      <ol class="layers">
        {[...bed.build_up].reverse().map(({ layer, least, mean, most }) => (
          <li key={layer} class={`layer of-${layer}`}>{t(least === most ? "build_up.even" : "build_up.uneven", { layer: t(`layer_of.${layer}`), least, mean, most })}</li>
        ))}
      </ol>
    </section>
  );
}
