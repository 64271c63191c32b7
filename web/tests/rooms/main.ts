/**
 * The app's own room documents, asked from outside in lines of JSON: a room and the records on a phone come in, the
 * document that the phone would give its engine goes out, `null` where there is none.
 */
import { createInterface } from "node:readline";
import { clearRows, showRows } from "../../src/state/records";
import { documentFromRoom } from "../../src/state/document";
import type { Row } from "../../src/wire";

interface Asked {
  readonly room: string;
  readonly rows: readonly Pick<Row, "kind" | "id" | "fields">[];
}

createInterface({ input: process.stdin }).on("line", (line) => {
  const { room, rows } = JSON.parse(line) as Asked;
  clearRows();
  showRows(rows.map((row) => ({ ...row, sequence: 1, waiting: 0, conflicts: {} })));
  process.stdout.write(`${JSON.stringify(documentFromRoom(room))}\n`);
});
