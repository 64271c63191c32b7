/** A scan on its way: the file, how it may be read, how far the office has come with it, and what it made of it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { readScan } from "../../state";
import type { ScanOutcome, ScanStep, ScanWish } from "../../wire";
import type { Found } from "../tables/found";

export interface Scan {
  readonly wish: ScanWish;
  readonly setWish: (changed: Partial<ScanWish>) => void;
  readonly file: File | null;
  /** Null while nothing is on its way. */
  readonly step: ScanStep | null;
  readonly outcome: ScanOutcome | null;
  readonly found: readonly Found[];
  readonly read: (file: File) => void;
  readonly stop: () => void;
}

const AT_FIRST: ScanWish = { stage: "subfloor", unit: "auto", placing: "as_it_is", up: "z" };

function foundFrom(outcome: ScanOutcome): readonly Found[] {
  if (outcome.outcome !== "read") return [];
  const { readings, report: { stage } } = outcome.reply;
  return readings.map(({ at: [x = 0, y = 0], z }) => ({ at: [x, y], z, down: null, note: "", stage, outside: false }));
}

export function useScan(room: string): Scan {
  const [wish, setWish] = useState(AT_FIRST);
  const [file, setFile] = useState<File | null>(null);
  const [step, setStep] = useState<ScanStep | null>(null);
  const [ended, setEnded] = useState<{ readonly outcome: ScanOutcome; readonly found: readonly Found[] } | null>(null);
  const stopping = useRef<AbortController | null>(null);
  const stop = () => stopping.current?.abort();
  useEffect(() => stop, []);
  const read = (chosen: File) => {
    stop();
    const ending = new AbortController();
    stopping.current = ending;
    setFile(chosen);
    setEnded(null);
    const told = (next: ScanStep) => { if (stopping.current === ending) setStep(next); };
    void readScan(room, chosen, wish, told, ending.signal).then((outcome) => {
      if (stopping.current !== ending) return;
      setStep(null);
      setEnded({ outcome, found: foundFrom(outcome) });
    });
  };
  return { wish, setWish: (changed) => setWish({ ...wish, ...changed }), file, step, outcome: ended?.outcome ?? null, found: ended?.found ?? [], read, stop };
}
