import { afterEach, beforeEach, expect, test } from "vitest";
import { OfficeDouble } from "./office_double";
import { job, Phone } from "./phone";

let office: OfficeDouble;
let phone: Phone;

beforeEach(async () => {
  office = new OfficeDouble();
  phone = new Phone(office);
  await phone.join();
});
afterEach(() => phone.close());

test.each([401, 403, 413, 422, 426])("a %i of something in between unjoins no phone and refuses no change", async (status) => {
  await phone.save(job("a", "Mill house"));
  await phone.save(job("b", "Barn"));
  office.broken = status;
  await phone.sync();
  expect(phone.phase).toBe("retrying");
  expect(phone.standing).toMatchObject({ waiting: 2, refused: [], account: { joined: true, mustJoinAgain: false } });
  office.broken = null;
  await phone.sync();
  expect(office.records.map((record) => record.id)).toEqual(["a", "b"]);
  expect(phone.phase).toBe("idle");
});

test("a batch too large for something in between goes in smaller ones", async () => {
  for (let n = 0; n < 9; n++) await phone.save(job(`job-${n}`, `Job ${n}`));
  office.mostInPush = 3;
  await phone.sync();
  expect(office.log).toHaveLength(9);
  expect(phone.standing).toMatchObject({ waiting: 0, refused: [] });
});

test("one change alone that something in between lets not pass waits, and is not refused", async () => {
  await phone.save(job("a", "Mill house"));
  office.mostInPush = 0;
  await phone.sync();
  expect(phone.phase).toBe("retrying");
  expect(phone.standing).toMatchObject({ waiting: 1, refused: [] });
});
