import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { watchForWorkToKeep } from "../../src/app/keep";
import { lookAtStorage } from "../../src/state/keeping";
import { storageState } from "../../src/state/status";
import { Storage } from "../../src/storage";
import { job } from "../sync/phone";

/** The browser's side: what it has promised, how often it was asked, what this origin keeps beside the database. */
const browser = { asked: 0, agrees: true, persisted: false, kept: new Map<string, string>() };
let storage: Storage;

beforeEach(async () => {
  Object.assign(browser, { asked: 0, agrees: true, persisted: false, kept: new Map() });
  vi.stubGlobal("navigator", { storage: storageManager });
  vi.stubGlobal("localStorage", { getItem, setItem });
  vi.stubGlobal("addEventListener", (name: string, listener: () => void) => listeners.set(name, listener));
  storage = new Storage(`keep-${crypto.randomUUID()}`);
  await lookAtStorage();
  watchForWorkToKeep(storage);
});
afterEach(() => {
  vi.unstubAllGlobals();
  storage.close();
});

const listeners = new Map<string, () => void>();
const getItem = (key: string) => browser.kept.get(key) ?? null;
const setItem = (key: string, value: string) => void browser.kept.set(key, value);
const storageManager = {
  persisted: () => Promise.resolve(browser.persisted),
  persist: () => {
    browser.asked += 1;
    browser.persisted = browser.agrees;
    return Promise.resolve(browser.persisted);
  },
  estimate: () => Promise.resolve({ usage: 5_000, quota: 90_000 }),
};

test("the browser is not asked before there is something to keep", async () => {
  await storage.load();
  expect(browser.asked).toBe(0);
  expect(storageState.value).toMatchObject({ persisted: false, askedAt: null, usedBytes: 5_000, quotaBytes: 90_000 });
});

test("it is asked once after the first saved work, and its answer is shown", async () => {
  await storage.write([job("a", "Mill house")], { undo: [] });
  await storage.write([job("b", "Barn")], { undo: [] });
  await expect.poll(() => storageState.value.persisted).toBe(true);
  expect(storageState.value.askedAt).not.toBeNull();
  expect(browser.asked).toBe(1);
});

test("it is asked after joining", async () => {
  await storage.updateAccount({ joined: true });
  await expect.poll(() => browser.asked).toBe(1);
});

test("a browser that said no is asked again when the app was installed, not at every start", async () => {
  browser.agrees = false;
  await storage.write([job("a", "Mill house")], { undo: [] });
  await expect.poll(() => storageState.value.askedAt).not.toBeNull();
  watchForWorkToKeep(storage);
  await storage.write([job("b", "Barn")], { undo: [] });
  expect(browser.asked).toBe(1);
  listeners.get("appinstalled")?.();
  await expect.poll(() => browser.asked).toBe(2);
});
