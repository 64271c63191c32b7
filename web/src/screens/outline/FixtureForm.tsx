/** What stands in the floor: a drain, a flange or a post, placed by tape from a wall. */
import type { Place } from "../../drawing/camera";
import { editRoom } from "../../state";
import type { Fixture } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { cornersOf } from "../common/roomFigure";
import { formOf, type Taped } from "../common/form";
import { NO_OFFSET, OffsetFields, placeFromOffset, type Offset } from "../common/OffsetFields";
import { saved } from "../common/saving";
import { TapedField } from "../common/TapedField";
import type { PartFormProps } from "./DoorwayForm";
import { nextName } from "./names";

type Kind = Fixture["kind"];
type Values = Offset & { readonly kind: Kind; readonly radius: Taped | null; readonly height: Taped | null; readonly long: Taped | null };

const BEGIN: Values = { ...NO_OFFSET, kind: "drain", radius: null, height: null, long: null };
const KINDS: readonly Kind[] = ["drain", "flange", "post"];

/** The other end of a drain that runs along its wall; null for a round one, and for whatever is no drain. */
function farEnd(corners: readonly Place[], { kind, along, long, ...offset }: Values): Place | null {
  if (kind !== "drain" || !along || !long) return null;
  return placeFromOffset(corners, { ...offset, along: { ...along, mm: along.mm + long.mm } });
}

export function FixtureForm({ room, lengths, onDone }: PartFormProps) {
  const { values, set, draft } = formOf(`fixture:${room.id}`, BEGIN);
  const corners = cornersOf(room.fields.outline);
  const at = placeFromOffset(corners, values);
  const fixtures = room.fields.fixtures ?? [];
  const add = async () => {
    if (!at) return;
    const id = nextName("F", fixtures.map((fixture) => fixture.id));
    const to = farEnd(corners, values);
    const fixture: Fixture = { id, kind: values.kind, at, radius: values.radius?.mm ?? 0, height: values.height?.mm ?? null, ...(to ? { to } : {}) };
    if (await saved(editRoom(room.id, { fixtures: [...fixtures, fixture] }, { draft }))) onDone();
  };
  return (
    <div class="stack">
      <Choice label={t("fixture.kind")} name="fixture" value={values.kind} onChoose={(kind) => set({ kind })} options={KINDS.map((kind) => ({ value: kind, label: t(`fixture.${kind}`) }))} />
      <OffsetFields lengths={lengths} value={values} onChange={set} />
      <TapedField name="fixture-radius" label={t("fixture.radius")} value={values.radius} onSet={(radius) => set({ radius })} />
      {values.kind === "drain" && <TapedField name="fixture-long" label={t("fixture.long")} note={t("fixture.long_more")} value={values.long} onSet={(long) => set({ long })} />}
      {values.kind !== "post" && <TapedField name="fixture-height" label={t("fixture.height")} note={t("fixture.height_more")} signed value={values.height} onSet={(height) => set({ height })} />}
      {values.kind === "drain" && <p class="caution">{t("fixture.drain_caution")}</p>}
      <button type="button" class="button main wide" data-testid="keep-fixture" disabled={!at} onClick={() => void add()}>{t("fixture.add")}</button>
    </div>
  );
}
