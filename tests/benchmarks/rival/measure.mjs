/**
 * `node measure.mjs FOLDER DOCUMENT COUNT RUNS`: so many copies of a document, each with an id of its own, handed to
 * PouchDB's own server in one `bulkDocs`. Prints the milliseconds of the fastest run; each run has a fresh database.
 */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import http from "pouchdb-adapter-http";
import PouchDB from "pouchdb-core";

const [folder, document, count, runs] = process.argv.slice(2);
const Remote = PouchDB.plugin(http);
const script = fileURLToPath(new URL("server.mjs", import.meta.url));
const server = spawn(process.execPath, [script, folder], { stdio: ["ignore", "pipe", "inherit"] });
try {
  const [port] = await once(server.stdout, "data");
  const times = [];
  for (let run = 0; run < Number(runs); run += 1) times.push(await millisecondsOf(`http://127.0.0.1:${Number(port)}/run${run}`));
  console.log(Math.min(...times));
} finally {
  server.kill();
}

async function millisecondsOf(address) {
  const database = new Remote(address);
  await database.info();
  const told = Array.from({ length: Number(count) }, (_, n) => ({ ...JSON.parse(document), _id: `reading-${n}` }));
  const start = performance.now();
  const answers = await database.bulkDocs(told);
  const took = performance.now() - start;
  const { doc_count: kept } = await database.info();
  if (!answers.every(({ ok }) => ok) || kept !== told.length) throw new Error(`${kept} of ${told.length} were kept`);
  return took;
}
