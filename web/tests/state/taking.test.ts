import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import { session } from "../../src/state/status";
import { Outside } from "./whole_phone";

const SQUARE = { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] } as const;
const THREE = [{ down: 12, at: [100, 100] }, { down: 15, at: [3000, 100] }, { down: 9, at: [100, 2000], note: "by the door" }] as const;
let outside: Outside;
let room: string;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  room = await state.createRoom(await state.createJob({ name: "Mill house" }), { name: "Hall", outline: SQUARE });
});
afterEach(() => outside.storage.close());

test("a set of readings comes with its set-up, and one undo takes all of it back", async () => {
  await state.addReading(room, { down: 30, at: [2000, 2000] });
  expect(await state.takeReadings(room, { name: "Table", line_height: 0, instrument: "table" }, THREE)).toBe(3);
  const [setup] = state.roomOf(room)?.fields.setups ?? [];
  expect(setup).toMatchObject({ name: "Table", line_height: 0 });
  expect(state.readingsOf(room).value.map(({ fields }) => [fields.down, fields.setup, fields.note])).toEqual([
    [30, undefined, undefined], [12, setup?.id, undefined], [15, setup?.id, undefined], [9, setup?.id, "by the door"],
  ]);
  expect(await state.undo()).toBe(true);
  expect(state.readingsOf(room).value.map(({ fields }) => fields.down)).toEqual([30]);
  expect(state.roomOf(room)?.fields.setups ?? []).toEqual([]);
});

test("set-ups that stood before go on standing, also after the undo", async () => {
  await state.editRoom(room, { setups: [{ id: "s1" }] });
  await state.takeReadings(room, { instrument: "scan" }, THREE);
  expect(state.roomOf(room)?.fields.setups?.map(({ id }) => id)).toEqual(["s1", expect.any(String)]);
  await state.undo();
  expect(state.roomOf(room)?.fields.setups).toEqual([{ id: "s1" }]);
});

test("nobody stands where a table came from: the next reading by hand has a set-up of its own", async () => {
  const standing = () => state.standingIn(room, state.roomOf(room)?.fields ?? {}, state.readingsOf(room).value);
  const setups = () => state.setupsIn(state.roomOf(room)?.fields ?? {}, state.readingsOf(room).value).map(({ id }) => id);
  await state.takeReadings(room, { instrument: "table" }, THREE);
  expect(standing()).toEqual({ setup: state.FIRST_SETUP });
  expect(setups()).toEqual([state.FIRST_SETUP, expect.any(String)]);
  await state.editRoom(room, { setups: [...(state.roomOf(room)?.fields.setups ?? []), { id: "s1" }] });
  expect(standing()).toEqual({ setup: "s1" });
  await state.addReading(room, { down: 5, at: [2000, 2000], setup: "s1" });
  await state.takeReadings(room, { instrument: "scan" }, THREE);
  expect(standing()).toEqual({ setup: "s1" });
});

test("nothing to take leaves no set-up and no step to undo", async () => {
  const before = (await outside.storage.load()).undo.length;
  expect(await state.takeReadings(room, { name: "Table", instrument: "table" }, [])).toBe(0);
  expect(state.roomOf(room)?.fields.setups).toBeUndefined();
  expect((await outside.storage.load()).undo).toHaveLength(before);
});

test("a viewer takes nothing: not one reading is stored", async () => {
  session.value = { ...session.value, role: "viewer" };
  await expect(state.takeReadings(room, { instrument: "scan" }, THREE)).rejects.toMatchObject({ reason: "only_looks" });
  session.value = { ...session.value, role: null };
  expect((await outside.storage.load()).rows.filter(({ kind }) => kind === "reading")).toEqual([]);
});

test("the engine's answer, its problems, its end and a newer question are told apart", async () => {
  const asked = () => outside.asked.at(-1);
  const ask = async (end: () => void) => {
    const answer = state.askEngine("plan", "key", { document: 1 });
    end();
    return answer;
  };
  const fail = (name: string) => () => asked()?.fail(Object.assign(new Error("no"), { name }));
  expect(await ask(() => asked()?.answer('{"runs": [], "problems": []}'))).toEqual({ outcome: "answered", answer: { runs: [], problems: [] } });
  expect(await ask(() => asked()?.answer('{"problems": [{"code": "missing"}]}'))).toEqual({ outcome: "problems", problems: [{ code: "missing" }] });
  expect(await ask(fail("EngineBroke"))).toEqual({ outcome: "failed" });
  expect(await ask(fail("AbortError"))).toEqual({ outcome: "replaced" });
  await expect(ask(fail("TypeError"))).rejects.toThrow("no");
});
