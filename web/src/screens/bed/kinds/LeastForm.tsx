/** The plane of the least mortar: what the finished floor must meet, doorway by doorway, and how far it may lean. */
import { heightText } from "../../../units";
import type { Held, Top } from "../../../wire";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import type { RoomFields } from "../../common/roomFigure";
import { ValueField } from "../../common/ValueField";
import { FallField } from "./FallField";
import { begunHold, heldAt, holdPlaces, kindOfHold, withHold, type HoldKind, type HoldPlace } from "./holds";

type LeastTop = Extract<Top, { readonly kind: "least_mortar" }>;

interface LeastFormProps {
  readonly id: string;
  readonly room: RoomFields;
  readonly top: LeastTop;
  /** Where a held height begins when nothing is there to meet: finished floor, z. */
  readonly finished: number;
  readonly onTop: (top: LeastTop) => void;
}

interface HoldProps {
  readonly id: string;
  readonly place: HoldPlace;
  readonly held: Held | null;
  readonly finished: number;
  readonly onHeld: (held: Held | null) => void;
}

export function placeName({ id, of, fixture }: HoldPlace): string {
  if (of === "opening") return t("hold.doorway", { id });
  return fixture === "flange" ? t("hold.flange", { id }) : t("hold.drain", { id });
}

interface BoundProps {
  readonly name: string;
  readonly label: string;
  /** Null where that side is open; one side stays. */
  readonly value: number | null;
  readonly canOpen: boolean;
  readonly onValue: (value: number | null) => void;
}

function Bound({ name, label, value, canOpen, onValue }: BoundProps) {
  const shown = value === null ? t("hold.open") : heightText(value, reader.value);
  return <ValueField name={name} label={label} shown={shown} measure="length" signed canReset={canOpen} resetLabel={t("hold.leave_open")} onReset={() => onValue(null)} onValue={onValue} />;
}

function Bounds({ id, place, held, onHeld }: HoldProps & { readonly held: Held }) {
  const { low = null, high = null } = held;
  const canOpen = low !== null && high !== null;
  return (
    <div class="given-answers">
      <Bound name={`${id}:hold-low-${place.id}`} label={t("hold.low")} value={low} canOpen={canOpen} onValue={(z) => onHeld({ ...held, low: z })} />
      <Bound name={`${id}:hold-high-${place.id}`} label={t("hold.high")} value={high} canOpen={canOpen} onValue={(z) => onHeld({ ...held, high: z })} />
    </div>
  );
}

function Hold(props: HoldProps) {
  const { place, held, finished, onHeld } = props;
  const kinds: readonly HoldKind[] = place.there === null ? ["free", "between"] : ["free", "meet", "between"];
  const kind = kindOfHold(held);
  return (
    <div class="stack tight" data-testid={`hold-${place.id}`}>
      <Choice label={placeName(place)} name={`hold-${place.id}`} value={kind} onChoose={(chosen) => { if (chosen !== kind) onHeld(begunHold(place, chosen, finished)); }} options={kinds.map((value) => ({ value, label: t(`hold.${value}`) }))} />
      {place.there === null ? <p class="quiet small">{t("hold.nothing_there")}</p> : kind === "meet" && <p class="quiet small">{t("hold.meets", { there: place.there })}</p>}
      {kind === "between" && held && <Bounds {...props} held={held} />}
    </div>
  );
}

export function LeastForm({ id, room, top, finished, onTop }: LeastFormProps) {
  const holds = top.holds ?? [];
  const places = holdPlaces(room);
  return (
    <section class="stack tight" data-testid="least-form">
      <p class="quiet small">{t("least.more")}</p>
      {places.length === 0 && <p class="quiet small">{t("least.no_places")}</p>}
      {places.map((place) => (
        <Hold key={place.id} id={id} place={place} held={heldAt(holds, place)} finished={finished} onHeld={(held) => onTop({ ...top, holds: withHold(holds, place, held) })} />
      ))}
      <FallField
        name={`${id}:largest-fall`} label={t("least.largest_fall")} none={t("least.any_fall")} fall={top.largest_fall ?? null}
        onFall={(fall) => onTop({ ...top, largest_fall: fall })} onReset={() => onTop({ ...top, largest_fall: null })}
      />
    </section>
  );
}
