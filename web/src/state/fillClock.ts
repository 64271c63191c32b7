/** How the filling of a room stands by the engine. */
import type { FillClock } from "../wire";
import { askedEachMinute } from "./eachMinute";


export const fillClockOf = askedEachMinute<FillClock>("fill_clock");
