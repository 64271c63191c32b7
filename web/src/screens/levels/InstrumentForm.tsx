/** One instrument: its name, how far a reading of it may be out, its tests, and the way to test it now. */
import { acceptCheck, clearDraft, keepInstrument, mayWrite, USUAL_ERRORS } from "../../state";
import { momentText, numberText } from "../../units";
import type { Instrument, InstrumentCheck } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import { ValueField } from "../common/ValueField";
import { foundText, testsFor, type TestKind } from "./tests";
import type { Work } from "./work";

interface FormProps {
  readonly work: Work;
  readonly instrument: Instrument;
  readonly onTest: (kind: TestKind) => void;
  readonly onClose: () => void;
}

type Error = "sigma" | "sigma_per_metre";

function ErrorField({ work, instrument, name }: Omit<FormProps, "onTest" | "onClose"> & { readonly name: Error }) {
  const usual = USUAL_ERRORS[instrument.kind][name];
  const value = instrument[name] ?? usual;
  const keep = (mm: number) => void saved(keepInstrument(work.room.id, { ...instrument, [name]: mm }));
  return (
    <ValueField
      name={`${instrument.id}:${name}`} label={t(`instrument.${name}`)} note={t("instrument.error_more")} measure="number"
      shown={`${numberText(value, 2, reader.value.language)}\u202fmm`} isChanged={value !== usual} onReset={() => keep(usual)} onValue={keep}
    />
  );
}

function Check({ work, check }: { work: Work; check: InstrumentCheck }) {
  const { room } = work;
  const readings = room.plan?.levels.instruments.find((one) => one.check === check.id)?.readings ?? 0;
  return (
    <li class="set-up" data-testid="instrument-check">
      <div>
        <strong>{foundText(check)}</strong>
        <p class="quiet">{t(`test.${check.kind}`)} · {momentText(check.at, reader.value)}</p>
        <p class="quiet" data-testid="check-effect">{check.accepted ? t("test.taken_off", { readings }) : t("test.only_noted")}</p>
      </div>
      {mayWrite.value && <button type="button" class="button wide" data-testid="toggle-check" onClick={() => void saved(acceptCheck(room.id, check, !check.accepted))}>{t(check.accepted ? "test.leave" : "test.accept")}</button>}
    </li>
  );
}

export function InstrumentForm(props: FormProps) {
  const { work, instrument, onTest, onClose } = props;
  const draft = `instrument-name:${instrument.id}`;
  const checks = (work.room.fields.instrument_checks ?? []).filter((check) => check.instrument === instrument.id);
  const keep = () => {
    const name = typedIn(draft, instrument.name).trim() || instrument.name;
    void saved(keepInstrument(work.room.id, { ...instrument, name }).then(() => clearDraft(draft))).then((isSaved) => { if (isSaved) onClose(); });
  };
  const test = (kind: TestKind) => void saved(keepInstrument(work.room.id, instrument)).then((isSaved) => { if (isSaved) onTest(kind); });
  return (
    <Dialog title={instrument.name} testid="instrument-form" onClose={onClose}>
      <TextField label={t("instrument.name")} draft={draft} testid="instrument-name" otherwise={instrument.name} />
      <ErrorField {...props} name="sigma" />
      {instrument.kind !== "water_level" && <ErrorField {...props} name="sigma_per_metre" />}
      <ul class="lines">{[...checks].reverse().map((check) => <Check key={check.id} work={work} check={check} />)}</ul>
      {mayWrite.value && <>
        <div class="row even">
          {testsFor(instrument.kind).map((kind) => <button key={kind} type="button" class="button" data-testid={`test-${kind}`} onClick={() => test(kind)}>{t(`test.${kind}`)}</button>)}
        </div>
        <button type="button" class="button main wide" data-testid="keep-instrument" onClick={keep}>{t("keep")}</button>
      </>}
    </Dialog>
  );
}
