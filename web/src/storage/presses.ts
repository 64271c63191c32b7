/**
 * The last key press of each draft, kept at once: the database takes a moment, and a tab may be closed or start anew
 * within it. Each stands here only until the database has it.
 */
export class Presses {
  readonly #prefix: string;
  readonly #shelf: globalThis.Storage | null;

  constructor(name: string) {
    this.#prefix = `${name}:press:`;
    this.#shelf = shelf();
  }

  /** Where this browser has no room for it, the earlier press goes too: an old number must not come back as the last. */
  keep(key: string, text: string): void {
    try {
      this.#shelf?.setItem(this.#prefix + key, text);
    } catch {
      this.#shelf?.removeItem(this.#prefix + key);
    }
  }

  /** The database has `text` under `key`, or the draft was used (`text` null): a later press stays. */
  settle(key: string, text: string | null): void {
    const kept = this.#shelf?.getItem(this.#prefix + key);
    if (text === null || kept === text) this.#shelf?.removeItem(this.#prefix + key);
  }

  all(): ReadonlyMap<string, string> {
    const found = new Map<string, string>();
    for (let at = 0; at < (this.#shelf?.length ?? 0); at += 1) {
      const name = this.#shelf?.key(at);
      const text = name?.startsWith(this.#prefix) ? this.#shelf?.getItem(name) : null;
      if (name && typeof text === "string") found.set(name.slice(this.#prefix.length), text);
    }
    return found;
  }
}

/** Null where there is none: outside a browser, or where the person forbids it. */
function shelf(): globalThis.Storage | null {
  try {
    return typeof localStorage === "undefined" ? null : localStorage;
  } catch {
    return null;
  }
}
