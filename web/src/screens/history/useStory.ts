/** A record's story for a screen: asked of the office again whenever the record changes; the last one kept without it. */
import { useEffect, useState } from "preact/hooks";
import { allReadingsOf, historyOf, rowOf, unsentOf } from "../../state";
import type { Kind } from "../../wire";
import { storyOf, type Story } from "./story";

export interface ToldStory extends Story {
  /** When the office told it, ISO 8601; null where it never did. */
  readonly at: string | null;
  readonly isFresh: boolean;
}

/** The records of a story, oldest first: a reading's with the readings that it corrects and those that correct it. */
export function chainOf(kind: Kind, id: string): readonly string[] {
  const room = kind === "reading" ? rowOf("reading", id)?.fields.room_id : undefined;
  if (!room) return [id];
  const before = new Map(allReadingsOf(room).value.map((row) => [row.id, row.fields.supersedes ?? undefined]));
  const after = new Map([...before].map(([later, earlier]) => [earlier, later]));
  return [...walked(before, id).reverse(), id, ...walked(after, id)];
}

/** Where the steps from `id` lead, without `id` itself; a ring ends where it would begin again. */
function walked(steps: ReadonlyMap<string | undefined, string | undefined>, id: string): string[] {
  const found: string[] = [];
  for (let next = steps.get(id); next !== undefined && next !== id && !found.includes(next); next = steps.get(next)) found.push(next);
  return found;
}

async function loadStory(kind: Kind, ids: readonly string[]): Promise<ToldStory> {
  const told = await Promise.all(ids.map((id) => historyOf(kind, id)));
  const unsent = await Promise.all(ids.map((id) => unsentOf(kind, id)));
  const times = told.map(({ at }) => at).filter((at) => at !== null).sort();
  const chapters = told.map(({ entries }, index) => ({ entries, unsent: unsent[index] ?? [] }));
  return { ...storyOf(chapters), at: times[0] ?? null, isFresh: told.every(({ fresh }) => fresh) };
}

/** Null until the first answer, which comes without a network too. */
export function useStory(kind: Kind, id: string): ToldStory | null {
  const [story, setStory] = useState<ToldStory | null>(null);
  const ids = chainOf(kind, id);
  const states = ids.map((one) => rowOf(kind, one)).map((row) => `${row?.sequence}:${row?.waiting}`);
  useEffect(() => {
    let isWanted = true;
    void loadStory(kind, ids).then((loaded) => { if (isWanted) setStory(loaded); });
    return () => { isWanted = false; };
  }, [kind, ids.join(), states.join()]);
  return story;
}
