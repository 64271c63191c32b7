/** A job: one address, one customer, some rooms. */
import type { Units } from "./records";

export interface JobFields {
  name: string;
  place: string;
  note: string;
  units: Units;
  /** Where it is, degrees north and east: for the weather to come. */
  latitude: number;
  longitude: number;
  /** Who is assigned, by person id; a foreman's choice. Never set: whoever made the job. */
  crew: readonly string[];
  deleted: boolean;
}
