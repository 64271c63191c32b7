export type { News, Standing } from "./announce";
export type { Account, QueuedChange, RecordKey } from "./database";
export { StorageError, type StorageReason } from "./errors";
export { Storage, type AccountNews } from "./storage";
