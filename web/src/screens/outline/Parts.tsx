/** The lists under a closed outline: doorways, cutouts, fixtures, each with a way to add and to take away. */
import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { editRoom } from "../../state";
import type { Fixture, Opening } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { DoorHeights, FixtureTop } from "../common/PlaceHeights";
import { tapedLengths } from "../common/roomFigure";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { CutoutForm } from "./CutoutForm";
import { DoorwayForm } from "./DoorwayForm";
import { FixtureForm } from "./FixtureForm";

interface PartRow {
  readonly key: string;
  readonly text: string;
  readonly remove: () => void;
  /** What of it can be changed where it stands. */
  readonly heights?: ComponentChildren;
}

interface PartListProps {
  readonly title: string;
  readonly add: string;
  readonly name: string;
  readonly rows: readonly PartRow[];
  readonly form: (close: () => void) => ComponentChildren;
}

function PartText({ name, text, heights }: { name: string; text: string; heights: ComponentChildren }) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" class="button plain part-text" data-testid={`open-${name}`} onClick={() => setOpen(true)}>{text}</button>
      {open && <Dialog title={text} testid={`heights-${name}`} onClose={() => setOpen(false)}>{heights}</Dialog>}
    </>
  );
}

function PartList({ title, add, name, rows, form }: PartListProps) {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <section class="stack tight">
      <h3>{title}</h3>
      <ul class="lines">
        {rows.map(({ key, text, heights, remove }) => (
          <li key={key} class="line">
            {heights === undefined ? <span>{text}</span> : <PartText name={name} text={text} heights={heights} />}
            <button type="button" class="button" data-testid={`remove-${name}`} aria-label={t("remove_named", { what: text })} onClick={remove}>{t("remove")}</button>
          </li>
        ))}
      </ul>
      <button type="button" class="button wide" data-testid={`add-${name}`} onClick={() => setOpen(true)}>{add}</button>
      {open && <Dialog title={add} testid={`form-${name}`} onClose={close}>{form(close)}</Dialog>}
    </section>
  );
}

function doorText(door: Opening): string {
  const values = { wall: door.wall + 1, from: door.from, to: door.to };
  return door.exit ? t("door.exit_line", values) : t("door.line", values);
}

export function Doorways({ room }: { room: RoomView }) {
  const doors = room.fields.openings ?? [];
  const rows = doors.map((door) => ({
    key: door.id, text: doorText(door), heights: <DoorHeights room={room} door={door} />, remove: () => void saved(editRoom(room.id, { openings: doors.filter(({ id }) => id !== door.id) })),
  }));
  return <PartList title={t("door.title")} add={t("door.add")} name="doorway" rows={rows} form={(close) => <DoorwayForm room={room} lengths={tapedLengths(room.fields.outline)} onDone={close} />} />;
}

function fixtureText({ kind, at }: Fixture): string {
  return t(`fixture.${kind}_line`, { x: at[0], y: at[1] });
}

export function Fixtures({ room }: { room: RoomView }) {
  const fixtures = room.fields.fixtures ?? [];
  const rows = fixtures.map((fixture) => ({
    key: fixture.id, text: fixtureText(fixture), ...(fixture.kind === "post" ? {} : { heights: <FixtureTop room={room} fixture={fixture} /> }), remove: () => void saved(editRoom(room.id, { fixtures: fixtures.filter(({ id }) => id !== fixture.id) })),
  }));
  return <PartList title={t("fixture.title")} add={t("fixture.add")} name="fixture" rows={rows} form={(close) => <FixtureForm room={room} lengths={tapedLengths(room.fields.outline)} onDone={close} />} />;
}

export function Cutouts({ room }: { room: RoomView }) {
  const outline = room.fields.outline ?? {};
  const cutouts = outline.cutouts ?? [];
  const rows = cutouts.map((cutout, index) => ({
    key: `${index}`, text: t("cutout.line", { number: index + 1, x: cutout[0]?.[0] ?? 0, y: cutout[0]?.[1] ?? 0 }),
    remove: () => void saved(editRoom(room.id, { outline: { ...outline, cutouts: cutouts.filter((_, other) => other !== index) } })),
  }));
  return <PartList title={t("cutout.title")} add={t("cutout.add")} name="cutout" rows={rows} form={(close) => <CutoutForm room={room} lengths={tapedLengths(room.fields.outline)} onDone={close} />} />;
}
