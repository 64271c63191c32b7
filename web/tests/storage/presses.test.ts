import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Storage } from "../../src/storage";

/** The browser's own small shelf, which Node lacks. */
class Shelf {
  readonly #kept = new Map<string, string>();
  isFull = false;
  get length(): number {
    return this.#kept.size;
  }
  key(at: number): string | null {
    return [...this.#kept.keys()][at] ?? null;
  }
  getItem(name: string): string | null {
    return this.#kept.get(name) ?? null;
  }
  setItem(name: string, text: string): void {
    if (this.isFull) throw new DOMException("full", "QuotaExceededError");
    this.#kept.set(name, text);
  }
  removeItem(name: string): void {
    this.#kept.delete(name);
  }
}

let name: string;
let shelf: Shelf;

beforeEach(() => {
  name = `presses-${crypto.randomUUID()}`;
  shelf = new Shelf();
  vi.stubGlobal("localStorage", shelf);
});
afterEach(() => vi.unstubAllGlobals());

async function drafts(): Promise<unknown> {
  const again = new Storage(name);
  const { drafts: found } = await again.load();
  again.close();
  return found;
}

test("a tab that ends before the database has the last key press loses none", async () => {
  const storage = new Storage(name);
  await storage.saveDraft("reading", "4");
  storage.close();
  await expect(storage.saveDraft("reading", "41")).rejects.toThrow();
  expect(await drafts()).toEqual([["reading", "41"]]);
});

test("what the database has, and what was used, stands on the shelf no longer", async () => {
  const storage = new Storage(name);
  await storage.saveDraft("reading", "41");
  expect(shelf.length).toBe(0);
  await storage.saveDraft("wall", "7");
  await storage.write([], { undo: [], clearDraft: "wall" });
  await storage.saveDraft("reading", null);
  storage.close();
  expect(shelf.length).toBe(0);
  expect(await drafts()).toEqual([]);
});

test("a full shelf keeps no older number in the place of the last one", async () => {
  const storage = new Storage(name);
  void storage.saveDraft("reading", "4");
  shelf.isFull = true;
  await storage.saveDraft("reading", "41");
  storage.close();
  expect(await drafts()).toEqual([["reading", "41"]]);
});
