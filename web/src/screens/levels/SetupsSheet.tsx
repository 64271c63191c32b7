/** Every set-up of the room: how high its line lies and how surely, whether it is tied, and which one is read from. */
import { useState } from "preact/hooks";
import { documentSetup, FIRST_SETUP, mayWrite, standAt } from "../../state";
import type { Setup } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { saved } from "../common/saving";
import { FitSection } from "./FitSection";
import { instrumentIn, setupName } from "./names";
import { SetupForm } from "./SetupForm";
import type { Work } from "./work";

interface SheetProps {
  readonly work: Work;
  readonly onClose: () => void;
}

/** How high its line lies, or what is wanting before that can be told. */
function lineText({ room, tied }: Work, id: string): string {
  const count = room.readings.filter(({ fields }) => (fields.setup ?? FIRST_SETUP) === id).length;
  if (count === 0) return t("setup.unread");
  if (!tied.has(id)) return t("setup.untied");
  const found = room.plan?.levels.setups.find((one) => one.id === documentSetup(id));
  if (found?.line_height == null) return t("setup.readings", { count });
  return t(found.sigma ? "setup.line" : "setup.line_sure", { height: found.line_height, sigma: found.sigma ?? 0, count });
}

function SetupLine({ work, setup, onChange, onClose }: SheetProps & { readonly setup: Setup; readonly onChange: () => void }) {
  const { room, standing, tied } = work;
  const isHere = "setup" in standing && standing.setup === setup.id;
  const isUntied = room.readings.length > 0 && !tied.has(setup.id);
  const stand = () => void saved(standAt(room.id, { setup: setup.id })).then(onClose);
  return (
    <li class={isHere ? "set-up here" : "set-up"} data-testid="setup">
      <div><strong>{setupName(room, setup.id)}</strong><p class={isUntied ? "untied" : "quiet"} data-testid="setup-line">{lineText(work, setup.id)}</p></div>
      {mayWrite.value && (
        <div class="row even">
          <button type="button" class="button" data-testid="stand-setup" aria-pressed={isHere} onClick={stand}>{t(isHere ? "setup.here" : "setup.stand")}</button>
          <button type="button" class="button" data-testid="change-setup" onClick={onChange}>{t("change")}</button>
        </div>
      )}
    </li>
  );
}

/** The layings of one long level, together: each is a set-up of its own, and nobody stands there again. */
function Layings({ work, instrument, layings, onClose }: SheetProps & { readonly instrument: string; readonly layings: readonly Setup[] }) {
  const { room, standing, tied } = work;
  const isHere = "laying" in standing && standing.laying === instrument;
  const untied = layings.filter(({ id }) => !tied.has(id)).length;
  const name = instrumentIn(room.fields, instrument)?.name ?? t("instrument.straightedge");
  const stand = () => void saved(standAt(room.id, { laying: instrument })).then(onClose);
  return (
    <li class={isHere ? "set-up here" : "set-up"} data-testid="setup">
      <div><strong>{t("setup.stepped", { instrument: name })}</strong><p class={untied > 0 ? "untied" : "quiet"} data-testid="setup-line">{untied > 0 ? t("setup.layings_untied", { untied }) : t("setup.layings", { count: layings.length })}</p></div>
      {mayWrite.value && <button type="button" class="button wide" data-testid="stand-setup" aria-pressed={isHere} onClick={stand}>{t(isHere ? "setup.here_laying" : "setup.lay")}</button>}
    </li>
  );
}

function laidWith({ setups, standing }: Work): ReadonlyMap<string, readonly Setup[]> {
  const laid = setups.filter(({ kind }) => kind === "straightedge");
  const ids = new Set([...laid.map(({ instrument }) => instrument ?? ""), ...("laying" in standing ? [standing.laying] : [])]);
  return new Map([...ids].map((id) => [id, laid.filter(({ instrument }) => (instrument ?? "") === id)]));
}

export function SetupsSheet({ work, onClose }: SheetProps) {
  const [changing, setChanging] = useState<Setup | "new" | null>(null);
  const stood = work.setups.filter(({ kind }) => kind !== "straightedge");
  if (changing) return <SetupForm work={work} setup={changing === "new" ? null : changing} onClose={() => (changing === "new" ? onClose() : setChanging(null))} />;
  return (
    <Dialog title={t("setup.title")} testid="setups" onClose={onClose}>
      <ul class="lines">
        {stood.map((setup) => <SetupLine key={setup.id} work={work} setup={setup} onChange={() => setChanging(setup)} onClose={onClose} />)}
        {[...laidWith(work)].map(([instrument, layings]) => <Layings key={instrument} work={work} instrument={instrument} layings={layings} onClose={onClose} />)}
      </ul>
      {mayWrite.value && <button type="button" class="button main wide" data-testid="new-setup" onClick={() => setChanging("new")}>{t("setup.new")}</button>}
      <p class="quiet small">{t("setup.more")}</p>
      <FitSection work={work} />
    </Dialog>
  );
}
