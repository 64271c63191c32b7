/**
 * One round of exchange: what waits is pushed in order, then everything new is pulled. Each step leaves the phone's
 * database whole, so a round may end anywhere: the next one goes on from there.
 */
import { PAGE, type Change } from "../wire";
import { StorageError, type QueuedChange, type Storage } from "../storage";
import { fetchPasts } from "./pasts";
import { ProblemReply, type Service } from "./service";

/** only_looks: a viewer has changes waiting, which may not be sent. full: what the service told does not fit here. */
export type RoundOutcome = "done" | "not_joined" | "update_needed" | "only_looks" | "full";

/** How often one round may give its queue new numbers before it stops and waits for the next occasion. */
const MOST_GAPS = 3;

export class Round {
  /** Changes in the next push: fewer where a batch did not get through, one where the service could not read it. */
  #batch = PAGE;
  #gaps = 0;
  #onlyLooks = false;

  /** `knowsWho`: the service said lately whose phone this is; it is asked again when what the person sees changes. */
  constructor(
    readonly storage: Storage,
    readonly service: Service,
    readonly knowsWho = true,
  ) {}

  async run(): Promise<RoundOutcome> {
    if (!(await this.storage.account()).joined) return "not_joined";
    try {
      if (!this.knowsWho) await this.#askWho();
      await this.#exchange();
      await fetchPasts(this.storage, this.service);
      if (!this.#onlyLooks) await this.storage.updateAccount({ lastSentAt: new Date().toISOString() });
    } catch (error) {
      return await this.#outcomeOf(error);
    }
    return this.#onlyLooks ? "only_looks" : "done";
  }

  async #exchange(): Promise<void> {
    if (!(await this.storage.hasHeld())) await this.#pushAll();
    await this.#pullAll();
    if (!(await this.storage.hasHeld())) return;
    await this.storage.offerHeld();
    await this.#exchange();
  }

  async #pushAll(): Promise<void> {
    for (;;) {
      const changes = await this.storage.waiting(this.#batch);
      if (changes.length === 0 || (await this.#mayOnlyLook())) return;
      await this.#push(changes);
    }
  }

  async #push(changes: readonly QueuedChange[]): Promise<void> {
    try {
      const reply = await this.service.push(changes.map(changeFromQueued));
      await this.#note(reply);
      await this.storage.settlePush(reply);
    } catch (error) {
      await this.#answerRefusal(error, changes);
    }
  }

  /** Only refusals that the phone can answer itself end here; the others go up. */
  async #answerRefusal(error: unknown, changes: readonly QueuedChange[]): Promise<void> {
    if (!(error instanceof ProblemReply)) throw error;
    if (!error.isOfTheService) this.#sendFewer(error, changes);
    else if (error.code === "viewer_only_looks") await this.#lookOnly();
    else if (error.code === "gap" && this.#gaps < MOST_GAPS) await this.#closeGap(error, changes);
    else if (error.status === 413 || error.status === 422) await this.#isolate(error, changes);
    else throw error;
  }

  /** Something in between lets no batch so large pass: half of it may. It judges no change, and says nothing else here. */
  #sendFewer(error: ProblemReply, changes: readonly QueuedChange[]): void {
    if (error.status !== 413 || changes.length === 1) throw error;
    this.#batch = Math.ceil(changes.length / 2);
  }

  /**
   * The service lacks numbers that are no longer held here: it was restored from a backup. The queue goes on from the
   * number it awaits. A service that awaits a higher number than the lowest sent contradicts itself: try again later.
   */
  async #closeGap(error: ProblemReply, changes: readonly QueuedChange[]): Promise<void> {
    this.#gaps += 1;
    const expected = Number(error.body["expected"]);
    if (!(expected >= 1 && expected < (changes[0]?.number ?? 0))) throw error;
    await this.#note(await this.service.session());
    await this.storage.continueFrom(expected);
  }

  /** A batch that the service cannot read is sent one by one; the change it cannot read is kept for the person. */
  async #isolate(error: ProblemReply, changes: readonly QueuedChange[]): Promise<void> {
    const [only] = changes;
    if (changes.length > 1) this.#batch = 1;
    else if (only !== undefined) await this.storage.refuse(only, error.code, error.detail);
  }

  /** A viewer's changes go on waiting, and the news come all the same. Whether they still are one is asked each round. */
  async #mayOnlyLook(): Promise<boolean> {
    if (this.#onlyLooks) return true;
    if ((await this.storage.account()).role !== "viewer") return false;
    await this.#askWho();
    this.#onlyLooks = (await this.storage.account()).role === "viewer";
    return this.#onlyLooks;
  }

  async #lookOnly(): Promise<void> {
    await this.#askWho();
    this.#onlyLooks = true;
  }

  async #pullAll(): Promise<void> {
    for (;;) {
      const { cursor, view } = await this.storage.account();
      const asked = { after: cursor, view };
      const page = await this.service.pull(asked);
      if (await this.#note(page)) continue;
      const isTaken = await this.storage.takePage(asked, page);
      if (isTaken && page.view !== view) await this.#askWho();
      if (isTaken && !page.more) return;
    }
  }

  async #askWho(): Promise<void> {
    const told = await this.service.session();
    await this.#note(told);
    const who = { deviceId: told.device_id, personId: told.person_id, person: told.person, role: told.role };
    await this.storage.noteWho(who, { deviceName: told.device_name });
  }

  /** Measures the clock's offset and watches the database's identity. True where the identity changed. */
  async #note(reply: { readonly database: string; readonly server_time: string }): Promise<boolean> {
    const clockOffsetMs = Date.parse(reply.server_time) - Date.now();
    const account = await this.storage.account();
    await this.storage.updateAccount({ clockOffsetMs });
    if (account.database === reply.database) return false;
    await this.storage.adoptDatabase(reply.database);
    return account.database !== null;
  }

  async #outcomeOf(error: unknown): Promise<RoundOutcome> {
    if (error instanceof StorageError && error.reason === "full") return "full";
    if (!(error instanceof ProblemReply && error.isOfTheService)) throw error;
    if (error.code === "device_forked") await this.storage.takeNewIdentity();
    else if (error.status === 401) await this.#mustJoinAgain(error.code === "device_removed");
    else if (error.status === 426) return "update_needed";
    else throw error;
    return "not_joined";
  }

  #mustJoinAgain(removed: boolean): Promise<void> {
    return this.storage.updateAccount({ joined: false, mustJoinAgain: true, removed });
  }
}

function changeFromQueued({ acked: _acked, ...change }: QueuedChange): Change {
  return change;
}
