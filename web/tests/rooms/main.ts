/**
 * The app's own room documents and dates, asked from outside in lines of JSON. A room and the records on a phone come in,
 * the document that the phone would give its engine goes out, `null` where there is none; or the engine's answer about a
 * room's waiting, and the dates that the phone would put into a calendar.
 */
import { createInterface } from "node:readline";
import { clearRows, showRows } from "../../src/state/records";
import { documentFromRoom } from "../../src/state/document";
import { datesOfRoom, type Made, type RoomNames } from "../../src/state/roomDates";
import { reader, t } from "../../src/words";
import type { Row, WaitingAnswer } from "../../src/wire";

interface Composing {
  readonly room: string;
  readonly rows: readonly Pick<Row, "kind" | "id" | "fields">[];
}

interface Dating {
  readonly room: string;
  readonly names: RoomNames;
  readonly waiting: WaitingAnswer;
  readonly language: "en" | "es";
  readonly zone: string;
  readonly made: Made;
}

function composed({ room, rows }: Composing): unknown {
  clearRows();
  showRows(rows.map((row) => ({ ...row, sequence: 1, waiting: 0, conflicts: {} })));
  return documentFromRoom(room);
}

function dated({ room, names, waiting, language, zone, made }: Dating): unknown {
  reader.value = { units: "metric", language };
  return datesOfRoom(room, names, waiting, { say: t, zone }, made);
}

createInterface({ input: process.stdin }).on("line", (line) => {
  const asked = JSON.parse(line) as Composing | Dating;
  process.stdout.write(`${JSON.stringify("rows" in asked ? composed(asked) : dated(asked))}\n`);
});
