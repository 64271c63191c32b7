/**
 * The doors behind the state: storage, engine, office, photos and update. The app gives each one at the start (`connect`);
 * screens never see them.
 */
import type { Answer, Bytes, Edit, ForetoldDay, History, Invite, Invited, Kind, Loaded, OwnPhoto, People, QuestionName, Role, ScanOutcome, ScanStep, ScanWish, Unsent, WriteTogether } from "../wire";

export interface StoragePort {
  load(): Promise<Loaded>;
  /** Resolves once edits, numbers, undo steps and draft are committed in one transaction, and the rows are shown. */
  write(edits: readonly Edit[], together: WriteTogether): Promise<void>;
  saveDraft(key: string, value: string | null): Promise<void>;
  dismissRefused(changeId: string): Promise<void>;
  /** This phone's waiting changes of one record, in order. */
  unsentOf(kind: Kind, id: string): Promise<readonly Unsent[]>;
  /** Everything unsent as the text of a file, however much of the database can still be read. */
  unsentFile(): Promise<UnsentFile>;
  readUnsentFile(text: string): Promise<ReadOutcome>;
}

export interface JobFilesPort {
  /** A job that somebody looks at: what the office knows of its past is fetched for its file. */
  noteOpened(jobId: string): Promise<void>;
  /** One job as a file; null where it is not here. */
  make(jobId: string): Promise<JobFile | null>;
  /** Takes a job file in: all of it, or nothing and why. */
  take(file: Blob): Promise<JobTaken>;
}

export interface JobFile {
  readonly name: string;
  readonly content: Blob;
  readonly changes: number;
  readonly photos: number;
  /** Pictures that are not on this phone, and so not in the file. */
  readonly photosMissing: number;
  /** False where this phone has not got the whole history from the office. */
  readonly hasHistory: boolean;
}

export type JobTaken =
  | {
      readonly outcome: "taken";
      readonly job: string;
      readonly changes: number;
      readonly photos: number;
      /** Changes that were here already. */
      readonly known: number;
      readonly photosMissing: number;
      readonly hasHistory: boolean;
      /** Names in the file that this version does not know, and left out. */
      readonly unknown: readonly string[];
    }
  /** `fault` is the code of the reason, `about` what in the file it is about. */
  | { readonly outcome: "not_taken"; readonly fault: string; readonly about: string };

export interface UnsentFile {
  readonly name: string;
  readonly text: string;
  /** Waiting changes in it. */
  readonly count: number;
  /** Parts of the phone's database that could not be read, and so are not in the file. */
  readonly missing: readonly { readonly part: string; readonly why: string }[];
}

export type ReadOutcome =
  | { readonly outcome: "read"; readonly count: number }
  /** newer_version: made by a newer version of the app; update this one first. */
  | { readonly outcome: "not_a_file_of_ours" | "damaged" | "too_large" | "newer_version" };

export interface EnginePort {
  /** Asks the engine, JSON text both ways; a later call under the same key ends an earlier one with an AbortError. */
  ask(question: QuestionName, key: string, text: string): Promise<string>;
}

export type JoinOutcome =
  | { readonly outcome: "joined" }
  /** name_needed: the code does not say who it is for; ask for the name and join with the same code. */
  | { readonly outcome: "wrong_code" | "name_needed" | "too_many_tries" | "offline" | "update_needed" }
  | { readonly outcome: "failed"; readonly message: string };

export interface OfficePort {
  join(code: string, person: string, deviceName: string): Promise<JoinOutcome>;
  leave(): Promise<Answer>;
  syncNow(): Promise<void>;
  historyOf(kind: Kind, id: string): Promise<History>;
  people(): Promise<Answer<{ people: People }>>;
  invite(who: Invited): Promise<Answer<{ invite: Invite }>>;
  editPerson(id: string, edit: { readonly name?: string; readonly role?: Role }): Promise<Answer>;
  renameDevice(id: string, name: string): Promise<Answer>;
  removeDevice(id: string): Promise<Answer>;
  /** Since when this person has an address of dates; null for none. */
  calendar(): Promise<Answer<{ madeAt: string | null }>>;
  makeCalendar(language: "en" | "es", zone: string): Promise<Answer<{ path: string; madeAt: string }>>;
  revokeCalendar(): Promise<Answer>;
  /** The days foretold where a job is; nothing is stored there or here. */
  forecast(jobId: string): Promise<Answer<{ days: readonly ForetoldDay[] }>>;
}

export interface PhotosPort {
  /** The picture made small and bare; null for a file that is no picture this browser can show. */
  prepare(file: Blob): Promise<OwnPhoto | null>;
  /** From the phone or the office; null where it is not to be had now. */
  thumbnail(hash: string): Promise<Bytes | null>;
  picture(hash: string): Promise<Bytes | null>;
  sendAgain(hash: string): Promise<void>;
}

export interface ScansPort {
  /** Sends a scan to the office and has readings made of it; nothing is stored there or here. Never rejects. */
  read(asked: { readonly room: string; readonly file: Blob; readonly wish: ScanWish; readonly onStep: (step: ScanStep) => void; readonly signal: AbortSignal }): Promise<ScanOutcome>;
}

export interface UpdatePort {
  accept(): void;
}

export interface Ports {
  readonly storage: StoragePort;
  readonly jobFiles: JobFilesPort;
  readonly engine: EnginePort;
  readonly office: OfficePort;
  readonly photos: PhotosPort;
  readonly scans: ScansPort;
  readonly update: UpdatePort;
}

let connected: Ports | null = null;

export function connectPorts(ports: Ports): void {
  connected = ports;
}

/** Throws before the app has connected the ports: an action called too early is a defect, not a lost change. */
export function port<P extends keyof Ports>(name: P): Ports[P] {
  if (connected === null) throw new Error(`The ${name} port is used before the app connected it.`);
  return connected[name];
}
