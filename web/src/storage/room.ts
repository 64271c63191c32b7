/** Making room where the phone is full: what the office can give again goes, what waits to be sent never does. */
import type { PhoneDatabase } from "./database";
import { committed, StorageError } from "./errors";
import { dropPasts } from "./pasts";
import { dropFetched } from "./photos";

type Drop = (database: PhoneDatabase) => PromiseLike<void>;

/** From what is missed least to what is missed most. */
const DROPS: readonly Drop[] = [dropFetched, (database) => database.histories.clear(), dropPasts];

/** Runs a transaction; where the phone is full, drops one thing after the other and tries again after each. */
export async function withRoom<T>(database: PhoneDatabase, transaction: () => PromiseLike<T>): Promise<T> {
  for (const drop of DROPS) {
    try {
      return await committed(transaction);
    } catch (error) {
      if (!(error instanceof StorageError && error.reason === "full")) throw error;
      await committed(() => drop(database));
    }
  }
  return committed(transaction);
}
