/** People, their devices and the codes that let them in. */
import type { ProblemCode, Role } from "./changes";
import type { components } from "./generated/service";

type Schemas = components["schemas"];

/** A device that joined; `removed_at` says since when it may neither read nor write. */
export type KnownDevice = Schemas["KnownDevice"];
/** Somebody who was let in, or is expected: then without devices. */
export type KnownPerson = Schemas["KnownPerson"];
/** A code for one device, shown this once. */
export type Invite = Schemas["InviteReply"];

/** A fresh address of dates, shown this once. */
export type CalendarMade = Schemas["CalendarMade"];
/** Since when somebody has one. */
export type CalendarState = Schemas["CalendarState"];

/** A day foretold by a service that the office asks, as a `forecast_day` record has it. */
export type ForetoldDay = Schemas["ForetoldDay"];

/** Everybody, as the office last told this phone at that moment, ISO 8601. */
export interface People {
  readonly list: readonly KnownPerson[];
  readonly at: string;
}

/** A new person by name, or another device of a known one. */
export type Invited = { readonly role: Role; readonly name: string } | { readonly personId: string };

/** What was asked of the office did not happen: no answer, or its code with its English sentence. */
export interface NotDone {
  readonly outcome: ProblemCode | "offline";
  readonly message: string;
}

export type Answer<T extends object = object> = ({ readonly outcome: "done" } & T) | NotDone;
