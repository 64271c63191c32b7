/** A page worth pinning to a stud: the drawing, the shims, the filling, the order, the waiting. Seen on paper only. */
import { PaperSheet } from "../../drawing/Sheet";
import type { ScenePoint } from "../../drawing/scene";
import { jobOf, setStationsOf } from "../../state";
import { depthText, heightText, loadText, massText, momentText, volumeText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { roomScene } from "../common/roomFigure";
import { heightPoints, sceneRails, withLayer } from "../common/layers";
import { amountText, itemName, quantityText } from "../common/materials";
import { cautionText } from "../common/plan";
import { basisText, milestoneName, whenText } from "../common/readiness";
import type { RoomView } from "../common/useRoom";
import { ShimTable } from "../rails/ShimTable";

const PAPER = { width: 680, height: 430 };
const SMALL = { width: 320, height: 150 };

function Facts({ plan }: { plan: Plan }) {
  const { thickness, volume, mass, load, top } = plan.bed;
  const rows = [
    [t("bed.top"), heightText(top[0]?.a ?? 0, reader.value)],
    [t("bed.thinnest"), depthText(thickness.min, reader.value)],
    [t("bed.mean"), depthText(thickness.mean, reader.value)],
    [t("bed.thickest"), depthText(thickness.max, reader.value)],
    [t("bed.volume"), volumeText(volume, reader.value)],
    [t("bed.mass"), massText(mass, reader.value)],
    [t("print.load_mean"), loadText(load.mean, reader.value)],
    [t("print.load_max"), loadText(load.max, reader.value)],
  ] as const;
  return <dl class="paper-facts">{rows.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}</dl>;
}

function Order({ plan }: { plan: Plan }) {
  return (
    <table class="shims">
      <caption>{t("print.order")}</caption>
      <tbody>{plan.materials.map((item) => <tr key={item.item}><th scope="row">{itemName(item)}</th><td>{amountText(item)}</td><td>{quantityText(item)}</td></tr>)}</tbody>
    </table>
  );
}

/** The sections with their numbers, and what each takes, in the order they are filled. */
function Fill({ room, plan }: { room: RoomView; plan: Plan }) {
  const scene = withLayer(roomScene(room.fields), plan, "sections");
  const sections = [...plan.sections].sort((a, b) => a.order - b.order);
  return (
    <>
      <table class="shims">
        <caption>{t("step.filling")}</caption>
        <tbody>{sections.map((section) => <tr key={section.id}><th scope="row">{section.order}</th><td>{t("filling.batches", { batches: section.batches })}</td><td>{volumeText(section.volume, reader.value)}</td></tr>)}</tbody>
      </table>
      <div class="paper-sections"><PaperSheet scene={scene} window={SMALL} name="paper-sections" margin={8} /></div>
    </>
  );
}

function Times({ plan }: { plan: Plan }) {
  return (
    <table class="shims times">
      <caption>{t("step.waiting")}</caption>
      <tbody>{plan.readiness.map((row) => <tr key={row.milestone}><th scope="row">{milestoneName(row)}</th><td>{whenText(row)}</td><td>{basisText(row)}</td></tr>)}</tbody>
    </table>
  );
}

/** High and low spot alone, without their heights: the shims need the room on paper. */
function governing(plan: Plan): readonly ScenePoint[] {
  return heightPoints(plan).filter(({ kind }) => kind === "high" || kind === "low").map((point) => ({ ...point, label: "" }));
}

function Paper({ room, plan }: { room: RoomView; plan: Plan }) {
  const set = setStationsOf(room.id, plan.rails);
  const scene = { ...roomScene(room.fields), points: governing(plan), rails: sceneRails(plan.rails, new Map(), null) };
  return (
    <>
      <PaperSheet scene={scene} window={PAPER} name="paper" />
      <Facts plan={plan} />
      <div class="paper-shims"><ShimTable plan={plan} set={set} /></div>
      <div class="paper-tables"><Fill room={room} plan={plan} /><Order plan={plan} /></div>
      <Times plan={plan} />
      <ul class="paper-cautions">{plan.cautions.map((caution, index) => <li key={index}>{cautionText(caution)}</li>)}</ul>
      <p class="quiet small">{t("print.engine", { version: plan.engine.version, hash: plan.engine.hash.slice(0, 12) })}</p>
    </>
  );
}

export function PrintSheet({ room }: { room: RoomView }) {
  const job = jobOf(room.fields.job_id ?? "")?.fields;
  return (
    <article class="print-only paper" aria-hidden="true">
      <header><h1>{room.fields.name}</h1><p>{t("print.head", { job: job?.name ?? "", place: job?.place ?? "", at: momentText(new Date().toISOString(), reader.value) })}</p></header>
      {room.plan ? <Paper room={room} plan={room.plan} /> : <p>{t("print.nothing")}</p>}
    </article>
  );
}
