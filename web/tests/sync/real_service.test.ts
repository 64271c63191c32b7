/** The phone's storage and sync against the service itself, over HTTP, where the project's Python is set up. */
import "fake-indexeddb/auto";
import { spawn, type ChildProcess } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Storage, type Standing } from "../../src/storage";
import { Office } from "../../src/sync";
import type { Edit, Role } from "../../src/wire";

const ROOT = join(import.meta.dirname, "..", "..", "..");
const PYTHON = join(ROOT, ".venv", "bin", "python");
const START_MS = 60_000;

let service: ChildProcess;
let folder: string;
let address = "";
let code = "";
const open: Phone[] = [];

/** A phone whose cookie jar holds one cookie, as a browser's would. */
class Phone {
  readonly storage = new Storage(`real-${crypto.randomUUID()}`);
  readonly office: Office;
  standing: Standing | null = null;
  phase = "";
  loseReplies = 0;
  isIn = false;
  #cookie = "";

  constructor() {
    open.push(this);
    this.storage.onStanding((standing) => (this.standing = standing));
    const http = (path: string, init: RequestInit) => this.#ask(path, init);
    this.office = new Office(this.storage, { http, isOnline: () => true, alone: (work) => work() });
    this.office.onPhase((phase) => (this.phase = phase));
  }

  async #ask(path: string, init: RequestInit): Promise<Response> {
    const headers = new Headers(init.headers);
    if (this.#cookie !== "") headers.set("cookie", this.#cookie);
    const response = await fetch(address + path, { ...init, headers });
    this.#cookie = response.headers.get("set-cookie")?.split(";")[0] ?? this.#cookie;
    if (this.loseReplies-- > 0) throw new TypeError("the reply was lost");
    return response;
  }

  /** The first phone joins with the code that the service printed, the others with codes that it makes for them. */
  async join(person: string): Promise<unknown> {
    const [boss] = open.filter((phone) => phone.isIn);
    const outcome = await this.office.join(boss ? await boss.codeFor(person) : code, person, "phone");
    this.isIn = outcome.outcome === "joined";
    await this.sync();
    return outcome;
  }

  async codeFor(name: string, role: Role = "foreman"): Promise<string> {
    const answer = await this.office.invite({ role, name });
    if (answer.outcome !== "done") throw new Error(`No code for ${name}: ${answer.message}`);
    return answer.invite.code;
  }

  async sync(): Promise<void> {
    await this.office.syncNow();
    this.office.close();
  }

  save(...edits: Edit[]): Promise<void> {
    return this.storage.write(edits, { undo: [] });
  }

  async shown(): Promise<Readonly<Record<string, unknown>>> {
    const { rows } = await this.storage.load();
    return Object.fromEntries(rows.map((row) => [row.id, row.fields]));
  }
}

/** The first line of the service's output that matches, or an error with all that it said. */
async function waitForLine(lines: AsyncIterable<string>, pattern: RegExp, said: string[]): Promise<string> {
  for await (const line of lines) {
    said.push(line);
    const found = pattern.exec(line)?.[1];
    if (found !== undefined) return found;
  }
  throw new Error(`The service ended without ${pattern.source}: ${said.join("\n")}`);
}

