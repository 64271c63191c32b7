/** The phone's side of the office: joins it, and keeps exchanging with it, one round at a time, one tab at a time. */
import type { Answer, ForetoldDay, History, Invite, Invited, JoinReply, Kind, People, Role } from "../wire";
import { StorageError, type Storage, type StoredHistory } from "../storage";
import { answered, joinOutcomeFrom, type JoinOutcome } from "./answers";
import { waitFromFailures } from "./backoff";
import { Round, type RoundOutcome } from "./round";
import { NoReply, ProblemReply, Service, type Http } from "./service";

export type Phase =
  | "not_joined"
  | "idle"
  | "syncing"
  | "offline"
  | "retrying"
  | "update_needed"
  | "only_looks"
  | "full";

/** What the live stream says: the newest number among what this person sees, and the view it is counted in. */
export interface Told {
  readonly latest: number;
  readonly view: number;
}

/** What the office needs of the place it runs in. */
export interface Surroundings {
  readonly http: Http;
  isOnline(): boolean;
  /** Runs the work while no other tab does the same. */
  alone<T>(work: () => Promise<T>): Promise<T>;
}

export class Office {
  readonly #service: Service;
  readonly #onPhase = new Set<(phase: Phase) => void>();
  #running: Promise<void> | null = null;
  #again = false;
  #told: Told | null = null;
  #knowsWho = false;
  #failures = 0;
  #retry: ReturnType<typeof setTimeout> | null = null;

  constructor(
    readonly storage: Storage,
    readonly around: Surroundings,
  ) {
    this.#service = new Service(around.http);
  }

  onPhase(listener: (phase: Phase) => void): void {
    this.#onPhase.add(listener);
  }

  /** `person` may be empty: only a code that does not say who it is for needs it. */
  async join(code: string, person: string, deviceName: string): Promise<JoinOutcome> {
    try {
      await this.#join({ code, device_name: deviceName, ...(person === "" ? {} : { person }) });
    } catch (error) {
      return joinOutcomeFrom(error);
    }
    void this.syncNow();
    return { outcome: "joined" };
  }

