/** A plane through given heights: at doorways, fixtures and corners, one to three of them. */
import { useState } from "preact/hooks";
import type { Place } from "../../../drawing/camera";
import { heightText } from "../../../units";
import type { Point3, Top } from "../../../wire";
import { reader, t } from "../../../words";
import { Dialog } from "../../common/Dialog";
import { placeText, roomScene, type RoomFields } from "../../common/roomFigure";
import { ValueField } from "../../common/ValueField";

type PlaneTop = Extract<Top, { readonly kind: "plane" }>;

interface ThroughFormProps {
  readonly id: string;
  readonly room: RoomFields;
  readonly top: PlaneTop;
  /** Where a new point begins, z. */
  readonly height: (at: Place) => number;
  readonly onTop: (top: PlaneTop) => void;
}

interface Named {
  readonly name: string;
  readonly at: Place;
}

const MOST = 3;
const FEWEST = 1;

const middle = (from: Place, to: Place): Place => [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];

function namedPlaces(room: RoomFields): readonly Named[] {
  const { doorways, fixtures, outline } = roomScene(room);
  return [
    ...doorways.map(({ id, from, to }) => ({ name: t("hold.doorway", { id }), at: middle(from, to) })),
    ...fixtures.map(({ id, at }) => ({ name: id, at })),
    ...outline.map((at, n) => ({ name: t("through.corner", { number: n + 1 }), at })),
  ];
}

function AddPoint({ room, top, height, onTop }: ThroughFormProps) {
  const [open, setOpen] = useState(false);
  const isTaken = ({ at }: Named) => top.through.some(([x, y]) => x === at[0] && y === at[1]);
  const add = ({ at }: Named) => { onTop({ ...top, through: [...top.through, [at[0], at[1], height(at)]] }); setOpen(false); };
  return (
    <>
      <button type="button" class="button wide" data-testid="through-add" onClick={() => setOpen(true)}>{t("through.add")}</button>
      {open && (
        <Dialog title={t("through.add")} testid="through-places" onClose={() => setOpen(false)}>
          {namedPlaces(room).filter((place) => !isTaken(place)).map((place) => <button key={place.name} type="button" class="button wide" data-testid="through-place" onClick={() => add(place)}>{place.name}</button>)}
        </Dialog>
      )}
    </>
  );
}

export function ThroughForm(props: ThroughFormProps) {
  const { id, room, top, onTop } = props;
  const places = namedPlaces(room);
  const nameOf = ([x, y]: Point3) => places.find(({ at }) => at[0] === x && at[1] === y)?.name ?? placeText([x, y]);
  const change = (n: number, z: number) => onTop({ ...top, through: top.through.map((point, i): Point3 => (i === n ? [point[0], point[1], z] : point)) });
  return (
    <section class="stack tight" data-testid="through-form">
      <p class="quiet small">{t("through.more")}</p>
      {top.through.map((point, n) => (
        <div key={`${point[0]} ${point[1]}`} class="level-row">
          <ValueField name={`${id}:through-${n}`} label={nameOf(point)} shown={heightText(point[2], reader.value)} measure="length" signed onValue={(z) => change(n, z)} />
          {top.through.length > FEWEST && <button type="button" class="button icon" aria-label={t("through.remove", { place: nameOf(point) })} data-testid={`through-remove-${n}`} onClick={() => onTop({ ...top, through: top.through.filter((_, i) => i !== n) })}>{"\u2715"}</button>}
        </div>
      ))}
      {top.through.length < MOST && <AddPoint {...props} />}
    </section>
  );
}
