/** The state of the app: all that screens may import (with the types of `wire`). See README.md beside this file. */
export * from "./actions";
export { documentFromRoom } from "./document";
export { clearDraft, getDraft, setDraft } from "./drafts";
export * from "./office";
export { planOf, type PlanState } from "./plans";
export type { Refused, Row } from "../wire";
export type { JoinOutcome } from "./ports";
export { preferences, setPreference, type Language, type Preferences, type Theme } from "./preferences";
export {
  allReadingsOf,
  climateOf,
  deletedRows,
  jobOf,
  jobs,
  placementsOf,
  readingsOf,
  roomOf,
  roomsOf,
} from "./records";
export {
  engineState,
  loaded,
  NotSavedError,
  refused,
  saveLine,
  session,
  storageState,
  updateOffered,
  type EngineState,
  type NotSavedReason,
  type SaveLine,
  type Session,
  type StorageState,
  type SyncPhase,
} from "./status";
export { canUndo } from "./undo";
