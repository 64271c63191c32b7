/**
 * What a person does. Every action returns after its transaction was committed on this phone, network or not, and
 * throws NotSavedError where it was not: then nothing changed, and what was typed belongs in the draft still.
 */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Kind, OwnPhoto, WriteTogether } from "../wire";
import { forgetDraft } from "./drafts";
import { port } from "./ports";
import { peekRow } from "./records";
import { checkMayWrite, storageState } from "./status";
import { canTakeBack, inverseOf, undoSteps, withStep } from "./undo";

export interface ActionOptions {
  /** The draft that this action makes needless: it is removed in the same transaction. */
  readonly draft?: string;
}

interface HowToAct extends ActionOptions {
  /** False for what undo should pass over. */
  readonly undoable?: boolean;
  /** The picture of the photo that the edit makes: it goes in the same transaction. */
  readonly photo?: OwnPhoto;
}

type Made<K extends Kind> = Omit<Fields<K>, "deleted">;

export function createJob(fields: Made<"job"> & { readonly name: string }, options?: ActionOptions): Promise<string> {
  return create("job", fields, options);
}

export function editJob(id: string, fields: Fields<"job">, options?: ActionOptions): Promise<void> {
  return edit("job", id, fields, options);
}

/** Who works on the job, by person id. A foreman's choice: the office refuses it from others. */
export function setCrew(jobId: string, personIds: readonly string[]): Promise<void> {
  return edit("job", jobId, { crew: personIds });
}

export function createRoom(
  jobId: string,
  fields: Omit<Made<"room">, "job_id"> & { readonly name: string },
  options?: ActionOptions,
): Promise<string> {
  return create("room", { ...fields, job_id: jobId }, options);
}

export function editRoom(id: string, fields: Fields<"room">, options?: ActionOptions): Promise<void> {
  return edit("room", id, fields, options);
}

export type NewReading = Omit<Made<"reading">, "room_id" | "supersedes"> & { readonly down: number };

/** `taken_at` is now unless given. */
export function addReading(roomId: string, reading: NewReading, options?: ActionOptions): Promise<string> {
  return create("reading", { taken_at: now(), ...reading, room_id: roomId }, options);
}

/** A reading is never edited: the correction is a new reading, at the same place unless told otherwise. */
export function correctReading(
  id: string,
  correction: Partial<NewReading> & { readonly down: number },
  options?: ActionOptions,
): Promise<string> {
  const before = peekRow("reading", id)?.fields;
  if (before === undefined) throw new Error(`No reading ${id} to correct.`);
  const { typed: _typed, deleted: _deleted, ...kept } = before;
  return create("reading", { ...kept, taken_at: now(), ...correction, supersedes: id }, options);
}

export function addClimate(
  roomId: string,
  row: Omit<Made<"climate">, "room_id"> & { readonly at: string },
  options?: ActionOptions,
): Promise<string> {
  return create("climate", { ...row, room_id: roomId }, options);
}

export function addPlacement(
  roomId: string,
  placement: Omit<Made<"placement">, "room_id"> & { readonly section: string },
  options?: ActionOptions,
): Promise<string> {
  return create("placement", { ...placement, room_id: roomId }, options);
}

export function editPlacement(id: string, fields: Fields<"placement">, options?: ActionOptions): Promise<void> {
  return edit("placement", id, fields, options);
}

export function editClimate(id: string, fields: Fields<"climate">, options?: ActionOptions): Promise<void> {
  return edit("climate", id, fields, options);
}

/** Deleting is a change like any other: `undo` or `restoreRecord` bring it back. */
export function deleteRecord(kind: Kind, id: string): Promise<void> {
  return edit(kind, id, { deleted: true });
}

export function restoreRecord(kind: Kind, id: string): Promise<void> {
  return edit(kind, id, { deleted: false });
}

/**
 * Takes back the last action whose records are on show as it left them; a step whose record left this phone (the job is
 * another crew's now), or holds somebody's later value, is dropped. False where there was nothing to take back.
 */
export function undo(): Promise<boolean> {
  return inTurn(takeBack);
}

async function takeBack(): Promise<boolean> {
  const steps = undoSteps.peek();
  const last = steps.map(canTakeBack).lastIndexOf(true);
  const step = steps[last];
  if (step === undefined) return false;
  await write(step.inverse, { undo: steps.slice(0, last) });
  return true;
}

export async function create<K extends Kind>(kind: K, fields: Fields<K>, options?: ActionOptions): Promise<string> {
  const id = uuidv7();
  await act([{ kind, id, fields }], options);
  return id;
}

export async function edit<K extends Kind>(
  kind: K,
  id: string,
  fields: Fields<K>,
  options?: ActionOptions,
): Promise<void> {
  await act([{ kind, id, fields }], options);
}

export function act(edits: readonly Edit[], how: HowToAct = {}): Promise<void> {
  return inTurn(() => perform(edits, how));
}

let before: Promise<unknown> = Promise.resolve();

/** One after the other, however fast they come: each knows what the one before left, so that undo takes back one at a time. */
function inTurn<T>(task: () => Promise<T>): Promise<T> {
  const mine = before.then(task, task);
  before = mine;
  return mine;
}

async function perform(edits: readonly Edit[], { undoable = true, photo, ...options }: HowToAct): Promise<void> {
  const step = { at: now(), inverse: edits.map((one) => inverseOf(one)), written: edits };
  const steps = undoSteps.peek();
  await write(edits, { undo: undoable ? withStep(steps, step) : steps, clearDraft: options.draft, photo });
  if (options.draft !== undefined) forgetDraft(options.draft);
}

async function write(edits: readonly Edit[], together: WriteTogether): Promise<void> {
  checkMayWrite();
  await port("storage").write(edits, together);
  undoSteps.value = together.undo;
  storageState.value = { ...storageState.peek(), error: null };
}

function now(): string {
  return new Date().toISOString();
}