  /** A device that is somebody else's at the office takes a new identity here, and tries once more with the same code. */
  async #join(asked: { readonly code: string; readonly device_name: string; readonly person?: string }): Promise<void> {
    const attempt = async () => {
      const { deviceId } = await this.storage.account();
      await this.#joined(await this.#service.join({ ...asked, device_id: deviceId }), asked.device_name);
    };
    try {
      await attempt();
    } catch (error) {
      if (!(error instanceof ProblemReply && error.code === "device_taken")) throw error;
      await this.storage.takeNewIdentity();
      await attempt();
    }
  }

  async #joined(reply: JoinReply, deviceName: string): Promise<void> {
    const { device_id: deviceId, person_id: personId, person, role } = reply;
    await this.storage.adoptDatabase(reply.database);
    await this.storage.noteWho(
      { deviceId, personId, person, role },
      { deviceName, joined: true, mustJoinAgain: false, removed: false },
    );
    this.#knowsWho = true;
  }

  /**
   * Stops sending, and takes the phone off the office's list where the office can be reached. Everything stays on this
   * phone, and goes out after joining again. Where the office says no, the phone stays joined. A round that is under way
   * ends first: it must not take the office's no for a removal.
   */
  leave(): Promise<Answer> {
    return this.around.alone(() => this.#leave());
  }

  async #leave(): Promise<Answer> {
    const answer = await answered(this.#service.leave().then(() => ({})));
    const isStranger = answer.outcome === "not_joined" || answer.outcome === "device_removed";
    if (answer.outcome !== "done" && answer.outcome !== "offline" && !isStranger) return answer;
    await this.storage.updateAccount({ joined: false, mustJoinAgain: false, removed: false, role: null });
    this.#tell("not_joined");
    return isStranger ? { outcome: "done" } : answer;
  }

  /** From the service, and kept; or without it the last one kept. */
  async historyOf(kind: Kind, id: string): Promise<History> {
    try {
      const told = { entries: await this.#service.historyOf(kind, id), at: now() };
      await this.#keepHistory({ kind, id, ...told });
      return { ...told, fresh: true };
    } catch (error) {
      if (error instanceof ProblemReply && error.code === "not_found") return { entries: [], at: now(), fresh: true };
      if (!(error instanceof NoReply || error instanceof ProblemReply)) throw error;
      const kept = await this.storage.historyKept(kind, id);
      return { entries: kept?.entries ?? [], at: kept?.at ?? null, fresh: false };
    }
  }

  /** A phone that is too full to keep it shows it all the same. */
  async #keepHistory(history: StoredHistory): Promise<void> {
    try {
      await this.storage.keepHistory(history);
    } catch (error) {
      if (!(error instanceof StorageError && error.reason === "full")) throw error;
    }
  }

  people(): Promise<Answer<{ people: People }>> {
    return answered(this.#people());
  }

  async #people(): Promise<{ people: People }> {
    const people = { list: await this.#service.people(), at: now() };
    await this.storage.keepPeople(people);
    return { people };
  }

  invite(who: Invited): Promise<Answer<{ invite: Invite }>> {
    return answered(this.#service.invite(who).then((invite) => ({ invite })));
  }

  editPerson(id: string, edit: { readonly name?: string; readonly role?: Role }): Promise<Answer> {
    return answered(this.#andAskWho(this.#service.editPerson(id, edit)));
  }

  renameDevice(id: string, name: string): Promise<Answer> {
    return answered(this.#andAskWho(this.#service.renameDevice(id, name)));
  }

  /** A phone that removes itself finds out at once. */
  removeDevice(id: string): Promise<Answer> {
    return answered(this.#andAskWho(this.#service.removeDevice(id)));
  }

  calendar(): Promise<Answer<{ madeAt: string | null }>> {
    return answered(this.#service.calendar().then(({ made_at: madeAt }) => ({ madeAt })));
  }

  makeCalendar(language: "en" | "es", zone: string): Promise<Answer<{ path: string; madeAt: string }>> {
    return answered(this.#service.makeCalendar(language, zone).then(({ path, made_at: madeAt }) => ({ path, madeAt })));
  }

  revokeCalendar(): Promise<Answer> {
    return answered(this.#service.revokeCalendar().then(() => ({})));
  }

  forecast(jobId: string): Promise<Answer<{ days: readonly ForetoldDay[] }>> {
    return answered(this.#service.forecast(jobId));
  }

  /** It may have been this phone or its person: the next round asks again whose it is. */
  async #andAskWho(work: Promise<unknown>): Promise<object> {
    await work;
    this.#knowsWho = false;
    void this.syncNow();
    return {};
  }

  /** The live stream spoke. Where this phone, perhaps by another tab, has it already, nothing is asked. */
  heard(told: Told): void {
    this.#told = told;
    this.#running ??= this.#runAll();
  }

  /** Something was saved here: sends it, unless a retry after a failure is due anyway. */
  nudge(): void {
    if (this.#retry === null) void this.syncNow();
  }

  /** One round now; a call during a round brings another round after it. Never rejects: the phase says how it ended. */
  syncNow(): Promise<void> {
    this.#again = true;
    this.#running ??= this.#runAll();
    return this.#running;
  }

  /** Nothing may come between the last look and the end, or a call in that moment would wait for a round that is over. */
  async #runAll(): Promise<void> {
    try {
      while (this.#again || this.#told !== null) {
        if (this.#again) await this.#runOnce(() => Promise.resolve(true));
        else await this.#runOnce(this.#isBehind(this.#told));
      }
    } finally {
      this.#running = null;
    }
  }

  /** Asked once it is this tab's turn: another one's round may have brought what the stream told. */
  #isBehind(told: Told | null): () => Promise<boolean> {
    return async () => {
      const { cursor, view } = await this.storage.account();
      return told !== null && (told.latest > cursor || told.view !== view);
    };
  }

  async #runOnce(isWanted: () => Promise<boolean>): Promise<void> {
    [this.#again, this.#told] = [false, this.#again ? this.#told : null];
    try {
      const outcome = await this.around.alone(async () => ((await isWanted()) ? this.#round() : null));
      if (outcome === null) return;
      this.#failures = 0;
      this.#tell(outcome === "done" ? "idle" : outcome);
    } catch (error) {
      this.#failed(error);
    }
  }

  async #round(): Promise<RoundOutcome> {
    this.#cancelRetry();
    const { joined } = await this.storage.account();
    if (joined) this.#tell("syncing");
    const outcome = await new Round(this.storage, this.#service, this.#knowsWho).run();
    this.#knowsWho = outcome === "done" || outcome === "only_looks";
    return outcome;
  }

  /** Whatever the cause, nothing is lost: all of it is still in the queue. Whose phone it is may have gone unasked. */
  #failed(error: unknown): void {
    if (!(error instanceof NoReply || error instanceof ProblemReply)) console.error(error);
    this.#failures += 1;
    this.#knowsWho = false;
    this.#told = null;
    this.#tell(this.around.isOnline() ? "retrying" : "offline");
    this.#retry = setTimeout(() => void this.syncNow(), waitFromFailures(this.#failures, Math.random()));
  }

  #cancelRetry(): void {
    if (this.#retry !== null) clearTimeout(this.#retry);
    this.#retry = null;
  }

  #tell(phase: Phase): void {
    for (const listener of this.#onPhase) listener(phase);
  }

  /** No more retries by itself. */
  close(): void {
    this.#cancelRetry();
  }
}

function now(): string {
  return new Date().toISOString();
}
