/** Takes the addresses of people who ask for funding out of the lock file: it holds names, versions and hashes alone. */
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const FILE = join(dirname(fileURLToPath(import.meta.url)), "..", "package-lock.json");

const lock = JSON.parse(readFileSync(FILE, "utf8"));
for (const entry of Object.values(lock.packages)) delete entry.funding;
writeFileSync(FILE, `${JSON.stringify(lock, null, 2)}\n`);
