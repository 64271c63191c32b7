/** A new set-up, or what is known of one that stands: the instrument, its name, and where on the floor it stands. */
import { beginSetup, changeSetup, clearDraft, FIRST_SETUP, knownInstruments, newInstrument, removeSetup, type Row } from "../../state";
import type { Place } from "../../drawing/camera";
import type { Instrument, Setup } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { formOf } from "../common/form";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import { freshName, INSTRUMENT_KINDS, setupName } from "./names";
import { PickPlace } from "./PickPlace";
import type { Work } from "./work";

interface FormProps {
  readonly work: Work;
  /** Null for a new one. */
  readonly setup: Setup | null;
  readonly onClose: () => void;
}

interface Values {
  /** An instrument's id, or `new:laser` and the like. */
  readonly instrument: string;
  readonly at: Place | null;
}

/** Instruments of this room first, then those of others on the phone. */
function offered(work: Work): readonly Instrument[] {
  const own = work.room.fields.instruments ?? [];
  const others = knownInstruments().filter(({ id }) => !own.some((one) => one.id === id));
  return [...own, ...others];
}

function chosenInstrument(chosen: string, known: readonly Instrument[]): Instrument {
  const found = known.find(({ id }) => id === chosen);
  const kind = INSTRUMENT_KINDS.find((one) => chosen === `new:${one}`) ?? "laser";
  return found ?? newInstrument(kind, freshName(kind, known));
}

function InstrumentChoice({ known, value, canStep, onChoose }: { known: readonly Instrument[]; value: string; canStep: boolean; onChoose: (value: string) => void }) {
  const kinds = INSTRUMENT_KINDS.filter((kind) => canStep || kind !== "straightedge");
  const options = [
    ...known.filter(({ kind }) => canStep || kind !== "straightedge").map(({ id, name }) => ({ value: id, label: name })),
    ...kinds.map((kind) => ({ value: `new:${kind}`, label: t("instrument.new_kind", { kind: t(`instrument.${kind}`) }) })),
  ];
  return <Choice label={t("setup.instrument")} name="setup-instrument" options={options} value={value} onChoose={onChoose} />;
}

function Remove({ work, setup, onClose }: FormProps & { readonly setup: Setup }) {
  const isRead = work.room.readings.some(({ fields }: Row<"reading">) => (fields.setup ?? FIRST_SETUP) === setup.id);
  const remove = () => void saved(removeSetup(work.room.id, setup.id)).then((isSaved) => { if (isSaved) onClose(); });
  return isRead ? null : <button type="button" class="button danger wide" data-testid="remove-setup" onClick={remove}>{t("remove")}</button>;
}

export function SetupForm({ work, setup, onClose }: FormProps) {
  const { room } = work;
  const known = offered(work);
  const key = `setup-form:${room.id}:${setup?.id ?? "new"}`;
  const form = formOf<Values>(key, { instrument: setup?.instrument ?? known[0]?.id ?? `new:${setup?.kind ?? "laser"}`, at: setup?.at ?? null });
  const nameDraft = `${key}:name`;
  const instrument = chosenInstrument(form.values.instrument, known);
  const keep = () => {
    const name = typedIn(nameDraft, setup?.name).trim();
    const given = { instrument, name, ...(form.values.at ? { at: form.values.at } : {}) };
    const kept = setup ? changeSetup(room.id, setup.id, given, { draft: key }) : beginSetup(room.id, given, { draft: key });
    void saved(kept.then(() => clearDraft(nameDraft))).then((isSaved) => { if (isSaved) onClose(); });
  };
  const isStood = instrument.kind === "laser" || instrument.kind === "optical";
  return (
    <Dialog title={setup ? setupName(room, setup.id) : t("setup.new")} testid="setup-form" onClose={onClose}>
      <InstrumentChoice known={known} value={form.values.instrument} canStep={setup === null} onChoose={(chosen) => form.set({ instrument: chosen })} />
      {isStood && <PickPlace room={room} at={form.values.at} onPick={(at) => form.set({ at })} />}
      {instrument.kind !== "straightedge" && <TextField label={t("setup.name")} draft={nameDraft} testid="setup-name" otherwise={setup?.name ?? ""} />}
      {instrument.kind === "straightedge" && <p class="quiet">{t("laying.how")}</p>}
      <button type="button" class="button main wide" data-testid="keep-setup" onClick={keep}>{t(setup ? "keep" : "setup.begin")}</button>
      {setup && <Remove work={work} setup={setup} onClose={onClose} />}
    </Dialog>
  );
}
