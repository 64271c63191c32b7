import { expect, test } from "vitest";
import { outcomeFrom, ScanReader } from "../../src/sync/scan_reader";
import type { ScanStep } from "../../src/wire";

const READ = '{"stage":"reading","done":0.5}\n{"stage":"reducing","done":1}\n{"readings":[],"report":{}}\n';

/** The network's side of a request: the test plays it. */
class PlayedRequest {
  upload = { onprogress: null as ((event: { loaded: number; total: number }) => void) | null };
  onprogress: (() => void) | null = null;
  onload: (() => void) | null = null;
  onerror: (() => void) | null = null;
  onabort: (() => void) | null = null;
  onloadend: (() => void) | null = null;
  responseText = "";
  opened = "";

  open(method: string, path: string): void {
    this.opened = `${method} ${path}`;
  }

  setRequestHeader(): void {
    // headers are the browser's to send
  }

  send(): void {
    // the test goes on from here
  }

  abort(): void {
    this.onabort?.();
    this.onloadend?.();
  }
}

function asking() {
  const request = new PlayedRequest();
  const steps: ScanStep[] = [];
  const ending = new AbortController();
  const wish = { stage: "bed", unit: "auto", placing: "corner", up: "y" } as const;
  const outcome = new ScanReader(() => request as unknown as XMLHttpRequest).read({ room: "r1", file: new Blob(["x"]), wish, onStep: (step) => steps.push(step), signal: ending.signal });
  return { request, steps, ending, outcome };
}

test("a scan is sent with its wishes, every step is told, and the last line is the answer", async () => {
  const { request, steps, outcome } = asking();
  expect(request.opened).toBe("POST /api/rooms/r1/scan?stage=bed&unit=auto&placing=corner&up=y");
  request.upload.onprogress?.({ loaded: 5, total: 10 });
  request.responseText = READ.slice(0, 40);
  request.onprogress?.();
  request.responseText = READ;
  request.onload?.();
  expect(await outcome).toEqual({ outcome: "read", reply: { readings: [], report: {} } });
  expect(steps).toEqual([{ stage: "sending", done: 0 }, { stage: "sending", done: 0.5 }, { stage: "reading", done: 0.5 }]);
});

test("the person ends it, or the network does", async () => {
  const stopped = asking();
  stopped.ending.abort();
  expect(await stopped.outcome).toEqual({ outcome: "stopped" });
  const lost = asking();
  lost.request.onerror?.();
  expect(await lost.outcome).toMatchObject({ outcome: "offline" });
});

test("the office's no comes in its own code, with what is wrong and where", () => {
  const no = '{"code":"scan_unreadable","detail":"It is no scan.","problems":[{"path":"line 3","code":"scan_not_a_number","message":"Expected"}]}';
  expect(outcomeFrom(no)).toMatchObject({ outcome: "scan_unreadable", message: "It is no scan.", problems: [{ path: "line 3" }] });
  expect(outcomeFrom(`{"stage":"reading","done":1}\n${no}\n`)).toMatchObject({ outcome: "scan_unreadable" });
});

test("an answer cut off on its way, or a page of something in between, is no answer of the office", () => {
  for (const text of ["", READ.slice(0, 60), "<html>sign in</html>", '{"stage":"reading","done":1}\n', '["readings"]\n']) {
    expect(outcomeFrom(text), text).toMatchObject({ outcome: "offline" });
  }
});
