/** What each milestone waits for: a default with its basis, changed here and showing that it was. */
import { editRoom } from "../../state";
import { hoursText } from "../../units";
import type { MilestoneName, Plan, Readiness } from "../../wire";
import { reader, t } from "../../words";
import { saved } from "../common/saving";
import { NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { milestoneName } from "../common/readiness";
import { plainFault, RANGES } from "./ranges";

function keepNeed(room: RoomView, milestone: string, needs: number | null): void {
  const others = (room.fields["curing.milestones"] ?? []).filter((own) => own.milestone !== milestone);
  const changed = needs === null ? others : [...others, { milestone: milestone as MilestoneName, needs }];
  void saved(editRoom(room.id, { "curing.milestones": changed.length === 0 ? null : changed }));
}

function Need({ room, row }: { room: RoomView; row: Readiness }) {
  const own = (room.fields["curing.milestones"] ?? []).some(({ milestone }) => milestone === row.milestone);
  return (
    <ValueField
      name={`${room.id}:need-${row.milestone}`} label={milestoneName(row)} shown={hoursText(row.needs, reader.value)} measure="number" note={t("needs.hours")} faultOf={plainFault(RANGES.needs, "h")}
      isChanged={own} onReset={() => keepNeed(room, row.milestone, null)} onValue={(hours) => keepNeed(room, row.milestone, hours)}
    />
  );
}

export function Needs({ room, plan }: { room: RoomView; plan: Plan }) {
  return (
    <section class="stack tight">
      <h4>{t("needs.title")}</h4>
      <p class="quiet small">{t("needs.more")}</p>
      {plan.readiness.map((row) => <Need key={row.milestone} room={room} row={row} />)}
      <NumberSetting room={room} name="curing.working_time" label={t("needs.working_time")} unit="h" note={t("needs.hours")} faultOf={plainFault(RANGES.working_time, "h")} />
    </section>
  );
}
