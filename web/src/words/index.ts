/** Everything a person reads comes from here, in English or Spanish, with figures in the person's units. */
import { signal } from "@preact/signals";
import type { Reader } from "../units";
import { en } from "./en";
import { es } from "./es";
import { filled, type Values } from "./say";

export type WordKey = keyof typeof en;
export type { Values };

const DICTIONARIES: Readonly<Record<"en" | "es", Readonly<Record<string, string>>>> = { en, es };

/** The person who reads: language and units. The app sets it; reading `.value` in a component subscribes it. */
export const reader = signal<Reader>({ units: "imperial", language: "en" });

/** Whether this is the wide window of an office: then sentences say "this computer" where else they say "this phone". */
export const isOffice = signal(false);

function dictionary(): Readonly<Record<string, string>> {
  return DICTIONARIES[reader.value.language === "es" ? "es" : "en"];
}

/** `{phone|this phone|this computer}` stands in many sentences, and is filled everywhere. */
function withPlace(values: Values): Values {
  return { phone: isOffice.value ? 2 : 1, ...values };
}

/** The sentence `key` in the person's language. */
export function t(key: WordKey, values: Values = {}): string {
  return filled(dictionary()[key] ?? en[key], withPlace(values), reader.value);
}

/** The sentence for a code that came from the engine or the office; its own English where the code is new to us. */
export function told(family: string, code: string | undefined, values: Values, otherwise: string): string {
  const sentence = code === undefined ? undefined : dictionary()[`${family}.${code}`];
  return sentence === undefined ? otherwise : filled(sentence, withPlace(values), reader.value);
}
