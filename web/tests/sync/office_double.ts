/**
 * A double of the other end of the wire: the service's side of push and pull as the protocol says it, in memory, and a
 * line that can lose requests and replies. It stands for the outside; nothing of the phone is replaced.
 */
import { PROTOCOL, type AnyFields, type Change, type Conflicts, type JoinRequest, type Kind, type Role } from "../../src/wire";

interface Logged {
  readonly sequence: number;
  readonly device: string;
  readonly change: Change;
}

interface Known {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: AnyFields;
  readonly sequence: number;
  readonly conflicts: Conflicts;
}

/** The service's truth: a log. Everything else is made from it. */
export class OfficeDouble {
  database = crypto.randomUUID();
  log: readonly Logged[] = [];
  clockAheadMs = 0;
  protocol = PROTOCOL;
  removed = new Set<string>();
  /** Device ids that are somebody else's already. */
  readonly taken = new Set<string>();
  asksForName = false;
  isLastForeman = false;
  role: Role = "foreman";
  personId = crypto.randomUUID();
  view = 1;
  /** Records that this person does not see, by record id; change it with `view`. */
  hidden: ReadonlySet<string> = new Set();
  /** Answers with its own status to everything, as a proxy in between does. */
  broken: number | null = null;
  /** Changes that something in between lets pass in one push, where it lets no larger one. */
  mostInPush = Infinity;
  code = "RIGHT-CODE";
  /** Records whose changes are refused, by record id. */
  readonly unwanted = new Set<string>();
  /** A change that this service cannot even read, by record id. */
  readonly unreadable = new Set<string>();
  pageSize = 500;
  /** What lost, by record id, as a merge would have kept it. */
  readonly conflictsOf = new Map<string, Conflicts>();

  /** A copy of the database as a backup would hold it; give it to `restore`. */
  backup(): readonly Logged[] {
    return this.log;
  }

  restore(log: readonly Logged[]): void {
    const kept = new Set(log.map(({ change }) => change.change_id));
    const lost = new Set(this.log.map(({ change }) => change.change_id).filter((id) => !kept.has(id)));
    for (const [key, id] of [...this.#numbers]) if (lost.has(id)) this.#numbers.delete(key);
    this.log = log;
    this.database = crypto.randomUUID();
  }

  get records(): readonly Known[] {
    const known = new Map<string, Known>();
    for (const { change, sequence } of this.log) {
      const key = `${change.kind}/${change.record_id}`;
      const fields = { ...known.get(key)?.fields, ...change.fields };
      known.delete(key);
      const conflicts = this.conflictsOf.get(change.record_id) ?? {};
      known.set(key, { kind: change.kind, id: change.record_id, fields, sequence, conflicts });
    }
    return [...known.values()];
  }

  fieldsOf(id: string): AnyFields | undefined {
    return this.records.find((record) => record.id === id)?.fields;
  }

  /** How often a change took effect: never more than once, or the service is wrong. */
  timesApplied(changeId: string): number {
    return this.log.filter(({ change }) => change.change_id === changeId).length;
  }

  answer(device: string | null, method: string, path: string, body: unknown): Response {
    if (method === "POST" && path === "/api/join") return this.#join(body as JoinRequest);
    if (this.broken !== null) return new Response("<html>Gateway</html>", { status: this.broken });
    if (device === null) return problem(401, "not_joined");
    if (this.removed.has(device)) return problem(401, "device_removed");
    if (method === "DELETE" && path === "/api/session") return this.#leave(device);
    if (path === "/api/session") return this.#reply({ device_id: device, device_name: "phone", ...this.#who() });
    if (path.startsWith("/api/push") && this.role === "viewer") return problem(403, "viewer_only_looks");
    if (path.startsWith("/api/push") && (body as { changes: Change[] }).changes.length > this.mostInPush) {
      return new Response("<html>Too large</html>", { status: 413 });
    }
    if (path.startsWith("/api/push")) return this.#push(device, body as { protocol: number; changes: Change[] });
    if (path.startsWith("/api/pull")) return this.#pull(new URL(path, "http://office"));
    return problem(404, "not_found");
  }

  #join({ code, device_id, person }: JoinRequest): Response {
    if (code !== this.code) return problem(403, "wrong_code");
    if (this.asksForName && person === undefined) return problem(422, "name_needed");
    if (this.taken.has(device_id)) return problem(409, "device_taken");
    this.removed.delete(device_id);
    return this.#reply({ device_id, token: "t", ...this.#who() });
  }

  #who() {
    return { person_id: this.personId, person: "Ana", role: this.role, view: this.view };
  }

