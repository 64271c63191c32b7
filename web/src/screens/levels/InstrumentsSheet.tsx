/** The instruments known on this phone, and the tests that were made of them. */
import { useState } from "preact/hooks";
import { knownInstruments, mayWrite, newInstrument } from "../../state";
import type { Instrument } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { InstrumentForm } from "./InstrumentForm";
import { freshName, INSTRUMENT_KINDS } from "./names";
import { TestSheet } from "./TestSheet";
import type { TestKind } from "./tests";
import type { Work } from "./work";

interface SheetProps {
  readonly work: Work;
  readonly onClose: () => void;
}

function Known({ instruments, onChoose }: { instruments: readonly Instrument[]; onChoose: (instrument: Instrument) => void }) {
  return (
    <div class="stack tight">
      {instruments.map((instrument) => (
        <button key={instrument.id} type="button" class="value-button" data-testid="instrument" onClick={() => onChoose(instrument)}>
          <span>{t(`instrument.${instrument.kind}`)}</span><span class="given">{instrument.name}</span>
        </button>
      ))}
    </div>
  );
}

function New({ known, onChoose }: { known: readonly Instrument[]; onChoose: (instrument: Instrument) => void }) {
  return (
    <div class="choice many">
      {INSTRUMENT_KINDS.map((kind) => (
        <button key={kind} type="button" class="button" data-testid={`new-${kind}`} onClick={() => onChoose(newInstrument(kind, freshName(kind, known)))}>{t(`instrument.${kind}`)}</button>
      ))}
    </div>
  );
}

export function InstrumentsSheet({ work, onClose }: SheetProps) {
  const [opened, setOpened] = useState<Instrument | null>(null);
  const [test, setTest] = useState<TestKind | null>(null);
  const known = knownInstruments();
  const instrument = known.find(({ id }) => id === opened?.id) ?? opened;
  if (instrument && test) return <TestSheet work={work} instrument={instrument} kind={test} onClose={() => setTest(null)} />;
  if (instrument) return <InstrumentForm work={work} instrument={instrument} onTest={setTest} onClose={() => setOpened(null)} />;
  return (
    <Dialog title={t("instrument.title")} testid="instruments" onClose={onClose}>
      {known.length > 0 ? <Known instruments={known} onChoose={setOpened} /> : <p class="quiet">{t("instrument.none")}</p>}
      {mayWrite.value && <section class="stack tight"><h3>{t("instrument.new")}</h3><New known={known} onChoose={setOpened} /></section>}
    </Dialog>
  );
}
