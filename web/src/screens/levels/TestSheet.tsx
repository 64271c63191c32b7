/** A test of an instrument, one reading after the other; what it found is told at once, and a person decides. */
import { useState } from "preact/hooks";
import { addCheck, clearDraft } from "../../state";
import { lengthText } from "../../units";
import type { Instrument } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Entry } from "../common/Entry";
import { formOf } from "../common/form";
import { saved } from "../common/saving";
import { foundText, TEST_STEPS, testFrom, type Answers, type TestKind, type TestStep } from "./tests";
import type { Work } from "./work";

interface TestProps {
  readonly work: Work;
  readonly instrument: Instrument;
  readonly kind: TestKind;
  readonly onClose: () => void;
}

function Given({ steps, answers, onAgain }: { steps: readonly TestStep[]; answers: Answers; onAgain: (name: string) => void }) {
  return (
    <div class="given-answers">
      {steps.filter(({ name }) => answers[name]).map(({ name, label }) => (
        <button key={name} type="button" class="value-button" data-testid="test-given" onClick={() => onAgain(name)}>
          <span>{t(label)}</span><span class="given">{lengthText(answers[name]?.mm ?? 0, reader.value)}</span>
        </button>
      ))}
    </div>
  );
}

function Found({ work, instrument, kind, answers, draft, onClose }: TestProps & { readonly answers: Answers; readonly draft: string }) {
  const found = testFrom(kind, answers);
  if (!found) return <p class="caution" role="status" data-testid="test-untold">{t(`test.${kind}.untold`)}</p>;
  const keep = (accepted: boolean) => {
    const check = { ...found, instrument: instrument.id, accepted };
    void saved(addCheck(work.room.id, check, instrument, work.standing, { draft })).then((isSaved) => { if (isSaved) onClose(); });
  };
  return (
    <>
      <p class="found" role="status" data-testid="test-found">{foundText(found)}</p>
      <p>{t("test.ask")}</p>
      <div class="row even">
        <button type="button" class="button main" data-testid="test-accept" onClick={() => keep(true)}>{t("test.accept")}</button>
        <button type="button" class="button" data-testid="test-note" onClick={() => keep(false)}>{t("test.note")}</button>
      </div>
      <p class="quiet small">{t(kind === "rod" ? "test.rod_more" : "test.line_more")}</p>
    </>
  );
}

export function TestSheet(props: TestProps) {
  const { work, instrument, kind, onClose } = props;
  const [again, setAgain] = useState<string | null>(null);
  const form = formOf<Answers>(`test:${work.room.id}:${instrument.id}:${kind}`, {});
  const steps = TEST_STEPS[kind];
  const step = steps.find(({ name }) => name === again) ?? steps.find(({ name }) => !form.values[name]);
  const draft = `${form.draft}:${step?.name ?? ""}`;
  const done = (mm: number, typed: string) => {
    if (step) form.set({ [step.name]: { mm, typed } });
    void saved(clearDraft(draft));
    setAgain(null);
  };
  return (
    <Dialog title={t(`test.${kind}`)} testid="test" onClose={onClose}>
      {!step && <Found {...props} answers={form.values} draft={form.draft} />}
      <Given steps={steps.filter((one) => one !== step)} answers={form.values} onAgain={setAgain} />
      {step && <>
        <p class="quiet small">{t(`test.${kind}.how`)}</p>
        <Entry key={step.name} what={t(step.label)} draft={draft} measure="length" signed={step.signed} goesOn={step.isReading} nextLabel={t("keys.next")} onDone={done} />
      </>}
    </Dialog>
  );
}
