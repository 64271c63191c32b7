/** How the waiting of a room stands by the engine: windows, weather that harms, what is gathered so far. */
import type { WaitingAnswer } from "../wire";
import { askedEachMinute } from "./eachMinute";


export const waitingOf = askedEachMinute<WaitingAnswer>("waiting");
