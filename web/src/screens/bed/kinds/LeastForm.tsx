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

function Bounds({ id, place, held, onHeld }: HoldProps & { readonly held: Held }) {
  const { low = null, high = null } = held;
  const text = (z: number | null) => (z === null ? t("hold.open") : heightText(z, reader.value));
  return (
    <>
      {low !== null && high !== null && low > high && <p class="caution" role="status">{t("hold.crossed")}</p>}
      <div class="given-answers">
        <ValueField name={`${id}:hold-low-${place.id}`} label={t("hold.low")} shown={text(low)} measure="length" signed isChanged={low !== null && high !== null} onReset={() => onHeld({ ...held, low: null })} onValue={(z) => onHeld({ ...held, low: z })} />
        <ValueField name={`${id}:hold-high-${place.id}`} label={t("hold.high")} shown={text(high)} measure="length" signed isChanged={low !== null && high !== null} onReset={() => onHeld({ ...held, high: null })} onValue={(z) => onHeld({ ...held, high: z })} />
      </div>
    </>
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
