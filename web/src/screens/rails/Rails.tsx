/** Setting the rails, one station at a time: the shim in giant figures, where it is, what comes next. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { preferences, setStation, setStationsOf, unsetStation, type SetStation } from "../../state";
import { depthText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Figure } from "../common/Figure";
import { bareScene } from "../common/roomFigure";
import { sceneRails } from "../common/layers";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { RoomFrame } from "../common/RoomFrame";
import { saved } from "../common/saving";
import { useAwake } from "../common/useAwake";
import { useRoom, type RoomView } from "../common/useRoom";
import { RailTools } from "./RailTools";
import { ShimDialog } from "./ShimTable";
import { afterwards, inHand, standingsOf, type Standing } from "./stations";

interface HandProps {
  readonly room: RoomView;
  readonly plan: Plan;
  readonly standings: readonly Standing[];
  readonly set: ReadonlyMap<string, SetStation>;
  readonly hand: Standing;
  readonly onChoose: (key: string | null) => void;
}

function Shim({ plan, hand }: { plan: Plan; hand: Standing }) {
  const { shim, along } = hand.station;
  const rail = plan.rails.indexOf(hand.rail);
  return (
    <>
      <Figure size="giant" label={t("rails.shim")} value={depthText(shim, reader.value)} plan={plan} path={`rails[${rail}].stations[${hand.index}].shim`} />
      <p class="where" data-testid="station-where">{t("rails.where", { rail: hand.rail.id, station: hand.index + 1, of: hand.rail.stations.length, along })}</p>
      {shim < 0 && <p class="caution">{t("rails.too_thick", { by: -shim })}</p>}
    </>
  );
}

function Hand({ room, plan, standings, set, hand, onChoose }: HandProps) {
  const before = set.get(hand.key);
  const isSet = before !== undefined;
  const next = afterwards(standings, set, hand.key);
  const at = standings.indexOf(hand);
  const step = (way: number) => onChoose(standings[(at + way + standings.length) % standings.length]?.key ?? null);
  const mark = () => {
    const { at: place, shim } = hand.station;
    const kept = before ? unsetStation(before) : setStation(room.id, { rail: hand.rail.id, at: [place[0], place[1]], shim });
    void saved(kept).then((isSaved) => { if (isSaved) onChoose(isSet ? hand.key : null); });
  };
  return (
    <div class="hand">
      <Shim plan={plan} hand={hand} />
      <p class="quiet next-line" data-testid="station-next">
        {next ? t("rails.next", { rail: next.rail.id, station: next.index + 1, shim: next.station.shim }) : t("rails.last")}
      </p>
      <div class="row set-row">
        <button type="button" class="button icon" aria-label={t("rails.before")} data-testid="station-before" onClick={() => step(-1)}>{"\u2039"}</button>
        <button type="button" class={isSet ? "button" : "button main"} data-testid="station-set" onClick={mark}>{isSet ? t("rails.unset") : t("rails.set")}</button>
        <button type="button" class="button icon" aria-label={t("rails.after")} data-testid="station-after" onClick={() => step(1)}>{"\u203a"}</button>
      </div>
    </div>
  );
}

function RailsDrawing({ room, set, current, onChoose }: { room: RoomView; set: ReadonlyMap<string, SetStation>; current: string | null; onChoose: (key: string) => void }) {
  const { language, units } = preferences.value;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const rails = room.plan ? sceneRails(room.plan.rails, set, current) : [];
  const touch = rails.flatMap((rail) => rail.stations.map((station, index) => ({ id: `${rail.id}:${index}`, at: station.at })));
  return <Drawing scene={{ ...bare, rails }} name="rails" onOpen={onChoose} touch={touch} />;
}

export function Rails({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const [chosen, setChosen] = useState<string | null>(null);
  const [showing, setShowing] = useState<"table" | "tools" | "know" | null>(null);
  const plan = room?.plan ?? null;
  const standings = useMemo(() => standingsOf(plan?.rails ?? []), [plan]);
  const set = setStationsOf(id, plan?.rails ?? []);
  if (!room) return <Missing />;
  const cautions = plan ? cautionsAt(plan, "rails") : [];
  const hand = inHand(standings, set, chosen);
  return (
    <RoomFrame room={room} step="rails" still="thumb" drawing={<RailsDrawing room={room} set={set} current={hand?.key ?? null} onChoose={setChosen} />}>
      {!plan && <><PlanNotes state={room.state} /><NoPlan room={room} /></>}
      {plan && hand && <Hand room={room} plan={plan} standings={standings} set={set} hand={hand} onChoose={setChosen} />}
      {plan && !hand && <p class="notice good" data-testid="rails-done">{standings.length > 0 ? t("rails.all_set") : t("rails.none")}</p>}
      <div class="row even">
        <button type="button" class="button" data-testid="shim-table" disabled={!plan} onClick={() => setShowing("table")}>{t("rails.table")}</button>
        {cautions.length > 0 && <button type="button" class="button warns" data-testid="rail-cautions" onClick={() => setShowing("know")}>{t("rails.know", { count: cautions.length })}</button>}
        <button type="button" class="button" data-testid="rail-tools" onClick={() => setShowing("tools")}>{t("rails.tools")}</button>
      </div>
      {showing === "table" && plan && <ShimDialog plan={plan} set={set} onChoose={(key) => { setChosen(key); setShowing(null); }} onClose={() => setShowing(null)} />}
      {showing === "know" && <Dialog title={t("rails.know_title")} testid="rails-know" onClose={() => setShowing(null)}><Cautions cautions={cautions} /></Dialog>}
      {showing === "tools" && <RailTools room={room} onClose={() => setShowing(null)} />}
    </RoomFrame>
  );
}
