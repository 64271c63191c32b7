/** Packages, laps and waste of what the bed is built of besides its mortar: a room's own, before the company's. */
import { editRoom } from "../../state";
import { t, told } from "../../words";
import { Link } from "../common/Link";
import { saved } from "../common/saving";
import { heldForAll, measureOf, namesOf, storedFrom, supplyText, unitOf, type SupplyName } from "../common/supplyFields";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";

const ALWAYS = ["perimeter_strip", "bond_coat", "tile"] as const;
const UNBONDED = ["membrane", "reinforcement", ...ALWAYS] as const;

function SupplySetting({ room, name }: { room: RoomView; name: SupplyName }) {
  const own = room.fields[name] ?? null;
  const unit = unitOf(name);
  const keep = (value: number | null, typed?: string) => {
    const kept = typed === undefined ? {} : { typed: { ...room.fields.typed, [name]: typed } };
    void saved(editRoom(room.id, { [name]: value, ...kept }));
  };
  return (
    <ValueField
      name={`${room.id}:${name}`} label={t(`named.supplies.${name}`)} shown={supplyText(name, own ?? heldForAll(name, room.fields))} measure={measureOf(name)}
      note={unit === null ? t("supplies.room") : t("supplies.room_in", { unit })} isChanged={own !== null} onReset={() => keep(null)}
      onValue={(value, typed) => keep(storedFrom(name, value), typed)}
    />
  );
}

/** A bonded bed has neither membrane nor reinforcement. */
export function SupplyFields({ room }: { room: RoomView }) {
  const items = room.fields["bed.build"] === "bonded" ? ALWAYS : UNBONDED;
  return (
    <section class="stack tight" data-testid="supplies">
      <h3>{t("supplies.title")}</h3>
      <p class="quiet small">{t("supplies.more")}</p>
      {items.map((item) => (
        <details key={item} class="fold" data-testid={`supplies-${item}`}>
          <summary>{told("item", item, {}, item)}</summary>
          <div class="stack tight">{namesOf(item).map((name) => <SupplySetting key={name} room={room} name={name} />)}</div>
        </details>
      ))}
      <Link to="/prices" class="button plain wide" testid="to-prices-from-supplies">{t("supplies.for_all")}</Link>
    </section>
  );
}
