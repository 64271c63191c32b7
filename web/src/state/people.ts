/** Who works with the office and on which devices: asked of the office, the last answer kept on the phone. */
import { signal } from "@preact/signals";
import type { Answer, Invite, Invited, People, Role } from "../wire";
import { port } from "./ports";

/** Everybody, as the office last told it; null where it never did. For foremen. */
export const people = signal<People | null>(null);

/** Asks the office for everybody. Where it cannot be reached, the list that is kept stays on show. */
export async function loadPeople(): Promise<Answer> {
  const answer = await port("office").people();
  if (answer.outcome !== "done") return answer;
  people.value = answer.people;
  return { outcome: "done" };
}

/** A code for one device of somebody new, or of somebody known. It holds for half an hour. */
export async function invitePerson(who: Invited): Promise<Answer<{ invite: Invite }>> {
  return andLoad(await port("office").invite(who));
}

export async function renamePerson(id: string, name: string): Promise<Answer> {
  return andLoad(await port("office").editPerson(id, { name: name.trim() }));
}

export async function setRole(id: string, role: Role): Promise<Answer> {
  return andLoad(await port("office").editPerson(id, { role }));
}

/** A foreman may rename every device, anybody their own. */
export async function renameDevice(id: string, name: string): Promise<Answer> {
  return andLoad(await port("office").renameDevice(id, name.trim()));
}

/** From its next request on the device neither reads nor writes. What it had not sent stays on it. */
export async function removeDevice(id: string): Promise<Answer> {
  return andLoad(await port("office").removeDevice(id));
}

async function andLoad<A extends Answer>(answer: A): Promise<A> {
  if (answer.outcome === "done" && people.peek() !== null) await loadPeople();
  return answer;
}