describe.skipIf(!existsSync(PYTHON))("against the service itself", () => {
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "evenbed-"));
    const env = { ...process.env, PYTHONPATH: join(ROOT, "server"), PYTHONUNBUFFERED: "1" };
    service = spawn(PYTHON, ["-m", "evenbed", "serve", "--port", "0", "--data", folder], { env });
    const said: string[] = [];
    service.stderr?.on("data", (data: Buffer) => said.push(data.toString()));
    if (service.stdout === null) throw new Error("The service has no output.");
    const lines = createInterface({ input: service.stdout })[Symbol.asyncIterator]();
    const rest = { [Symbol.asyncIterator]: () => ({ next: () => lines.next() }) };
    code = await waitForLine(rest, /Join code: (\S+)/, said);
    address = await waitForLine(rest, /(http:\S+)/, said);
  }, START_MS);

  afterAll(() => {
    for (const phone of open) {
      phone.office.close();
      phone.storage.close();
    }
    service.kill();
    rmSync(folder, { recursive: true, force: true });
  });

  test("a wrong code is refused, the right one joins", async () => {
    const phone = new Phone();
    expect(await phone.office.join("WRONG-CODE", "Ana", "phone")).toEqual({ outcome: "wrong_code" });
    expect(await phone.join("Ana")).toEqual({ outcome: "joined" });
    expect(phone.phase).toBe("idle");
  });

  test("a job, its room, its readings and an undo arrive whole at a second phone", async () => {
    const [first, second] = [new Phone(), new Phone()];
    const [jobId, roomId, wrong, right] = [uuidv7(), uuidv7(), uuidv7(), uuidv7()];
    await first.join("Ana");
    await first.save({ kind: "job", id: jobId, fields: { name: "Mill house", units: "imperial" } } as Edit);
    await first.save({ kind: "room", id: roomId, fields: roomFields(jobId) });
    const reading = { room_id: roomId, down: 300, at: [10, 20], taken_at: "2026-05-04T08:30:00Z", typed: "300" };
    await first.save({ kind: "reading", id: wrong, fields: reading } as Edit);
    await first.save({ kind: "reading", id: right, fields: { ...reading, down: 30, supersedes: wrong } } as Edit);
    await first.save({ kind: "room", id: roomId, fields: { "mix.sand": null } } as Edit);
    await first.save({ kind: "reading", id: right, fields: { deleted: true } });
    await first.sync();
    expect(first.standing?.refused).toEqual([]);
    expect(first.standing?.waiting).toBe(0);
    await second.join("Ben");
    expect(await second.shown()).toEqual(await first.shown());
    expect((await second.shown())[right]).toMatchObject({ down: 30, supersedes: wrong, deleted: true });
    expect((await second.shown())[roomId]).toMatchObject({ "mix.sand": null, "bed.minimum_thickness": 30 });
  });

  test("lost replies and repeated pushes take effect once, and history says who", async () => {
    const phone = new Phone();
    const id = uuidv7();
    await phone.join("Ana");
    for (const name of ["One", "Two", "Three"]) {
      await phone.save({ kind: "job", id, fields: { name } } as Edit);
      phone.loseReplies = 1;
      await phone.sync();
      expect(phone.phase).toBe("retrying");
    }
    await phone.sync();
    const history = await phone.office.historyOf("job", id);
    expect(history.entries.map((entry) => [entry.person, entry.fields])).toEqual([
      ["Ana", { name: "One" }],
      ["Ana", { name: "Two" }],
      ["Ana", { name: "Three" }],
    ]);
  });

  test("a refused change comes back with its reason and its value, and the rest goes on", async () => {
    const phone = new Phone();
    await phone.join("Ana");
    await phone.save({ kind: "room", id: uuidv7(), fields: { job_id: uuidv7(), name: "No job" } } as Edit);
    const id = uuidv7();
    await phone.save({ kind: "job", id, fields: { name: "Goes on" } } as Edit);
    await phone.sync();
    expect(phone.standing?.refused).toMatchObject([{ reason: "unknown_parent", fields: { name: "No job" } }]);
    expect(phone.standing?.waiting).toBe(0);
    expect((await phone.shown())[id]).toMatchObject({ name: "Goes on" });
  });

  test("more changes than one push or one page holds all arrive", async () => {
    const [first, second] = [new Phone(), new Phone()];
    await first.join("Ana");
    const edits = Array.from({ length: 1_203 }, (_, n) => ({ kind: "job", id: uuidv7(), fields: { name: `${n}` } }));
    await first.save(...(edits as Edit[]));
    await first.sync();
    expect(first.standing?.waiting).toBe(0);
    await second.join("Ben");
    const shown = await second.shown();
    expect(edits.filter(({ id }) => shown[id] === undefined)).toEqual([]);
  }, 60_000);
});

function roomFields(jobId: string): object {
  return {
    job_id: jobId,
    name: "Hall",
    outline: { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] },
    openings: [{ id: "d", wall: 0, from: 100, to: 900, exit: true }],
    "bed.minimum_thickness": 30,
    "bed.top": { kind: "level", height: null },
    "mix.sand": 4,
    typed: { "bed.minimum_thickness": "30 mm" },
  };
}
