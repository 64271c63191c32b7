/**
 * Fields of earlier versions that no record has any more. What waits to be sent keeps them, as the change was made: the
 * service brings it up to date. In a change made today they would be refused, and the rest of it with them.
 */
import type { AnyFields, Kind } from "./records";

/** Ticks of stations by rail and row: once rails have moved nobody can tell which places they meant. */
const LET_GO: Partial<Record<Kind, readonly string[]>> = { room: ["rails.set_stations"] };

/** What is kept by field, less the fields that are let go of. The same object where there is none of them. */
export function withoutLetGo<T extends AnyFields>(kind: Kind, byField: T): T {
  const gone = LET_GO[kind] ?? [];
  if (!gone.some((field) => field in byField)) return byField;
  return Object.fromEntries(Object.entries(byField).filter(([field]) => !gone.includes(field))) as T;
}