  #leave(device: string): Response {
    if (this.isLastForeman) return problem(409, "last_foreman");
    this.removed.add(device);
    return this.#reply({ id: device });
  }

  #push(device: string, { protocol, changes }: { protocol: number; changes: Change[] }): Response {
    if (protocol > this.protocol) return problem(426, "update_needed");
    if (changes.some((change) => this.unreadable.has(change.record_id))) return problem(422, "malformed");
    const results = [];
    const before = { log: this.log, numbers: new Map(this.#numbers) };
    for (const change of changes) {
      const seen = this.#seenAs(device, change.number);
      const expected = this.#highest(device) + 1;
      if (seen !== undefined && seen !== change.change_id) return this.#undo(before, problem(409, "device_forked"));
      if (seen === undefined && change.number !== expected) return this.#undo(before, problem(409, "gap", { expected }));
      results.push(this.#take(device, change, seen !== undefined));
    }
    return this.#reply({ latest: this.#latest(), results });
  }

  readonly #numbers = new Map<string, string>();

  #undo(before: { log: readonly Logged[]; numbers: Map<string, string> }, response: Response): Response {
    this.log = before.log;
    this.#numbers.clear();
    for (const [key, value] of before.numbers) this.#numbers.set(key, value);
    return response;
  }

  #seenAs(device: string, number: number): string | undefined {
    const logged = this.log.find((entry) => entry.device === device && entry.change.number === number);
    return logged?.change.change_id ?? this.#numbers.get(`${device}/${number}`);
  }

  #highest(device: string): number {
    const logged = this.log.filter((entry) => entry.device === device).map((entry) => entry.change.number);
    const refused = [...this.#numbers.keys()].filter((key) => key.startsWith(`${device}/`));
    return Math.max(0, ...logged, ...refused.map((key) => Number(key.split("/")[1])));
  }

  #latest(): number {
    return this.log.at(-1)?.sequence ?? 0;
  }

  #take(device: string, change: Change, isSeen: boolean) {
    const result = { number: change.number, change_id: change.change_id, reason: null, message: null, sequence: null };
    this.#numbers.set(`${device}/${change.number}`, change.change_id);
    if (this.unwanted.has(change.record_id)) {
      return { ...result, outcome: "refused", reason: "bad_value", message: "No." };
    }
    const known = this.log.find((entry) => entry.change.change_id === change.change_id);
    if (isSeen || known) return { ...result, outcome: "already_applied", sequence: known?.sequence ?? null };
    const sequence = this.#latest() + 1;
    this.log = [...this.log, { sequence, device, change }];
    return { ...result, outcome: "applied", sequence };
  }

  #pull(url: URL): Response {
    const isSnapshot = Number(url.searchParams.get("view")) !== this.view;
    const after = isSnapshot ? 0 : Number(url.searchParams.get("after"));
    const newer = this.records.filter((record) => record.sequence > after && !this.hidden.has(record.id));
    const page = newer.slice(0, this.pageSize);
    const more = newer.length > page.length;
    const next = more ? (page.at(-1)?.sequence ?? after) : this.#latest();
    return this.#reply({ protocol: 1, latest: this.#latest(), view: this.view, more, next, records: page });
  }

  #reply(body: object): Response {
    const server_time = new Date(Date.now() + this.clockAheadMs).toISOString();
    return Response.json({ database: this.database, server_time, ...body });
  }
}

function problem(status: number, code: string, more: object = {}): Response {
  return Response.json({ type: code, title: code, status, code, detail: `About ${code}.`, ...more }, { status });
}

export type Fault = "none" | "request lost" | "reply lost" | "sent twice" | "sign-in page";

/** One phone's line to the office: carries its identity like the cookie does, and breaks as told. */
export class Line {
  faults: Fault[] = [];
  device: string | null = null;
  readonly asked: string[] = [];

  constructor(readonly office: OfficeDouble) {}

  http = async (path: string, init: RequestInit): Promise<Response> => {
    await Promise.resolve();
    const fault = this.faults.shift() ?? "none";
    const body = typeof init.body === "string" ? (JSON.parse(init.body) as unknown) : null;
    if (fault === "request lost") throw new TypeError("network");
    if (fault === "sign-in page") return new Response("<html>Welcome to the hotel</html>");
    const answer = this.#deliver(path, init, body);
    if (fault === "reply lost") throw new TypeError("network");
    return fault === "sent twice" ? this.#deliver(path, init, body) : answer;
  };

  #deliver(path: string, init: RequestInit, body: unknown): Response {
    this.asked.push(path.split("?")[0] ?? "");
    const response = this.office.answer(this.device, init.method ?? "GET", path, body);
    if (path === "/api/join" && response.ok) this.device = (body as { device_id: string }).device_id;
    return response;
  }
}
