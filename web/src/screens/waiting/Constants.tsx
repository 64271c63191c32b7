/** What the waiting is reckoned with: every constant changed where it is used, and showing that it was. */
import { useState } from "preact/hooks";
import { editRoom, mayWrite } from "../../state";
import { DEFAULTS, type Plan } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { saved, sayOnlyLooks } from "../common/saving";
import { NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";
import { DegreesSetting } from "./Degrees";
import { Needs } from "./Needs";
import { plainFault, RANGES } from "./ranges";

const NAMES = ["activation", "reference", "datum", "early", "late", "forecast_doubt", "follows", "fresh_window", "working_time"] as const;

/** How many hold something else than their default. */
export function changedCount(fields: RoomView["fields"]): number {
  const numbers = NAMES.filter((name) => { const own = fields[`curing.${name}`] ?? null; return own !== null && own !== DEFAULTS[`curing.${name}`]; });
  const method = (fields["curing.method"] ?? "equivalent_age") === "equivalent_age" ? 0 : 1;
  return numbers.length + method + (fields["curing.milestones"]?.length ?? 0);
}

const percent = { toShown: (share: number) => share * 100, toStored: (value: number) => value / 100, unit: "%", places: 0 };

function Method({ room }: { room: RoomView }) {
  const method = room.fields["curing.method"] ?? "equivalent_age";
  const choose = (value: typeof method) => {
    if (!mayWrite.value) sayOnlyLooks();
    else if (value !== method) void saved(editRoom(room.id, { "curing.method": value === "equivalent_age" ? null : value }));
  };
  const label = t("constants.method");
  return (
    <>
      <Choice label={method === "equivalent_age" ? label : `${label} \u00b7 ${t("changed")}`} name="method" value={method} onChoose={choose} options={[{ value: "equivalent_age", label: t("constants.method_age") }, { value: "temperature_time", label: t("constants.method_factor") }]} />
      <p class="quiet small">{t("constants.method_more")}</p>
    </>
  );
}

function Fields({ room, plan }: { room: RoomView; plan: Plan }) {
  const isFactor = room.fields["curing.method"] === "temperature_time";
  return (
    <>
      <Method room={room} />
      {isFactor
        ? <DegreesSetting room={room} name="curing.datum" label={t("constants.datum")} />
        : <NumberSetting room={room} name="curing.activation" label={t("constants.activation")} unit="K" places={0} faultOf={plainFault(RANGES.activation, "K")} />}
      <DegreesSetting room={room} name="curing.reference" label={t("constants.reference")} />
      <Needs room={room} plan={plan} />
      <h4>{t("plot.table_windows")}</h4>
      <NumberSetting room={room} name="curing.early" label={t("constants.early")} faultOf={plainFault(RANGES.early, "%")} {...percent} />
      <NumberSetting room={room} name="curing.late" label={t("constants.late")} faultOf={plainFault(RANGES.late, "%")} {...percent} />
      <DegreesSetting room={room} name="curing.forecast_doubt" label={t("constants.forecast_doubt")} isDifference />
      <NumberSetting room={room} name="curing.follows" label={t("constants.follows")} faultOf={plainFault(RANGES.follows, "%")} note={t("constants.follows_more")} {...percent} />
      <p class="quiet small">{t("constants.follows_more")}</p>
      <NumberSetting room={room} name="curing.fresh_window" label={t("constants.fresh_window")} unit="h" note={t("needs.hours")} places={1} faultOf={plainFault(RANGES.fresh_window, "h")} />
      <p class="quiet small">{t("constants.practice")}</p>
    </>
  );
}

export function Constants({ room, plan }: { room: RoomView; plan: Plan }) {
  const [open, setOpen] = useState(false);
  const count = changedCount(room.fields);
  return (
    <section class="stack tight" data-testid="constants">
      <button type="button" class={count > 0 ? "value-button is-changed" : "value-button"} aria-expanded={open} data-testid="open-constants" onClick={() => setOpen(!open)}>
        <span>{t("constants.title")}{count > 0 && <><br /><span class="changed">{t("constants.changed", { count })}</span></>}</span>
        <span class="given" aria-hidden="true">{open ? "\u2212" : "+"}</span>
      </button>
      {open && <Fields room={room} plan={plan} />}
    </section>
  );
}
