/** The order, what it weighs and what it costs, by the package and by the batch; the mix and packages it follows from. */
import { useMemo } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { preferences, seesMoney } from "../../state";
import { massText, volumeText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { roomScene } from "../common/roomFigure";
import { withLayer } from "../common/layers";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { Link } from "../common/Link";
import { volumeRange } from "../common/ranges";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfOrder } from "../common/route";
import { useRoom, type RoomView } from "../common/useRoom";
import { LoadSection } from "./LoadSection";
import { MixFields } from "./MixFields";
import { OrderList } from "./OrderList";
import { QuoteSection } from "./QuoteSection";
import { SupplyFields } from "./SupplyFields";


function Batches({ plan }: { plan: Plan }) {
  const { mix } = plan;
  const { batch } = mix;
  return (
    <section class="stack tight">
      <h3>{t("batch.title")}</h3>
      <div class="figures">
        <Figure label={t("batch.count")} value={t("number", { value: mix.batches })} plan={plan} path="mix.batches" />
        <Figure label={t("batch.yield")} value={volumeText(mix.bag_yield, reader.value)} plan={plan} path="mix.bag_yield" />
      </div>
      <p data-testid="batch-recipe">{t(Math.abs(batch.bags - 1) < 1e-9 ? "batch.recipe_bag" : "batch.recipe", { bags: batch.bags, sand: batch.sand_loose, water: batch.water_to_add })}</p>
      <p class="quiet small">{t("batch.sand_water", { water: batch.water - batch.water_to_add })}</p>
    </section>
  );
}

function MaterialDrawing({ room }: { room: RoomView }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => ({ ...withLayer(roomScene(room.fields), room.plan, "thickness"), points: [] }), [room.fields, room.plan, language, units]);
  return <Drawing scene={scene} name="material" />;
}

export function Material({ id }: { id: string }) {
  const room = useRoom(id);
  if (!room) return <Missing />;
  const { plan } = room;
  return (
    <RoomFrame room={room} step="material" drawing={<MaterialDrawing room={room} />}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {plan ? (
          <>
            <div class="figures">
              <Figure label={t("bed.volume")} value={volumeText(plan.bed.volume, reader.value)} plan={plan} path="bed.volume" range={volumeRange(plan)} />
              <Figure label={t("bed.mass")} value={massText(plan.bed.mass, reader.value)} plan={plan} path="bed.mass" />
            </div>
            <OrderList plan={plan} />
            <Batches plan={plan} />
            <Cautions cautions={cautionsAt(plan, "materials", "mix")} />
            <LoadSection plan={plan} />
          </>
        ) : <NoPlan room={room} />}
        {seesMoney.value && <QuoteSection plan={plan} />}
        <Link to={pathOfOrder(room.fields.job_id ?? "")} class="button wide" testid="to-order">{t("order.job")}</Link>
        <MixFields room={room} />
        <SupplyFields room={room} />
      </div>
    </RoomFrame>
  );
}
