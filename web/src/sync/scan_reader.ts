/**
 * A scan sent to the office and its answer read line by line. By XMLHttpRequest, which alone tells how far a sending has
 * come; nothing is kept on the phone, and nothing waits: without the office there is no scan.
 */
import type { ProblemCode, ScanItem, ScanOutcome, ScanReply, ScanStep, ScanWish } from "../wire";

export interface AskedScan {
  readonly room: string;
  readonly file: Blob;
  readonly wish: ScanWish;
  readonly onStep: (step: ScanStep) => void;
  readonly signal: AbortSignal;
}

type Line = ScanStep | ScanReply | { readonly code: ProblemCode; readonly detail?: string; readonly problems?: readonly ScanItem[] };

const OFFLINE: ScanOutcome = { outcome: "offline", message: "", problems: [] };

export class ScanReader {
  constructor(readonly makeRequest: () => XMLHttpRequest = () => new XMLHttpRequest()) {}

  /** Never rejects: the outcome says how it ended. */
  read(asked: AskedScan): Promise<ScanOutcome> {
    return new Promise((end) => {
      const request = this.makeRequest();
      request.open("POST", pathOf(asked));
      request.setRequestHeader("content-type", "application/octet-stream");
      listen(request, asked, end);
      asked.onStep({ stage: "sending", done: 0 });
      request.send(asked.file);
    });
  }
}

function listen(request: XMLHttpRequest, { onStep, signal }: AskedScan, end: (outcome: ScanOutcome) => void): void {
  const stop = () => request.abort();
  signal.addEventListener("abort", stop);
  request.upload.onprogress = ({ loaded, total }) => onStep({ stage: "sending", done: total > 0 ? loaded / total : 0 });
  request.onprogress = () => {
    const step = linesOf(request.responseText).filter((line) => "stage" in line).at(-1);
    if (step) onStep(step);
  };
  request.onload = () => end(outcomeFrom(request.responseText));
  request.onerror = () => end(OFFLINE);
  request.onabort = () => end({ outcome: "stopped" });
  request.onloadend = () => signal.removeEventListener("abort", stop);
}

function pathOf({ room, wish }: AskedScan): string {
  const { stage, unit, placing, up } = wish;
  return `/api/rooms/${encodeURIComponent(room)}/scan?stage=${stage}&unit=${unit}&placing=${placing}&up=${up}`;
}

/** The whole lines that have arrived; one that is no answer of ours counts as none. */
function linesOf(text: string): readonly Line[] {
  return text.split("\n").slice(0, -1).flatMap(lineFrom);
}

function lineFrom(text: string): readonly Line[] {
  try {
    const line: unknown = JSON.parse(text);
    return typeof line === "object" && line !== null && ("stage" in line || "readings" in line || "code" in line) ? [line as Line] : [];
  } catch (error) {
    if (error instanceof SyntaxError) return [];
    throw error;
  }
}

/** How it ended: by the last line. An answer cut off on its way, or of something in between, is no answer of the office. */
export function outcomeFrom(text: string): ScanOutcome {
  const last = linesOf(`${text}\n`).at(-1);
  if (last && "readings" in last) return { outcome: "read", reply: last };
  if (last && "code" in last) return { outcome: last.code, message: last.detail ?? "", problems: last.problems ?? [] };
  return OFFLINE;
}
