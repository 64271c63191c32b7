/** The service as the phone sees it: one function a request. Every way a request can end has its own error or reply. */
import {
  PAGE,
  PROTOCOL,
  type CalendarMade,
  type CalendarState,
  type Change,
  type ForetoldDay,
  type HistoryEntry,
  type Invite,
  type Invited,
  type JoinReply,
  type JoinRequest,
  type JobHistoryReply,
  type Kind,
  type KnownPerson,
  type PullReply,
  type PushReply,
  type Role,
  type SessionReply,
} from "../wire";

/** How requests leave the phone: `fetch`, or a test's double of the network. */
export type Http = (path: string, init: RequestInit) => Promise<Response>;

/** A reply that is not a success, by its stable code (RFC 9457). */
export class ProblemReply extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    readonly body: Readonly<Record<string, unknown>>,
  ) {
    super(`The service answered ${status} ${code}`);
    this.name = "ProblemReply";
  }

  /** False for an error of something in between, a proxy's say. */
  get isOfTheService(): boolean {
    return typeof this.body["code"] === "string";
  }

  /** What the service says about it, in English. */
  get detail(): string {
    const { detail } = this.body;
    return typeof detail === "string" ? detail : this.message;
  }
}

/** No reply came: no network, or it was lost on the way. Whether the service acted is unknown. */
export class NoReply extends Error {
  constructor(options?: ErrorOptions) {
    super("The service did not answer", options);
    this.name = "NoReply";
  }
}

/** How long to wait for a reply. A push of 500 changes over one bar of signal takes its time. */
const REPLY_WAIT_MS = 45_000;

export class Service {
  constructor(readonly http: Http) {}

  join(request: JoinRequest): Promise<JoinReply> {
    return this.#post("/api/join", request);
  }

  session(): Promise<SessionReply> {
    return this.#ask("/api/session", { method: "GET" });
  }

  /** This device leaves: from then on it is a stranger to the service. */
  leave(): Promise<unknown> {
    return this.#ask("/api/session", { method: "DELETE" });
  }

  push(changes: readonly Change[]): Promise<PushReply> {
    return this.#post("/api/push", { protocol: PROTOCOL, changes, device_time: new Date().toISOString() });
  }

  pull({ after, view }: { readonly after: number; readonly view: number }): Promise<PullReply> {
    return this.#ask(`/api/pull?after=${after}&limit=${PAGE}&view=${view}`, { method: "GET" });
  }

  async historyOf(kind: Kind, id: string): Promise<readonly HistoryEntry[]> {
    const path = `/api/records/${kind}/${encodeURIComponent(id)}/history`;
    const reply = await this.#ask<{ entries: readonly HistoryEntry[] }>(path, { method: "GET" });
    return reply.entries;
  }

  jobHistory(jobId: string, after: number): Promise<JobHistoryReply> {
    return this.#ask(`/api/jobs/${encodeURIComponent(jobId)}/history?after=${after}&limit=${PAGE}`, { method: "GET" });
  }

  async people(): Promise<readonly KnownPerson[]> {
    const reply = await this.#ask<{ people: readonly KnownPerson[] }>("/api/people", { method: "GET" });
    return reply.people;
  }

  invite(who: Invited): Promise<Invite> {
    return this.#post("/api/invites", "personId" in who ? { person_id: who.personId } : who);
  }

  editPerson(id: string, edit: { readonly name?: string; readonly role?: Role }): Promise<unknown> {
    return this.#tell("PATCH", `/api/people/${encodeURIComponent(id)}`, edit);
  }

  renameDevice(id: string, name: string): Promise<unknown> {
    return this.#tell("PATCH", `/api/devices/${encodeURIComponent(id)}`, { name });
  }

  removeDevice(id: string): Promise<unknown> {
    return this.#ask(`/api/devices/${encodeURIComponent(id)}`, { method: "DELETE" });
  }

  calendar(): Promise<CalendarState> {
    return this.#ask("/api/calendar", { method: "GET" });
  }

  makeCalendar(language: "en" | "es", zone: string): Promise<CalendarMade> {
    return this.#post("/api/calendar", { language, zone });
  }

  revokeCalendar(): Promise<unknown> {
    return this.#ask("/api/calendar", { method: "DELETE" });
  }

  forecast(jobId: string): Promise<{ readonly days: readonly ForetoldDay[] }> {
    return this.#ask(`/api/jobs/${encodeURIComponent(jobId)}/forecast`, { method: "POST" });
  }

  #post<T>(path: string, body: unknown): Promise<T> {
    return this.#tell<T>("POST", path, body);
  }

  #tell<T>(method: string, path: string, body: unknown): Promise<T> {
    const headers = { "content-type": "application/json" };
    return this.#ask(path, { method, headers, body: JSON.stringify(body) });
  }

  async #ask<T>(path: string, init: RequestInit): Promise<T> {
    const response = await this.#send(path, init);
    const body = await bodyOf(response);
    if (!response.ok) throw problemFrom(response.status, body);
    return body as T;
  }

  async #send(path: string, init: RequestInit): Promise<Response> {
    try {
      return await this.http(path, { ...init, signal: AbortSignal.timeout(REPLY_WAIT_MS) });
    } catch (error) {
      throw new NoReply({ cause: error });
    }
  }
}

/** A reply cut off on its way, or a sign-in page of some other network, is no reply of the service. */
export async function bodyOf(response: Response): Promise<unknown> {
  try {
    return (await response.json()) as unknown;
  } catch (error) {
    if (response.ok) throw new NoReply({ cause: error });
    return {};
  }
}

export function problemFrom(status: number, body: unknown): ProblemReply {
  const fields = typeof body === "object" && body !== null ? { ...body } : {};
  const code = (fields as { code?: unknown }).code;
  return new ProblemReply(status, typeof code === "string" ? code : `http_${status}`, fields);
}
