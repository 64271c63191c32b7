/** The service itself in a process of its own, and whole phones that speak with it over HTTP. */
import "fake-indexeddb/auto";
import { spawn, type ChildProcess } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { Storage, type Standing } from "../../src/storage";
import { Office, type JoinOutcome } from "../../src/sync";
import type { Edit, Role, Row } from "../../src/wire";

const ROOT = join(import.meta.dirname, "..", "..", "..");
const PYTHON = join(ROOT, ".venv", "bin", "python");

/** False where the project's Python is not set up. */
export const hasService = existsSync(PYTHON);
export const START_MS = 60_000;

export class RealOffice {
  address = "";
  code = "";
  readonly phones: RealPhone[] = [];
  readonly #folder = mkdtempSync(join(tmpdir(), "evenbed-"));
  #service: ChildProcess | null = null;

  async start(): Promise<void> {
    const env = { ...process.env, PYTHONPATH: join(ROOT, "server"), PYTHONUNBUFFERED: "1" };
    const service = spawn(PYTHON, ["-m", "evenbed", "serve", "--port", "0", "--data", this.#folder], { env });
    this.#service = service;
    const said: string[] = [];
    service.stderr.on("data", (data: Buffer) => said.push(data.toString()));
    const lines = createInterface({ input: service.stdout })[Symbol.asyncIterator]();
    const rest = { [Symbol.asyncIterator]: () => ({ next: () => lines.next() }) };
    this.code = await waitForLine(rest, /Join code: (\S+)/, said);
    this.address = await waitForLine(rest, /(http:\S+)/, said);
  }

  stop(): void {
    for (const phone of this.phones) phone.close();
    this.#service?.kill();
    rmSync(this.#folder, { recursive: true, force: true });
  }

  phone(): RealPhone {
    const phone = new RealPhone(this);
    this.phones.push(phone);
    return phone;
  }

  /** A phone that joined: the first with the code that the service printed, the others with codes it makes for them. */
  async joined(person: string, role: Role = "foreman"): Promise<RealPhone> {
    const boss = this.phones.find((phone) => phone.isBoss);
    const phone = this.phone();
    phone.isBoss = boss === undefined;
    const outcome = await phone.join(boss ? await boss.codeFor(person, role) : this.code, person);
    if (outcome.outcome !== "joined") throw new Error(`${person} did not join: ${outcome.outcome}`);
    return phone;
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

/** A phone whose cookie jar holds one cookie, as a browser's would. */
export class RealPhone {
  readonly storage = new Storage(`real-${crypto.randomUUID()}`);
  readonly office: Office;
  standing: Standing | null = null;
  phase = "";
  loseReplies = 0;
  isBoss = false;
  #cookie = "";

  constructor(readonly home: RealOffice) {
    this.storage.onStanding((standing) => (this.standing = standing));
    const http = (path: string, init: RequestInit) => this.ask(path, init);
    this.office = new Office(this.storage, { http, isOnline: () => true, alone: (work) => work() });
    this.office.onPhase((phase) => (this.phase = phase));
  }

  async ask(path: string, init: RequestInit = {}): Promise<Response> {
    const headers = new Headers(init.headers);
    if (this.#cookie !== "") headers.set("cookie", this.#cookie);
    const response = await fetch(this.home.address + path, { ...init, headers });
    this.#cookie = response.headers.get("set-cookie")?.split(";")[0] ?? this.#cookie;
    if (this.loseReplies-- > 0) throw new TypeError("the reply was lost");
    return response;
  }

  async join(code: string, person: string): Promise<JoinOutcome> {
    const outcome = await this.office.join(code, person, "phone");
    await this.sync();
    return outcome;
  }

  async codeFor(name: string, role: Role): Promise<string> {
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

  async rows(): Promise<readonly Row[]> {
    return (await this.storage.load()).rows;
  }

  async row(id: string): Promise<Row | undefined> {
    return (await this.rows()).find((row) => row.id === id);
  }

  async shown(): Promise<Readonly<Record<string, unknown>>> {
    return Object.fromEntries((await this.rows()).map((row) => [row.id, row.fields]));
  }

  close(): void {
    this.office.close();
    this.storage.close();
  }
}
