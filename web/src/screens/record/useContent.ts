/** The record of a room as it stands now: put together again whenever anything in it changes, only while somebody looks. */
import { useEffect, useState } from "preact/hooks";
import {
  alternativesOf, askEngine, batchesOf, climateOf, documentFromRoom, documentTextOf, entriesOf, gapsOf, heightLinesOf, jobOf, photosOf, placementsOf,
  railChecksOf, roomOf, stationsOf, type Asked,
} from "../../state";
import type { Plan, ProfileAnswer, WaitingAnswer } from "../../wire";
import { keptPlan, keptProfile, keptWaiting, withoutPrices, type Content, type KeptRow } from "./content";
import { loadDecided } from "./decided";
import { telling } from "./profileLine";

export type Gathered =
  | { readonly status: "coming" | "no_outline" }
  | { readonly status: "refused"; readonly asked: Exclude<Asked<Plan>, { outcome: "answered" }> }
  | { readonly status: "ready"; readonly content: Content };

const REST_MS = 150; // several records may come at once

/** Records beside the document, of every kind in KEPT_KINDS. Subscribes. */
function keptRows(room: string): readonly (readonly KeptRow[])[] {
  const lists = [stationsOf, railChecksOf, placementsOf, batchesOf, entriesOf, climateOf, gapsOf, heightLinesOf, photosOf, alternativesOf];
  return lists.map((list) => list(room).value);
}

/** The waiting is shown as far as anything happened in it: not on to a day long after, when somebody reads the record. Now where nothing is placed. */
export function lastLooked({ readiness }: Pick<Plan, "readiness">, now: string): string {
  const told = readiness.flatMap(({ late, ticked }) => [late, ticked?.at]).filter((at) => at != null);
  const last = told.map((at) => Date.parse(at)).reduce((one, other) => Math.max(one, other), -Infinity);
  return Number.isFinite(last) && last < Date.parse(now) ? new Date(last).toISOString() : now;
}

async function gathered(room: string): Promise<Gathered | null> {
  const given = documentFromRoom(room);
  const fields = roomOf(room)?.fields;
  if (!given || !fields) return { status: "no_outline" };
  const document = withoutPrices(given);
  const asked = await askEngine<Plan>("plan", `record:${room}`, document);
  if (asked.outcome === "replaced") return null;
  if (asked.outcome !== "answered") return { status: "refused", asked };
  const profile = await askEngine<ProfileAnswer>("profile", `record-profile:${room}`, { document, ...telling(asked.answer) });
  if (profile.outcome === "replaced") return null;
  const made_at = new Date().toISOString();
  const waiting = await askEngine<WaitingAnswer>("waiting", `record-waiting:${room}`, { document, now: lastLooked(asked.answer, made_at) });
  if (waiting.outcome === "replaced") return null;
  const job = jobOf(fields.job_id ?? "")?.fields;
  const content: Content = {
    record: 1, made_at, zone: Intl.DateTimeFormat().resolvedOptions().timeZone, room_id: room, job: { name: job?.name ?? "", place: job?.place ?? "" }, room: fields, document,
    plan: keptPlan(asked.answer), profile: profile.outcome === "answered" ? keptProfile(profile.answer) : null, waiting: waiting.outcome === "answered" ? keptWaiting(waiting.answer) : null,
    rows: keptRows(room).flat().map(({ kind, id, fields: own }) => ({ kind, id, fields: own })), story: await loadDecided(room),
  };
  return { status: "ready", content };
}

export function useContent(room: string): Gathered {
  const [found, setFound] = useState<Gathered>({ status: "coming" });
  const own = roomOf(room);
  const states = [documentTextOf(room).value, own, jobOf(own?.fields.job_id ?? ""), ...keptRows(room)];
  useEffect(() => {
    let isWanted = true;
    const rest = setTimeout(() => void gathered(room).then((now) => { if (isWanted && now) setFound(now); }), REST_MS);
    return () => { isWanted = false; clearTimeout(rest); };
  }, [room, ...states]);
  return found;
}
