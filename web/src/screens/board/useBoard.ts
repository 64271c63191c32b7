/** Rooms with what they wait for, kept up to date while a component shows them. */
import { useEffect, useRef } from "preact/hooks";
import { watchBoard } from "../../state";
import { boardRooms } from "./rows";

/** Of all jobs on this phone, or of one. */
export function useBoard(job?: string): void {
  const wanted = useRef(job);
  wanted.current = job;
  useEffect(() => watchBoard(() => boardRooms(wanted.current).map(({ id }) => id)), [job]);
}
