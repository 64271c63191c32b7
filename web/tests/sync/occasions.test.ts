import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { watchOccasions } from "../../src/sync";
import { OfficeDouble } from "./office_double";
import { Phone } from "./phone";

/** The browser's end of the live stream, opened and closed as the app wishes, with news as the test wishes. */
class Stream extends EventTarget {
  static readonly CLOSED = 2;
  static readonly opened: Stream[] = [];
  readyState = 1;

  constructor(readonly address: string) {
    super();
    Stream.opened.push(this);
  }

  tell(latest: number, view: number): void {
    this.dispatchEvent(new MessageEvent("message", { data: JSON.stringify({ latest, view }) }));
  }

  /** The service refuses the stream: the browser does not come back by itself. */
  refuse(): void {
    this.readyState = Stream.CLOSED;
    this.dispatchEvent(new Event("error"));
  }

  close(): void {
    this.readyState = Stream.CLOSED;
  }
}

let office: OfficeDouble;
let phone: Phone;

beforeEach(async () => {
  Stream.opened.length = 0;
  vi.stubGlobal("EventSource", Stream);
  vi.stubGlobal("document", Object.assign(new EventTarget(), { visibilityState: "visible" }));
  vi.stubGlobal("addEventListener", () => undefined);
  vi.stubGlobal("setInterval", () => 0);
  office = new OfficeDouble();
  phone = new Phone(office);
  await phone.join();
  watchOccasions(phone.office, phone.storage);
  await expect.poll(() => Stream.opened).toHaveLength(1);
  await phone.sync();
  phone.line.asked.length = 0;
});
afterEach(() => {
  phone.close();
  vi.unstubAllGlobals();
});

test("the stream's news bring one pull, and none where the phone has them", async () => {
  const [stream] = Stream.opened;
  stream?.tell(0, 1);
  office.view = 2;
  stream?.tell(0, 2);
  await expect.poll(() => phone.line.asked).toEqual(["/api/pull", "/api/session"]);
  stream?.tell(0, 2);
  await phone.storage.load();
  expect(phone.line.asked).toEqual(["/api/pull", "/api/session"]);
});

test("a stream that is refused to a removed phone ends the sending, and is not opened again", async () => {
  office.removed.add(phone.line.device ?? "");
  Stream.opened[0]?.refuse();
  await expect.poll(() => phone.standing?.account.removed).toBe(true);
  expect(phone.phase).toBe("not_joined");
  document.dispatchEvent(new Event("visibilitychange"));
  await phone.storage.load();
  expect(Stream.opened).toHaveLength(1);
});

test("a stream that was refused for another cause is opened again when the app comes to the front, not before", async () => {
  Stream.opened[0]?.refuse();
  await expect.poll(() => phone.line.asked).toEqual(["/api/pull"]);
  await phone.sync();
  expect(Stream.opened).toHaveLength(1);
  document.dispatchEvent(new Event("visibilitychange"));
  await expect.poll(() => Stream.opened.length).toBe(2);
  expect(phone.standing?.account.joined).toBe(true);
});
