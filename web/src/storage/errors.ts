/** What went wrong with the phone's storage, in one of three ways a person can do something about. */
import { Dexie } from "dexie";

export type StorageReason = "full" | "not_available" | "failed";

export class StorageError extends Error {
  constructor(
    readonly reason: StorageReason,
    options?: ErrorOptions,
  ) {
    super(`The phone's storage did not commit: ${reason}`, options);
    this.name = "StorageError";
  }
}

const NOT_AVAILABLE: ReadonlySet<string> = new Set([
  Dexie.errnames.MissingAPI,
  Dexie.errnames.OpenFailed,
  Dexie.errnames.DatabaseClosed,
  Dexie.errnames.InvalidState,
  "SecurityError",
]);

/** Quota errors may lie some causes deep: browsers abort the transaction and name the quota as the reason. */
export function storageErrorFrom(error: unknown): StorageError {
  const names = namesIn(error);
  if (names.includes("QuotaExceededError")) return new StorageError("full", { cause: error });
  if (names.some((name) => NOT_AVAILABLE.has(name))) return new StorageError("not_available", { cause: error });
  return new StorageError("failed", { cause: error });
}

function namesIn(error: unknown, depth = 0): readonly string[] {
  if (typeof error !== "object" || error === null || depth > 4) return [];
  const { name, inner, cause } = error as { name?: unknown; inner?: unknown; cause?: unknown };
  return [...(typeof name === "string" ? [name] : []), ...namesIn(inner, depth + 1), ...namesIn(cause, depth + 1)];
}

/** Runs a transaction; whatever it throws becomes a StorageError with its reason. */
export async function committed<T>(transaction: () => PromiseLike<T>): Promise<T> {
  try {
    return await transaction();
  } catch (error) {
    throw storageErrorFrom(error);
  }
}
