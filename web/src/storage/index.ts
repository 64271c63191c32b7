export type { News, Standing } from "./announce";
export type { Account, QueuedChange, RecordKey, StoredHistory } from "./database";
export { StorageError, type StorageReason } from "./errors";
export { Photos } from "./photos";
export { Storage, type AccountNews } from "./storage";
export type { Who } from "./exchange";
export type { Asked } from "./pages";
export type { ReadOutcome } from "./read_in";
export type { UnsentFile } from "./unsent";
