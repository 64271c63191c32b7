/** The tools on hand and the habits: straightedges, strips, how far from the wall, how far out a rail may be. */
import { useState } from "preact/hooks";
import { editRoom, mayWrite } from "../../../state";
import { lengthText } from "../../../units";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import { saved, sayOnlyLooks } from "../../common/saving";
import { LengthSetting } from "../../common/Setting";
import type { RoomView } from "../../common/useRoom";
import { ValueField, ValueSheet } from "../../common/ValueField";
import { StripsOnHand } from "./StripsOnHand";

const HABITS = ["rails.bearing", "rails.inset", "rails.overlap", "rails.station_spacing", "rails.tolerance"] as const;
const STRIP = ["rails.strip.length", "rails.strip.thickness", "rails.strip.width"] as const;

/** More straightedges than the first: each changed, taken away, or one more told. */
function Straightedges({ room }: { room: RoomView }) {
  const [adding, setAdding] = useState(false);
  const more = room.fields["rails.straightedges"] ?? [];
  const keep = (edges: readonly number[]) => void saved(editRoom(room.id, { "rails.straightedges": edges.length === 0 ? null : edges }));
  const add = () => { if (mayWrite.value) setAdding(true); else sayOnlyLooks(); };
  return (
    <>
      <LengthSetting room={room} name="rails.straightedge" label={t("tool.rails.straightedge")} note={t("lay.straightedge_more")} />
      {more.map((edge, index) => (
        <ValueField
          key={index} name={`${room.id}:straightedge-${index + 2}`} label={t("lay.one_more")} shown={lengthText(edge, reader.value)} measure="length"
          canReset resetLabel={t("remove")} onReset={() => keep(more.filter((_, other) => other !== index))}
          onValue={(mm) => keep(more.map((one, other) => (other === index ? mm : one)))}
        />
      ))}
      <button type="button" class="button wide" data-testid="add-straightedge" onClick={add}>{t("lay.add_straightedge")}</button>
      {adding && <ValueSheet name={`${room.id}:straightedge-new`} label={t("lay.add_straightedge")} shown={t("none_yet")} measure="length" onValue={(mm) => keep([...more, mm])} onClose={() => setAdding(false)} />}
    </>
  );
}

function Wood({ room }: { room: RoomView }) {
  const isWood = room.fields["rails.wood"] ?? true;
  const keep = (wood: boolean) => void saved(editRoom(room.id, { "rails.wood": wood ? null : false }));
  return (
    <>
      <Choice
        label={t("lay.made_of")} name="wood" value={isWood ? "yes" : "no"} onChoose={(value) => keep(value === "yes")}
        options={[{ value: "yes", label: t("lay.wood") }, { value: "no", label: t("lay.no_wood") }]}
      />
      {isWood && <p class="notice">{t("rails.soak")}</p>}
    </>
  );
}

export function Tools({ room }: { room: RoomView }) {
  const hasTold = (room.fields["rails.strips"] ?? []).length > 0;
  return (
    <section class="stack tight" data-testid="tools">
      <h3>{t("rails.tools")}</h3>
      <p class="quiet small">{t("rails.tools_more")}</p>
      <Straightedges room={room} />
      <StripsOnHand room={room} />
      {STRIP.filter((name) => !hasTold || name === "rails.strip.width").map((name) => <LengthSetting key={name} room={room} name={name} label={t(`tool.${name}`)} />)}
      <Wood room={room} />
      {HABITS.map((name) => <LengthSetting key={name} room={room} name={name} label={t(`tool.${name}`)} />)}
    </section>
  );
}
