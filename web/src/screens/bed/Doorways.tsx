/** The finished floor at every doorway and fixture: how high, what step that leaves, and what the step needs. */
import { useState } from "preact/hooks";
import { depthText, heightText, lengthText } from "../../units";
import type { Bed, Doorway } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Figure } from "../common/Figure";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { DoorHeights, FixtureTop } from "../common/PlaceHeights";
import type { RoomView } from "../common/useRoom";
import { differenceText, type Designed, type Effect } from "./effects";

type FixtureHeight = Bed["fixtures"][number];

interface Compared {
  readonly room: RoomView;
  readonly now: Designed;
  /** What the chosen top makes of it; null while nothing else is tried. */
  readonly before: Designed | null;
}

const LEVEL = 0.5; // mm: nobody feels it

function stepText({ id, finished_height, worst_step, kind, transition_length }: Doorway): string {
  const values = { door: id, height: finished_height, step: worst_step, length: transition_length };
  return kind === null ? t("step_kind.unknown", values) : t(`step_kind.${kind}`, values);
}

/** The finished floor as it is compared: the same for a doorway and a fixture. */
function floorEffect(path: string, value: number): Effect {
  return { id: path, label: t("effect.finished"), path, value, write: heightText, writeBy: depthText };
}

function floorBy(path: string, value: number, earlier: number | undefined): string {
  return earlier === undefined ? "" : differenceText(floorEffect(path, value), floorEffect(path, earlier), reader.value);
}

function By({ text, testid }: { text: string; testid: string }) {
  return <span class="by" data-testid={testid}>{text}</span>;
}

function DoorFigures({ door, path, now }: { door: Doorway; path: string; now: Designed }) {
  const { finished_height, worst_step, bed_thickness, clearance, transition, transition_length } = door;
  const figure = (name: string, label: string, value: string) => <Figure label={label} value={value} plan={now} path={`${path}.${name}`} />;
  return (
    <>
      <div class="figures">
        {figure("finished_height", t("effect.finished"), heightText(finished_height, reader.value))}
        {figure("worst_step", t("door.step"), worst_step === null ? t("not_known") : heightText(worst_step, reader.value))}
        {figure("bed_thickness", t("door.bed"), depthText(bed_thickness, reader.value))}
        {clearance !== null && figure("clearance", t("door.clearance"), depthText(clearance, reader.value))}
        {transition_length !== null && transition_length > 0 && figure("transition_length", t("door.transition_length"), lengthText(transition_length, reader.value))}
      </div>
      {transition !== null && transition !== "none" && <p>{t(`transition.${transition}`, { length: transition_length })}</p>}
      <Cautions cautions={cautionsAt(now, path)} />
    </>
  );
}

function DoorwayLine({ n, room, now, before }: Compared & { readonly n: number }) {
  const [open, setOpen] = useState(false);
  const door = now.bed.doorways[n];
  if (!door) return null;
  const path = `bed.doorways[${n}]`;
  const own = room.fields.openings?.find(({ id }) => id === door.id);
  const by = floorBy(path, door.finished_height, before?.bed.doorways.find(({ id }) => id === door.id)?.finished_height);
  return (
    <li>
      <button type="button" class="place-line" data-testid={`doorway-${door.id}`} onClick={() => setOpen(true)}>
        <span>{stepText(door)}</span>
        <By text={by} testid={`doorway-${door.id}-by`} />
        {door.transition !== null && door.transition !== "none" && <span class="quiet small">{t(`transition.${door.transition}`, { length: door.transition_length })}</span>}
        {door.clearance !== null && <span class={door.clearance < 0 ? "small warns" : "quiet small"}>{t(door.clearance < 0 ? "door.touches" : "door.clears", { by: Math.abs(door.clearance) })}</span>}
      </button>
      {open && <Dialog title={t("hold.doorway", { id: door.id })} testid="doorway-sheet" onClose={() => setOpen(false)}>{own && <DoorHeights room={room} door={own} />}<DoorFigures door={door} path={path} now={now} /></Dialog>}
    </li>
  );
}

function fixtureName({ id, kind }: FixtureHeight): string {
  return kind === "flange" ? t("hold.flange", { id }) : t("hold.drain", { id });
}

function fixtureText({ id, kind, finished_height, difference }: FixtureHeight): string {
  const values = { id, height: finished_height, by: Math.abs(difference ?? 0) };
  const word = kind === "flange" ? "flange" : "drain";
  if (difference === null) return t(`${word}_height.unknown`, values);
  if (Math.abs(difference) < LEVEL) return t(`${word}_height.level`, values);
  return t(difference > 0 ? `${word}_height.below` : `${word}_height.above`, values);
}

function FixtureLine({ n, room, now, before }: Compared & { readonly n: number }) {
  const [open, setOpen] = useState(false);
  const fixture = now.bed.fixtures[n];
  if (!fixture || fixture.kind === "post") return null;
  const { id, finished_height, bed_thickness } = fixture;
  const path = `bed.fixtures[${n}]`;
  const own = room.fields.fixtures?.find((one) => one.id === id);
  return (
    <li>
      <button type="button" class="place-line" data-testid={`fixture-${id}`} onClick={() => setOpen(true)}>
        <span>{fixtureText(fixture)}</span>
        <By text={floorBy(path, finished_height, before?.bed.fixtures.find((one) => one.id === id)?.finished_height)} testid={`fixture-${id}-by`} />
      </button>
      {open && (
        <Dialog title={fixtureName(fixture)} testid="fixture-sheet" onClose={() => setOpen(false)}>
          {own && <FixtureTop room={room} fixture={own} />}
          <div class="figures">
            <Figure label={t("effect.finished")} value={heightText(finished_height, reader.value)} plan={now} path={`${path}.finished_height`} />
            <Figure label={t("fixture.bed")} value={depthText(bed_thickness, reader.value)} plan={now} path={`${path}.bed_thickness`} />
          </div>
        </Dialog>
      )}
    </li>
  );
}

export function Doorways(compared: Compared) {
  const { doorways, fixtures } = compared.now.bed;
  if (doorways.length === 0 && fixtures.every(({ kind }) => kind === "post")) return null;
  return (
    <ul class="places" aria-label={t("door.and_drains")} data-testid="doorways">
      {doorways.map(({ id }, n) => <DoorwayLine key={id} n={n} {...compared} />)}
      {fixtures.map(({ id }, n) => <FixtureLine key={id} n={n} {...compared} />)}
    </ul>
  );
}
